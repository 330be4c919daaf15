"""Everything about the comparison into a folder; files that exist are replaced only when asked twice."""

from __future__ import annotations

from pathlib import Path
from typing import ClassVar

from textual import work
from textual.app import ComposeResult
from textual.binding import BindingType
from textual.containers import Vertical
from textual.message import Message
from textual.screen import ModalScreen
from textual.widgets import Input, Static

from engine.common.errors import InputError
from engine.comparison.compare import Comparison
from engine.export.stamp import Stamp
from engine.units import System
from tui.storage import paths
from tui.storage.export_folder import clashes, date_of, leave


class Export(ModalScreen[str | None]):
    """Answers with what was written where, or None."""

    BINDINGS: ClassVar[list[BindingType]] = [("escape", "dismiss(None)", "Back")]

    class Told(Message):
        """How far it is, or with `wrong` why it went no further; `done` ends it."""

        def __init__(self, words: str, *, wrong: bool = False, done: bool = False) -> None:
            super().__init__()
            self.words, self.wrong, self.done = words, wrong, done

    def __init__(self, comparison: Comparison, system: System, proposed: str) -> None:
        super().__init__()
        self.comparison, self.proposed = comparison, proposed
        self.stamp = Stamp(date_of(None), system)
        self._warned: Path | None = None

    def compose(self) -> ComposeResult:
        """A folder, how far it is, and what is wrong."""
        with Vertical(classes="dialog"):
            yield Static("Write tables, schedules, plans and the calculation into the folder", classes="title")
            yield Input(self.proposed)
            yield Static("", id="progress", markup=False)
            yield Static("", classes="wrong", markup=False)
            yield Static("enter write · esc back", classes="quiet", markup=False)

    def on_input_submitted(self, message: Input.Submitted) -> None:
        """Begin, or say why not."""
        if not message.value.strip():
            self._say("", "give a folder, such as my_roof_export")
            return
        try:
            folder = paths.typed(message.value)
            taken = clashes(self.comparison, self.stamp, folder)
        except InputError as wrong:
            self._say("", str(wrong.problems[0]))
            return
        if taken and self._warned != folder:
            self._warned = folder
            self._say("", f"{len(taken)} of the files exist in {folder}; press enter again to replace them")
            return
        self.query_one(Input).disabled = True
        self._say("making the files …", "")
        self._write(folder, overwrite=bool(taken))

    @work(thread=True, exclusive=True, group="export")
    def _write(self, folder: Path, *, overwrite: bool) -> None:
        try:
            written = leave(
                self.comparison,
                self.stamp,
                folder,
                lambda words: self.post_message(self.Told(words)),
                overwrite=overwrite,
            )
        except InputError as wrong:
            self.post_message(self.Told(str(wrong.problems[0]), wrong=True))
        except Exception as failure:  # the bench stays open whatever goes wrong
            self.post_message(self.Told(f"this could not be written ({type(failure).__name__}: {failure})", wrong=True))
        else:
            self.post_message(self.Told(f"{written} files written to {folder}", done=True))

    def on_export_told(self, message: Told) -> None:
        """Show how far it is; a folder that failed may be given anew."""
        if message.done:
            self.dismiss(message.words)
            return
        self._say("" if message.wrong else message.words, message.words if message.wrong else "")
        if message.wrong:
            self.query_one(Input).disabled = False
            self.query_one(Input).focus()

    def _say(self, progress: str, wrong: str) -> None:
        self.query_one("#progress", Static).update(progress)
        self.query_one(".wrong", Static).update(wrong)

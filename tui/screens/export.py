"""Export everything about the comparison into a folder; existing files are replaced only after a second enter."""

from __future__ import annotations

from collections.abc import Callable
from functools import cache
from pathlib import Path
from typing import ClassVar

from textual import work
from textual.app import ComposeResult
from textual.binding import BindingType
from textual.containers import Vertical
from textual.message import Message
from textual.screen import ModalScreen
from textual.widgets import Input, Static
from textual.worker import Worker, WorkerState

from engine.common.errors import InputError
from engine.common.progress import ProgressListener
from engine.common.safe_text import safe_text
from engine.comparison.building_comparison import Compared
from engine.export.stamp import ScenarioFile, Stamp
from engine.units import System
from tui.model.internal_error import internal_error
from tui.model.state import COMPUTING
from tui.storage import paths
from tui.storage.export_folder import date_of, existing_files, export_files, write_export

Compare = Callable[[ProgressListener], Compared]
"""A function that compares what is to be exported, with words of progress."""


class Export(ModalScreen[str | None]):
    """Returns a sentence on the files written, or None on escape."""

    BINDINGS: ClassVar[list[BindingType]] = [("escape", "dismiss(None)", "Cancel")]

    class Progress(Message):
        """Progress of the export; with `wrong` the reason it ended."""

        def __init__(self, words: str, *, wrong: bool = False) -> None:
            super().__init__()
            self.words, self.wrong = words, wrong

    def __init__(self, compare: Compare, system: System, proposed: str, source: ScenarioFile) -> None:
        super().__init__()
        self.compare, self.proposed = cache(compare), proposed
        self.stamp = Stamp(date_of(None), system, file=source)
        self._confirmed: Path | None = None

    def compose(self) -> ComposeResult:
        """The folder, the progress, and what is wrong."""
        with Vertical(classes="dialog"):
            yield Static("Write tables, schedules, plans and the calculation into the folder", classes="title")
            yield Input(self.proposed)
            yield Static("", id="progress", markup=False)
            yield Static("", classes="wrong", markup=False)
            yield Static("Enter export · Esc cancel", classes="quiet", markup=False)

    def on_input_submitted(self, message: Input.Submitted) -> None:
        """Export, or say why not."""
        if not message.value.strip():
            self._say("", "Give a folder, such as my_roof_export")
            return
        try:
            folder = paths.typed(message.value)
        except InputError as wrong:
            self._say("", str(wrong.problems[0]))
            return
        self.query_one(Input).disabled = True
        self._say(COMPUTING, "")
        self._write(folder, overwrite=self._confirmed == folder)

    @work(thread=True, exclusive=True, group="export")
    def _write(self, folder: Path, *, overwrite: bool) -> str:
        """A sentence on the files written; empty where none were, and why not is shown."""
        try:
            return self._written(folder, overwrite=overwrite)
        except InputError as wrong:
            self.post_message(self.Progress(str(wrong.problems[0]), wrong=True))
        except Exception as failure:  # the app stays open
            self.post_message(self.Progress(internal_error(failure), wrong=True))
        return ""

    def _written(self, folder: Path, *, overwrite: bool) -> str:
        """Compare all slopes and write every file; where some exist, ask first.

        Raises:
            InputError: an input of another slope is wrong, or the folder cannot be written.
        """
        export = export_files(self.compare(self._tell), self.stamp)
        existing = existing_files(export, folder)
        if existing and not overwrite:
            self._confirmed = folder
            words = f"{len(existing)} of the files exist in {folder}; press enter again to replace them"
            self.post_message(self.Progress(words, wrong=True))
            return ""
        return f"{write_export(export, folder, self._tell, overwrite=overwrite)} files written to {folder}"

    def _tell(self, words: str) -> None:
        self.post_message(self.Progress(words))

    def on_worker_state_changed(self, event: Worker.StateChanged) -> None:
        """Close once everything is written; before that the worker would be cancelled with the dialog."""
        if event.state is WorkerState.SUCCESS and event.worker.result:
            self.dismiss(str(event.worker.result))

    def on_export_progress(self, message: Progress) -> None:
        """Show the progress; after a failure another folder can be given."""
        self._say("" if message.wrong else message.words, message.words if message.wrong else "")
        if message.wrong:
            self.query_one(Input).disabled = False
            self.query_one(Input).focus()

    def _say(self, progress: str, wrong: str) -> None:
        self.query_one("#progress", Static).update(progress)
        self.query_one(".wrong", Static).update(safe_text(wrong))

"""Export everything about the comparison into a folder; existing files are replaced only after a second enter."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import partial
from pathlib import Path
from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import BindingType
from textual.containers import Vertical
from textual.content import Content
from textual.screen import ModalScreen
from textual.widgets import Input, Static

from engine.common.errors import InputError
from engine.common.progress import ProgressListener, SearchStopped
from engine.common.safe_text import safe_text
from engine.comparison.building_comparison import Compared
from engine.export.stamp import ScenarioFile, Stamp
from engine.units import System
from tui.model.cancellation import until_cancelled
from tui.model.state import COMPUTING
from tui.render.progress import progress
from tui.screens.computing import GROUP, Computing
from tui.storage import paths
from tui.storage.export_folder import date_of, existing_files, export_files, write_export

Compare = Callable[[ProgressListener], Compared]
"""A function that compares what is to be exported, with words of progress."""


STOPPED = "Stopped. Nothing was written: the folder is as it was."


@dataclass(frozen=True)
class Ended:
    """How an export ended: a sentence on the files `written`, or why there are none."""

    written: str = ""
    why_not: str = ""


class Export(ModalScreen[str | None], Computing[str | None]):
    """Returns a sentence on the files written, or None on escape."""

    BINDINGS: ClassVar[list[BindingType]] = [("escape", "stop", "Cancel")]

    def __init__(self, compare: Compare, system: System, proposed: str, source: ScenarioFile) -> None:
        super().__init__()
        self.compare, self.proposed = compare, proposed
        self.stamp = Stamp(date_of(None), system, file=source)
        self._compared: Compared | None = None
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
        self.compute(object(), partial(self._export, folder, self._confirmed == folder), self._show)

    def _export(self, folder: Path, overwrite: bool, tell: ProgressListener) -> Ended:
        """Compare all slopes and write every file; where some exist, ask first."""
        try:
            self._compared = self._compared or self.compare(tell)
            export = export_files(self._compared, self.stamp, tell=until_cancelled())  # the files are counted
            existing = existing_files(export, folder)
            if existing and not overwrite:
                self._confirmed = folder
                words = f"{len(existing)} of the files exist in {folder}; press enter again to replace them"
                return Ended(why_not=words)
            return Ended(f"{write_export(export, folder, tell, overwrite=overwrite)} files written to {folder}")
        except SearchStopped:
            return Ended(why_not=STOPPED)
        except InputError as wrong:
            return Ended(why_not=str(wrong.problems[0]))

    def action_stop(self) -> None:
        """Stop the export between two files; else close."""
        if self.query_one(Input).disabled:
            self.workers.cancel_group(self, GROUP)
            self._say("stopping …", "")
        else:
            self.dismiss(None)

    def show_progress(self, words: str) -> None:
        """Show how far the export is."""
        self._say(progress(words), "")

    def show_failure(self, words: str) -> None:
        """Say that the export ended in an internal error."""
        self._show(Ended(why_not=words))

    def _show(self, ended: Ended) -> None:
        """Close once everything is written; else another folder can be given."""
        if ended.written:
            self.dismiss(ended.written)
            return
        self._say("", ended.why_not)
        self.query_one(Input).disabled = False
        self.query_one(Input).focus()

    def _say(self, progress: str | Content, wrong: str) -> None:
        self.query_one("#progress", Static).update(progress)
        self.query_one(".wrong", Static).update(safe_text(wrong))

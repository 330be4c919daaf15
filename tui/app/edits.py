"""The app around its document: what is edited is compared anew, and kept for recovery."""

from __future__ import annotations

from collections.abc import Callable

from textual.timer import Timer

from engine.common.errors import InputError, Problem
from engine.units import System
from tui.app.compute import Compute
from tui.app.file_dialogs import FileDialogs
from tui.app.screens import AppWithScreens
from tui.model.document import Document
from tui.model.inputs import Inputs
from tui.model.lesson_run import LessonProgress
from tui.model.messages import (
    Compared,
    CompareProgress,
    ComputeFailed,
    EditCancelled,
    InputEdited,
    MethodSelected,
    Studied,
)
from tui.model.state import State
from tui.storage import user_state

KEEP_AFTER = 0.3
"""Time from the last edit until unsaved changes are written to the recovery file [s]."""


class AppWithDocument(AppWithScreens):
    """An app that edits one document, and shows its comparison."""

    def __init__(
        self, inputs: Inputs, only: tuple[str, ...], lesson: LessonProgress | None, system: System | None
    ) -> None:
        super().__init__()
        self.document = Document(inputs)
        self._system = system
        self._state = State(inputs, lesson=lesson, system=self._system_of(inputs))
        self.files = FileDialogs(self, self.document, self.show_document, self._mark_saved)
        self._compute = Compute(self, only)
        self._keep_timer: Timer | None = None
        self._keep_failed = False

    def _system_of(self, inputs: Inputs) -> System:
        """The units to show: those asked for, those chosen last, or those of the load standard."""
        return self._system or user_state.display_settings().system or inputs.system

    # -- state ------------------------------------------------------------------------------

    def show_document(self) -> None:
        """Show the document's inputs, and compare them."""
        inputs = self.document.inputs
        if inputs.same_file(self.state.inputs):
            self.update(inputs=inputs)
        else:  # no figure of another file under this file's name
            self.update(
                inputs=inputs,
                comparison=None,
                compared=None,
                studies={},
                problems=(),
                system=self._system_of(inputs),
            )
        self._recompute()

    def _mark_saved(self) -> None:
        """Show the saved inputs; their values are the same, so current figures stay current."""
        inputs, is_current = self.document.inputs, self.state.comparison is not None and not self.state.is_stale
        self.update(inputs=inputs, compared=inputs if is_current else self.state.compared)
        if not is_current:
            self._recompute()

    def _recompute(self) -> None:
        """Compare the inputs; if they cannot be read, say what is wrong."""
        inputs = self.state.inputs
        try:
            scenario = inputs.scenario()
        except InputError as wrong:
            self._compute.cancel()
            self.update(problems=wrong.problems)
            return
        if self.state.problems or self.state.is_stopped:
            self.update(problems=(), is_stopped=False)
        self._compute.start(inputs, scenario, self.state.comparison, is_searched=self.state.compared is not None)

    def on_compared(self, message: Compared) -> None:
        """Show a comparison, unless the inputs have changed since or it was stopped."""
        if message.inputs == self.state.inputs and not self.state.is_stopped:
            compared = message.inputs if message.is_final else None
            self.update(comparison=message.comparison, compared=compared, studies={}, problems=())

    def on_compare_progress(self, message: CompareProgress) -> None:
        """Say what is computed while there are no figures to look at."""
        if message.inputs == self.state.inputs and self.state.comparison is None:
            self.update(progress=message.words)

    def on_stop_requested(self) -> None:
        """Stop the comparison that is computed; the figures shown stay, marked as what they are."""
        is_waited_for = self.state.comparison is None or self.state.is_stale
        if is_waited_for and not self.state.problems:
            self._compute.cancel()
            self.update(is_stopped=True, progress="")

    def action_compare(self) -> None:
        """Show the methods side by side; compute what was stopped."""
        super().action_compare()
        if self.state.is_stopped:
            self._recompute()

    def on_compute_failed(self, message: ComputeFailed) -> None:
        """Say that the comparison ended in an internal error."""
        if message.inputs == self.state.inputs:
            self.update(problems=(Problem("", message.sentence),))

    def on_studied(self, message: Studied) -> None:
        """Keep a study while its comparison is shown."""
        if message.comparison is self.state.comparison:
            self.update(studies={**self.state.studies, message.key: message.study})

    def on_method_selected(self, message: MethodSelected) -> None:
        """Show another method."""
        if message.method != self.state.method:
            self.update(method=message.method)

    # -- edits ------------------------------------------------------------------------------

    def on_input_edited(self, message: InputEdited) -> None:
        """Follow an edit."""
        self._follow(self.document.edit(message.inputs, message.before))

    def on_edit_cancelled(self, message: EditCancelled) -> None:
        """Return to the inputs before the field was opened."""
        self._follow(self.document.cancel_edit(message.before))

    def action_undo(self) -> None:
        """Undo the last change."""
        self._step_back("Undone", "Nothing to undo.", self.document.undo)

    def action_redo(self) -> None:
        """Redo the change that was undone."""
        self._step_back("Redone", "Nothing to redo.", self.document.redo)

    def _step_back(self, word: str, nothing: str, step: Callable[[], bool]) -> None:
        """Undo or redo, say what changed, and go there in the form; else say that there is nothing."""
        before = self.document.inputs
        changed = step()
        self._follow(changed)
        path, words = self.document.inputs.change_from(before)
        if changed and words:
            self.notify(f"{word}: {words}", markup=False)
            self.main.go_to_input(path)
        elif not changed:
            self.notify(nothing, markup=False)

    def _follow(self, changed: bool) -> None:
        """Show a changed document, and write it to the recovery file soon."""
        if changed:
            self.show_document()
            if self._keep_timer is not None:
                self._keep_timer.stop()
            self._keep_timer = self.set_timer(KEEP_AFTER, self._keep_in_thread)

    def _keep_in_thread(self) -> None:
        self.run_worker(self._keep, thread=True, group="recovery")

    def _keep(self) -> None:
        if not self.document.keep() and not self._keep_failed:
            self._keep_failed = True
            sentence = (
                f"{user_state.folder()} cannot be written: save often, unsaved changes are lost if loadpath ends."
            )
            self.call_from_thread(self.notify, sentence, severity="warning", markup=False)

"""The open scenario file: its inputs, undo and redo, saving and recovery. It knows no screen."""

from __future__ import annotations

import threading
from dataclasses import replace
from pathlib import Path

from engine.common.errors import InputError, Problem
from tui.model.inputs import Inputs
from tui.model.recovery import RecoveredWork, RecoveryFile
from tui.storage import atomic_write, paths


class Document:
    """One open file.

    `inputs` are its inputs now, `saved` the inputs that are safe on disk. Undo has no limit: inputs are small values,
    so the earlier ones are kept.
    """

    def __init__(self, inputs: Inputs) -> None:
        self.inputs = inputs
        self.saved = inputs
        self._undo: list[Inputs] = []
        self._redo: list[Inputs] = []
        self._recovery = RecoveryFile()
        self._lock = threading.Lock()

    @property
    def is_unsaved(self) -> bool:
        """True if there are changes that no file holds."""
        return self.inputs.changes != self.saved.changes

    # -- edits ------------------------------------------------------------------------------

    def edit(self, inputs: Inputs, before: Inputs) -> bool:
        """Take edited inputs; False if nothing changed.

        `before` are the inputs when the field was opened: all that is typed into one field is one step of undo.
        """
        if inputs == self.inputs:
            return False
        if not self._last_step_began_with(before):
            self._undo.append(before)
        self._redo.clear()
        self.inputs = inputs
        return True

    def cancel_edit(self, before: Inputs) -> bool:
        """Return to the inputs before a field was opened, if it was edited; redo restores what was typed."""
        return self._last_step_began_with(before) and self.undo()

    def undo(self) -> bool:
        """Undo the last step; False if there is none."""
        return self._step(self._undo, self._redo)

    def redo(self) -> bool:
        """Redo the step that was undone last; False if there is none."""
        return self._step(self._redo, self._undo)

    def _step(self, source: list[Inputs], target: list[Inputs]) -> bool:
        if not source:
            return False
        target.append(self.inputs)
        self.inputs = replace(source.pop().rebased(self.saved), slope=self.inputs.slope)
        return True

    def _last_step_began_with(self, before: Inputs) -> bool:
        return bool(self._undo) and self._undo[-1] is before

    def show_slope(self, name: str) -> None:
        """Show another slope of the file; that is no edit."""
        self.inputs = replace(self.inputs, slope=name)

    # -- files ------------------------------------------------------------------------------

    def open(self, inputs: Inputs) -> None:
        """Open another file; unsaved changes of the one before are discarded."""
        self.inputs = self.saved = inputs
        self._undo.clear()
        self._redo.clear()
        self.keep()

    def discard(self) -> None:
        """Return to the saved inputs, and leave nothing to recover."""
        self.open(self.saved)

    @property
    def must_be_named(self) -> bool:
        """True if saving needs a name or a second look: a bundled file, one changed on disk, or a wrong input."""
        return paths.is_bundled(self.inputs.path) or not self.inputs.same_as_disk() or not self.inputs.readable

    def loss_at(self, path: Path) -> str:
        """The loss if that file were replaced, in words; empty if there is none."""
        if not paths.exists(path):
            return ""
        if path.resolve() != self.inputs.path.resolve():
            return "exists"
        if not self.inputs.same_as_disk():
            return "has changed since it was opened"
        return "" if self.inputs.readable else "exists, and some input is wrong"

    def save(self) -> None:
        """Save to the file that is open.

        Raises:
            InputError: it is bundled, or cannot be written.
        """
        self.save_as(self.inputs.path)

    def save_as(self, path: Path) -> None:
        """Save under a name and go on with that file; comments are kept.

        Raises:
            InputError: the file is bundled, or cannot be written.
        """
        if paths.is_bundled(path):
            raise InputError([Problem(path.name, "is a bundled scenario and is not overwritten; give another name")])
        text = self.inputs.as_text(path)
        atomic_write.write_text(path, text, overwrite=True)
        self.inputs = self.saved = Inputs(path, text, slope=self.inputs.slope)
        self.keep()

    # -- recovery ---------------------------------------------------------------------------

    def keep(self) -> bool:
        """Write unsaved changes to the recovery file, or remove it if there are none; may run in any thread.

        Returns:
            False if unsaved changes could not be written.
        """
        with self._lock:
            if self.is_unsaved:
                return self._recovery.write(self.inputs)
            self._recovery.remove()
            return True

    def restore(self, work: RecoveredWork) -> None:
        """Take up recovered work as one step that can be undone."""
        self.open(replace(work.inputs, changes={}))
        self.edit(work.inputs, self.saved)
        self.keep()
        work.delete()

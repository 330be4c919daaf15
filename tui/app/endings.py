"""Endings that nobody asked for: signals from outside, and internal errors; unsaved changes are kept."""

from __future__ import annotations

import asyncio
from contextlib import suppress

from rich.text import Text
from textual.app import App
from textual.worker import WorkerFailed

from tui.model.document import Document
from tui.model.ending_signals import ending_signals, exit_code
from tui.model.exit_codes import Exit
from tui.render import text_pages


class InternalError(Exception):
    """An error that ends the app; the terminal shows its sentence and no traceback."""

    def __rich__(self) -> Text:
        """The sentence."""
        return Text(str(self))


class AppWithEndings(App[None]):
    """An app with a document, which ends in order."""

    document: Document
    _is_failing = False

    def _end_on_signals(self) -> None:
        """End in order on a signal from outside: unsaved changes are kept and the terminal is as it was."""
        for number in ending_signals():
            with suppress(NotImplementedError):  # the event loop of Windows has none
                asyncio.get_running_loop().add_signal_handler(number, self._end_by_signal, number)

    def _end_by_signal(self, number: int) -> None:
        self.document.keep()
        self.exit(return_code=exit_code(number))

    def _handle_exception(self, error: Exception) -> None:
        """End with one sentence and exit code 70; unsaved changes are written first and offered at the next start.

        The framework calls this for every unhandled exception, and offers no public hook.
        """
        if self._is_failing:
            return
        self._is_failing = True
        cause = error.error if isinstance(error, WorkerFailed) else error
        sentence = text_pages.internal_error(cause)
        if self.document.is_unsaved and self.document.keep():
            sentence += " Your unsaved changes are kept: loadpath offers them at its next start."
        ending = InternalError(sentence)
        ending.__cause__ = cause
        super()._handle_exception(ending)
        self.exit(return_code=Exit.INTERNAL_ERROR)

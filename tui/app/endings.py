"""The app's terminal and its endings: signals, a closed terminal, internal errors; unsaved changes are kept."""

from __future__ import annotations

import asyncio
import os
import signal
from collections.abc import Sequence
from contextlib import suppress
from typing import Any

from rich.text import Text
from textual.app import App
from textual.filter import LineFilter
from textual.worker import WorkerFailed

from engine.common.safe_text import safe_text
from tui.model.document import Document
from tui.model.ending_signals import ending_signals, exit_code
from tui.model.exit_codes import Exit
from tui.model.internal_error import internal_error
from tui.model.terminal import paint_on_stdout, when_closed
from tui.render.safe_segments import SafeSegments

SAFE = SafeSegments()
"""One for all widgets, so that what it made safe is remembered."""


class InternalError(Exception):
    """An error that ends the app; the terminal shows its sentence and no traceback."""

    def __rich__(self) -> Text:
        """The sentence."""
        return Text(str(self))


class AppWithEndings(App[None]):
    """An app with a document, which ends in order."""

    document: Document
    _is_failing = False

    def run_in_terminal(self) -> int:
        """Run until the app is left, or its terminal is closed; the exit code."""
        paint_on_stdout()
        when_closed(self._end_with_terminal)
        self.run()
        return self.return_code or Exit.DONE

    def get_line_filters(self) -> Sequence[LineFilter]:
        """The framework's filters, and the one that keeps the terminal from being steered."""
        return [*super().get_line_filters(), SAFE]

    def notify(self, message: str, **options: Any) -> None:
        """Show a notice, which may name a file, as one line of plain text."""
        super().notify(safe_text(message), **options)

    def _end_on_signals(self) -> None:
        """End in order on a signal from outside: unsaved changes are kept and the terminal is as it was."""
        for number in (signal.SIGINT, *ending_signals()):
            with suppress(NotImplementedError):  # the event loop of Windows has none
                asyncio.get_running_loop().add_signal_handler(number, self._end_by_signal, number)

    def _end_by_signal(self, number: int) -> None:
        self.document.keep()
        self.exit(return_code=exit_code(number))

    def _end_with_terminal(self) -> None:
        """End at once: the framework would go on reading, and wait for what cannot be written any more."""
        self.document.keep()
        os._exit(Exit.HUNG_UP)

    def _handle_exception(self, error: Exception) -> None:
        """End with one sentence and exit code 70; unsaved changes are written first and offered at the next start.

        The framework calls this for every unhandled exception, and offers no public hook.
        """
        if self._is_failing:
            return
        self._is_failing = True
        cause = error.error if isinstance(error, WorkerFailed) else error
        sentence = internal_error(cause)
        if self.document.is_unsaved and self.document.keep():
            sentence += " Your unsaved changes are kept: loadpath offers them at its next start."
        ending = InternalError(sentence)
        ending.__cause__ = cause
        super()._handle_exception(ending)
        self.exit(return_code=Exit.INTERNAL_ERROR)

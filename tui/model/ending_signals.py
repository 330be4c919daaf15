"""Signals that end loadpath from outside: `kill`, a shutdown, a closed terminal; and Ctrl-C."""

from __future__ import annotations

import gc
import signal
from collections.abc import Iterator
from contextlib import contextmanager
from types import FrameType

from tui.model.exit_codes import Exit


def ending_signals() -> tuple[signal.Signals, ...]:
    """Those of this system, without any that the caller had ignored, as `nohup` does."""
    known = [getattr(signal, name) for name in ("SIGTERM", "SIGHUP") if hasattr(signal, name)]
    return tuple(number for number in known if signal.getsignal(number) is not signal.SIG_IGN)


def exit_code(number: int) -> Exit:
    """Exit code of a process that a signal ended, as shells give it."""
    return Exit(128 + number)


@contextmanager
def ended_in_order() -> Iterator[None]:
    """Within it a signal ends the process as an exception does: files and further processes are cleared away."""
    before = {number: signal.signal(number, _end) for number in ending_signals()}
    try:
        yield
    except (KeyboardInterrupt, SystemExit):
        gc.freeze()  # Python looks through all memory as it ends: a tenth of a second after a large roof
        raise
    finally:
        for number, handler in before.items():
            signal.signal(number, handler)


@contextmanager
def held_back() -> Iterator[None]:
    """Within it Ctrl-C and the signals that end loadpath wait; processes started within it never see one.

    Windows cannot hold them back.
    """
    if not hasattr(signal, "pthread_sigmask"):
        yield
        return
    before = signal.pthread_sigmask(signal.SIG_BLOCK, (signal.SIGINT, *ending_signals()))
    try:
        yield
    finally:
        signal.pthread_sigmask(signal.SIG_SETMASK, before)


def _end(number: int, _: FrameType | None) -> None:
    raise SystemExit(exit_code(number))

"""The terminal: whether there is one, its first screen, where the app is painted, and its end."""

from __future__ import annotations

import select
import sys
import threading
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from typing import TextIO

OTHER_SCREEN, FORMER_SCREEN = "\x1b[?1049h\x1b[2J\x1b[H", "\x1b[?1049l"
"""Control codes of terminals (xterm's, private mode 1049): an empty screen of its own, and back to the one before."""


def is_terminal(*streams: TextIO | None) -> bool:
    """True if every one of these streams is open and a terminal."""
    return all(stream is not None and stream.isatty() for stream in streams)


@contextmanager
def opening() -> Iterator[None]:
    """Say at once that the app opens, while all that it needs is loaded; if that fails, the former screen is back."""
    _write_at_once(f"{OTHER_SCREEN}\r\n  loadpath is opening …")
    try:
        yield
    except BaseException:
        _write_at_once(FORMER_SCREEN)
        raise


def _write_at_once(text: str) -> None:
    sys.stdout.write(text)
    sys.stdout.flush()


def paint_on_stdout() -> None:
    """Paint on standard output where standard error, on which the framework paints, is a log or closed."""
    if not is_terminal(sys.__stderr__):
        vars(sys)["__stderr__"] = sys.__stdout__


def when_closed(act: Callable[[], object]) -> None:
    """Act once the terminal at standard input is closed, which not every system tells by a signal."""
    if sys.__stdin__ is None or not hasattr(select, "poll"):  # Windows
        return
    poll = select.poll()
    poll.register(sys.__stdin__, 0)  # that it is closed is told in any case

    def wait() -> None:
        poll.poll()
        act()

    threading.Thread(target=wait, daemon=True).start()

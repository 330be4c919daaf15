"""The terminal: whether there is one, where the app is painted, and its end."""

from __future__ import annotations

import select
import sys
import threading
from collections.abc import Callable
from typing import TextIO


def is_terminal(*streams: TextIO | None) -> bool:
    """True if every one of these streams is open and a terminal."""
    return all(stream is not None and stream.isatty() for stream in streams)


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

"""Progress messages of a long computation, and the way to cancel it."""

from __future__ import annotations

from collections.abc import Callable
from itertools import count

ProgressListener = Callable[[str], object]
"""Receives a message about the current trial; may raise `SearchStopped` to cancel the computation."""


class SearchStopped(Exception):  # noqa: N818 (it is no error)
    """The result is no longer needed."""


def part_of(tell: ProgressListener, number: int, total: int) -> ProgressListener:
    """A listener that says before each message which part of the work it is about: "3 of 24: rails, wind speed"."""
    return lambda message: tell(f"{number} of {total}: {message}")


def counted(tell: ProgressListener, total: int) -> ProgressListener:
    """A listener to which each message is about the next of so many parts of the work."""
    numbers = count(1)
    return lambda message: tell(f"{next(numbers)} of {total}: {message}")


def no_listener(message: str) -> None:
    """Ignore the message."""

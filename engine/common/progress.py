"""Progress messages of a long computation, and the way to cancel it."""

from __future__ import annotations

from collections.abc import Callable

ProgressListener = Callable[[str], object]
"""Receives a message about the current trial; may raise `SearchStopped` to cancel the computation."""


class SearchStopped(Exception):  # noqa: N818 (it is no error)
    """The result is no longer needed."""


def no_listener(message: str) -> None:
    """Ignore the message."""

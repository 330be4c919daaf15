"""Word of a long search while it runs, and the way to end it."""

from __future__ import annotations

from collections.abc import Callable

ProgressListener = Callable[[str], object]
"""Hears what is being tried, in words; may raise `SearchStopped` to end the search."""


class SearchStopped(Exception):  # noqa: N818 (nothing went wrong)
    """Whoever listened wants no answer any more."""


def no_listener(words: str) -> None:
    """Listens to nothing."""

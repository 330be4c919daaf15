"""Word of a long search while it runs, and the way to end it."""

from __future__ import annotations

from collections.abc import Callable

Tell = Callable[[str], object]
"""Hears what is being tried, in words; may raise `Stopped` to end the search."""


class Stopped(Exception):  # noqa: N818 (nothing went wrong)
    """Whoever listened wants no answer any more."""


def nobody(words: str) -> None:
    """Listens to nothing."""

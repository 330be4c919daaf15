"""The ways to know what a thing can take, and the strength each gives."""

from __future__ import annotations

from typing import Annotated, Any

from pydantic import BeforeValidator, Discriminator, Tag
from pydantic_core import PydanticCustomError

from engine.strength.rating import Rating
from engine.strength.stated import Stated
from engine.strength.vocabulary import Mode, Strength, Way

__all__ = ["Capacity", "Mode", "Rating", "Strength", "Way", "strength"]

_SIGNATURES = {"allowable": "stated"}
"""The key that tells one way from another → its tag."""


def _which_way(written: Any) -> str | None:
    if isinstance(written, Way):
        return type(written).__name__
    found = [tag for key, tag in _SIGNATURES.items() if isinstance(written, dict) and key in written]
    return found[0] if len(found) == 1 else None


def _as_list(written: Any) -> Any:
    return written if isinstance(written, list | tuple) else [written]


Capacity = Annotated[tuple[Annotated[Stated, Tag("stated")], ...], BeforeValidator(_as_list)]


def strength(capacity: tuple[Way, ...]) -> Strength:
    """The strength that what is known of a capacity gives: the lowest mode governs."""
    return Strength(tuple(mode for way in capacity for mode in way.modes()))

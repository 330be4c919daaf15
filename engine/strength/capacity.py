"""Which of the ways a capacity is written in, and the strength that it gives. To add a way: its file, and its name here, twice."""

from __future__ import annotations

import difflib
from collections.abc import Mapping
from typing import Annotated, Any

from pydantic import BeforeValidator, Discriminator, Tag
from pydantic_core import PydanticCustomError

from engine.schema import as_given
from engine.strength.base import Strength, StrengthBasis
from engine.strength.pull_tests import PullTests
from engine.strength.stated_allowable import StatedAllowable
from engine.strength.steel_screws import SteelScrews
from engine.strength.ultimate_test import UltimateTest
from engine.strength.uplift_test import UpliftTest
from engine.strength.wood_screws import WoodScrews

BASES: tuple[type[StrengthBasis], ...] = (StatedAllowable, UltimateTest, UpliftTest, SteelScrews, WoodScrews, PullTests)
BASIS_TITLES = frozenset(way.title for way in BASES)
"""What the validator adds to a path to say which way it took; nobody wrote them."""

_KEYS = {key: way for way in BASES for key in way.identifying_keys}


def _basis_title(written: Any) -> str | None:
    """The title of the way a table is written in; None where it is none of them, or several at once."""
    if isinstance(written, StrengthBasis):
        return written.title
    found = _fitting(written)
    return found[0].title if len(found) == 1 else None


def _fitting(written: Any) -> list[type[StrengthBasis]]:
    return [
        way for way in BASES if isinstance(written, Mapping) and any(key in written for key in way.identifying_keys)
    ]


def _recognised(written: Any) -> Any:
    """Pass on what is written in one of the ways; else say which there are."""
    if _basis_title(written) is not None:
        return written
    wrong = {"given": _given(written), "ways": _would_do(written)}
    raise PydanticCustomError(
        "loadpath", "{given} given; say in exactly one way how the strength is known: {ways}", wrong
    )


def _given(written: Any) -> str:
    if isinstance(written, Mapping):
        return ", ".join(f"'{key}'" for key in written)[:80] or "an empty table"
    return as_given(written)


def _would_do(written: Any) -> str:
    """The keys in the way of one another, or those meant by a slip of the pen, or all there are."""
    keys = [str(key) for key in written] if isinstance(written, Mapping) else []
    meant = [key for key in _KEYS if key in keys] or [
        near for key in keys for near in difflib.get_close_matches(key, _KEYS, n=1, cutoff=0.8)
    ]
    return " or ".join(f"{{ {key} = … }}" for key in dict.fromkeys(meant or _KEYS))


def _as_list(written: Any) -> Any:
    if isinstance(written, list | tuple):
        if not written:
            raise PydanticCustomError(
                "loadpath", "an empty list given; say in at least one way how the strength is known"
            )
        return written
    return [written]


OneCapacity = Annotated[
    Annotated[StatedAllowable, Tag(StatedAllowable.title)]
    | Annotated[UltimateTest, Tag(UltimateTest.title)]
    | Annotated[UpliftTest, Tag(UpliftTest.title)]
    | Annotated[SteelScrews, Tag(SteelScrews.title)]
    | Annotated[WoodScrews, Tag(WoodScrews.title)]
    | Annotated[PullTests, Tag(PullTests.title)],
    Discriminator(_basis_title),
    BeforeValidator(_recognised),
]
"""One table, in one of the ways."""

Capacity = Annotated[tuple[OneCapacity, ...], BeforeValidator(_as_list)]
"""One table, or a list of them: as many modes, the lowest of which governs."""


def strength(capacity: tuple[StrengthBasis, ...]) -> Strength:
    """The strength that what is known of a capacity gives: the lowest mode governs."""
    return Strength(tuple(mode for way in capacity for mode in way.modes()))


def shear_strength(capacity: tuple[StrengthBasis, ...]) -> Strength:
    """The strength under load along the surface; see `shear_problem` for where there is none."""
    return Strength(tuple(mode for way in capacity for mode in way.shear_modes()))


def shear_problem(capacity: tuple[StrengthBasis, ...]) -> str | None:
    """Why a capacity says nothing about load along the surface; None where it does."""
    for way in capacity:
        if not way.shear_modes():
            return f"{way.title} given, which as it stands says nothing about load along the roof; give {way.needed_for_shear}"
    return None


def seam_problem(capacity: tuple[StrengthBasis, ...]) -> str | None:
    """Why a capacity does not do for a standing seam's fastening; None where it does.

    The seam usually leaves its clip before the clip's screws give out: screws alone are no answer.
    """
    if any(way.covers_seam for way in capacity):
        return None
    alone = "screws alone given; on a standing seam the seam's own hold on the clip must be known too"
    return f"{alone}: add a test, or an allowable, beside them"

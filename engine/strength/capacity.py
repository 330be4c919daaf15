"""The basis of a written strength, and the strength that follows from it.

To add a basis: write its file, and name it in `BASES` and in `OneCapacity`.
"""

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
BASIS_TITLES = frozenset(basis.title for basis in BASES)
"""Titles that the validator adds to the path of an error to name the basis; they are not in the file."""

_KEYS = {key: basis for basis in BASES for key in basis.identifying_keys}


def _basis_title(written: Any) -> str | None:
    """The title of the basis of a table; None if it has no basis, or several."""
    if isinstance(written, StrengthBasis):
        return written.title
    matching = _matching_bases(written)
    return matching[0].title if len(matching) == 1 else None


def _matching_bases(written: Any) -> list[type[StrengthBasis]]:
    if not isinstance(written, Mapping):
        return []
    return [basis for basis in BASES if any(key in written for key in basis.identifying_keys)]


def _with_one_basis(written: Any) -> Any:
    """The table unchanged if it has exactly one basis; else a refusal that lists them."""
    if _basis_title(written) is not None:
        return written
    context = {"given": _quoted(written), "bases": _suggestions(written)}
    raise PydanticCustomError(
        "loadpath", "{given} given; write the strength in exactly one of these ways: {bases}", context
    )


def _quoted(written: Any) -> str:
    if isinstance(written, Mapping):
        return ", ".join(f"'{key}'" for key in written)[:80] or "an empty table"
    return as_given(written)


def _suggestions(written: Any) -> str:
    """The keys that exclude one another, or the nearest to misspelled ones, or all."""
    keys = [str(key) for key in written] if isinstance(written, Mapping) else []
    meant = [key for key in _KEYS if key in keys] or [
        near for key in keys for near in difflib.get_close_matches(key, _KEYS, n=1, cutoff=0.8)
    ]
    return " or ".join(f"{{ {key} = … }}" for key in dict.fromkeys(meant or _KEYS))


def _as_list(written: Any) -> Any:
    if isinstance(written, list | tuple):
        if not written:
            raise PydanticCustomError("loadpath", "an empty list given; write the strength in at least one way")
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
    BeforeValidator(_with_one_basis),
]
"""One table, with one basis."""

Capacity = Annotated[tuple[OneCapacity, ...], BeforeValidator(_as_list)]
"""One table, or a list of tables; the lowest failure mode of all governs."""


def strength(capacity: tuple[StrengthBasis, ...]) -> Strength:
    """The strength of a part from all of its bases."""
    return Strength(tuple(mode for basis in capacity for mode in basis.modes()))


def shear_strength(capacity: tuple[StrengthBasis, ...]) -> Strength:
    """The strength under load along the surface; `shear_problem` says where there is none."""
    return Strength(tuple(mode for basis in capacity for mode in basis.shear_modes()))


def shear_problem(capacity: tuple[StrengthBasis, ...]) -> str | None:
    """Reason why a strength does not cover load along the surface; None if it does."""
    for basis in capacity:
        if not basis.shear_modes():
            return f"{basis.title} given, which does not cover load along the roof; give {basis.needed_for_shear}"
    return None


def seam_problem(capacity: tuple[StrengthBasis, ...]) -> str | None:
    """Reason why a strength does not cover the fastening of a standing seam; None if it does.

    The seam usually leaves its clip before the screws of the clip fail, so screws alone are not enough.
    """
    if any(basis.covers_seam for basis in capacity):
        return None
    return "screws alone given; a standing seam can leave its clip first: add a test or an allowable of the clip"

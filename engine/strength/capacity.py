"""The basis of a written strength, and the strength that follows from it.

To add a basis: write its file, and name it in `BASES` and in `OneCapacity`.
"""

from __future__ import annotations

import difflib
from collections.abc import Mapping
from typing import Annotated, Any

from pydantic import BeforeValidator, Discriminator, GetJsonSchemaHandler, Tag
from pydantic_core import CoreSchema, PydanticCustomError

from engine.schema import as_given, shortened
from engine.strength.base import Strength, StrengthBasis
from engine.strength.characteristic import Characteristic
from engine.strength.characteristic_tests import CharacteristicTests
from engine.strength.design_resistance import DesignResistance
from engine.strength.pull_tests import PullTests
from engine.strength.stated_allowable import StatedAllowable
from engine.strength.steel_screws import SteelScrews
from engine.strength.ultimate_test import UltimateTest
from engine.strength.uplift_test import UpliftTest
from engine.strength.wood_screws import WoodScrews

BASES: tuple[type[StrengthBasis], ...] = (
    StatedAllowable,
    UltimateTest,
    UpliftTest,
    SteelScrews,
    WoodScrews,
    PullTests,
    DesignResistance,
    Characteristic,
    CharacteristicTests,
)


def tag_of(basis: type[StrengthBasis]) -> str:
    """Tag of a basis, which the validator puts in the path of an error; no field has such a name."""
    return f"{basis.title} (basis)"


_KEYS = {key: basis for basis in BASES for key in basis.identifying_keys}


def _tag(written: Any) -> str | None:
    """The tag of the basis of a table; None if it has no basis, or several."""
    if isinstance(written, StrengthBasis):
        return tag_of(type(written))
    matching = _matching_bases(written)
    return tag_of(matching[0]) if len(matching) == 1 else None


def _matching_bases(written: Any) -> list[type[StrengthBasis]]:
    if not isinstance(written, Mapping):
        return []
    return [basis for basis in BASES if any(key in written for key in basis.identifying_keys)]


def _with_one_basis(written: Any) -> Any:
    """The table unchanged if it has exactly one basis; else a refusal that lists them."""
    if _tag(written) is not None:
        return written
    context = {"given": _quoted(written), "bases": _suggestions(written)}
    raise PydanticCustomError(
        "loadpath", "{given} given; write the strength in exactly one of these ways: {bases}", context
    )


def _quoted(written: Any) -> str:
    if isinstance(written, Mapping):
        return shortened(", ".join(f"'{key}'" for key in written)) or "an empty table"
    return as_given(written)


def _suggestions(written: Any) -> str:
    """The keys that exclude one another, or the nearest to misspelled ones, or all."""
    keys = [str(key) for key in written] if isinstance(written, Mapping) else []
    meant = [key for key in _KEYS if key in keys] or [
        near for key in keys for near in difflib.get_close_matches(shortened(key), _KEYS, n=1, cutoff=0.8)
    ]
    return " or ".join(f"{{ {key} = … }}" for key in dict.fromkeys(meant or _KEYS))


def _as_list(written: Any) -> Any:
    if isinstance(written, list | tuple):
        if not written:
            raise PydanticCustomError("loadpath", "an empty list given; write the strength in at least one way")
        return written
    return [written]


OneCapacity = Annotated[
    Annotated[StatedAllowable, Tag(tag_of(StatedAllowable))]
    | Annotated[UltimateTest, Tag(tag_of(UltimateTest))]
    | Annotated[UpliftTest, Tag(tag_of(UpliftTest))]
    | Annotated[SteelScrews, Tag(tag_of(SteelScrews))]
    | Annotated[WoodScrews, Tag(tag_of(WoodScrews))]
    | Annotated[PullTests, Tag(tag_of(PullTests))]
    | Annotated[DesignResistance, Tag(tag_of(DesignResistance))]
    | Annotated[Characteristic, Tag(tag_of(Characteristic))]
    | Annotated[CharacteristicTests, Tag(tag_of(CharacteristicTests))],
    Discriminator(_tag),
    BeforeValidator(_with_one_basis),
]
"""One table, with one basis."""


class _AlsoAlone:
    """JSON Schema of a list that may be written as its one entry."""

    def __get_pydantic_json_schema__(self, schema: CoreSchema, handler: GetJsonSchemaHandler) -> dict[str, Any]:
        listed = handler(schema)
        return {"anyOf": [listed["items"], listed]}


Capacity = Annotated[tuple[OneCapacity, ...], BeforeValidator(_as_list), _AlsoAlone()]
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

"""The ways to know what a thing can take, and the strength each gives. To add a way: its file, and its name here."""

from __future__ import annotations

from typing import Annotated, Any

from pydantic import BeforeValidator, Discriminator, Tag
from pydantic_core import PydanticCustomError

from engine.strength.pull_tests import PullTests
from engine.strength.rating import Rating
from engine.strength.stated import Stated
from engine.strength.steel_screws import SteelScrews
from engine.strength.tested import Tested
from engine.strength.uplift_test import UpliftTest
from engine.strength.vocabulary import Mode, Strength, Way
from engine.strength.wood_screws import WoodScrews

__all__ = ["TAGS", "Capacity", "Mode", "Rating", "Strength", "Way", "seam_objection", "strength"]

_WAYS = {
    "allowable": "stated",
    "tested": "tested",
    "tested_pressure": "uplift test",
    "screws": "screws in steel",
    "wood_screws": "screws in wood",
    "lag": "screws in wood",
    "pull_tests": "pull tests",
}
"""The key that tells one way from another → the way's name."""

TAGS = frozenset(_WAYS.values())


def _which_way(written: Any) -> str | None:
    """The way a table is written in; None where it is none of the six, or several at once."""
    if isinstance(written, Way):
        return next(name for name, way in _BY_NAME.items() if isinstance(written, way))
    found = {name for key, name in _WAYS.items() if isinstance(written, dict) and key in written}
    return found.pop() if len(found) == 1 else None


def _recognised(written: Any) -> Any:
    """Pass on what is written in one of the six ways; else say which there are."""
    if _which_way(written) is not None:
        return written
    given = f"the keys {', '.join(sorted(map(str, written)))[:80]}" if isinstance(written, dict) and written else "no known key"
    ways = ", ".join(f"{{ {key} = … }}" for key in _WAYS)
    sentence = "{given} given; say in exactly one way how the strength is known: {ways}"
    raise PydanticCustomError("loadpath", sentence, {"given": given, "ways": ways})


_BY_NAME: dict[str, type[Way]] = {
    "stated": Stated,
    "tested": Tested,
    "uplift test": UpliftTest,
    "screws in steel": SteelScrews,
    "screws in wood": WoodScrews,
    "pull tests": PullTests,
}


def _as_list(written: Any) -> Any:
    return written if isinstance(written, list | tuple) else [written]


Capacity = Annotated[
    tuple[
        Annotated[
            Annotated[Stated, Tag("stated")]
            | Annotated[Tested, Tag("tested")]
            | Annotated[UpliftTest, Tag("uplift test")]
            | Annotated[SteelScrews, Tag("screws in steel")]
            | Annotated[WoodScrews, Tag("screws in wood")]
            | Annotated[PullTests, Tag("pull tests")],
            Discriminator(_which_way),
            BeforeValidator(_recognised),
        ],
        ...,
    ],
    BeforeValidator(_as_list),
]
"""One table, or a list of them: as many modes, the lowest of which governs."""


def strength(capacity: tuple[Way, ...]) -> Strength:
    """The strength that what is known of a capacity gives: the lowest mode governs."""
    return Strength(tuple(mode for way in capacity for mode in way.modes()))


def seam_objection(capacity: tuple[Way, ...]) -> str | None:
    """Why a capacity does not do for a standing seam's fastening; None where it does.

    The seam usually leaves its clip before the clip's screws give out: screws alone are no answer.
    """
    for way in capacity:
        screws_only = isinstance(way, SteelScrews | WoodScrews) or (isinstance(way, PullTests) and way.connection == "screw")
        if not screws_only:
            return None
    return (
        "screws alone given; on a standing seam the seam's own hold on the clip must be known too: add a test, or an allowable, beside them"
    )

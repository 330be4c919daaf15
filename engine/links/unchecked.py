"""A load on a link that meets no known strength: who can give one, and in which document."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import groupby

from engine.common.arrays import Floats

UP, DOWN, ALONG, ACROSS, DEFLECTION = DIRECTIONS = ("up", "down", "along the slope", "across", "deflection")

MODULE_MAKER, ROOF_MAKER = "module maker", "roof maker"
HARDWARE_MAKER, BUILDING_ENGINEER = "hardware maker", "building engineer"
WIND_ENGINEER = "wind engineer"


@dataclass(frozen=True)
class Unchecked:
    """One link in one direction: it is loaded, and no strength is known.

    Attributes:
        link: the link's id in JSON.
        title: its name on screens.
        direction: one of `DIRECTIONS`.
        reason: what is missing, in a few words.
        owner: who can give the strength.
        document: the document that closes it.
    """

    link: str
    title: str
    direction: str
    reason: str
    owner: str
    document: str

    @property
    def ask(self) -> str:
        """Request that closes it: "Ask the roof maker for: ..."."""
        return f"Ask the {self.owner} for: {self.document}"


def loaded_directions(signed: Floats) -> tuple[str, ...]:
    """The directions, up and down, in which any of some signed loads acts; uplift is negative."""
    return tuple(direction for direction, acts in ((UP, (signed < 0).any()), (DOWN, (signed > 0).any())) if acts)


def unproven_wind(reason: str) -> tuple[Unchecked, ...]:
    """Wind on modules by coefficients that nobody stands behind; it is no link, so no acceptance closes it."""
    document = "net pressure coefficients of this array by zone, edge modules included, with their source"
    entry = Unchecked("module_wind", "wind on modules", UP, reason, WIND_ENGINEER, document)
    return entry, replace(entry, direction=DOWN)


def in_words(unchecked: Sequence[Unchecked]) -> Iterator[tuple[str, Unchecked]]:
    """Each link with the directions it is not checked in ("module frame", "clip, along the slope"), and its entry.

    Directions with the same reason are named together; up and down together are not named.
    """
    for _, same in groupby(unchecked, key=lambda each: (each.link, each.reason)):
        entries = list(same)
        directions = [each.direction for each in entries]
        named = "" if set(directions) >= {UP, DOWN} else f", {' and '.join(directions)}"
        yield f"{entries[0].title}{named}", entries[0]

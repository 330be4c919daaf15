"""A check of one link: demand, resistance and their ratio, at the place and in the combination that control."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

import numpy as np

from engine.common.combination import Combination
from engine.links.ratios import DemandOverResistance, SumOfRatios
from engine.links.unchecked import Unchecked


@dataclass(frozen=True)
class Location:
    """A place on the roof: its name, and its distances from rake and eave [m] where it has any."""

    name: str
    x: float | None = None
    y: float | None = None


@dataclass(frozen=True)
class Part:
    """One of several loads that act together on a link, over its own resistance, both positive."""

    name: str
    demand: float
    resistance: float

    @property
    def ratio(self) -> float:
        """Its part of the utilisation."""
        return self.demand / self.resistance


@dataclass(frozen=True, eq=False)
class Check:
    """The controlling case of one link.

    `demand` and `resistance` are positive, in the SI unit of `dimension`; `utilisation` is their ratio. Where several
    loads act together, `parts` has each over its own resistance, `utilisation` is the sum of their ratios, and there is
    no single demand. What is not known is None. `unchecked` lists the directions in which a load meets no known
    strength; `note` gives the reason where a load needs no check. `measure` is what the demand is, in a word.
    """

    link: str
    title: str
    dimension: str
    demand: float | None = None
    resistance: float | None = None
    utilisation: float | None = None
    combination: str = ""
    place: Location = Location("")
    note: str = ""
    unchecked: tuple[Unchecked, ...] = ()
    parts: tuple[Part, ...] = ()
    measure: str = "load"

    @property
    def loads(self) -> tuple[Part, ...]:
        """The loads that act together, or the only one; none where nothing is checked."""
        if self.parts or self.demand is None or self.resistance is None:
            return self.parts
        return (Part(self.measure, self.demand, self.resistance),)

    @property
    def ratio(self) -> float:
        """The utilisation; 0 where the link is not checked."""
        return self.utilisation or 0.0

    @property
    def holds(self) -> bool:
        """True unless the demand exceeds the resistance."""
        return self.ratio <= 1.0


def governing_check(
    link: str,
    title: str,
    dimension: str,
    ratios: DemandOverResistance | SumOfRatios,
    combinations: Sequence[Combination],
    place: Callable[..., Location],
    unchecked: tuple[Unchecked, ...] = (),
) -> Check:
    """The check of the item and combination with the largest utilisation.

    Args:
        link: the link's id in JSON.
        title: its name on screens.
        dimension: dimension of demand and resistance.
        ratios: utilisations of every item.
        combinations: the load combinations, C of them.
        place: gives the location of an item; it is called with the item's number on every axis.
        unchecked: the directions that it leaves out.

    Raises:
        ArithmeticError: a utilisation is not a finite number.
    """
    if not np.isfinite(ratios.utilisation).all():
        raise ArithmeticError(f"{title}: a utilisation is not a number")
    item, combination = ratios.governing
    at = (*item, combination)
    acting = _acting_loads(ratios, at, title)
    alone = acting[0] if len(acting) == 1 else None
    return Check(
        link,
        title,
        dimension,
        demand=alone.demand if alone else None,
        resistance=alone.resistance if alone else None,
        utilisation=float(ratios.utilisation[at]),
        combination=combinations[combination].name,
        place=place(*item),
        unchecked=unchecked,
        parts=() if alone else acting,
    )


def _acting_loads(ratios: DemandOverResistance | SumOfRatios, at: tuple[int, ...], title: str) -> tuple[Part, ...]:
    """The loads on one item in one combination, without those that are 0; at least one."""
    loads = {title: ratios} if isinstance(ratios, DemandOverResistance) else ratios.parts
    parts = tuple(Part(name, *load.at(at)) for name, load in loads.items())
    return tuple(part for part in parts if part.demand) or parts[:1]


def governing_of(checks: Sequence[Check]) -> Check:
    """The check with the largest utilisation; it keeps what the others could not check, and their notes."""
    largest = max(checks, key=lambda check: -1.0 if check.utilisation is None else check.utilisation)
    notes = dict.fromkeys(check.note for check in checks if check.note)
    unchecked = dict.fromkeys(each for check in checks for each in check.unchecked)
    return replace(largest, note="; ".join(notes), unchecked=tuple(unchecked))

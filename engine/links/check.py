"""A check of one link: demand, resistance and their ratio, at the place and in the combination that control."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np

from engine.common.arrays import Floats
from engine.common.combination import Combination
from engine.strength import FailureMode, Strength


@dataclass(frozen=True)
class Location:
    """A place on the roof: its name, and its distances from rake and eave [m] where it has any."""

    name: str
    x: float | None = None
    y: float | None = None


@dataclass(frozen=True, eq=False)
class Check:
    """The controlling case of one link.

    `demand` and `resistance` are positive, in the SI unit of `dimension`; `utilisation` is their ratio. What is
    not known is None, and `note` gives the reason.
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

    @property
    def ratio(self) -> float:
        """The utilisation; 0 where the link is not checked."""
        return self.utilisation or 0.0

    @property
    def holds(self) -> bool:
        """True unless the demand exceeds the resistance."""
        return self.ratio <= 1.0


@dataclass(frozen=True, eq=False)
class DemandOverResistance:
    """Demand and resistance of n items in C combinations, both positive; shape (n, C), or more axes before the last."""

    demand: Floats
    resistance: Floats

    @cached_property
    def utilisation(self) -> Floats:
        """Demand over resistance, in the shape of the demand."""
        return self.demand / self.resistance

    @cached_property
    def governing(self) -> tuple[tuple[int, ...], int]:
        """Item and combination with the largest utilisation, by their numbers."""
        *item, combination = np.unravel_index(int(np.argmax(self.utilisation)), self.utilisation.shape)
        return tuple(map(int, item)), int(combination)

    @property
    def per_item(self) -> Floats:
        """The largest utilisation of each item in any combination, shape (n,)."""
        largest: Floats = self.utilisation.max(axis=-1)
        return largest


def resistances(known: Strength | FailureMode, combinations: Sequence[Combination]) -> Floats:
    """Resistance of a strength in every combination, shape (C,)."""
    return np.array([known.resistance(combination) for combination in combinations])


def allowable_resistances(allowable: float, combinations: Sequence[Combination]) -> Floats:
    """Resistance in every combination of a part known by its allowable alone, shape (C,)."""
    return np.array([combination.of_allowable(allowable) for combination in combinations])


def by_direction(signed: Floats, up: Floats, down: Floats) -> DemandOverResistance:
    """Signed demands (n, C), uplift negative, over the resistance in their own direction, shape (C,) each."""
    return DemandOverResistance(np.abs(signed), np.where(signed < 0, up, down))


def governing_check(
    link: str,
    title: str,
    dimension: str,
    ratios: DemandOverResistance,
    combinations: Sequence[Combination],
    place: Callable[..., Location],
    note: str = "",
) -> Check:
    """The check of the item and combination with the largest utilisation.

    Args:
        link: the link's id in JSON.
        title: its name on screens.
        dimension: dimension of demand and resistance.
        ratios: demand over resistance of every item.
        combinations: the load combinations, C of them.
        place: gives the location of an item; it is called with the item's number on every axis.
        note: what the check leaves out.

    Raises:
        ArithmeticError: a utilisation is not a finite number.
    """
    if not np.isfinite(ratios.utilisation).all():
        raise ArithmeticError(f"{title}: a utilisation is not a number")
    item, combination = ratios.governing
    at = (*item, combination)
    return Check(
        link,
        title,
        dimension,
        float(ratios.demand[at]),
        float(np.broadcast_to(ratios.resistance, ratios.demand.shape)[at]),
        float(ratios.utilisation[at]),
        combinations[combination].name,
        place(*item),
        note,
    )


def governing_of(checks: Sequence[Check]) -> Check:
    """The check with the largest utilisation; its note keeps what the others could not check."""
    largest = max(checks, key=lambda check: -1.0 if check.utilisation is None else check.utilisation)
    unchecked = [check.note for check in checks if check.utilisation is None and check.note]
    return replace(largest, note="; ".join(filter(None, [largest.note, *unchecked])))

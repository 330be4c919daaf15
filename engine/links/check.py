"""A check is a value: one link, what is asked of it, what it can do."""

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
    """Where on the roof: a name, and the distances from rake and eave [m] where there are any."""

    name: str
    x: float | None = None
    y: float | None = None


@dataclass(frozen=True, eq=False)
class Check:
    """One link's worst case.

    `demand` and `resistance` are positive, in the SI unit of `dimension`; `utilisation` is their
    ratio. What cannot be had is None and `note` says why.
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
    def used(self) -> float:
        """The utilisation; what is not checked counts as not used."""
        return self.utilisation or 0.0

    @property
    def holds(self) -> bool:
        """Whether it can carry what is asked."""
        return self.used <= 1.0


@dataclass(frozen=True, eq=False)
class DemandOverResistance:
    """Demand against resistance for n items in C combinations; arrays (n, C) or of more axes before the last, positive."""

    demand: Floats
    resistance: Floats

    @cached_property
    def utilisation(self) -> Floats:
        """Demand over resistance (n, C)."""
        return self.demand / self.resistance

    @cached_property
    def governing(self) -> tuple[tuple[int, ...], int]:
        """Where the utilisation is largest: the item's place in the arrays, and the combination."""
        *item, which = np.unravel_index(int(np.argmax(self.utilisation)), self.utilisation.shape)
        return tuple(map(int, item)), int(which)

    @property
    def per_item(self) -> Floats:
        """The largest utilisation of each item in any combination (n,)."""
        largest: Floats = self.utilisation.max(axis=-1)
        return largest


def resistances(known: Strength | FailureMode, combinations: Sequence[Combination]) -> Floats:
    """A strength's answer to every combination (C,)."""
    return np.array([known.resistance(combination) for combination in combinations])


def allowable_resistances(allowable: float, combinations: Sequence[Combination]) -> Floats:
    """The same for something known only by its allowable (C,)."""
    return np.array([combination.of_allowable(allowable) for combination in combinations])


def by_direction(signed: Floats, up: Floats, down: Floats) -> DemandOverResistance:
    """Signed demands (n, C) against the resistance of their own direction, (C,) each; up is negative."""
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
    """The item and combination with the largest utilisation; `place` is asked with the item's number on every axis."""
    if not np.isfinite(ratios.utilisation).all():
        raise ArithmeticError(f"{title}: a utilisation is not a number")
    item, which = ratios.governing
    return Check(
        link,
        title,
        dimension,
        float(ratios.demand[*item, which]),
        float(np.broadcast_to(ratios.resistance, ratios.demand.shape)[*item, which]),
        float(ratios.utilisation[*item, which]),
        combinations[which].name,
        place(*item),
        note,
    )


def governing_of(checks: Sequence[Check]) -> Check:
    """The worst of several checks of one link; what it did not check stays in the note."""
    per_item = max(checks, key=lambda check: check.utilisation if check.utilisation is not None else -1.0)
    unchecked = [check.note for check in checks if check.utilisation is None and check.note]
    return replace(per_item, note="; ".join(filter(None, [per_item.note, *unchecked])))

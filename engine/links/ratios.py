"""Utilisations of many items at once: one demand over its resistance, or the sum of several."""

from __future__ import annotations

from abc import ABC, abstractmethod
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from engine.common.arrays import Floats, index_of_largest
from engine.common.combination import Combination
from engine.strength import FailureMode, Strength


class Ratios(ABC):
    """Utilisations of n items in C combinations, shape (n, C), or more axes before the last."""

    @property
    @abstractmethod
    def utilisation(self) -> Floats:
        """The utilisations."""

    @cached_property
    def governing(self) -> tuple[tuple[int, ...], int]:
        """Item and combination with the largest utilisation, by their numbers."""
        *item, combination = index_of_largest(self.utilisation)
        return tuple(item), combination

    @property
    def per_item(self) -> Floats:
        """The largest utilisation of each item in any combination, shape (n,)."""
        largest: Floats = self.utilisation.max(axis=-1)
        return largest


@dataclass(frozen=True, eq=False)
class DemandOverResistance(Ratios):
    """One demand over its resistance, both positive; the resistance may have the shape of the combinations alone."""

    demand: Floats
    resistance: Floats

    @cached_property
    def utilisation(self) -> Floats:
        """Demand over resistance."""
        return self.demand / self.resistance

    def at(self, index: tuple[int, ...]) -> tuple[float, float]:
        """Demand and resistance of one item in one combination."""
        return float(self.demand[index]), float(np.broadcast_to(self.resistance, self.demand.shape)[index])


@dataclass(frozen=True, eq=False)
class SumOfRatios(Ratios):
    """Several loads that act together, each over its own resistance: their ratios are added, which is safe.

    `parts` are the loads by name.
    """

    parts: Mapping[str, DemandOverResistance]

    @cached_property
    def utilisation(self) -> Floats:
        """Sum of the ratios."""
        total: Floats = np.sum([part.utilisation for part in self.parts.values()], axis=0)
        return total


def resistances(known: Strength | FailureMode, combinations: Sequence[Combination]) -> Floats:
    """Resistance of a strength in every combination, shape (C,)."""
    return np.array([known.resistance(combination) for combination in combinations])


def allowable_resistances(allowable: float, combinations: Sequence[Combination]) -> Floats:
    """Resistance in every combination of a part known by its allowable alone, shape (C,)."""
    return np.array([combination.of_allowable(allowable) for combination in combinations])


def by_direction(signed: Floats, up: Floats, down: Floats) -> DemandOverResistance:
    """Signed demands (n, C), uplift negative, over the resistance in their own direction, shape (C,) each."""
    return DemandOverResistance(np.abs(signed), np.where(signed < 0, up, down))

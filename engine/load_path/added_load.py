"""The array's share of the loads that members were designed for: dead load and snow, before and after.

Compared are combinations of dead load and snow alone; without snow that of the dead load.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from engine.common.arrays import Bools, Floats, Ints, index_of_largest
from engine.common.combination import Combination
from engine.common.tolerances import SAME_RATIO
from engine.load_path.demands import Demands
from engine.load_path.roof_members import RoofMembers
from engine.loads.interface import DEAD, Loads
from engine.statics.point_loads import PointLoadedBeams

NOTABLE_PART = 0.1
"""A place where a member bent less than this part of its largest moment is not compared: nothing was designed there."""


@dataclass(frozen=True)
class Increase:
    """Moment [N m], load [N] or pressure [Pa] before and after, where it grows most.

    `line` numbers the member and `along` is the place on it [m], the middle of a bay or a support.
    """

    before: float
    after: float
    combination: str
    line: int = 0
    along: float = 0.0

    @property
    def share(self) -> float:
        """Increase over the value before [-]."""
        return self.after / self.before - 1


@dataclass(frozen=True)
class AddedPressure:
    """Load added by the array over its area [Pa]: its weight, and its snow beyond that of the roof, at its level.

    `roof`: dead load and snow of the roof there before; `combination`: where the sum of what is added is largest.
    """

    weight: float
    snow: float
    roof: float
    combination: str


def gravity_combinations(combinations: Sequence[Combination]) -> Ints:
    """Numbers of the combinations of dead load and snow (G,); without snow that of the dead load."""
    durations = np.array([each.duration for each in combinations])
    return np.flatnonzero(durations == ("snow" if "snow" in durations else "permanent"))


def added_pressure(demands: Demands) -> AddedPressure:
    """Weight and snow that the array adds to the roof under it, in the combination in which they are largest."""
    found = []
    for number in gravity_combinations(demands.combinations):
        combination = demands.combinations[number]
        on_modules, on_roof = _snow(demands, combination)
        snow = on_modules - on_roof if on_modules > on_roof * (1 + SAME_RATIO) else 0.0
        found.append(AddedPressure(demands.dead_pressure, snow, demands.job.roof.dead_load + on_roof, combination.name))
    return max(found, key=lambda each: each.snow)


def _snow(demands: Demands, combination: Combination) -> tuple[float, float]:
    """Mean snow on the modules and on the roof below them, over their area [Pa], at the level of the dead load."""
    loads, field, slope = demands.loads, demands.field, np.radians(demands.job.building.slope)
    to_horizontal, modules = np.cos(slope + np.radians(field.attitude.tilt)), np.arange(field.modules)
    at, total = field.outlines, np.zeros(2)
    area = (at.right - at.left) * (at.high - at.low)
    for case in _snow_cases(loads, combination):
        factor = combination.factors[case] / combination.factors[DEAD]
        on_modules = loads.snow(case, modules).sum() * field.area * to_horizontal
        on_roof = (loads.snow_on_roof(case, at) * area).sum() * np.cos(slope)
        total += factor * np.array([on_modules, on_roof])
    on_modules, on_roof = (total / field.covered).tolist()
    return on_modules, on_roof


def _snow_cases(loads: Loads, combination: Combination) -> list[str]:
    return [case for case in loads.snow_cases if case in combination.factors]


def increase_of_moment(members: RoofMembers, combinations: Sequence[Combination]) -> Increase | None:
    """The place, over a support or in a bay, whose moment grows most; None if the spans are not stated."""
    if members.supports is None:
        return None
    which = gravity_combinations(combinations)
    before, after = (_moments(beams, which) for beams in (members.bare, members.loaded))
    notable = before > NOTABLE_PART * before.max(axis=1, keepdims=True)
    places = np.concatenate([members.supports, _middles(members.supports)])
    return _largest(before, after, notable, places, [combinations[number].name for number in which])


def _moments(beams: PointLoadedBeams, which: Ints) -> Floats:
    """Moments over supports, and the largest sagging ones in bays (F, S + B, G) [N m], in combinations `which` (G,)."""
    moments = beams.moments[..., which]
    over = np.abs(moments[:, beams.over_support])
    sagging = np.zeros((len(moments), len(beams.supports) - 1, len(which)))
    line = np.arange(len(moments))[:, None]
    np.maximum.at(sagging, (line, beams.bay[beams.between]), moments[:, beams.between])
    return np.concatenate([over, sagging], axis=1)


def increase_of_load(
    members: RoofMembers, combinations: Sequence[Combination], extent: tuple[float, float]
) -> Increase:
    """The bay of a member whose load grows most; without spans the part of it within the array's `extent` [m]."""
    which = gravity_combinations(combinations)
    edges = np.array(extent) if members.supports is None else members.supports
    bay = np.searchsorted(edges, members.along, side="right") - 1
    inside = (bay >= 0) & (bay < len(edges) - 1)
    before, after = np.zeros((2, len(members.across), len(edges) - 1, len(which)))
    line = np.arange(len(members.across))[:, None]
    np.add.at(before, (line, bay[inside]), members.without_array[:, inside][..., which])
    np.add.at(after, (line, bay[inside]), members.with_array[:, inside][..., which])
    names = [combinations[number].name for number in which]
    return _largest(before, after, before > 0, _middles(edges), names)


def _middles(edges: Floats) -> Floats:
    middles: Floats = (edges[:-1] + edges[1:]) / 2
    return middles


def _largest(before: Floats, after: Floats, counted: Bools, places: Floats, names: Sequence[str]) -> Increase:
    """The largest of the increases (F, K, G) that count."""
    share = np.where(counted, after / np.where(counted, before, 1.0), 0.0)
    line, place, combination = at = index_of_largest(share)
    return Increase(float(before[at]), float(after[at]), names[combination], line, float(places[place]))

"""Which ribs are fastened alike, and how much of the panel each fastening holds."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from engine.common.arrays import Floats, Ints, group_nearby
from engine.project.job import Job
from engine.statics.continuous_beam import UnitForces, UnitLoads, solve_beams

SAME_LEVEL = 1e-6
"""What stands on different ribs, closer than this up the slope, is at one level [m]."""


@dataclass(frozen=True, eq=False)
class RibGroup:
    """Ribs (n,) fastened alike: at `y` (S,) [m], levels `at` (S,) of the slope; each holds the panel from `low` to `high` (S,) [m]."""

    ribs: Ints
    at: Ints
    y: Floats
    low: Floats
    high: Floats

    def shares(self, loads: UnitLoads) -> Floats:
        """What each fastening of the continuous rib bears of each load (S, L)."""
        shares: Floats = solve_beams(self.y[None], loads).reactions[0]
        return shares

    @cached_property
    def share_of_load(self) -> Floats:
        """What each fastening bears of a force of 1 spread evenly over each one's stretch (S, S)."""
        return self.shares(UnitForces(self.low[None], self.high[None]))


def group_ribs(job: Job) -> tuple[Floats, tuple[RibGroup, ...]]:
    """The levels (F,) [m] at which the slope's ribs are fastened, and the ribs, those fastened alike together.

    Ribs at a hip's foot that are too short for two fastenings are left out.
    """
    rib_groups = [
        (ribs, top, job.roof.supports(job.building, top=top, close=close)) for ribs, top, close in _kinds(job)
    ]
    rib_groups = [(ribs, top, y) for ribs, top, y in rib_groups if len(y) > 1]
    every = np.concatenate([y for _, _, y in rib_groups])
    first, level = group_nearby(every, SAME_LEVEL)
    at = np.split(level, np.cumsum([len(y) for _, _, y in rib_groups])[:-1])
    return every[first], tuple(_held(ribs, which, y, top) for (ribs, top, y), which in zip(rib_groups, at, strict=True))


def _kinds(job: Job) -> Iterator[tuple[Ints, float, bool]]:
    """Ribs that reach as far up the slope and lie alike to the rakes' edge strips: which, how far [m], whether in one."""
    building, ribs = job.building, job.roof.ribs(job.building)
    strip = 0.0 if building.roof_shape == "hip" else job.roof.edge_strip or 0.0
    top, close = building.top_at(ribs), np.minimum(ribs, building.length - ribs) < strip - SAME_LEVEL
    _, first, kind = np.unique(
        np.column_stack([np.rint(top / SAME_LEVEL), close]), axis=0, return_index=True, return_inverse=True
    )
    for number, rib in enumerate(first):
        yield np.flatnonzero(kind == number), float(top[rib]), bool(close[rib])


def _held(ribs: Ints, at: Ints, y: Floats, top: float) -> RibGroup:
    middles = (y[:-1] + y[1:]) / 2
    return RibGroup(ribs, at, y, np.concatenate([[0.0], middles]), np.concatenate([middles, [top]]))

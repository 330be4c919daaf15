"""Groups of ribs with the same fastening positions, and the stretch of panel that each fastening holds."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from functools import cached_property

import numpy as np

from engine.common.arrays import Floats, Ints, group_nearby
from engine.common.tolerances import SAME_LEVEL
from engine.project.job import Job
from engine.statics.continuous_beam import UnitCouples, UnitForces, UnitLoads, solve_beams


@dataclass(eq=False)
class RibGroup:
    """Ribs (n,) fastened at the same positions `y` (S,) [m], which are the slope's `levels` (S,).

    Each fastening holds the panel from `low` to `high` (S,) [m], half-way to its neighbours.
    """

    ribs: Ints
    levels: Ints
    y: Floats
    low: Floats
    high: Floats
    _at: dict[bytes, tuple[Floats, Floats]] = field(default_factory=dict)

    @classmethod
    def of_positions(cls, ribs: Ints, levels: Ints, y: Floats, top: float) -> RibGroup:
        """The group of ribs fastened at `y` (S,) [m] whose panels reach from the eave to `top` [m]."""
        middles = (y[:-1] + y[1:]) / 2
        return cls(ribs, levels, y, np.concatenate([[0.0], middles]), np.concatenate([middles, [top]]))

    def reactions_to(self, loads: UnitLoads) -> Floats:
        """Reaction of each fastening of the continuous rib to each unit load (S, L) [-]."""
        reactions: Floats = solve_beams(self.y[None], loads).reactions[0]
        return reactions

    def reactions_at(self, y: Floats) -> tuple[Floats, Floats]:
        """Reactions to a unit force and to a unit couple at each of `y` (L,) [m], (S, L) each; found once for these."""
        key = y.tobytes()
        if key not in self._at:
            self._at[key] = self.reactions_to(UnitForces(y[None], y[None])), self.reactions_to(UnitCouples(y[None]))
        return self._at[key]

    @cached_property
    def share_of_load(self) -> Floats:
        """Reaction of each fastening to a force of 1 spread evenly over each fastening's stretch (S, S) [-]."""
        return self.reactions_to(UnitForces(self.low[None], self.high[None]))


def group_ribs(job: Job) -> tuple[Floats, tuple[RibGroup, ...]]:
    """Levels (F,) [m] at which any rib of the slope is fastened, and the ribs grouped by fastening positions.

    Ribs too short for two fastenings, at the foot of a hip, are left out.
    """
    candidates = [
        (ribs, top, job.roof.supports(job.building, top=top, close=in_edge_strip))
        for ribs, top, in_edge_strip in _ribs_of_equal_length(job)
    ]
    groups = [(ribs, top, y) for ribs, top, y in candidates if len(y) > 1]
    every_y = np.concatenate([y for _, _, y in groups])
    first, level = group_nearby(every_y, SAME_LEVEL)
    levels = np.split(level, np.cumsum([len(y) for _, _, y in groups])[:-1])
    return every_y[first], tuple(
        RibGroup.of_positions(ribs, own_levels, y, top)
        for (ribs, top, y), own_levels in zip(groups, levels, strict=True)
    )


def _ribs_of_equal_length(job: Job) -> Iterator[tuple[Ints, float, bool]]:
    """Ribs grouped by length and edge strip: rib numbers, length up the slope [m], and if in the strip at a rake."""
    building, ribs = job.building, job.ribs
    strip = 0.0 if building.roof_shape == "hip" else job.roof.edge_strip or 0.0
    top = building.top_at(ribs)
    in_edge_strip = np.minimum(ribs, building.length - ribs) < strip - SAME_LEVEL
    _, first, group = np.unique(2 * np.rint(top / SAME_LEVEL) + in_edge_strip, return_index=True, return_inverse=True)
    for number, rib in enumerate(first):
        yield np.flatnonzero(group == number), float(top[rib]), bool(in_edge_strip[rib])

"""The roof area tributary to each fastening, the wind on it, and the part of it under modules."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np

from engine.common.arrays import Bools, Floats, Ints
from engine.loads.interface import Loads
from engine.mounting.layout import Field, Rectangles
from engine.project.job import Job
from engine.statics.rib_supports import RibGroup

Stretches = tuple[Floats, Floats]
"""Starts and ends of stretches along one axis (n,) [m]."""


@dataclass(frozen=True, eq=False)
class TributaryAreas:
    """Roof area tributary to each fastening of ribs Q at levels F.

    `left`, `right` (Q,) and `low`, `high` (Q, F) [m] are its sides; it is empty where a rib is not fastened.
    `rib_groups`: ribs with the same fastening positions.
    """

    rib_groups: tuple[RibGroup, ...]
    left: Floats
    right: Floats
    low: Floats
    high: Floats

    @classmethod
    def of_roof(cls, job: Job, ribs: Floats, rib_groups: tuple[RibGroup, ...], levels: int) -> TributaryAreas:
        """The tributary areas of a roof."""
        return cls(rib_groups, *strips_of_ribs(job, ribs), *_stretches(rib_groups, (len(ribs), levels)))

    @cached_property
    def is_fastened(self) -> Bools:
        """True if a rib is fastened at a level (Q, F)."""
        return self.high > self.low

    @cached_property
    def area(self) -> Floats:
        """Area of each (Q, F) [m²]."""
        return (self.right - self.left)[:, None] * (self.high - self.low)

    @cached_property
    def rectangles(self) -> Rectangles:
        """The areas of the fastenings that exist (n,), in the order of `is_fastened`."""
        sides = self.left[:, None], self.low, self.right[:, None], self.high
        return Rectangles(*(np.broadcast_to(side, self.low.shape)[self.is_fastened] for side in sides))

    def covered_fraction(self, field: Field) -> Floats:
        """The part of each area under a field's modules (Q, F) [-], 0 where a rib is not fastened."""
        shared, (along, rows) = np.zeros_like(self.low), _shared_along(field.outlines, self.left, self.right)
        for group in self.rib_groups:
            up_slope = _shared_length(rows, (group.low, group.high))
            shared[np.ix_(group.ribs, group.levels)] = along[group.ribs] @ up_slope.T
        return shared / np.where(self.is_fastened, self.area, 1.0)

    def wind(self, loads: Loads, case: str, area: Floats | None = None) -> Floats:
        """Wind of a case on each area without the array (Q, F) [N].

        `area` (n,) [m²] is the effective wind area of each fastening that exists, None for its own.
        """
        return self.spread(loads.cladding_pressure(case, self.rectangles, area=area)) * self.area

    def spread(self, values: Floats) -> Floats:
        """Values of the fastenings that exist (n,) at their ribs and levels (Q, F), 0 elsewhere."""
        spread = np.zeros(self.is_fastened.shape)
        spread[self.is_fastened] = values
        return spread


def _stretches(rib_groups: tuple[RibGroup, ...], shape: tuple[int, int]) -> tuple[Floats, Floats]:
    """Lower and upper end of the stretch that each fastening holds, (Q, F) each [m]; both 0 if there is none."""
    low, high = np.zeros(shape), np.zeros(shape)
    for group in rib_groups:
        low[np.ix_(group.ribs, group.levels)] = group.low
        high[np.ix_(group.ribs, group.levels)] = group.high
    return low, high


def strips_of_ribs(job: Job, ribs: Floats) -> tuple[Floats, Floats]:
    """Left and right end of each rib's strip of roof, (Q,) each [m]."""
    half = job.roof.rib_spacing / 2
    return np.maximum(ribs - half, 0.0), np.minimum(ribs + half, job.building.length)


def _shared_along(outlines: Rectangles, left: Floats, right: Floats) -> tuple[Floats, Stretches]:
    """Length along x that each rib's strip shares with the modules of each row (Q, rows) [m], and the rows' stretches.

    The area of modules over a tributary rectangle is the sum over modules of the length shared along x times the length
    shared up the slope, as matrix products: modules beside and above each other share the one or the other.

    Args:
        outlines: the modules (n,).
        left: left ends of the ribs' strips (Q,) [m].
        right: their right ends (Q,) [m].
    """
    (columns, column), (rows, row) = _different(outlines.left, outlines.right), _different(outlines.low, outlines.high)
    modules = np.zeros((len(columns[0]), len(rows[0])))
    np.add.at(modules, (column, row), 1.0)
    return _shared_length(columns, (left, right)) @ modules, rows


def _different(starts: Floats, ends: Floats) -> tuple[Stretches, Ints]:
    """The different stretches of some of one length: their starts and ends, and the number of each one's own (n,)."""
    _, first, number = np.unique(starts, return_index=True, return_inverse=True)
    return (starts[first], ends[first]), number


def _shared_length(some: Stretches, others: Stretches) -> Floats:
    """Length that each of `others` shares with each of `some` (others, some) [m]."""
    (start, end), (other_start, other_end) = some, others
    shared: Floats = np.minimum(end, other_end[:, None]) - np.maximum(start, other_start[:, None])
    return np.maximum(shared, 0.0)

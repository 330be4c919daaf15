"""The roof area tributary to each fastening, and the part of it under modules."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from engine.common.arrays import Bools, Floats
from engine.mounting.layout import Field, Rectangles
from engine.project.job import Job
from engine.statics.rib_supports import RibGroup


@dataclass(frozen=True, eq=False)
class TributaryAreas:
    """Roof area tributary to each fastening of ribs Q at levels F.

    `is_fastened` (Q, F); `area` (Q, F) [m²] and `covered_fraction` (Q, F) [-], 0 where a rib is not fastened;
    `rectangles` (n,) are those of the fastenings that exist, in the order of `is_fastened`.
    """

    is_fastened: Bools
    area: Floats
    covered_fraction: Floats
    rectangles: Rectangles

    @classmethod
    def of_roof(
        cls, job: Job, field: Field, ribs: Floats, rib_groups: tuple[RibGroup, ...], levels: int
    ) -> TributaryAreas:
        """The tributary areas of a roof, and the part of each under the field's modules."""
        shape = (len(ribs), levels)
        low, high = _stretches(rib_groups, shape)
        left, right = strips_of_ribs(job, ribs)
        is_fastened = high > low
        area = (right - left)[:, None] * (high - low)
        covered_fraction = _overlap(field.outlines, left, right, low, high) / np.where(is_fastened, area, 1.0)
        sides = left[:, None], low, right[:, None], high
        rectangles = Rectangles(*(np.broadcast_to(side, shape)[is_fastened] for side in sides))
        return cls(is_fastened, area, covered_fraction, rectangles)

    @property
    def uncovered_fraction(self) -> Floats:
        """Part of each area beside the modules (Q, F) [-]."""
        return 1 - self.covered_fraction

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


def _overlap(outlines: Rectangles, left: Floats, right: Floats, low: Floats, high: Floats) -> Floats:
    """Area of modules over each tributary rectangle (Q, F) [m²].

    It is the sum over modules of the length shared along x times the length shared up the slope. Ribs with the same
    stretches are treated together, as one matrix product.

    Args:
        outlines: the modules (n,).
        left: left ends of the ribs' strips (Q,) [m].
        right: their right ends (Q,) [m].
        low: lower ends of the fastenings' stretches (Q, F) [m].
        high: their upper ends (Q, F) [m].
    """
    along = np.maximum(np.minimum(outlines.right, right[:, None]) - np.maximum(outlines.left, left[:, None]), 0.0)
    shared = np.zeros_like(low)
    different, group = np.unique(np.concatenate([low, high], axis=1), axis=0, return_inverse=True)
    for number, stretches in enumerate(different):
        bottom, top = np.split(stretches[:, None], 2)
        up_slope = np.maximum(np.minimum(outlines.high, top) - np.maximum(outlines.low, bottom), 0.0)
        shared[group == number] = along[group == number] @ up_slope.T
    return shared

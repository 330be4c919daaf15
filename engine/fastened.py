"""Which ribs are fastened alike, and how much of the panel each fastening holds."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from engine.arrays import Floats, Ints, grouped
from engine.job import Job

SAME_LEVEL = 1e-6
"""What stands on different ribs, closer than this up the slope, is at one level [m]."""


@dataclass(frozen=True, eq=False)
class Fastened:
    """Ribs (n,) fastened alike: at `y` (S,) [m], levels `at` (S,) of the slope; each holds the panel from `low` to `high` (S,) [m]."""

    ribs: Ints
    at: Ints
    y: Floats
    low: Floats
    high: Floats


def fastened(job: Job) -> tuple[Floats, tuple[Fastened, ...]]:
    """The levels (F,) [m] at which the slope's ribs are fastened, and the ribs, those fastened alike together."""
    roof, building = job.roof, job.building
    ribs = roof.ribs(building)
    near_rake = np.minimum(ribs, building.length - ribs) < (roof.edge_strip or 0.0) - SAME_LEVEL
    alike = [(np.flatnonzero(near_rake == close), roof.supports(building, close=close)) for close in (False, True)]
    present = [(these, y) for these, y in alike if len(these)]
    first, level = grouped(np.concatenate([y for _, y in present]), SAME_LEVEL)
    levels = np.concatenate([y for _, y in present])[first]
    at = np.split(level, np.cumsum([len(y) for _, y in present])[:-1])
    return levels, tuple(_held(these, which, y, building.slope_length) for (these, y), which in zip(present, at, strict=True))


def _held(ribs: Ints, at: Ints, y: Floats, top: float) -> Fastened:
    middles = (y[:-1] + y[1:]) / 2
    return Fastened(ribs, at, y, np.concatenate([[0.0], middles]), np.concatenate([middles, [top]]))

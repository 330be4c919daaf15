"""Exposed modules of an array, ASCE 7 §29.4.3 and §29.4.4: those near an edge that the wind can reach.

The clause from memory: an edge is exposed when it is more than half the roof height from the
roof's edge and the next module is more than a stated gap away. Two readings are offered: the safe
one counts every edge of every group and takes Lp as the module's longer side, the literal one
keeps the half roof height and takes Lp as its size up the slope.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from itertools import product
from math import hypot
from typing import NamedTuple

import numpy as np

from engine.common.arrays import Bools, Floats, Ints
from engine.common.calculation import CalculationStep, Recorder, Term
from engine.loads.asce7.net_pressure import UP
from engine.loads.asce7.references import memory
from engine.mounting.layout import Field
from engine.project.building import Building
from engine.units import FOOT

REACH = 1.5
"""Modules within this many Lp of an exposed edge are exposed."""

FLUSH_GAP = 4 * FOOT
"""Modules farther apart than this belong to different groups [m], §29.4.4."""

EDGE_FACTOR = 1.5

TOUCH = 1e-9


class _Side(NamedTuple):
    """One side of every module, seen as a step on the grid of rows and columns."""

    up: int
    along: int


SIDES: Mapping[str, _Side] = {"low": _Side(-1, 0), "high": _Side(1, 0), "left": _Side(0, -1), "right": _Side(0, 1)}


@dataclass(frozen=True, eq=False)
class _Grid:
    """The field's rows and columns: who is there, how large modules are and how far apart (up, along) [m]."""

    row: Ints
    column: Ints
    present: Bools
    size: tuple[float, float]
    pitch: tuple[float, float]

    @classmethod
    def of(cls, field: Field) -> _Grid:
        row, column = field.row - field.row.min(), field.column - field.column.min()
        present = np.zeros((int(row.max()) + 1, int(column.max()) + 1), dtype=bool)
        present[row, column] = True
        shapes = field.outlines
        size = (float(shapes.high[0] - shapes.low[0]), float(shapes.right[0] - shapes.left[0]))
        return cls(row, column, present, size, (_pitch(shapes.low, row, size[0]), _pitch(shapes.left, column, size[1])))


def _pitch(starts: Floats, number: Ints, size: float) -> float:
    steps = int(number.max())
    return float(starts.max() - starts.min()) / steps if steps else size


def group_gap(highest: float) -> float:
    """Clear distance beyond which tilted modules belong to different groups: max(4 h2, 4 ft), §29.4.3; h2 [m]."""
    return max(4 * highest, FLUSH_GAP)


def edge_factor(case: str, exposed: Bools) -> Floats:
    """γE, §29.4.3 and §29.4.4: 1.5 for uplift on an exposed module, 1.0 otherwise and for downward load."""
    return np.where(exposed & (case == UP), EDGE_FACTOR, 1.0)


def record_edge_factor(edition: str, number: str, gamma_e: Term, record: Recorder) -> None:
    """The step that states γE; that it is 1.5 was seen, what counts as exposed is from memory."""
    words = "uplift near an exposed edge" if gamma_e.value > 1 else "away from exposed edges, or downward"
    record(CalculationStep("gammaE", words, gamma_e, "", {}, memory(edition, number)))


def exposed_modules(field: Field, building: Building, *, literal: bool, gap: float) -> Bools:
    """Whether any part of each module lies within 1.5 Lp of an exposed edge.

    Args:
        field: the modules, on a regular grid with some left out.
        building: for the roof's edges and mean height h.
        literal: the literal reading instead of the safe one.
        gap: clear distance beyond which modules are no neighbours [m].
    """
    grid = _Grid.of(field)
    reach = REACH * (field.attitude.chord if literal else field.attitude.long_side)
    found = np.zeros(grid.present.shape, dtype=bool)
    for name, side in SIDES.items():
        free = _free(grid, side, gap)
        if literal:
            free[grid.row, grid.column] &= _from_roof_edge(field, building, name) > building.mean_roof_height / 2
        if free.any():
            found |= _near(grid, side, free, reach)
    return found[grid.row, grid.column]


def _free(grid: _Grid, side: _Side, gap: float) -> Bools:
    """Modules whose side has no neighbour within the gap, on the grid."""
    axis = 0 if side.up else 1
    steps = int((gap + grid.size[axis] + TOUCH) / grid.pitch[axis])
    around = np.pad(grid.present, steps)
    covered = np.zeros_like(grid.present)
    for step in range(1, steps + 1):
        covered |= _seen(around, grid.present.shape, steps + step * side.up, steps + step * side.along)
    return grid.present & ~covered


def _near(grid: _Grid, side: _Side, free: Bools, reach: float) -> Bools:
    """Modules within reach [m] of a free side, on the grid."""
    rows, columns = (int((reach + size) / pitch) + 1 for size, pitch in zip(grid.size, grid.pitch, strict=True))
    around = np.pad(free, ((rows, rows), (columns, columns)))
    across = [(up, _apart(grid, 0, up, side.up)) for up in range(-rows, rows + 1)]
    sideways = [(along, _apart(grid, 1, along, side.along)) for along in range(-columns, columns + 1)]
    found = np.zeros_like(free)
    for (up, y), (along, x) in product(across, sideways):
        if hypot(x, y) <= reach + TOUCH:
            found |= _seen(around, free.shape, rows + up, columns + along)
    return found


def _apart(grid: _Grid, axis: int, steps: int, outward: int) -> float:
    """Along one axis, from a module to a side of the module some steps away [m].

    `outward` says which side: 1 the far one, -1 the near one, 0 a side that spans the module.
    """
    size, start = grid.size[axis], steps * grid.pitch[axis]
    first, last = (start + size if outward == 1 else start), (start if outward == -1 else start + size)
    return max(0.0, first - size, -last)


def _seen(around: Bools, shape: tuple[int, ...], row: int, column: int) -> Bools:
    """A window of a padded grid."""
    return around[row : row + shape[0], column : column + shape[1]]


def _from_roof_edge(field: Field, building: Building, side: str) -> Floats:
    """Horizontal distance of each module's side from the roof's edge that it faces [m]; a ridge is no edge."""
    cosine = float(np.cos(np.radians(building.slope)))
    at = field.outlines
    distances: Mapping[str, Floats] = {
        "low": at.low * cosine,
        "high": building.width - at.high * cosine,
        "left": at.left,
        "right": building.length - at.right,
    }
    return distances[side]

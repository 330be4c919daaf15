"""Exposed modules of an array, ASCE 7 §29.4.3 and §29.4.4: modules near an exposed edge of the array.

An edge is exposed if it is more than half the roof height from the edge of the roof and more than a given gap from the
next module (from memory). There are two readings. The safe one counts every edge of every group and takes Lp as the
longer side of the module. The literal one keeps the half roof height and takes Lp as the module's size up the slope.
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
from engine.common.tolerances import SAME_LENGTH
from engine.loads.asce7.net_pressure import UP
from engine.loads.asce7.references import memory
from engine.mounting.layout import Field
from engine.project.building import Building
from engine.units import FOOT

REACH = 1.5
"""Width of the exposed strip along an exposed edge, in Lp."""

FLUSH_GAP = 4 * FOOT
"""Largest clear distance between modules of one group [m], §29.4.4."""

EDGE_FACTOR = 1.5


class _Side(NamedTuple):
    """One side of a module, as a step on the grid of rows and columns."""

    up: int
    along: int


SIDES: Mapping[str, _Side] = {"low": _Side(-1, 0), "high": _Side(1, 0), "left": _Side(0, -1), "right": _Side(0, 1)}


@dataclass(frozen=True, eq=False)
class _Grid:
    """The field as a grid: row and column of each module, cells with one, module size and pitch (up, along) [m]."""

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
    """Largest clear distance between tilted modules of one group: max(4 h2, 4 ft), §29.4.3; `highest` is h2 [m]."""
    return max(4 * highest, FLUSH_GAP)


def edge_factor(case: str, exposed: Bools) -> Floats:
    """γE, §29.4.3 and §29.4.4: 1.5 for uplift on an exposed module, 1.0 otherwise and for downward load."""
    return np.where(exposed & (case == UP), EDGE_FACTOR, 1.0)


def record_edge_factor(edition: str, number: str, gamma_e: Term, record: Recorder) -> None:
    """Record γE; its value was seen, the definition of an exposed edge is from memory."""
    meaning = "uplift near an exposed edge" if gamma_e.value > 1 else "away from exposed edges, or down load"
    record(CalculationStep("gammaE", meaning, gamma_e, "", {}, memory(edition, number)))


def exposed_modules(field: Field, building: Building, *, literal: bool, gap: float) -> Bools:
    """True for each module with any part within 1.5 Lp of an exposed edge (M,).

    Args:
        field: the modules, on a regular grid that may have empty cells.
        building: gives the edges of the roof and the mean height h.
        literal: use the literal reading instead of the safe one.
        gap: largest clear distance between neighbours [m].
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
    """Grid of the modules with no neighbour within the gap on this side."""
    axis = 0 if side.up else 1
    steps = int((gap + grid.size[axis] + SAME_LENGTH) / grid.pitch[axis])
    around = np.pad(grid.present, steps)
    covered = np.zeros_like(grid.present)
    for step in range(1, steps + 1):
        covered |= _window(around, grid.present.shape, steps + step * side.up, steps + step * side.along)
    return grid.present & ~covered


def _near(grid: _Grid, side: _Side, free: Bools, reach: float) -> Bools:
    """Grid of the modules within reach [m] of a free side."""
    rows, columns = (int((reach + size) / pitch) + 1 for size, pitch in zip(grid.size, grid.pitch, strict=True))
    around = np.pad(free, ((rows, rows), (columns, columns)))
    across = [(up, _apart(grid, 0, up, side.up)) for up in range(-rows, rows + 1)]
    sideways = [(along, _apart(grid, 1, along, side.along)) for along in range(-columns, columns + 1)]
    found = np.zeros_like(free)
    for (up, y), (along, x) in product(across, sideways):
        if hypot(x, y) <= reach + SAME_LENGTH:
            found |= _window(around, free.shape, rows + up, columns + along)
    return found


def _apart(grid: _Grid, axis: int, steps: int, outward: int) -> float:
    """Distance along one axis from a module to a side of the module `steps` away [m].

    Args:
        grid: the grid.
        axis: 0 up, 1 along.
        steps: grid steps to the other module.
        outward: the side: 1 its far one, -1 its near one, 0 a side parallel to the axis.
    """
    size, start = grid.size[axis], steps * grid.pitch[axis]
    first, last = (start + size if outward == 1 else start), (start if outward == -1 else start + size)
    return max(0.0, first - size, -last)


def _window(around: Bools, shape: tuple[int, ...], row: int, column: int) -> Bools:
    """A part of a padded grid, from a row and a column."""
    return around[row : row + shape[0], column : column + shape[1]]


def _from_roof_edge(field: Field, building: Building, side: str) -> Floats:
    """Horizontal distance of one side of each module from the roof edge on that side (M,) [m]; a ridge is no edge."""
    cosine = float(np.cos(np.radians(building.slope)))
    at = field.outlines
    distances: Mapping[str, Floats] = {
        "low": at.low * cosine,
        "high": building.width - at.high * cosine,
        "left": at.left,
        "right": building.length - at.right,
    }
    return distances[side]

"""Exposed edges of an array, ASCE 7 §29.4.4: which modules stand near a free edge of their group.

The clause from memory: an edge is exposed when it is more than half the roof height from the
roof's edge and the next array or module is more than 4 ft away. Two readings are offered.
"""

from __future__ import annotations

import numpy as np

from engine.arrays import Bools, Floats
from engine.layout import Field
from engine.roof import Building
from engine.standards.asce7.zones import edges
from engine.layout import Rectangles


def exposed_modules(field: Field, building: Building, literal: bool, gap_limit: float) -> Bools:
    """Whether each module lies within 1.5 Lp of an exposed edge.

    The safe reading counts every edge of every group, and takes Lp as the longer side; the
    literal one counts edges more than 0.5 h from the roof's edge, and takes Lp up the slope.

    Args:
        field: the modules, on a regular grid with some left out.
        building: for the roof's edges and mean height h.
        literal: the literal reading.
        gap_limit: clear distance beyond which modules are no neighbours [m].
    """
    reach = 1.5 * (field.attitude.chord if literal else field.attitude.long_side)
    pitch_x, pitch_y = _pitch(field.outlines.left), _pitch(field.outlines.low)
    width = float(field.outlines.right[0] - field.outlines.left[0])
    depth = float(field.outlines.high[0] - field.outlines.low[0])
    near_x, near_y = pitch_x - width <= gap_limit, pitch_y - depth <= gap_limit
    columns, rows = int(reach / pitch_x) + 2, int(reach / pitch_y) + 2

    present = np.zeros((field.row.max() + 1 + 2 * rows, field.column.max() + 1 + 2 * columns), dtype=bool)
    present[field.row + rows, field.column + columns] = True
    free = ~present & _counts(field, building, present.shape, (rows, columns), (pitch_y, pitch_x), literal)
    found = np.zeros(field.modules, dtype=bool)
    for up in range(-rows, rows + 1):
        for along in range(-columns, columns + 1):
            if (up, along) == (0, 0):
                continue
            away = np.hypot(max(abs(along) - 1, 0) * pitch_x, max(abs(up) - 1, 0) * pitch_y)
            if away < reach:
                found |= free[field.row + rows + up, field.column + columns + along]
    if not (near_x and near_y):
        found |= True
    return found


def _pitch(starts: Floats) -> float:
    """Centre to centre along one axis [m]; a single line has no neighbours."""
    places = np.unique(np.rint(starts * 1e5) / 1e5)
    return float(np.diff(places).min()) if len(places) > 1 else 1e3


def _counts(
    field: Field, building: Building, shape: tuple[int, int], margin: tuple[int, int], pitch: tuple[float, float], literal: bool
) -> Bools:
    """Whether an empty cell's side toward the array counts as an exposed edge."""
    if not literal:
        return np.ones(shape, dtype=bool)
    row, column = np.indices(shape)
    left = field.outlines.left.min() - field.column.min() * pitch[1] + (column - margin[1]) * pitch[1]
    low = field.outlines.low.min() - field.row.min() * pitch[0] + (row - margin[0]) * pitch[0]
    cells = Rectangles(left.ravel(), low.ravel(), left.ravel() + pitch[1], low.ravel() + pitch[0])
    at = edges(building, cells)
    length, width = building.length, building.width
    x = np.minimum(cells.right, length - cells.left)
    cosine = np.cos(np.radians(building.slope))
    y = np.minimum(cells.high * cosine, width - cells.low * cosine)
    farthest = np.minimum(np.maximum(at.rake, x), np.maximum(at.along_plan, y))
    counted: Bools = (farthest > 0.5 * building.mean_roof_height).reshape(shape)
    return counted

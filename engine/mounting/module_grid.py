"""Laying modules out in a grid on the roof, around what must stay clear."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from engine.common.arrays import Bools, Ints
from engine.mounting.interface import Refusal
from engine.mounting.layout import Attitude, Field, Rectangles
from engine.project.array import KeepClear
from engine.project.job import Job
from engine.units import both


@dataclass(frozen=True)
class Grid:
    """A regular grid of module shadows: size and pitch along x and y [m]; the last row may be short."""

    width: float
    depth: float
    pitch_x: float
    pitch_y: float
    columns: int
    count: int


def in_landscape(job: Job) -> tuple[Grid, Attitude]:
    """The array as it is counted, parallel to the roof."""
    module, array = job.module, job.array
    pitch = module.length + array.gap, module.width + array.gap
    grid = Grid(module.length, module.width, *pitch, array.columns, array.rows * array.columns)
    return grid, Attitude(0.0, array.height_above_roof, array.height_above_roof, module.width, module.length)


def place(
    job: Job, grid: Grid, attitude: Attitude, longest_run: float | None, *, by_column: bool = False
) -> Field | Refusal:
    """Lay the grid from the array's origin, leave out what would touch a keep-clear area.

    Args:
        job: the job.
        grid: the modules' shadows.
        attitude: how they stand.
        longest_run: longest unbroken length [m]; None where it may be any.
        by_column: modules share points up the slope, column by column, rather than along a row.

    Returns:
        The field, or a refusal that says what length it needs and what there is.
    """
    number = np.arange(grid.count)
    row, column = number // grid.columns, number % grid.columns
    left = np.asarray(job.array.origin[0] + column * grid.pitch_x, dtype=np.float64)
    low = np.asarray(job.array.origin[1] + row * grid.pitch_y, dtype=np.float64)
    outlines = Rectangles(left, low, left + grid.width, low + grid.depth)
    misfit = _misfit(job, outlines)
    if misfit:
        return misfit
    kept = ~_touching(outlines, job.array.keep_clear)
    if not kept.any():
        return Refusal("no_room", "the keep-clear areas leave room for no module")
    outlines = Rectangles(left[kept], low[kept], outlines.right[kept], outlines.high[kept])
    row, column = row[kept], column[kept]
    line, within, pitch = (column, row, grid.pitch_y) if by_column else (row, column, grid.pitch_x)
    run = _runs(line, within, None if longest_run is None else max(1, int((longest_run + 1e-9) / pitch)))
    return Field(outlines, row, column, run, attitude, job.module.area, job.array.gap, int(grid.count - kept.sum()))


def _misfit(job: Job, outlines: Rectangles) -> Refusal | None:
    for needed, available, way in (
        (float(outlines.right.max()), job.building.length, "along the eave"),
        (float(outlines.high.max()), job.building.slope_length, "up the slope"),
    ):
        if needed > available + 1e-6:
            there = both(needed, "length"), both(available, "length")
            return Refusal("does_not_fit", f"the array reaches {there[0]} {way} and the roof ends at {there[1]}")
    return _over_the_hip(job, outlines) if job.building.roof_shape == "hip" else None


def _over_the_hip(job: Job, outlines: Rectangles) -> Refusal | None:
    """Modules lie on the slope, over panels long enough for two fastenings."""
    building, roof = job.building, job.roof
    beyond = -min(float(away.min()) for away in building.from_sides(outlines.left, outlines.right, outlines.high))
    if beyond > 1e-6:
        return Refusal(
            "does_not_fit", f"the array reaches {both(beyond, 'length')} beyond the hip; it has to lie on one slope"
        )
    sides = np.array([outlines.left.min(), outlines.right.max()])
    shortest, first_minimum = (
        float(building.top_at(sides).min()),
        roof.first_support + roof.last_support + roof.support_spacing / 4,
    )
    if shortest < first_minimum:
        words = f"panels under the array end {both(shortest, 'length')} from the eave at the hip"
        return Refusal(
            "does_not_fit",
            f"{words}, too short for two fastenings ({both(first_minimum, 'length')}): keep farther from its foot",
        )
    return None


def _touching(outlines: Rectangles, areas: tuple[KeepClear, ...]) -> Bools:
    touching = np.zeros(len(outlines), dtype=bool)
    for area in areas:
        (x, y), (dx, dy) = area.at, area.size
        touching |= (outlines.left < x + dx) & (outlines.right > x) & (outlines.low < y + dy) & (outlines.high > y)
    return touching


def _runs(line: Ints, place_in_line: Ints, longest: int | None) -> Ints:
    """Number the unbroken sequences along each line, none longer than `longest` modules."""
    order = np.lexsort((place_in_line, line))
    breaks = np.diff(line[order], prepend=-1).astype(bool) | (np.diff(place_in_line[order], prepend=-2) != 1)
    sequence = np.cumsum(breaks) - 1
    if longest is not None:
        start = np.flatnonzero(breaks)[sequence]
        length = np.bincount(sequence)[sequence]
        pieces = -(-length // longest)
        within = (np.arange(len(order)) - start) * pieces // length
        sequence = np.cumsum(np.diff(sequence, prepend=-1).astype(bool) | np.diff(within, prepend=-1).astype(bool)) - 1
    run = np.empty(len(line), dtype=np.int64)
    run[order] = sequence
    return run

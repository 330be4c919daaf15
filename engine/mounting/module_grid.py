"""Placing modules in a grid on the roof, without those that touch keep-clear areas or bridge end laps."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from engine.common.arrays import Bools, Ints
from engine.common.tolerances import SAME_LENGTH, SUMMED_LENGTH
from engine.mounting.interface import Refusal
from engine.mounting.layout import Attitude, Field, Rectangles
from engine.project.array import KeepClear
from engine.project.job import Job
from engine.units import both


@dataclass(frozen=True)
class Grid:
    """A regular grid of modules projected on the roof: size and pitch along x and y [m]; the last row may be short."""

    width: float
    depth: float
    pitch_x: float
    pitch_y: float
    columns: int
    count: int


def in_landscape(job: Job) -> tuple[Grid, Attitude]:
    """Grid and attitude of the array in landscape with the stated rows and columns, parallel to the roof."""
    module, array = job.module, job.array
    pitch = module.length + array.gap, module.width + array.gap
    grid = Grid(module.length, module.width, *pitch, array.columns, array.rows * array.columns)
    return grid, Attitude(0.0, array.height_above_roof, array.height_above_roof, module.width, module.length)


def place_modules(
    job: Job, grid: Grid, attitude: Attitude, longest_run: float | None, *, by_column: bool = False
) -> Field | Refusal:
    """Field of the grid placed at the array's origin, or a refusal if it does not fit on the roof.

    Modules that would touch a keep-clear area or bridge an end lap are left out.

    Args:
        job: the job.
        grid: the modules projected on the roof.
        attitude: tilt and height of the modules.
        longest_run: longest unbroken length [m]; None for no limit.
        by_column: modules share attachments up the slope, column by column, instead of along a row.
    """
    number = np.arange(grid.count)
    row, column = number // grid.columns, number % grid.columns
    left = np.asarray(job.array.origin[0] + column * grid.pitch_x, dtype=np.float64)
    low = np.asarray(job.array.origin[1] + row * grid.pitch_y, dtype=np.float64)
    outlines = Rectangles(left, low, left + grid.width, low + grid.depth)
    misfit = _misfit(job, grid, outlines)
    if misfit:
        return misfit
    touching, bridging = _touching(outlines, job.array.keep_clear), _bridging(job, outlines)
    kept = ~(touching | bridging)
    if not kept.any():
        return _no_room(bridging)
    outlines = Rectangles(left[kept], low[kept], outlines.right[kept], outlines.high[kept])
    row, column = row[kept], column[kept]
    line, within, pitch = (column, row, grid.pitch_y) if by_column else (row, column, grid.pitch_x)
    return Field(
        outlines,
        row,
        column,
        run=_runs(line, within, _most_in_run(longest_run, pitch)),
        attitude=attitude,
        area=job.module.area,
        gap=job.array.gap,
        lost=int(touching.sum()),
        bridging=int((bridging & ~touching).sum()),
    )


def _misfit(job: Job, grid: Grid, outlines: Rectangles) -> Refusal | None:
    """The refusal if modules reach beyond the roof's end, its ridge or a hip; else None."""
    building, (x, y) = job.building, job.array.origin
    end, top = float(outlines.right.max()), float(outlines.high.max())
    if end > building.length + SUMMED_LENGTH:
        fitting = int((building.length - x - grid.width) / grid.pitch_x + 1)
        fewer = f"Reduce the modules in a row from {grid.columns} to {fitting}"
        cure = fewer if fitting > 0 else "Move the origin toward the left rake"
        return _beyond(end, building.length, "along the eave", cure)
    if top > building.slope_length + SUMMED_LENGTH:
        fitting = int((building.slope_length - y - grid.depth) / grid.pitch_y + 1)
        fewer = f"Reduce the rows from {math.ceil(grid.count / grid.columns)} to {fitting}"
        cure = fewer if fitting > 0 else "Move the origin toward the eave"
        return _beyond(top, building.slope_length, "up the slope", cure)
    return _over_the_hip(job, outlines) if building.roof_shape == "hip" else None


def _beyond(array_end: float, roof_end: float, direction: str, cure: str) -> Refusal:
    """The refusal of an array that reaches farther than the roof, both measured from the roof's corner [m]."""
    return Refusal(
        "does_not_fit",
        f"The array reaches {both(array_end, 'length')} {direction}; the roof ends at {both(roof_end, 'length')}. "
        f"{cure}",
    )


def _over_the_hip(job: Job, outlines: Rectangles) -> Refusal | None:
    """The refusal if modules reach beyond a hip, or lie over panels too short for two fastenings; else None."""
    building, roof = job.building, job.roof
    beyond = -min(float(away.min()) for away in building.from_sides(outlines.left, outlines.right, outlines.high))
    if beyond > SUMMED_LENGTH:
        return Refusal(
            "does_not_fit",
            f"The array reaches {both(beyond, 'length')} beyond the hip; it must lie on one slope. "
            "Move it away from the hip, or use fewer modules",
        )
    sides = np.array([outlines.left.min(), outlines.right.max()])
    shortest = float(building.top_at(sides).min())
    needed = roof.first_support + roof.last_support + roof.support_spacing / 4
    if shortest < needed:
        return Refusal(
            "does_not_fit",
            f"Panels under the array end at the hip, {both(shortest, 'length')} from the eave; two fastenings need "
            f"{both(needed, 'length')}. Move the array away from the foot of the hip",
        )
    return None


def _touching(outlines: Rectangles, areas: tuple[KeepClear, ...]) -> Bools:
    """True for each module that overlaps a keep-clear area (n,)."""
    touching = np.zeros(len(outlines), dtype=bool)
    for area in areas:
        (x, y), (dx, dy) = area.at, area.size
        touching |= (outlines.left < x + dx) & (outlines.right > x) & (outlines.low < y + dy) & (outlines.high > y)
    return touching


def _bridging(job: Job, outlines: Rectangles) -> Bools:
    """True for each module that would tie the panels on both sides of an end lap together (n,).

    Neighbouring rows share clamps and attachments in the gap between them: a lap in the gap is bridged too.
    """
    bridging, gap = np.zeros(len(outlines), dtype=bool), job.array.gap
    for lap in job.roof.end_laps:
        bridging |= (outlines.low - gap < lap - SAME_LENGTH) & (outlines.high + gap > lap + SAME_LENGTH)
    return bridging


def _no_room(bridging: Bools) -> Refusal:
    """The refusal if no module is left."""
    if bridging.all():
        return Refusal("no_room", "Every module would bridge an end lap. Move the array up or down the slope")
    return Refusal(
        "no_room", "Every module touches a keep-clear area. Move the array's origin, or make the areas smaller"
    )


def _most_in_run(longest: float | None, pitch: float) -> int | None:
    """Most modules in an unbroken length of at most `longest` [m], at least one; None for no limit."""
    return None if longest is None else max(1, int((longest + SAME_LENGTH) / pitch))


def _runs(line: Ints, place_in_line: Ints, longest: int | None) -> Ints:
    """Number of the unbroken sequence that each module belongs to (n,), none longer than `longest` modules.

    Longer sequences are divided into pieces that differ by at most one module.

    Args:
        line: number of each module's row, or column (n,).
        place_in_line: number of the module in it (n,).
        longest: most modules in one sequence; None for no limit.
    """
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

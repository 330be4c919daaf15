"""Placing the modules of all arrays in grids on the roof, without those that touch keep-clear areas or end laps."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from engine.common.arrays import Bools, Floats, Ints, group_nearby
from engine.common.sentences import capitalized
from engine.common.tolerances import SAME_LENGTH, SAME_PLACE, SET_OUT, SUMMED_LENGTH
from engine.mounting.interface import Miss, Refusal
from engine.mounting.joined_arrays import joined_arrays, size_as_counted
from engine.mounting.layout import Attitude, Field, Rectangles
from engine.mounting.neighbours import clear_distances, pairs_within, unbroken
from engine.project.array import LANDSCAPE, PORTRAIT, Array, KeepClear
from engine.project.job import Job
from engine.units import both


@dataclass(frozen=True)
class Grid:
    """A regular grid of modules projected on the roof: their orientation, size and pitch along x and y [m]."""

    orientation: str
    width: float
    depth: float
    pitch_x: float
    pitch_y: float


def in_landscape(job: Job) -> tuple[Grid, Attitude]:
    """Grid and attitude of modules in landscape, parallel to the roof."""
    module, gap, top = job.module, job.module_gap, job.height_above_roof
    grid = Grid(LANDSCAPE, module.length, module.width, module.length + gap, module.width + gap)
    return grid, Attitude(0.0, top, top, module.width, module.length)


def in_portrait(job: Job) -> tuple[Grid, Attitude]:
    """Grid and attitude of modules in portrait, parallel to the roof."""
    module, gap, top = job.module, job.module_gap, job.height_above_roof
    grid = Grid(PORTRAIT, module.width, module.length, module.width + gap, module.length + gap)
    return grid, Attitude(0.0, top, top, module.length, module.length)


def place_modules(
    job: Job, grid: Grid, attitude: Attitude, longest_run: float | None, *, by_column: bool = False
) -> Field | Refusal:
    """Field of all arrays placed in a grid from their origins, or a refusal if they do not fit on the roof.

    Modules that would touch a keep-clear area or bridge an end lap are left out.

    Args:
        job: the job.
        grid: the modules projected on the roof.
        attitude: tilt and height of the modules.
        longest_run: longest unbroken length [m]; None for no limit.
        by_column: modules share attachments up the slope, column by column, instead of along a row.
    """
    placed = _placed(job, grid)
    at = placed.outlines
    misfit = _misfit(job, grid, placed) or _overlap(placed, job.module_gap)
    if misfit:
        return misfit
    touching, bridging = _touching(at, job.keep_clear), _bridging(job, at)
    kept = ~(touching | bridging)
    if not kept.any():
        return _no_room(bridging)
    placed = placed.subset(kept)
    return Field(
        placed.outlines,
        placed.row,
        placed.column,
        run=_runs(placed.outlines, grid, longest_run, by_column=by_column),
        attitude=attitude,
        area=job.module.area,
        gap=job.module_gap,
        lost=int(touching.sum()),
        bridging=int((bridging & ~touching).sum()),
        array=placed.array,
        arrays=placed.arrays,
    )


def outlines_in(job: Job, grid: Grid) -> Rectangles:
    """The outlines of all modules in a grid, whether they fit on the roof or not."""
    return _placed(job, grid).outlines


def _placed(job: Job, grid: Grid) -> _Placed:
    return _in_order([_place(job, array, grid) for array in joined_arrays(job.arrays, job.module)])


@dataclass(frozen=True, eq=False)
class _Placed:
    """Modules (M,) as placed: outlines, number of row and column in their array, and which of `arrays` it is."""

    outlines: Rectangles
    row: Ints
    column: Ints
    array: Ints
    arrays: tuple[Array, ...]

    def subset(self, chosen: Bools | Ints) -> _Placed:
        """The chosen modules, in the order of their numbers."""
        return _Placed(
            self.outlines.subset(chosen), self.row[chosen], self.column[chosen], self.array[chosen], self.arrays
        )


def _place(job: Job, array: Array, grid: Grid) -> _Placed:
    """The modules of one array: its bands between aisles one after another, each with its modules in the grid."""
    bands, (_, low), first_row = list[tuple[Floats, Floats, Ints, Ints]](), array.origin, 0
    gap_x, gap_y = grid.pitch_x - grid.width, grid.pitch_y - grid.depth
    for rows, aisle_above in array.row_bands:
        left, first_column, highest = array.origin[0], 0, 0
        for columns, aisle_right in array.column_bands:
            across, number = _counted(job, array, grid, rows, columns)
            row, column = number // across, number % across
            x = np.asarray(left + column * grid.pitch_x, dtype=np.float64)
            y = np.asarray(low + row * grid.pitch_y, dtype=np.float64)
            bands.append((x, y, first_row + row, first_column + column))
            left += across * grid.pitch_x - gap_x + aisle_right
            first_column, highest = first_column + across, max(highest, int(row[-1]) + 1)
        low += highest * grid.pitch_y - gap_y + aisle_above
        first_row += highest
    xs, ys, in_row, in_column = zip(*bands, strict=True)
    x, y, row, column = np.concatenate(xs), np.concatenate(ys), np.concatenate(in_row), np.concatenate(in_column)
    outlines = Rectangles(x, y, x + grid.width, y + grid.depth)
    kept = np.setdiff1d(np.arange(len(x)), _left_out(job, array, grid, outlines, row, column))
    return _Placed(outlines, row, column, np.zeros(len(x), dtype=np.int64), (array,)).subset(kept)


def _counted(job: Job, array: Array, grid: Grid, rows: int, columns: int) -> tuple[int, Ints]:
    """Modules in a row of the grid, and numbers of all modules, for rows and columns as the array counts them.

    Modules that are turned keep their number and, to the nearest column, the width; the last row may be short.
    """
    number = np.arange(rows * columns)
    if array.orientation == grid.orientation:
        return columns, number
    counted = size_as_counted(array, job.module)[0] + job.module_gap
    return max(1, round(columns * counted / grid.pitch_x)), number


def _left_out(job: Job, array: Array, grid: Grid, at: Rectangles, row: Ints, column: Ints) -> list[int]:
    """Numbers of the modules at the places that the array leaves out.

    Where the method turns the modules these are the nearest to the middle of each place, each once.
    """
    if array.orientation == grid.orientation:
        places, own = set(array.leave_out), zip((row + 1).tolist(), (column + 1).tolist(), strict=True)
        return [number for number, place in enumerate(own) if place in places]
    wide, deep = size_as_counted(array, job.module)
    found = list[int]()
    distance_x, distance_y = (at.left + at.right) / 2, (at.low + at.high) / 2
    for up, along in array.leave_out:
        x = array.origin[0] + (along - 0.5) * (wide + array.gap)
        y = array.origin[1] + (up - 0.5) * (deep + array.gap)
        distance = np.hypot(distance_x - x, distance_y - y)
        distance[found] = np.inf
        found.append(int(np.argmin(distance.round(6))))
    return found


def _in_order(placed: list[_Placed]) -> _Placed:
    """The modules of all arrays, row after row from the eave, each from the left rake."""
    sides = ("left", "low", "right", "high")
    outlines = Rectangles(*(np.concatenate([getattr(each.outlines, side) for each in placed]) for side in sides))
    row, column = (np.concatenate([getattr(each, name) for each in placed]) for name in ("row", "column"))
    array = np.repeat(np.arange(len(placed)), [len(each.row) for each in placed])
    together = _Placed(outlines, row, column, array, tuple(each.arrays[0] for each in placed))
    _, level = group_nearby(outlines.low, SAME_PLACE)
    return together.subset(np.lexsort((outlines.left, level)))


def _overlap(placed: _Placed, gap: float) -> Refusal | None:
    """The refusal if modules of two arrays overlap, or lie closer than the gap between modules; else None."""
    if len(placed.arrays) == 1:
        return None
    at = placed.outlines
    one, other = pairs_within(at, gap)
    along, up = clear_distances(at.subset(one), at.subset(other))
    too_close = (placed.array[one] < placed.array[other]) & (np.maximum(along, up) < gap - SET_OUT)
    if not too_close.any():
        return None
    first, second = (placed.arrays[int(of[too_close][0])] for of in (placed.array[one], placed.array[other]))
    pair = too_close & (placed.array[one] == placed.array[one][too_close][0])
    pair &= placed.array[other] == placed.array[other][too_close][0]
    sideways, upward = gap - float(along[pair].min()), gap - float(up[pair].min())
    distance = both(min(sideways, upward), "length")
    direction = "along the eave" if sideways < upward else "up or down the slope"
    return Refusal(
        "arrays_overlap",
        f"{capitalized(first.title)} and {second.title} overlap, or lie closer than the gap between modules, with the "
        f"modules as this method places them. Move one of them {distance} {direction}",
    )


def _misfit(job: Job, grid: Grid, placed: _Placed) -> Refusal | None:
    """The refusal if modules reach beyond the roof's end, its ridge or a hip; else None."""
    building, at = job.building, placed.outlines
    farthest, highest = int(np.argmax(at.right)), int(np.argmax(at.high))
    if at.right[farthest] > building.length + SUMMED_LENGTH:
        array = placed.arrays[placed.array[farthest]]
        fitting = int((building.length - array.origin[0] - grid.width) / grid.pitch_x + 1)
        given = int(placed.column[placed.array == placed.array[farthest]].max()) + 1
        fewer = f"Reduce the modules in a row from {given} to {fitting}"
        cure = fewer if fitting > 0 else "Move the origin toward the left rake"
        return _beyond(array, float(at.right[farthest]), building.length, "along the eave", cure)
    if at.high[highest] > building.slope_length + SUMMED_LENGTH:
        array = placed.arrays[placed.array[highest]]
        fitting = int((building.slope_length - array.origin[1] - grid.depth) / grid.pitch_y + 1)
        given = int(placed.row[placed.array == placed.array[highest]].max()) + 1
        fewer = f"Reduce the rows from {given} to {fitting}"
        cure = fewer if fitting > 0 else "Move the origin toward the eave"
        return _beyond(array, float(at.high[highest]), building.slope_length, "up the slope", cure)
    return _over_the_hip(job, at) if building.roof_shape == "hip" else None


def _beyond(array: Array, array_end: float, roof_end: float, direction: str, cure: str) -> Refusal:
    """The refusal of an array that reaches farther than the roof, both measured from the roof's corner [m]."""
    return Refusal(
        "does_not_fit",
        f"{capitalized(array.title)} reaches {both(array_end, 'length')} {direction}; the roof ends at "
        f"{both(roof_end, 'length')}. {cure}",
        Miss(array_end, array_end, roof_end, up_slope=direction == "up the slope"),
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
    bridging, gap = np.zeros(len(outlines), dtype=bool), job.module_gap
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


def _runs(at: Rectangles, grid: Grid, longest: float | None, *, by_column: bool) -> Ints:
    """Number of the unbroken sequence of modules that each belongs to (n,), along rows or columns.

    Sequences longer than `longest` [m], but of more than one module, are divided into pieces that differ by at most one
    module.
    """
    line, start, end = (at.left, at.low, at.high) if by_column else (at.low, at.left, at.right)
    pitch, size = (grid.pitch_y, grid.depth) if by_column else (grid.pitch_x, grid.width)
    _, line_number = group_nearby(line, SAME_PLACE)
    sequence = unbroken(line_number, start, end, pitch - size + SET_OUT)
    if longest is None:
        return sequence
    most = max(1, int((longest + SAME_LENGTH) / pitch))
    order = np.lexsort((start, sequence))
    in_sequence = np.bincount(sequence)
    first = np.cumsum(in_sequence) - in_sequence
    place = np.empty(len(order), dtype=np.int64)
    place[order] = np.arange(len(order)) - first[sequence[order]]
    piece = place * -(-in_sequence // most)[sequence] // in_sequence[sequence]
    return np.unique(sequence * len(at) + piece, return_inverse=True)[1]

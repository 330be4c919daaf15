"""Ways out by fewer modules: whole rows or columns left out at one edge of the array, or modules at its corners."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import product

import numpy as np

from engine.common.arrays import Bools
from engine.common.tolerances import SAME_DECIMALS
from engine.comparison.compare import Column, Comparison
from engine.design.design import Design
from engine.mounting.joined_arrays import size_as_counted
from engine.project.array import Array
from engine.project.module import Module
from engine.scenario.changes import REMOVED, Steps, value_at
from engine.scenario.read import Scenario
from engine.studies.ways_out.as_written import place_as_written
from engine.studies.ways_out.proposal import Proposal

MOST_LEFT_OUT = 3
"""Most rows or columns that are left out together: a smaller array is another design (judgement)."""

LARGEST_BLOCK = 2
"""Most modules along each side of a block that is left out at a corner (judgement)."""

CHECK_STRINGS = "and check the strings"
NAME = "left out"


def fewer_rows_or_columns(column: Column, comparison: Comparison) -> Iterator[Proposal]:
    """One to three rows or columns less, at either end, those with the fewest modules first."""
    job = comparison.scenario.job
    plain = [array for array in job.arrays if not (array.leave_out or array.aisles)]  # else a number names another row
    edges = [edge for array in plain for edge in _edges(array, job.module)]
    choices = [(edge, count) for count in range(1, MOST_LEFT_OUT + 1) for edge in edges]
    for edge, count in sorted(choices, key=lambda choice: choice[0].modules * choice[1]):
        kept = getattr(edge.array, edge.key) - count
        if kept >= 1:
            yield _without(comparison.scenario, edge, count, kept)


def _edges(array: Array, module: Module) -> tuple[_Edge, ...]:
    """The four edges of an array."""
    along, up = (size + array.gap for size in size_as_counted(array, module))
    return (
        _Edge(array, "highest row", "rows", array.columns),
        _Edge(array, "lowest row", "rows", array.columns, up=up),
        _Edge(array, "column at the right", "columns", array.rows),
        _Edge(array, "column at the left", "columns", array.rows, along=along),
    )


@dataclass(frozen=True)
class _Edge:
    """One edge of the array: its name, the number it is counted in, the modules of one row or column there.

    `along` and `up` [m]: how far the array's corner moves for each row or column that is left out.
    """

    array: Array
    name: str
    key: str
    modules: int
    along: float = 0.0
    up: float = 0.0


def _without(scenario: Scenario, edge: _Edge, count: int, kept: int) -> Proposal:
    """The array without some rows or columns at an edge; the others stay where they are."""
    array = edge.array
    changes: dict[Steps, object] = {array.steps(edge.key): kept}
    if edge.along or edge.up:
        moved = array.moved(count * edge.along, count * edge.up)
        changes[array.steps("origin")] = [place_as_written(scenario, place) for place in moved.origin]
    name = edge.name if count == 1 else f"{count} {edge.name.replace(edge.key[:-1], edge.key)}"
    name += f" of {array.title}" if len(scenario.job.arrays) > 1 else ""
    return Proposal(f"leave out the {name}, {CHECK_STRINGS}", changes)


def fewer_corners(column: Column, comparison: Comparison) -> Iterator[Proposal]:
    """A module less at the corner nearest to what is over, or at every corner; then blocks of two by two.

    None where there are several arrays: each has corners of its own.
    """
    design = column.design
    if design is None or len(design.job.arrays) > 1:
        return
    corners = list(product(("left", "right"), ("lowest", "highest")))
    for size in range(1, LARGEST_BLOCK + 1):
        blocks = {corner: _block(design, *corner, size) for corner in corners}
        nearest = _nearest(design, corners)
        what = "the module" if size == 1 else f"{size} x {size} modules"
        one = f"leave out {what} at the {nearest[0]} end of the {nearest[1]} row, {CHECK_STRINGS}"
        yield _clear(one, comparison.scenario, design, [blocks[nearest]])
        yield _clear(f"leave out {what} at every corner, {CHECK_STRINGS}", comparison.scenario, design, blocks.values())


def _block(design: Design, side: str, row: str, size: int) -> Bools:
    """The modules (M,) of a block at one end of the lowest or the highest row, which may be shorter than the others."""
    left, low = (edge.round(SAME_DECIMALS) for edge in (design.field.outlines.left, design.field.outlines.low))
    rows = np.unique(low)[:size] if row == "lowest" else np.unique(low)[-size:]
    in_row = np.unique(left[low == (rows[0] if row == "lowest" else rows[-1])])
    columns = in_row[:size] if side == "left" else in_row[-size:]
    return np.asarray(np.isin(left, columns) & np.isin(low, rows))


def _nearest(design: Design, corners: Sequence[tuple[str, str]]) -> tuple[str, str]:
    """The corner of the array that is nearest to the place of the controlling check."""
    at, check = design.field.outlines, design.decisive

    def distance(corner: tuple[str, str]) -> float:
        if check is None or check.place.x is None or check.place.y is None:
            return 0.0
        x = at.left.min() if corner[0] == "left" else at.right.max()
        y = at.low.min() if corner[1] == "lowest" else at.high.max()
        return float(np.hypot(x - check.place.x, y - check.place.y))

    return min(corners, key=distance)


def _clear(text: str, scenario: Scenario, design: Design, blocks: Iterable[Bools]) -> Proposal:
    """The array without some blocks of modules: an area to keep clear inside each, beside those of the file."""
    (array,) = scenario.job.arrays
    stated = value_at(scenario.written, array.steps("keep_clear"))
    areas = [] if stated is REMOVED else list(stated)
    return Proposal(text, {array.steps("keep_clear"): [*areas, *(_area(scenario, design, block) for block in blocks)]})


def _area(scenario: Scenario, design: Design, block: Bools) -> dict[str, object]:
    """An area that touches the modules (M,) of a block and, where the array is set out inaccurately, no others."""
    at = design.field.outlines
    left, low = float(at.left[block].min()), float(at.low[block].min())
    right, high = float(at.right[block].max()), float(at.high[block].max())
    half_x, half_y = (float(size[block].min()) / 2 for size in (at.right - at.left, at.high - at.low))
    corner, size = (left + half_x / 2, low + half_y / 2), (right - left - half_x, high - low - half_y)
    placed = {"at": corner, "size": size}
    return {key: [place_as_written(scenario, each) for each in value] for key, value in placed.items()} | {"name": NAME}

"""Ways out by fewer modules: whole rows or columns left out at one edge of the array."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from engine.comparison.compare import Column, Comparison
from engine.mounting.joined_arrays import size_as_counted
from engine.project.array import Array
from engine.project.module import Module
from engine.scenario.changes import Steps
from engine.scenario.read import Scenario
from engine.studies.ways_out.move import written_like
from engine.studies.ways_out.proposal import Proposal

MOST_LEFT_OUT = 3
"""Most rows or columns that are left out together: a smaller array is another design (judgement)."""


def fewer_modules(column: Column, comparison: Comparison) -> Iterator[Proposal]:
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
        changes[array.steps("origin")] = [written_like(scenario, place) for place in moved.origin]
    name = edge.name if count == 1 else f"{count} {edge.name.replace(edge.key[:-1], edge.key)}"
    name += f" of {array.title}" if len(scenario.job.arrays) > 1 else ""
    return Proposal(f"leave out the {name}, and check the strings", changes)

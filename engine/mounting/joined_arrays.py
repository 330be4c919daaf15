"""Arrays that lie on one grid, one module gap apart, joined into one before they are laid out."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import permutations

from engine.common.tolerances import SET_OUT
from engine.project.array import LANDSCAPE, Array
from engine.project.module import Module


def joined_arrays(arrays: Sequence[Array], module: Module) -> tuple[Array, ...]:
    """The arrays in the order of their names; those that together fill a rectangle of one grid are one array.

    A method that turns the modules keeps the width of an array: if a row is divided into two arrays without an aisle,
    it must have the modules of the whole row.
    """
    found = sorted(arrays, key=lambda array: array.title)
    while pair := next(_continued(found, module), None):
        first, second, direction = pair
        others = [array for array in found if array is not first and array is not second]
        found = sorted([*others, _joined(first, second, direction)], key=lambda array: array.title)
    return tuple(found)


def size_as_counted(array: Array, module: Module) -> tuple[float, float]:
    """A module's size along the eave and up the slope as the array counts it [m]."""
    return (module.length, module.width) if array.orientation == LANDSCAPE else (module.width, module.length)


def _continued(arrays: Sequence[Array], module: Module) -> Iterator[tuple[Array, Array, str]]:
    """Each array with another that continues its rows or its columns, and which of the two it continues."""
    for first, second in permutations(arrays, 2):
        if first.orientation != second.orientation or first.setbacks != second.setbacks:
            continue
        if first.aisles or second.aisles:
            continue
        wide, deep = (size + first.gap for size in size_as_counted(first, module))
        (x, y), (end, top) = first.origin, second.origin
        right, up = end - x, top - y
        if first.rows == second.rows and _same(right, first.columns * wide) and _same(up, 0.0):
            yield first, second, "rows"
        if first.columns == second.columns and _same(up, first.rows * deep) and _same(right, 0.0):
            yield first, second, "columns"


def _same(distance: float, other: float) -> bool:
    return abs(distance - other) <= SET_OUT


def _joined(first: Array, second: Array, direction: str) -> Array:
    """The array of two, the second of which continues the rows or the columns of the first."""
    right, up = (first.columns, 0) if direction == "rows" else (0, first.rows)
    moved = ((row + up, column + right) for row, column in second.leave_out)
    names = sorted(filter(None, (getattr(array, "name", "") for array in (first, second))))
    return first.model_copy(
        update={
            "name": " + ".join(names),
            "rows": second.rows + up,
            "columns": second.columns + right,
            "leave_out": (*first.leave_out, *moved),
            "keep_clear": first.keep_clear + second.keep_clear,
        }
    )

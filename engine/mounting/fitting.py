"""Laying a method on a job: if it fits, and the smallest change of one array with which it can; no load is needed."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import cast

import numpy as np

from engine.mounting.interface import Alternative, MountingMethod, Refusal
from engine.mounting.layout import SpacingPattern
from engine.mounting.layouts import Layouts
from engine.mounting.places import no_places
from engine.project.array import Array
from engine.project.job import Job
from engine.schema import InputTable


@dataclass(frozen=True)
class ArrayChange:
    """A change of one array: moved along the eave and up the slope [m], and so many rows and columns less."""

    right: float = 0.0
    up: float = 0.0
    fewer_rows: int = 0
    fewer_columns: int = 0

    def of(self, array: Array) -> Array:
        """The array with the change."""
        changed = array.moved(self.right, self.up)
        rows, columns = array.rows - self.fewer_rows, array.columns - self.fewer_columns
        return changed.model_copy(update={"rows": rows, "columns": columns})


Cure = ArrayChange | Alternative
"""A change with which a refused method fits: of an array, or of the method's options."""


def refusal(job: Job, method: MountingMethod) -> Refusal | None:
    """Why a method cannot be laid on a job, even with attachments at every place; None if it can."""
    refused = no_places(job) or method.refusal_of_roof(job)
    if refused:
        return refused
    field = method.place_modules(job)
    if isinstance(field, Refusal):
        return field
    strip = np.zeros(field.modules, dtype=np.int64)
    spacings = method.candidate_spacings(job, field)
    closest = spacings[-1]  # they are tried with the fewest attachments first
    layout = Layouts(job, method, field, strip).lay_out(
        SpacingPattern((closest,), strip, ("",)), field.minimum_attachments
    )
    return layout if isinstance(layout, Refusal) else None


def smallest_cure(job: Job, method: MountingMethod, number: int, step: float) -> Cure | None:
    """The smallest change with which a refused method can be laid; None if none is found.

    First an array is moved by whole steps within one spacing of ribs and purlins, along the axis of the miss, then
    along the other. Then the method's members are turned, and at last the array loses rows or columns.

    Args:
        job: the job.
        method: the method, which is refused.
        number: number of the array that may change, from 0.
        step: the step [m].
    """
    refused = refusal(job, method)
    if refused is None or method.refusal_of_roof(job) or no_places(job):
        return None
    array = job.arrays[number]

    def fitting(changes: Iterator[ArrayChange]) -> ArrayChange | None:
        return next((change for change in changes if refusal(_changed(job, number, change), method) is None), None)

    moved = fitting(_moves(job, array, refused, step))
    return moved or _turned(job, method) or fitting(_fewer(array, refused))


def _moves(job: Job, array: Array, refused: Refusal, step: float) -> Iterator[ArrayChange]:
    """Moves by whole steps, the shortest first; none is shorter than the miss, and none leaves the roof."""
    miss, (x, y) = refused.miss, array.origin
    up_first = miss is not None and miss.up_slope
    for up_slope in (up_first, not up_first):
        shortest = abs(miss.move) if miss and up_slope == up_first else 0.0
        first = max(1, math.ceil(round(shortest / step, 6)))
        pitch = job.roof.support_spacing if up_slope else job.roof.rib_spacing
        for count in range(first, first + math.ceil(pitch / step)):
            for distance in (count * step, -count * step):
                change = ArrayChange(up=distance) if up_slope else ArrayChange(right=distance)
                if x + change.right >= 0 and y + change.up >= 0:
                    yield change


def _turned(job: Job, method: MountingMethod) -> Alternative | None:
    """The method's option to run its members the other way, if it fits with that."""
    turns = (alternative for alternative in method.alternatives() if alternative.kind == "turn")
    return next((turn for turn in turns if refusal(job, _with_options(method, turn)) is None), None)


def _with_options(method: MountingMethod, alternative: Alternative) -> MountingMethod:
    assert isinstance(method, InputTable)
    changed = method.model_copy(update=dict(alternative.options))
    return cast(MountingMethod, changed)


def _fewer(array: Array, refused: Refusal) -> Iterator[ArrayChange]:
    """Fewer rows where the array reaches too far up the slope, else fewer columns."""
    if refused.miss is None or refused.code != "does_not_fit":
        return
    if refused.miss.up_slope:
        yield from (ArrayChange(fewer_rows=count) for count in range(1, array.rows - array.min_rows + 1))
    else:
        yield from (ArrayChange(fewer_columns=count) for count in range(1, array.columns - array.min_columns + 1))


def _changed(job: Job, number: int, change: ArrayChange) -> Job:
    arrays = (change.of(array) if at == number else array for at, array in enumerate(job.arrays))
    return replace(job, arrays=tuple(arrays))

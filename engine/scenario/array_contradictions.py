"""Fields of the arrays that do not fit together, or not with the roof and the hardware."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from engine.common.errors import Problem
from engine.common.tolerances import SAME_LENGTH
from engine.project.array import Array, NamedArray
from engine.project.building import Building
from engine.project.job import Job
from engine.units import both


def array_contradictions(job: Job) -> Iterator[Problem]:
    """All problems of fields of the arrays that do not fit together."""
    yield from _height(job)
    yield from _names(job)
    for array in job.arrays:
        yield from _same_as_first(array, job.arrays[0])
        yield from _setbacks(array, job.building)
        yield from _keep_clear(array, job.building)
        yield from _aisles(array)
        yield from _leave_out(array)


def _path(array: Array, *steps: str) -> str:
    return ".".join([*array.steps(steps[0]), *steps[1:]])


def _height(job: Job) -> Iterator[Problem]:
    """The height of the modules, over that of the attachments or of their own frame."""
    height, attachment, frame = job.height_above_roof, job.hardware.attachment_height, job.module.thickness
    limit, name, reason = (attachment, "hardware.attachment_height", "modules are above attachments")
    if attachment <= frame:
        limit, name, reason = frame, "module.thickness", "the frame would be in the roof"
    yield from at_least(_path(job.arrays[0], "height_above_roof"), height, limit, name, reason)


def at_least(path: str, given: float, limit: float, name: str, reason: str) -> Iterator[Problem]:
    """The problem if a length [m] is below a limit [m], which has a name and a reason."""
    if given < limit - SAME_LENGTH:
        given_text, limit_text = both(given, "small length"), both(limit, "small length")
        yield Problem(path, f"{given_text} given; allowed is at least {name}, {limit_text}: {reason}")


def _names(job: Job) -> Iterator[Problem]:
    counted = Counter(array.name for array in job.arrays if isinstance(array, NamedArray))
    for name in (name for name, number in counted.items() if number > 1):
        yield Problem(f"arrays.{name}.name", f"'{name}' given to {counted[name]} arrays; give each array its own name")


def _same_as_first(array: Array, first: Array) -> Iterator[Problem]:
    """Gap and height are one for all arrays of a slope: they share attachments and hardware."""
    for key in ("gap", "height_above_roof"):
        own, other = getattr(array, key), getattr(first, key)
        if abs(own - other) > SAME_LENGTH:
            given = f"{both(own, 'small length')} given; allowed is {both(other, 'small length')}"
            yield Problem(
                _path(array, key),
                f"{given} as for {first.title}: the arrays of a slope have one {key.replace('_', ' ')}",
            )


def _setbacks(array: Array, building: Building) -> Iterator[Problem]:
    setbacks, depth, length = array.setbacks, building.slope_length, building.length
    if setbacks.eave + setbacks.ridge >= depth:
        slope = f"with {_path(array, 'setbacks', 'ridge')} it takes the whole slope of {both(depth, 'length')}"
        yield Problem(_path(array, "setbacks", "eave"), f"{both(setbacks.eave, 'length')} given; {slope}")
    if 2 * setbacks.rakes >= length:
        roof = f"from both sides it takes the whole length of {both(length, 'length')}"
        yield Problem(_path(array, "setbacks", "rakes"), f"{both(setbacks.rakes, 'length')} given; {roof}")


def _keep_clear(array: Array, building: Building) -> Iterator[Problem]:
    length, depth = building.length, building.slope_length
    for number, area in enumerate(array.keep_clear, 1):
        if area.at[0] >= length or area.at[1] >= depth:
            roof = f"{both(length, 'length')} along the eave and {both(depth, 'length')} up the slope"
            yield Problem(_path(array, "keep_clear", str(number), "at"), f"outside the roof, which is {roof}")


def _aisles(array: Array) -> Iterator[Problem]:
    """Each aisle lies between two rows or between two columns, and only one lies there."""
    seen = set[tuple[str, int]]()
    for number, aisle in enumerate(array.aisles, 1):
        path = _path(array, "aisles", str(number))
        stated = {"after_row": aisle.after_row, "after_column": aisle.after_column}
        given = [(key, after) for key, after in stated.items() if after is not None]
        if len(given) != 1:
            yield Problem(
                path, f"{'both' if given else 'neither'} of after_row and after_column given; give one of them"
            )
            continue
        ((key, after),) = given
        what = key.removeprefix("after_")
        there_are = array.rows if what == "row" else array.columns
        if after >= there_are:
            allowed = f"1 to {there_are - 1}" if there_are > 1 else f"none in an array of one {what}"
            yield Problem(f"{path}.{key}", f"{after} given; allowed is {allowed}")
        if (key, after) in seen:
            yield Problem(f"{path}.{key}", f"{after} given twice; give each aisle once")
        seen.add((key, after))


def _leave_out(array: Array) -> Iterator[Problem]:
    path = _path(array, "leave_out")
    for row, column in array.leave_out:
        if row > array.rows or column > array.columns:
            allowed = f"rows 1 to {array.rows} and columns 1 to {array.columns}"
            yield Problem(path, f'"{row}.{column}" given; allowed are {allowed}')
    if len(array.leave_out) >= array.rows * array.columns:
        yield Problem(path, f"all {len(array.leave_out)} places given; at least one module must stay")

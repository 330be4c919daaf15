"""Several slopes of one building in one file: the tables of each slope, as if it had a file of its own.

`[[slopes]]` names each slope. Its own `building` and `roof` override the file's, key by key; `[[arrays]]` say on which
slope they lie. Every slope is designed by itself: no seam, clip or panel is shared over a ridge.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping
from typing import Annotated, Any

from engine.common.errors import Problem
from engine.common.sentences import listed
from engine.project.building import Building
from engine.project.roof import Roof
from engine.scenario.changes import REMOVED, Steps, names_in, value_at
from engine.scenario.validation import validated
from engine.schema import InputTable, Name, as_given, input_field, shortened
from engine.schema.introspection import nested_table

SLOPES, ARRAYS, NAME, SLOPE = "slopes", "arrays", "name", "slope"

OWN: Mapping[str, type[InputTable]] = {"building": Building, "roof": Roof}
"""The tables that a slope may override."""

MAX_SLOPES = 20


class SlopeName(InputTable):
    """The name of one slope."""

    name: Annotated[str, Name()] = input_field(description="name of the slope, to which arrays refer")


def slope_names(written: Mapping[str, Any]) -> tuple[str, ...]:
    """Names of the slopes of a file; none where it describes a single one."""
    return tuple(names_in(written.get(SLOPES)))


def shown_slope(written: Mapping[str, Any], name: str) -> str:
    """The name if the file has such a slope, else that of the first one; empty for a file without slopes."""
    names = slope_names(written)
    return name if name in names else next(iter(names), "")


def slope_problems(written: Mapping[str, Any]) -> Iterator[Problem]:
    """Everything that is wrong with the list of slopes itself, and with the slopes that arrays name."""
    slopes = written[SLOPES]
    if not isinstance(slopes, list | tuple) or not 0 < len(slopes) <= MAX_SLOPES:
        found = f"{len(slopes)} slopes" if isinstance(slopes, list | tuple) else as_given(slopes)
        yield Problem(SLOPES, f"{found} given; write 1 to {MAX_SLOPES} tables [[slopes]]")
        return
    for number, slope in enumerate(slopes, 1):
        yield from _own_problems(slope, number)
    names = slope_names(written)
    for name, count in Counter(names).items():
        if count > 1:
            yield Problem(f"{SLOPES}.{shortened(name)}", f"name given to {count} slopes; give each slope its own name")
    yield from _array_problems(written, names)


def _own_problems(slope: Any, number: int) -> Iterator[Problem]:
    """A slope without a name, or with a key that slopes have not."""
    if not isinstance(slope, Mapping):
        yield Problem(f"{SLOPES}.{number}", f"{as_given(slope)} given; write a table [[slopes]]")
        return
    problems: list[Problem] = []
    path = f"{SLOPES}.{shortened(slope[NAME]) if isinstance(slope.get(NAME), str) else number}"
    validated(path, SlopeName, {key: value for key, value in slope.items() if key not in OWN}, problems)
    yield from problems
    for key in OWN:
        if not isinstance(slope.get(key, {}), Mapping):
            yield Problem(f"{path}.{key}", f"{as_given(slope[key])} given; write a table [slopes.{key}]")


def _array_problems(written: Mapping[str, Any], names: tuple[str, ...]) -> Iterator[Problem]:
    """Arrays that name no slope, and slopes without arrays."""
    if "array" in written:
        yield Problem("array", "given beside [[slopes]]; write every array as [[arrays]] with its slope")
        return
    arrays = written.get(ARRAYS)
    used = set()
    for number, array in enumerate(arrays if isinstance(arrays, list | tuple) else (), 1):
        if not isinstance(array, Mapping):
            continue
        stated, path = array.get(SLOPE), f"{ARRAYS}.{shortened(str(array.get(NAME, number)))}.{SLOPE}"
        used.add(str(stated))
        if stated not in names:
            given = "missing" if stated is None else f"{as_given(stated)} given"
            yield Problem(path, f"{given}; allowed is {listed([*map(as_given, names)], 'or')}")
    for name in names:
        if name not in used:
            yield Problem(f"{SLOPES}.{shortened(name)}", "no array lies on it; give one, or leave the slope out")


def tables_of_slope(written: Mapping[str, Any], name: str) -> dict[str, Any]:
    """The tables of one slope: the file's, with its own building and roof laid over them, and its arrays alone."""
    slope = value_at(written, (SLOPES, name))
    tables = {key: value for key, value in written.items() if key != SLOPES}
    for key, model in OWN.items():
        if key in slope:
            tables[key] = _over(tables.get(key, {}), slope[key], model)
    arrays = [array for array in written.get(ARRAYS, ()) if isinstance(array, Mapping) and array.get(SLOPE) == name]
    tables[ARRAYS] = [{key: value for key, value in array.items() if key != SLOPE} for array in arrays]
    return tables


def _over(below: Any, above: Mapping[str, Any], model: type[InputTable]) -> dict[str, Any]:
    """A table with another laid over it key by key; a strength or another value replaces the whole value."""
    result = dict(below) if isinstance(below, Mapping) else {}
    for key, value in above.items():
        inner = nested_table(model.model_fields[key]) if key in model.model_fields else None
        is_table = inner is not None and isinstance(value, Mapping) and isinstance(result.get(key), Mapping)
        result[key] = _over(result[key], value, inner) if inner and is_table else value
    return result


def above_slope(written: Mapping[str, Any], path: Steps) -> Mapping[str, Any]:
    """The table of the file that a slope's own table, at this path, overrides; empty for every other path."""
    above = written.get(path[-1]) if len(path) == 3 and path[0] == SLOPES else None
    return above if isinstance(above, Mapping) else {}


def path_in_file(written: Mapping[str, Any], name: str, path: Steps) -> Steps:
    """The path of a slope's input in the file: among the slope's own tables where it is stated there."""
    own = (SLOPES, name, *path)
    return own if name and value_at(written, own) is not REMOVED else path


def located(written: Mapping[str, Any], name: str, problem: Problem) -> Problem:
    """A problem of one slope with its path in the file."""
    path = ".".join(path_in_file(written, name, tuple(problem.path.split("."))))
    return Problem(path, problem.message)

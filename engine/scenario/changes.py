"""Changes laid over the tables of a scenario: typed in the app, given as PATH=VALUE, or proposed by a study."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from copy import deepcopy
from typing import Any

from engine.common.errors import InputError, Problem
from engine.common.toml_reader import tables_in
from engine.units import quoted

Steps = tuple[str, ...]
"""The steps to a value: ("roof", "rib_spacing")."""

Changes = Mapping[Steps, Any]

REMOVED = object()
"""Value of a key that is not set; as a change it removes the key from the file."""


def changes_of(written: Sequence[str]) -> Changes:
    """`PATH=VALUE` as changes.

    Raises:
        InputError: a change has no path.
    """
    changes = {}
    for change in written:
        path, equals, value = change.partition("=")
        steps = tuple(step.strip() for step in path.split("."))
        if not equals or not all(steps):
            raise InputError(
                [Problem("--set", f'{quoted(change)} given; write PATH=VALUE, such as site.wind_speed="130 mph"')]
            )
        changes[steps] = toml_value(value)
    return changes


def toml_value(typed: str) -> Any:
    """Exactly one TOML value, else the text itself."""
    try:
        parsed = tables_in(f"value = {typed}")
    except (ValueError, RecursionError):
        return typed.strip()
    return parsed["value"] if set(parsed) == {"value"} else typed.strip()


def laid_over(tables: Mapping[str, Any], changes: Changes) -> dict[str, Any]:
    """The tables with every change laid over them; a value replaces, it never merges.

    Raises:
        InputError: a change leads through something that is no table.
    """
    result: dict[str, Any] = deepcopy(dict(tables))
    for path, value in changes.items():
        put(result, path, value)
    return result


def put(tables: Any, path: Steps, value: Any) -> None:
    """Write one value into tables, or take it out where it is `REMOVED`.

    Raises:
        InputError: the path leads through something that is no table.
    """
    table = tables
    for step in path[:-1]:
        if step not in table:
            if value is REMOVED:
                return
            table[step] = {}
        table = table[step]
        if not isinstance(table, dict):
            raise InputError([Problem(".".join(path)[:120], f"{quoted(step)} is not a table")])
    if value is REMOVED:
        table.pop(path[-1], None)
    else:
        table[path[-1]] = value


def value_at(tables: Mapping[str, Any], path: Steps) -> Any:
    """The value that a path leads to; `REMOVED` where there is none."""
    value: Any = tables
    for step in path:
        if not isinstance(value, Mapping) or step not in value:
            return REMOVED
        value = value[step]
    return value


def same(value: Any, other: Any) -> bool:
    """True if two values of a file are the same; 1, 1.0 and true are not."""
    return type(value) is type(other) and bool(value == other)

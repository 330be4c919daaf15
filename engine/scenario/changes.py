"""Changes laid over the tables of a scenario: typed in the app, given as PATH=VALUE, or proposed by a study."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from copy import deepcopy
from functools import reduce
from typing import Any

from engine.common.errors import InputError, Problem
from engine.common.toml_reader import tables_in
from engine.scenario.sources import is_sourced, without_source
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
        InputError: the path leads through something that is no table, or to an entry that a list of tables lacks.
    """
    table = tables
    for number, step in enumerate(path[:-1], 1):
        inner = _entry(table, step)
        if is_sourced(inner) and isinstance(table, dict):  # its source was that of the whole value
            table[step] = without_source(inner)
            inner = table[step]  # what was stored may be a copy
        if inner is REMOVED and value is REMOVED:
            return
        if inner is REMOVED and isinstance(table, dict):
            table[step] = {}
            inner = table[step]
        if not isinstance(inner, dict | list):
            raise InputError([_no_table(table, path[:number])])
        table = inner
    if isinstance(table, list):
        raise InputError([Problem(_shown(path), "a whole entry of a list; write one of its keys")])
    if value is REMOVED:
        table.pop(path[-1], None)
    else:
        table[path[-1]] = value


def _no_table(table: Any, path: Steps) -> Problem:
    """The problem of a path that ends at something that is no table."""
    if isinstance(table, list) and _entry(table, path[-1]) is REMOVED:
        names = " or ".join(quoted(name) for name in names_in(table))
        return Problem(_shown(path[:-1]), f"no entry {quoted(path[-1])}; allowed is {names}")
    return Problem(_shown(path), f"{quoted(path[-1])} is not a table")


def _shown(path: Steps) -> str:
    return ".".join(path)[:120]


def value_at(tables: Mapping[str, Any], path: Steps) -> Any:
    """The value that a path leads to; `REMOVED` where there is none."""
    return reduce(_entry, path, tables)


def names_in(entries: Any) -> list[str]:
    """Names of the tables of a list, by which paths reach them."""
    tables = entries if isinstance(entries, list | tuple) else []
    return [entry["name"] for entry in tables if isinstance(entry, Mapping) and isinstance(entry.get("name"), str)]


def _entry(value: Any, step: str) -> Any:
    """The entry of a table under a key, or of a list of tables under a name; `REMOVED` where there is none."""
    value = without_source(value)
    if isinstance(value, list | tuple):
        named = (entry for entry in value if isinstance(entry, Mapping) and entry.get("name") == step)
        return next(named, REMOVED)
    return value.get(step, REMOVED) if isinstance(value, Mapping) else REMOVED


def same(value: Any, other: Any) -> bool:
    """True if two values of a file are the same; 1, 1.0 and true are not."""
    return type(value) is type(other) and bool(value == other)

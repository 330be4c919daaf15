"""Tables of a scenario as plain values: references to shelves looked up, sources taken off and kept beside them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from typing import Any

from engine.common.errors import InputError, Problem
from engine.scenario.alternatives import KEY
from engine.scenario.changes import Changes, put
from engine.scenario.shelf import USE, Shelf, ShelfReader
from engine.scenario.slopes import ARRAYS, OWN, SLOPES, path_in_file, tables_of_slope
from engine.scenario.sources import IN_FILE, SOURCE, VALUE, Origin, is_sourced, source_of
from engine.schema import FROM, InputTable, ShelfTable

MAX_DEPTH = 30
"""Deepest nesting of tables and lists that is read; a scenario needs eight."""


@dataclass(frozen=True)
class Origins:
    """The origins of the values that are not simply in the file, by path."""

    by_path: Mapping[str, Origin] = field(default_factory=dict)

    def origin_of(self, path: str) -> Origin:
        """The origin of a value, else of the value that it is part of; with the sources of its own parts."""
        above = path
        while above and above not in self.by_path:
            above = above.rpartition(".")[0]
        origin = self.by_path.get(above, IN_FILE)
        parts = (each.source for inner, each in self.by_path.items() if inner.startswith(f"{path}."))
        sources = dict.fromkeys(filter(None, (origin.source, *parts)))
        return replace(origin, source="; ".join(sources))

    def located(self, problem: Problem) -> Problem:
        """A problem that names the entry of a shelf which the value is taken from."""
        origin = self.origin_of(problem.path)
        if not origin.shelf:
            return problem
        return Problem(problem.path, f"{problem.message} (from {origin.place})")

    def without(self, changes: Changes) -> Origins:
        """The origins of the values that no change replaces, nor a part of them."""
        changed = [".".join(path) for path in changes]
        kept = {
            path: origin
            for path, origin in self.by_path.items()
            if not any(f"{path}.".startswith(f"{each}.") or f"{each}.".startswith(f"{path}.") for each in changed)
        }
        return Origins(kept)


@dataclass(frozen=True)
class Resolved:
    """The tables as plain values, their origins, and what is wrong.

    `unresolved` names the tables with a reference that leads nowhere: what they lack is no problem of its own.
    """

    tables: dict[str, Any]
    origins: Origins
    problems: tuple[Problem, ...] = ()
    unresolved: frozenset[str] = frozenset()

    def of_slope(self, name: str) -> Resolved:
        """One slope as if it had a file of its own; the same where there are no slopes."""
        if not name:
            return self
        own, within = f"{SLOPES}.{name}.", self.origins.by_path
        origins = {
            path: origin
            for path, origin in within.items()
            if ".".join(path_in_file(self.tables, name, tuple(path.split(".")))) == path
        }
        origins |= {path.removeprefix(own): origin for path, origin in within.items() if path.startswith(own)}
        unresolved = frozenset(path.removeprefix(own) for path in self.unresolved)
        return Resolved(tables_of_slope(self.tables, name), Origins(origins), (), unresolved)


def resolved(
    written: Mapping[str, Any], models: Mapping[str, type[InputTable]], shelves: tuple[Shelf, ...] = ()
) -> Resolved:
    """Tables as a file has them, resolved; whatever is wrong is left as it is.

    References, the list of shelves and the alternatives are left out: the values stand where they led to.

    Args:
        written: the tables.
        models: of the tables that may be taken from a shelf, by path.
        shelves: the shelves that the file uses.
    """
    resolving = _Resolving(shelves)
    tables = {name: table for name, table in written.items() if name not in (USE, KEY)}
    tables |= {path: resolving.table(path, model, written[path]) for path, model in models.items() if path in written}
    if isinstance(tables.get(SLOPES), list):
        tables[SLOPES] = [_slope(slope, resolving) for slope in tables[SLOPES]]
    plain = {name: resolving.plain(table, name) for name, table in tables.items()}
    return Resolved(plain, Origins(resolving.origins), tuple(resolving.problems), frozenset(resolving.unresolved))


def _slope(slope: Any, resolving: _Resolving) -> Any:
    """A slope with its own tables resolved."""
    if not isinstance(slope, Mapping):
        return slope
    path = f"{SLOPES}.{slope.get('name')}"
    own = {key: resolving.table(f"{path}.{key}", model, slope[key]) for key, model in OWN.items() if key in slope}
    return {**slope, **own}


class _Resolving:
    """Tables being resolved: their origins and problems so far."""

    def __init__(self, shelves: tuple[Shelf, ...]) -> None:
        self.problems: list[Problem] = []
        self.origins: dict[str, Origin] = {}
        self.unresolved: set[str] = set()
        self._reader = ShelfReader(shelves, self.problems)

    def table(self, path: str, model: type[InputTable], written: Any) -> Any:
        """A table with the values of the entries that it is taken from, sources still beside them."""
        if not issubclass(model, ShelfTable) or not isinstance(written, Mapping):
            return written
        result: dict[str, Any] = {}
        before = len(self.problems)
        for steps, leaf in self._reader.leaves(model, written, path).items():
            if steps[-1] == FROM:
                continue
            try:
                put(result, steps, leaf.value)
            except InputError as wrong:
                self.problems += [Problem(f"{path}.{each.path}", each.message) for each in wrong.problems]
            if leaf.origin.shelf:
                self.origins[".".join([path, *steps])] = leaf.origin
        if len(self.problems) > before:
            self.unresolved.add(path)
        return result

    def plain(self, value: Any, path: str, above: Origin = IN_FILE, depth: int = 0) -> Any:
        """A value in which no part has its source beside it; the sources are added to the origins by path."""
        if depth > MAX_DEPTH:
            words = f"tables within tables given; allowed are {MAX_DEPTH} levels"
            self.problems.append(Problem(path.partition(".")[0], words))
            return {}
        origin = self.origins.get(path, above)
        if is_sourced(value):
            self._add_source(value, path, origin)
            return self.plain(value[VALUE], path, origin, depth + 1)
        if isinstance(value, Mapping):
            return {key: self.plain(part, f"{path}.{key}", origin, depth + 1) for key, part in value.items()}
        if isinstance(value, list):
            return [self.plain(part, _path_of(part, path, n), origin, depth + 1) for n, part in enumerate(value, 1)]
        return value

    def _add_source(self, value: Mapping[str, Any], path: str, origin: Origin) -> None:
        try:
            source = source_of(value)
        except ValueError as refusal:
            self.problems.append(Problem(f"{path}.{SOURCE}", str(refusal)))
            return
        if source:
            self.origins[path] = replace(origin, source=source)
        else:
            example = '{ value = ..., source = "..." }'
            words = f"a value in a table given without its source; write {example}, or the value alone"
            self.problems.append(Problem(path, words))


def _path_of(entry: Any, path: str, number: int) -> str:
    """The path of a list's entry: arrays and slopes by their names, others by their numbers."""
    named = path in (ARRAYS, SLOPES) and isinstance(entry, Mapping)
    return f"{path}.{entry.get('name', number) if named else number}"

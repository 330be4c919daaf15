"""Tables of a scenario as plain values: references to shelves looked up, sources taken off and kept beside them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any

from engine.common.errors import InputError, Problem
from engine.scenario.changes import put
from engine.scenario.shelf import Shelf, ShelfReader
from engine.scenario.sources import IN_FILE, SOURCE, VALUE, Origin, is_sourced, source_of
from engine.schema import InputTable, ShelfTable

MAX_DEPTH = 30
"""Deepest nesting of tables and lists that is read; a scenario needs eight."""


@dataclass(frozen=True)
class Resolved:
    """The tables as plain values, the origin of each that is not simply in the file, and what is wrong.

    `unresolved` names the tables with a reference that leads nowhere: what they lack is no problem of its own.
    """

    tables: dict[str, Any]
    origins: Mapping[str, Origin]
    problems: tuple[Problem, ...] = ()
    unresolved: frozenset[str] = frozenset()

    def origin_of(self, path: str) -> Origin:
        """The origin of a value, else of the value that it is part of; with the sources of its own parts."""
        above = path
        while above and above not in self.origins:
            above = above.rpartition(".")[0]
        origin = self.origins.get(above, IN_FILE)
        parts = (each.source for inner, each in self.origins.items() if inner.startswith(f"{path}."))
        sources = dict.fromkeys(filter(None, (origin.source, *parts)))
        return replace(origin, source="; ".join(sources))

    def located(self, problem: Problem) -> Problem:
        """A problem that names the entry of a shelf which the value is taken from."""
        origin = self.origin_of(problem.path)
        if not origin.shelf:
            return problem
        return Problem(problem.path, f"{problem.message} (from {origin.place})")


def resolved(
    written: Mapping[str, Any], models: Mapping[str, type[InputTable]], shelves: tuple[Shelf, ...] = ()
) -> Resolved:
    """Tables as a file has them, resolved; whatever is wrong is left as it is.

    Args:
        written: the tables.
        models: of the tables that may be taken from a shelf, by path.
        shelves: the shelves that the file uses.
    """
    resolving = _Resolving(shelves)
    tables, unresolved = dict(written), set()
    for path, model in models.items():
        table = written.get(path)
        if issubclass(model, ShelfTable) and isinstance(table, Mapping):
            before = len(resolving.problems)
            tables[path] = resolving.table(path, model, table)
            if len(resolving.problems) > before:
                unresolved.add(path)
    plain = {name: resolving.plain(table, name) for name, table in tables.items()}
    return Resolved(plain, resolving.origins, tuple(resolving.problems), frozenset(unresolved))


class _Resolving:
    """Tables being resolved: their origins and problems so far."""

    def __init__(self, shelves: tuple[Shelf, ...]) -> None:
        self.problems: list[Problem] = []
        self.origins: dict[str, Origin] = {}
        self._reader = ShelfReader(shelves, self.problems)

    def table(self, path: str, model: type[InputTable], written: Mapping[str, Any]) -> dict[str, Any]:
        """A table with the values of the entries that it is taken from, sources still beside them."""
        result: dict[str, Any] = {}
        for steps, leaf in self._reader.leaves(model, written, path).items():
            try:
                put(result, steps, leaf.value)
            except InputError as wrong:
                self.problems += [Problem(f"{path}.{each.path}", each.message) for each in wrong.problems]
            if leaf.origin.shelf:
                self.origins[".".join([path, *steps])] = leaf.origin
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
            return [self.plain(part, f"{path}.{number}", origin, depth + 1) for number, part in enumerate(value, 1)]
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

"""Shelves: files of named modules, roofs and hardware. `[module] from = "M420"` takes its `[modules.M420]`.

An entry may itself be taken from others, as may the tables in it. It may hold only some keys of its table, and a
`source` for all of them. Later entries of a list override earlier ones; a table's own keys override all of them.
"""

from __future__ import annotations

import difflib
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from engine.common.errors import Problem
from engine.project.hardware import Hardware, RailSection
from engine.project.module import Module
from engine.project.roof import Fastening, Panel, Roof
from engine.scenario.changes import Steps
from engine.scenario.sources import IN_FILE, SOURCE, Origin, is_sourced, source_of
from engine.scenario.validation import top_level_problems
from engine.schema import ENTRIES, FROM, InputTable, ShelfTable, TextLine, Words, as_given, shortened
from engine.schema.introspection import nested_table
from engine.units import quoted

FORMAT = 1

SECTIONS: Mapping[str, type[ShelfTable]] = {
    model.shelf_section: model for model in (Module, Roof, Panel, Fastening, Hardware, RailSection)
}
"""Tables of a shelf → the table of a scenario that may be taken from their entries."""

USE = "use"

FILES = Words('["parts.toml"]')
"""Names of the files of shelves."""

TOP_LEVEL = ("format", "title", USE, *SECTIONS)

MAX_CHAIN = 20
"""Longest chain of entries that are taken from one another."""

NAME = TextLine(80)


@dataclass(frozen=True)
class Shelf:
    """A shelf's file: its name, and its tables."""

    name: str
    tables: Mapping[str, Any]

    def entries(self, section: str) -> Mapping[str, Any]:
        """The entries of a section by name."""
        found = self.tables.get(section, {})
        return found if isinstance(found, Mapping) else {}


def is_shelf(tables: Mapping[str, Any]) -> bool:
    """True if a file's tables are those of a shelf, not of a scenario."""
    return "site" not in tables and not set(SECTIONS).isdisjoint(tables)


@dataclass(frozen=True)
class Leaf:
    """A value as written, and where it comes from."""

    value: Any
    origin: Origin


Leaves = dict[Steps, Leaf]


class ShelfReader:
    """Entries of shelves as values; what is wrong with them is added to `problems`."""

    def __init__(self, shelves: tuple[Shelf, ...], problems: list[Problem]) -> None:
        self._shelves = shelves
        self._problems = problems
        self._read: dict[tuple[str, str], Leaves] = {}
        for shelf in shelves:
            problems += head_problems(shelf)

    def leaves(
        self, model: type[InputTable], table: Mapping[str, Any], where: str, origin: Origin = IN_FILE, chain: Steps = ()
    ) -> Leaves:
        """The values of a table with those of the entries it is taken from, each by its steps from the table.

        Args:
            model: of the table.
            table: as written.
            where: the table's path, for problems.
            origin: of the table's own values.
            chain: the entries that led here.
        """
        own: Leaves = {}
        for key, value in table.items():
            field = model.model_fields.get(key)
            inner = nested_table(field) if field else None
            if inner and isinstance(value, Mapping) and value and not is_sourced(value):
                below = self.leaves(inner, value, f"{where}.{key}", origin, chain)
                own |= {(key, *steps): leaf for steps, leaf in below.items()}
            elif not (key == FROM and origin.shelf):
                own[key,] = Leaf(value, origin)
        if FROM not in table or not issubclass(model, ShelfTable):
            return own
        return _overridden(self._named(model, table[FROM], f"{where}.{FROM}", chain), own)

    def _named(self, model: type[ShelfTable], names: Any, where: str, chain: Steps) -> Leaves:
        """The values of the entries with these names."""
        found: Leaves = {}
        try:
            for name in ENTRIES.read(names):
                found = _overridden(found, self._entry(model, name, where, chain))
        except ValueError as refusal:
            self._problems.append(Problem(where, str(refusal)))
        return found

    def _entry(self, model: type[ShelfTable], name: str, where: str, chain: Steps) -> Leaves:
        """The values of one entry.

        Raises:
            ValueError: there is none, or it cannot be read.
        """
        section, step = model.shelf_section, f"{model.shelf_section}.{name}"
        if (section, name) in self._read:
            return self._read[section, name]
        if step in chain:
            round_trip = " from ".join([*chain[chain.index(step) :], step])
            raise ValueError(f"{quoted(name)} given, which leads back to itself: {shortened(round_trip)}")
        if len(chain) == MAX_CHAIN:
            raise ValueError(f"{quoted(name)} given; allowed are {MAX_CHAIN} entries taken from one another")
        shelf, table = self._found(section, name)
        if not isinstance(table, Mapping):
            raise ValueError(f"{quoted(name)} is {as_given(table)} in {shelf.name}; write a table")
        origin = Origin(source_of(table), NAME.read(name), shelf.name)
        rest = {key: value for key, value in table.items() if key != SOURCE}
        self._read[section, name] = self.leaves(model, rest, f"{shelf.name}: {step}", origin, (*chain, step))
        return self._read[section, name]

    def _found(self, section: str, name: str) -> tuple[Shelf, Any]:
        """The shelf that has an entry, and the entry as written.

        Raises:
            ValueError: no shelf has it, or several have.
        """
        if not self._shelves:
            raise ValueError(
                f'{quoted(name)} given without a shelf; name its file above the tables: use = ["parts.toml"]'
            )
        having = [shelf for shelf in self._shelves if name in shelf.entries(section)]
        if not having:
            known = tuple(entry for shelf in self._shelves for entry in shelf.entries(section))
            named = " and ".join(shelf.name for shelf in self._shelves)
            raise ValueError(f"{quoted(name)} given; [{section}] of {named} has no such entry{_nearest(name, known)}")
        if len(having) > 1:
            named = " and ".join(shelf.name for shelf in having)
            raise ValueError(f"{quoted(name)} given, which is in {named}; rename one of them")
        return having[0], having[0].entries(section)[name]


def head_problems(shelf: Shelf) -> Iterator[Problem]:
    """Unknown keys of a shelf, a format of another version, and sections that are no tables."""
    for problem in top_level_problems(shelf.tables, TOP_LEVEL, FORMAT):
        yield Problem(f"{shelf.name}: {problem.path}", problem.message)
    for section in SECTIONS:
        if not isinstance(shelf.tables.get(section, {}), Mapping):
            example = f"[{section}.NAME]"
            yield Problem(
                f"{shelf.name}: {section}", f"{as_given(shelf.tables[section])} given; write tables such as {example}"
            )


def _nearest(name: str, known: tuple[str, ...]) -> str:
    """The entry with the most similar name, as a question; else the first ones there are."""
    near = difflib.get_close_matches(name, known, n=1)
    if near:
        return f"; did you mean {quoted(near[0])}?"
    return f"; it has {shortened(', '.join(known))}" if known else ""


def _overridden(values: Leaves, by: Leaves) -> Leaves:
    """Values with others laid over them; an empty table overrides nothing."""
    above = {steps[:length] for steps in values for length in range(1, len(steps))}
    return values | {steps: leaf for steps, leaf in by.items() if leaf.value != {} or steps not in above}

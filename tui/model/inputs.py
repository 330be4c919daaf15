"""The inputs of one scenario: a file's text and the changes laid over it. No screen, no calculation."""

from __future__ import annotations

from collections.abc import Mapping
from contextlib import suppress
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import Any

import tomlkit

from engine.common.errors import InputError
from engine.loads import STANDARDS, system_of
from engine.mounting import METHODS
from engine.scenario.alternatives import KEY as ALTERNATIVES
from engine.scenario.changes import REMOVED, Changes, Steps, laid_over, names_in, put, same, value_at
from engine.scenario.read import Scenario, read_scenario, read_slopes, resolved_tables
from engine.scenario.resolve import Resolved
from engine.scenario.shelf import USE
from engine.scenario.slopes import path_in_file, shown_slope, slope_names
from engine.scenario.sources import without_source
from engine.schema.toml import to_toml
from engine.units import System
from tui.model.entries import differences, entries_of, with_entries
from tui.model.input_field import NOT_SET, InputField, input_fields
from tui.storage import paths
from tui.storage.shelves import names_seen_from, shelves_of


@dataclass(frozen=True)
class Inputs:
    """A file's path and text, and the changes made since; every edit gives new inputs, so undo is a list of them.

    `slope`: name of the slope shown, of a file with several; empty for the first.
    """

    path: Path
    text: str
    changes: Changes = field(default_factory=dict)
    slope: str = ""

    @classmethod
    def of_file(cls, path: Path) -> Inputs:
        """The inputs of a file as it is on disk.

        Raises:
            InputError: it cannot be read, or is not TOML.
        """
        inputs = cls(path, paths.read_text(path))
        inputs.tables()
        return inputs

    def tables(self) -> dict[str, Any]:
        """The file's tables with the changes laid over them."""
        return laid_over(self._file_tables(), self.changes)

    def scenario(self) -> Scenario:
        """The scenario these inputs describe.

        Raises:
            InputError: it cannot be read; every problem at once.
        """
        tables = self.tables()
        shelves = shelves_of(tables, self.path)
        return read_scenario(tables, METHODS, STANDARDS, shown_slope(tables, self.slope), shelves)

    def slopes(self) -> tuple[Scenario, ...]:
        """The scenario of every slope.

        Raises:
            InputError: one cannot be read; every problem at once.
        """
        tables = self.tables()
        return read_slopes(tables, METHODS, STANDARDS, shelves_of(tables, self.path))

    @property
    def next_slope(self) -> str:
        """Name of the slope after the one shown; empty where there is none."""
        try:
            names = slope_names(self.tables())
        except InputError:
            return ""
        after = names.index(self.slope) + 1 if self.slope in names else 1
        return names[after % len(names)] if len(names) > 1 else ""

    @property
    def standard(self) -> str:
        """Title of the load standard that the file names; empty where it names none that is known."""
        named = value_at(self._resolved(self._file_tables()).tables, ("site", "standard"))
        return str(named) if named in STANDARDS else ""

    @property
    def system(self) -> System:
        """The units of the load standard; US where it is not known."""
        return system_of(self._resolved(self._file_tables()).tables.get("site"))

    @property
    def readable(self) -> bool:
        """True if no input is wrong."""
        try:
            self.scenario()
        except InputError:
            return False
        return True

    def fields(self) -> tuple[InputField, ...]:
        """Every input, in the file's order."""
        try:
            tables = self.tables()
        except InputError:  # a change to a table that the file writes as a value: a problem of the inputs, shown there
            tables = self._file_tables()
        found = tuple(input_fields(tables, self.changes, self._resolved(tables)))
        return tuple(with_entries(found, tables, self.changes))

    def edited(self, input_field: InputField, typed: str) -> Inputs:
        """The inputs with one field typed anew."""
        inputs = self
        for path, value in input_field.changes_of(typed).items():
            inputs = inputs.with_value(path, value)
        return inputs

    def with_value(self, path: Steps, value: Any) -> Inputs:
        """The inputs with another value, which may be a part of a table; a value equal to the file's is no change."""
        others = {each: change for each, change in self.changes.items() if each[: len(path)] != path}
        table = next((each for each in others if path[: len(each)] == each), None)
        if table is not None:
            whole = laid_over({"": others[table]}, {("", *path[len(table) :]): value})
            return self.with_value(table, whole[""])
        in_file = value_at(self._file_tables(), path)
        value = in_file if same(value, without_source(in_file)) else value
        return replace(self, changes=others if same(value, in_file) else {**others, path: value})

    def with_changes(self, changes: Changes) -> Inputs:
        """The inputs with further changes laid over them, those of the slope shown among its own values."""
        tables = self._resolved(self.tables()).tables  # a slope's own value may be its shelf's
        slope = shown_slope(tables, self.slope)
        located = {path_in_file(tables, slope, path): value for path, value in changes.items()}
        return replace(self, changes={**self.changes, **located})

    def with_alternative(self, name: str, other: Inputs) -> Inputs | None:
        """The inputs with others as an alternative of this name, numbered where it is taken; None if none differ."""
        found = differences(self.fields(), other.fields())
        entries = entries_of(self.tables(), ALTERNATIVES)
        taken = names_in(entries)
        free = next(each for each in (name, *(f"{name} {n}" for n in range(2, len(taken) + 3))) if each not in taken)
        return self.with_value((ALTERNATIVES,), [*entries, {"name": free, "set": found}]) if found else None

    def change_from(self, other: Inputs) -> tuple[Steps, str]:
        """Path of the first input that differs, and all that differ in words: "wind speed: 95 mph → 110 mph"."""
        paths = [path for path in {**other.changes, **self.changes} if not _is_same_at(path, self, other)]
        before = {each.path: each for each in other.fields()}
        found = [each for each in self.fields() if any(path[: len(each.path)] == each.path for path in paths)]
        if not found:
            return (), ""
        now = found[0]
        was = before[now.path].editable if now.path in before else ""
        more = f", and {len(found) - 1} more" if len(found) > 1 else ""
        return now.path, f"{now.label}: {was or NOT_SET} → {now.editable or NOT_SET}{more}"

    def rebased(self, saved: Inputs) -> Inputs:
        """The same values as changes of the file as it was saved since."""
        if self.text == saved.text:
            return replace(self, path=saved.path)
        return replace(saved, changes=self._differences(saved.tables()), slope=self.slope)

    def same_file(self, other: Inputs) -> bool:
        """True if both show one slope of one file with the same text, whatever was changed since."""
        return (self.path, self.text, self.slope) == (other.path, other.text, other.slope)

    def same_as_disk(self) -> bool:
        """True if the file still has the text it was opened with."""
        try:
            return paths.read_text(self.path) == self.text
        except InputError:
            return False

    def as_text(self, target: Path) -> str:
        """The file's text with the changes written into it, for a file; comments and references to shelves are kept.

        In another folder the shelves are named by their paths from there, unless the same names lead to them.
        """
        document = tomlkit.parse(self.text)
        for path, value in self.changes.items():
            put(document, path, _on_one_line(value))
        with suppress(InputError):  # a shelf that is missing here is missing there
            names = names_seen_from(self.tables(), self.path, target)
            if names is not None:
                document[USE] = names
        return tomlkit.dumps(document)

    def changed_values(self) -> tuple[str, ...]:
        """The changes since the file, each as a path and a value."""
        return tuple(
            f"{'.'.join(map(str, path))} = {'not set' if value is REMOVED else value}"
            for path, value in self.changes.items()
        )

    def _resolved(self, tables: Mapping[str, Any]) -> Resolved:
        """The tables as plain values; shelves that cannot be read count as absent."""
        try:
            shelves = shelves_of(tables, self.path)
        except InputError:
            shelves = ()
        return resolved_tables(tables, shelves)

    def _file_tables(self) -> dict[str, Any]:
        return paths.parse(self.text, self.path.name)

    def _differences(self, tables: Mapping[str, Any]) -> Changes:
        """The values stated here that those tables lack."""
        return {each.path: each.stated for each in self.fields() if not same(each.stated, value_at(tables, each.path))}


def _on_one_line(value: Any) -> Any:
    """A table as it is written behind its key; any other value as it is, lists of tables as [[tables]]."""
    return tomlkit.parse(f"value = {to_toml(value)}")["value"] if isinstance(value, Mapping) else value


def _is_same_at(path: Steps, one: Inputs, other: Inputs) -> bool:
    return same(one.changes.get(path, REMOVED), other.changes.get(path, REMOVED))

"""The inputs of one scenario: a file's text and the changes laid over it. No screen, no calculation."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import Any

import tomlkit

from engine.common.errors import InputError
from engine.loads import STANDARDS, system_of
from engine.mounting import METHODS
from engine.scenario.changes import REMOVED, Changes, Steps, laid_over, put, same, value_at
from engine.scenario.read import Scenario, read_scenario
from engine.units import System
from tui.model.input_field import NOT_SET, InputField, input_fields
from tui.storage import paths


@dataclass(frozen=True)
class Inputs:
    """A file's path and text, and the changes made since; every edit gives new inputs, so undo is a list of them."""

    path: Path
    text: str
    changes: Changes = field(default_factory=dict)

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
        return read_scenario(self.tables(), METHODS, STANDARDS)

    @property
    def system(self) -> System:
        """The units of the load standard; US where it is not known."""
        return system_of(self._file_tables().get("site"))

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
        return tuple(input_fields(tables, self.changes))

    def edited(self, input_field: InputField, typed: str) -> Inputs:
        """The inputs with one field typed anew."""
        return self.with_value(input_field.path, input_field.value_of(typed))

    def with_value(self, path: Steps, value: Any) -> Inputs:
        """The inputs with another value, which may be a part of a table; a value equal to the file's is no change."""
        others = {each: change for each, change in self.changes.items() if each[: len(path)] != path}
        table = next((each for each in others if path[: len(each)] == each), None)
        if table is not None:
            return self.with_value(table, laid_over(others[table], {path[len(table) :]: value}))
        is_same = same(value, value_at(self._file_tables(), path))
        return replace(self, changes=others if is_same else {**others, path: value})

    def with_changes(self, changes: Changes) -> Inputs:
        """The inputs with further changes laid over them."""
        return replace(self, changes={**self.changes, **changes})

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
        return Inputs(saved.path, saved.text, self._differences(saved.tables()))

    def same_file(self, other: Inputs) -> bool:
        """True if both come from one file with the same text, whatever was changed since."""
        return (self.path, self.text) == (other.path, other.text)

    def same_as_disk(self) -> bool:
        """True if the file still has the text it was opened with."""
        try:
            return paths.read_text(self.path) == self.text
        except InputError:
            return False

    def as_text(self) -> str:
        """The file's text with the changes written into it; comments are kept."""
        document = tomlkit.parse(self.text)
        for path, value in self.changes.items():
            put(document, path, value)
        return tomlkit.dumps(document)

    def _file_tables(self) -> dict[str, Any]:
        return paths.parse(self.text, self.path.name)

    def _differences(self, tables: Mapping[str, Any]) -> Changes:
        """The values stated here that those tables lack."""
        return {each.path: each.stated for each in self.fields() if not same(each.stated, value_at(tables, each.path))}


def _is_same_at(path: Steps, one: Inputs, other: Inputs) -> bool:
    return same(one.changes.get(path, REMOVED), other.changes.get(path, REMOVED))

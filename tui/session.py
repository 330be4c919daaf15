"""What the bench works on: a file's text and the changes laid over it. No screen, no computing."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping, Sequence
from copy import deepcopy
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import Any

import tomlkit
from pydantic.fields import FieldInfo

from engine.described import Count, Described, Number, Quantity, Stretch
from engine.errors import InputError, Problem
from engine.methods import METHODS
from engine.scenario import Scenario, fields_of, read_scenario
from engine.standards import STANDARDS
from engine.template import kind_of, table_of, toml
from engine.units import UNITS
from tui import files

Changes = Mapping[tuple[str, ...], Any]
REMOVED = object()
"""A change that takes a key out of the file, back to its default."""


@dataclass(frozen=True)
class Entry:
    """One input: its path, its field, and what the file or a change says."""

    path: tuple[str, ...]
    info: FieldInfo
    written: Any
    changed: bool

    @property
    def origin(self) -> str:
        """Where its value comes from: "changed", "file" or "default"."""
        if self.changed:
            return "changed"
        return "default" if self.written is REMOVED else "file"

    @property
    def shown(self) -> str:
        """The value as one would type it."""
        value = self.info.default if self.written is REMOVED else self.written
        if value is None or (self.written is REMOVED and self.info.is_required()):
            return ""
        return value if isinstance(value, str) else toml(value)

    @property
    def title(self) -> str:
        """Its name in words."""
        return self.path[-1].replace("_", " ")

    @property
    def help(self) -> str:
        """What it means, what is allowed, and in which units it may be typed."""
        kind = kind_of(self.info)
        allowed = f" Allowed: {kind.allowed}." if kind else ""
        units = f" Units: {', '.join(UNITS[kind.dimension])}." if isinstance(kind, Quantity) else ""
        return f"{self.info.description}.{allowed}{units}"

    def value_of(self, typed: str) -> Any:
        """What the typed text says: text for quantities and words, a TOML value for numbers and tables."""
        if not typed.strip():
            return REMOVED
        kind = kind_of(self.info)
        if kind is not None and not isinstance(kind, Count | Number | Stretch):
            return typed.strip()
        return toml_value(typed)


@dataclass(frozen=True)
class Session:
    """An open file and the changes made since; every edit gives a new session, so undo is a list of them."""

    path: Path
    text: str
    changes: Changes = field(default_factory=dict)

    def tables(self) -> dict[str, Any]:
        """The file's tables with the changes laid over them."""
        tables = deepcopy(files.parse(self.text, self.path.name))
        for path, value in self.changes.items():
            _put(tables, path, value)
        return tables

    def scenario(self) -> Scenario:
        """The scenario as it stands.

        Raises:
            InputError: it cannot be read; every problem at once.
        """
        return read_scenario(self.tables(), METHODS, STANDARDS)

    def edited(self, entry: Entry, typed: str) -> Session:
        """The session with one input typed anew; what the file says already is no change."""
        value, written = entry.value_of(typed), _get(files.parse(self.text, self.path.name), entry.path)
        others = {path: change for path, change in self.changes.items() if path != entry.path}
        return replace(self, changes=others if _same(value, written) else {**others, entry.path: value})

    def entries(self) -> tuple[Entry, ...]:
        """Every input, in the file's order."""
        tables = self.tables()
        site = tables.get("site")
        named = site.get("standard") if isinstance(site, Mapping) else None
        standard = STANDARDS.get(str(named), next(iter(STANDARDS.values())))
        found: list[Entry] = []
        for path, model in fields_of(METHODS, standard).items():
            self._collect(tuple(filter(None, path.split("."))), model, tables, found)
        return tuple(found)

    def _collect(self, path: tuple[str, ...], model: type[Described], tables: dict[str, Any], found: list[Entry]) -> None:
        for name, info in model.model_fields.items():
            here = (*path, name)
            inner = table_of(info)
            if inner:
                self._collect(here, inner, tables, found)
            else:
                found.append(Entry(here, info, _get(tables, here), here in self.changes))

    def onto(self, saved: Session) -> Session:
        """The same inputs, as changes of the file as it was saved since."""
        if self.text == saved.text:
            return replace(self, path=saved.path)
        tables = saved.tables()
        changes = {entry.path: entry.written for entry in self.entries() if not _same(entry.written, _get(tables, entry.path))}
        return Session(saved.path, saved.text, changes)

    def as_on_disk(self) -> bool:
        """Whether the file still says what it said when it was opened."""
        try:
            return files.read_text(self.path) == self.text
        except InputError:
            return False

    def written_to(self, path: Path) -> Session:
        """Write the file with the changes in it, and go on with that one.

        Raises:
            InputError: it cannot be written.
        """
        text = self.saved_text()
        files.write_text(path, text, overwrite=True)
        return Session(path, text)

    def saved_text(self) -> str:
        """The file's text with the changes written into it; comments stay."""
        document = tomlkit.parse(self.text)
        for path, value in self.changes.items():
            _put(document, path, value)
        return tomlkit.dumps(document)


def toml_value(typed: str) -> Any:
    """Exactly one TOML value, else the text itself."""
    try:
        parsed = tomllib.loads(f"value = {typed}")
    except (tomllib.TOMLDecodeError, RecursionError, ValueError):
        return typed.strip()
    return parsed["value"] if set(parsed) == {"value"} else typed.strip()


def laid_over(tables: Mapping[str, Any], changes: Sequence[str]) -> dict[str, Any]:
    """The tables with every `PATH=VALUE` laid over them; a value replaces, it never merges.

    Raises:
        InputError: a change has no path, or leads through something that is no table.
    """
    result: dict[str, Any] = deepcopy(dict(tables))
    for path, value in changes_of(changes).items():
        _put(result, path, value)
    return result


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
            raise InputError([Problem("--set", f"'{change[:60]}' given; write PATH=VALUE, such as site.wind_speed=\"130 mph\"")])
        changes[steps] = toml_value(value)
    return changes


def _same(value: Any, other: Any) -> bool:
    """Whether two values of a file are the same; 1, 1.0 and true are not."""
    return type(value) is type(other) and bool(value == other)


def _get(tables: Mapping[str, Any], path: tuple[str, ...]) -> Any:
    value: Any = tables
    for step in path:
        if not isinstance(value, Mapping) or step not in value:
            return REMOVED
        value = value[step]
    return value


def _put(tables: Any, path: tuple[str, ...], value: Any) -> None:
    table = tables
    for step in path[:-1]:
        if step not in table:
            if value is REMOVED:
                return
            table[step] = {}
        table = table[step]
        if not isinstance(table, dict):
            raise InputError([Problem(".".join(path)[:120], f"'{step[:60]}' is not a table")])
    if value is REMOVED:
        table.pop(path[-1], None)
    else:
        table[path[-1]] = value

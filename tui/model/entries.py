"""Lists of named entries in the form: arrays, slopes and alternatives are added, renamed and taken out by name."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, fields, replace
from typing import Any

from pydantic.fields import FieldInfo
from pydantic_core import PydanticUndefined

from engine.scenario.alternatives import FIXED, KEY, Alternative
from engine.scenario.changes import REMOVED, Changes, Steps, names_in, same, value_at
from engine.scenario.read import ARRAY, ARRAYS
from engine.scenario.slopes import NAME, SLOPE, SLOPES
from engine.scenario.sources import IN_FILE
from engine.schema import Choice, input_field
from tui.model.input_field import InputField, input_path

NEW = "+"
"""Last step of the path of a line that adds an entry, or a change to an alternative."""

FIRST_ARRAY = "A"
"""Name of an array that had none, once there are several."""

ADDING: Mapping[str, FieldInfo] = {
    ARRAYS: input_field("", description="another array: its name; it begins as a copy of the last one"),
    SLOPES: input_field("", description="another slope: its name; arrays name the slope they lie on"),
    KEY: input_field("", description="another alternative: its name; then the inputs that it changes"),
}
CHANGING: FieldInfo = input_field(
    "", description="change another input: its path, or a part of its name; it begins with the value as stated"
)


@dataclass(frozen=True)
class EntryName(InputField):
    """The name of an entry; where nothing is typed the entry is taken out."""

    entries: Sequence[Mapping[str, Any]] = ()

    def changes_of(self, typed: str) -> Changes:
        """The new name, or the list without the entry."""
        if typed.strip():
            return {self.path: typed.strip()}
        table, name, _ = self.path
        return {(table,): [each for each in self.entries if each.get(NAME) != name] or REMOVED}

    def path_after(self, typed: str) -> Steps:
        """Its path under the new name."""
        table, name, last = self.path
        return table, typed.strip() or name, last


@dataclass(frozen=True)
class NewEntry(InputField):
    """The line below a list, where the name of another entry is typed. `tables`: all of the file."""

    tables: Mapping[str, Any] = field(default_factory=dict)

    def changes_of(self, typed: str) -> Changes:
        """The list with another entry; of arrays a copy of the last one."""
        name, table = typed.strip(), self.path[0]
        if not name:
            return {}
        entries = entries_of(self.tables, table)
        if table == KEY:
            return {(KEY,): [*entries, {NAME: name, "set": {}}]}
        if table == SLOPES:
            on_it = {} if entries else _several_arrays(self.tables, slope=name)
            return {(SLOPES,): [*entries, {NAME: name}], **on_it}
        several = _several_arrays(self.tables)
        arrays = several.get((ARRAYS,), entries)
        return {**several, (ARRAYS,): [*arrays, {**(arrays[-1] if arrays else {}), NAME: name}]}


def _several_arrays(tables: Mapping[str, Any], slope: str = "") -> Changes:
    """The arrays written as a list, and on a slope where it is given; nothing where both are so."""
    alone, on_it = tables.get(ARRAY), {SLOPE: slope} if slope else {}
    if isinstance(alone, Mapping):
        return {(ARRAY,): REMOVED, (ARRAYS,): [{NAME: FIRST_ARRAY, **on_it, **alone}]}
    return {(ARRAYS,): [{**each, **on_it} for each in entries_of(tables, ARRAYS)]} if slope else {}


@dataclass(frozen=True)
class NewChange(InputField):
    """The line below the changes of an alternative, where another input is named."""

    inputs: Sequence[InputField] = ()

    def changes_of(self, typed: str) -> Changes:
        """The input with its value as stated; a name that no input has is taken as it is, and refused."""
        words = typed.strip()
        if not words:
            return {}
        found = self._named(words)
        name = ".".join(found.path) if found else words
        return {(*self.path[:-1], name): _stated(found) if found else ""}

    def _named(self, words: str) -> InputField | None:
        """The input whose path or label has these words, best as a whole."""
        typed = _in_words(words)
        names = [(_in_words(".".join(each.path)), _in_words(each.label), each) for each in self.inputs]
        found = [(typed not in (path, label), each) for path, label, each in names if typed in f"{path} {label}"]
        return min(found, key=lambda pair: pair[0])[1] if found else None


def _in_words(name: str) -> str:
    """A path or a label as words."""
    return name.lower().replace("_", " ").replace(".", " ")


LINES = (EntryName, NewEntry, NewChange)
"""Inputs that are no values of the job."""


def _stated(found: InputField) -> Any:
    """The value of an input as a file writes it; empty where it has none."""
    value = found.value
    if value is None or value is PydanticUndefined:
        return ""
    return list(value) if isinstance(value, tuple) else value


def with_entries(found: Sequence[InputField], tables: Mapping[str, Any], changes: Changes) -> Iterator[InputField]:
    """The inputs of a file, with the names of entries, the inputs that alternatives change, and lines that add more."""
    plain = [each for each in found if each.path != (KEY,)]
    for each in plain:
        is_name = len(each.path) == 3 and each.path[0] in (ARRAYS, SLOPES) and each.path[2] == NAME
        yield EntryName(**_parts(each), entries=entries_of(tables, each.path[0])) if is_name else each
        if is_name and each.path[0] == ARRAYS and SLOPES in tables:
            yield _slope_of(each.path, tables, changes)
    yield from _alternatives(plain, tables, changes)
    for table, info in ADDING.items():
        yield NewEntry((table, NEW), info, "", REMOVED, changed=False, tables=tables)


def _slope_of(name: Steps, tables: Mapping[str, Any], changes: Changes) -> InputField:
    """The slope on which an array lies, one of those that the file has."""
    here, slopes = (*name[:-1], SLOPE), tuple(names_in(entries_of(tables, SLOPES)))
    info: FieldInfo = input_field(description="slope on which the array lies")
    info.metadata.append(Choice(slopes))
    return InputField(here, info, PydanticUndefined, value_at(tables, here), _touches(changes, here))


def _alternatives(inputs: Sequence[InputField], tables: Mapping[str, Any], changes: Changes) -> Iterator[InputField]:
    """The name of each alternative, the inputs that it changes, and a line that adds one."""
    by_path = {each.path: each for each in inputs}
    changeable = [each for each in inputs if each.path[0] not in FIXED and each.path[-1] != NAME]
    entries = entries_of(tables, KEY)
    for name in names_in(entries):
        here, own = (KEY, name, NAME), value_at(tables, (KEY, name, "set"))
        info = Alternative.model_fields[NAME]
        yield EntryName(here, info, "", name, _touches(changes, here), IN_FILE, entries=entries)
        for written, value in own.items() if isinstance(own, Mapping) else ():
            path = (KEY, name, "set", written)
            changed = by_path.get(input_path(path)) or _unknown(path)
            yield replace(
                changed, path=path, default=changed.value, stated=value, changed=_touches(changes, path), source=IN_FILE
            )
        yield NewChange((KEY, name, "set", NEW), CHANGING, "", REMOVED, changed=False, inputs=changeable)


def _unknown(path: Steps) -> InputField:
    """A change of something that is no input."""
    return InputField(path, input_field("", description=f"no input {path[-1]}"), "", REMOVED, changed=False)


def differences(inputs: Sequence[InputField], others: Sequence[InputField]) -> dict[str, Any]:
    """The inputs of one file that differ in another, by their paths: what an alternative changes, to be that other."""
    now = {each.path: each.value for each in inputs}
    plain = [each for each in others if each.path[0] not in FIXED and each.path in now and type(each) not in LINES]
    return {".".join(each.path): _stated(each) for each in plain if not same(each.value, now[each.path])}


def entries_of(tables: Mapping[str, Any], table: str) -> Sequence[Mapping[str, Any]]:
    """The entries of a list; none where it is no list of tables."""
    entries = tables.get(table)
    return [each for each in entries if isinstance(each, Mapping)] if isinstance(entries, list | tuple) else []


def _touches(changes: Changes, path: Steps) -> bool:
    """True if a change is of this value, of a part of it, or of the list that it is in."""
    return any(path[: len(each)] == each or each[: len(path)] == path for each in changes)


def _parts(each: InputField) -> dict[str, Any]:
    """The fields of an input, to make another kind of it."""
    return {part.name: getattr(each, part.name) for part in fields(InputField)}

"""The inputs of a scenario one by one, as the bench lists them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from pydantic.fields import FieldInfo
from pydantic_core import PydanticUndefined

from engine.loads import STANDARDS
from engine.mounting import METHODS
from engine.scenario.read import fields_of
from engine.schema import Count, InputTable, LengthRange, Number, Quantity
from engine.schema.introspection import defaults, field_type_of, nested_table
from engine.schema.toml import to_toml
from engine.units import UNITS
from tui.storage.overrides import REMOVED, Changes, Steps, toml_value, value_at


@dataclass(frozen=True)
class Entry:
    """One input: its path, its field, what it is where nothing is said, and what the file or a change says."""

    path: Steps
    info: FieldInfo
    default: Any
    written: Any
    changed: bool

    @property
    def origin(self) -> str:
        """Where its value comes from: "changed", "file" or "default"."""
        if self.changed:
            return "changed"
        return "default" if self.written is REMOVED else "file"

    @property
    def required(self) -> bool:
        """Whether the file must say it."""
        return self.default is PydanticUndefined

    @property
    def shown(self) -> str:
        """The value as one would type it."""
        value = self.default if self.written is REMOVED else self.written
        if value is None or (value is self.default and self.required):
            return ""
        return value if isinstance(value, str) else to_toml(value)

    @property
    def title(self) -> str:
        """Its name in words."""
        return self.path[-1].replace("_", " ")

    @property
    def help(self) -> str:
        """What it means, what is allowed, and in which units it may be typed."""
        kind = field_type_of(self.info)
        allowed = f" Allowed: {kind.allowed}." if kind else ""
        units = f" Units: {', '.join(UNITS[kind.dimension])}." if isinstance(kind, Quantity) else ""
        return f"{self.info.description}.{allowed}{units}"

    def value_of(self, typed: str) -> Any:
        """What the typed text says: text for quantities and words, a TOML value for numbers and tables."""
        if not typed.strip():
            return REMOVED
        kind = field_type_of(self.info)
        if kind is not None and not isinstance(kind, Count | Number | LengthRange):
            return typed.strip()
        return toml_value(typed)


def entries_of(tables: Mapping[str, Any], changes: Changes) -> Iterator[Entry]:
    """Every input, in the file's order; `changes` are laid over the tables already."""
    named = value_at(tables, ("site", "standard"))
    standard = STANDARDS.get(str(named), next(iter(STANDARDS.values())))
    for path, model in fields_of(METHODS, standard).items():
        for here, info, default in _fields(tuple(filter(None, path.split("."))), model, {}):
            yield Entry(here, info, default, value_at(tables, here), here in changes)


def _fields(
    path: Steps, model: type[InputTable], otherwise: Mapping[str, Any]
) -> Iterator[tuple[Steps, FieldInfo, Any]]:
    """The fields of a table and of the tables in it, with their defaults; the table above may have others for them."""
    for name, info in model.model_fields.items():
        inner = nested_table(info)
        if inner:
            yield from _fields((*path, name), inner, defaults(model, name))
        else:
            yield (*path, name), info, otherwise.get(name, info.default)

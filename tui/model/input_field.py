"""The inputs of a scenario one by one, as the form lists them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from pydantic.fields import FieldInfo
from pydantic_core import PydanticUndefined

from engine.loads import STANDARDS
from engine.mounting import METHODS
from engine.scenario.changes import REMOVED, Changes, Steps, toml_value, value_at
from engine.scenario.read import fields_of
from engine.scenario.resolve import Resolved
from engine.scenario.slopes import above_slope
from engine.scenario.sources import IN_FILE, Origin, is_sourced, without_source
from engine.schema import Count, InputTable, LengthRange, Number, Quantity, Switch
from engine.schema.introspection import defaults, field_type_of, nested_table
from engine.schema.toml import to_toml
from engine.units import UNITS

ORIGINS = {
    "changed": "changed here, not saved yet",
    "file": "from the file",
    "default": "the default, not set in the file",
}


@dataclass(frozen=True)
class InputField:
    """One input: its path, its schema, its default, and the value that the file or a change states.

    `source` is where its value comes from: a shelf, or what is stated beside it. A shelf's value is its default.
    """

    path: Steps
    info: FieldInfo
    default: Any
    stated: Any
    changed: bool
    source: Origin = IN_FILE

    @property
    def origin(self) -> str:
        """The source of its value: "changed", "file", "shelf" or "default"."""
        if self.changed:
            return "changed"
        if self.stated is not REMOVED:
            return "file"
        return "shelf" if self.source.shelf else "default"

    @property
    def origin_words(self) -> str:
        """The source of its value in words: "from 'M420' in parts.toml: data sheet"."""
        words = f"from {self.source.words}" if self.source.shelf else ORIGINS[self.origin]
        return words if self.source.shelf or not self.source.source else f"{words}; source: {self.source.source}"

    @property
    def required(self) -> bool:
        """True if the file must state it."""
        return self.default is PydanticUndefined

    @property
    def shown(self) -> str:
        """The value as it is typed."""
        value = self.default if self.stated is REMOVED else without_source(self.stated)
        if value is None or (value is self.default and self.required):
            return ""
        return value if isinstance(value, str) else to_toml(value)

    @property
    def title(self) -> str:
        """Its name in words."""
        return self.path[-1].replace("_", " ")

    @property
    def help(self) -> str:
        """Its meaning, its allowed range and its units."""
        kind = field_type_of(self.info)
        allowed = f" Allowed: {kind.allowed}." if kind else ""
        units = f" Units: {', '.join(UNITS[kind.dimension])}." if isinstance(kind, Quantity) else ""
        return f"{self.info.description}.{allowed}{units}"

    def value_of(self, typed: str) -> Any:
        """The value of a typed text: text for quantities and words, a TOML value for numbers and tables."""
        if not typed.strip():
            return REMOVED
        kind = field_type_of(self.info)
        if is_sourced(table := toml_value(typed)):
            return table
        if kind is not None and kind.structured:
            return toml_value(typed) if typed.strip().startswith(("[", "{")) else typed.strip()
        if kind is not None and not isinstance(kind, Count | Number | LengthRange | Switch):
            return typed.strip()
        return toml_value(typed)


def input_fields(tables: Mapping[str, Any], changes: Changes, resolved: Resolved) -> Iterator[InputField]:
    """Every input, in the file's order; the changes are laid over the tables as far as they can be.

    Args:
        tables: the tables as in the file.
        changes: the changes.
        resolved: the plain values of the tables, with those of shelves.
    """
    named = value_at(resolved.tables, ("site", "standard"))
    standard = STANDARDS.get(str(named), next(iter(STANDARDS.values())))
    for path, model in fields_of(METHODS, standard, resolved.tables).items():
        steps = tuple(filter(None, path.split(".")))
        for here, info, default in _schema_fields(steps, model, above_slope(resolved.tables, steps)):
            source = resolved.origins.origin_of(".".join(here))
            unstated = value_at(resolved.tables, here) if source.shelf else default
            stated = changes.get(here, value_at(tables, here))
            yield InputField(here, info, unstated, stated, here in changes, source)


def _schema_fields(
    path: Steps, model: type[InputTable], defaults_above: Mapping[str, Any]
) -> Iterator[tuple[Steps, FieldInfo, Any]]:
    """Path, schema and default of each field of a table and of the tables in it; a table above may set the default."""
    for name, info in model.model_fields.items():
        inner = nested_table(info)
        if inner:
            above = defaults_above.get(name, {})
            yield from _schema_fields((*path, name), inner, defaults(model, name) | dict(above))
        else:
            yield (*path, name), info, defaults_above.get(name, info.default)

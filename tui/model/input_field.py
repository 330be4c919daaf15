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
from engine.scenario.slopes import above_slope
from engine.schema import Count, InputTable, LengthRange, Number, Quantity, Switch
from engine.schema.introspection import defaults, field_type_of, nested_table
from engine.schema.toml import to_toml
from engine.units import UNITS


@dataclass(frozen=True)
class InputField:
    """One input: its path, its schema, its default, and the value that the file or a change states."""

    path: Steps
    info: FieldInfo
    default: Any
    stated: Any
    changed: bool

    @property
    def origin(self) -> str:
        """The source of its value: "changed", "file" or "default"."""
        if self.changed:
            return "changed"
        return "default" if self.stated is REMOVED else "file"

    @property
    def required(self) -> bool:
        """True if the file must state it."""
        return self.default is PydanticUndefined

    @property
    def shown(self) -> str:
        """The value as it is typed."""
        value = self.default if self.stated is REMOVED else self.stated
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
        if kind is not None and kind.structured:
            return toml_value(typed) if typed.strip().startswith(("[", "{")) else typed.strip()
        if kind is not None and not isinstance(kind, Count | Number | LengthRange | Switch):
            return typed.strip()
        return toml_value(typed)


def input_fields(tables: Mapping[str, Any], changes: Changes) -> Iterator[InputField]:
    """Every input, in the file's order; the changes are laid over the tables as far as they can be."""
    named = value_at(tables, ("site", "standard"))
    standard = STANDARDS.get(str(named), next(iter(STANDARDS.values())))
    for path, model in fields_of(METHODS, standard, tables).items():
        steps = tuple(filter(None, path.split(".")))
        for here, info, default in _schema_fields(steps, model, above_slope(tables, steps)):
            yield InputField(here, info, default, changes.get(here, value_at(tables, here)), here in changes)


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

"""All inputs of a scenario as written, for sheets and reports."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from pydantic.fields import FieldInfo

from engine.scenario.changes import value_at
from engine.scenario.read import Scenario, fields_of
from engine.schema import InputTable, Quantity
from engine.schema.introspection import defaults, field_type_of, nested_table
from engine.schema.toml import to_toml

NOT_SET = "not set"


@dataclass(frozen=True)
class ListedInput:
    """One input: its path in the file, its text there, and its meaning.

    `value` is a plain number, or a quantity in SI with its `dimension`; None for other inputs. `stated` is False for a
    default.
    """

    path: str
    written: str
    value: float | None
    dimension: str
    help: str
    stated: bool

    @property
    def table(self) -> str:
        """Path of its table."""
        return self.path.rpartition(".")[0]

    @property
    def name(self) -> str:
        """Its name for people."""
        return self.path.rpartition(".")[2].replace("_", " ")


def inputs_of(scenario: Scenario) -> tuple[ListedInput, ...]:
    """All inputs with their defaults, in the order of the file."""
    methods = {method.id: type(method) for method in scenario.methods}
    models = fields_of(methods, type(scenario.standard), scenario.written)
    return tuple(
        row for path, model in models.items() for row in _table(path, model, _table_at(scenario.written, path), {})
    )


def _table_at(written: Mapping[str, Any], path: str) -> Mapping[str, Any]:
    table = value_at(written, tuple(filter(None, path.split("."))))
    return table if isinstance(table, Mapping) else {}


def _table(
    path: str, model: type[InputTable], written: Mapping[str, Any], default: Mapping[str, Any]
) -> Iterator[ListedInput]:
    """The inputs of a table: the written values, else the default that the table above has for them."""
    for name, field in model.model_fields.items():
        here, inner = f"{path}.{name}" if path else name, nested_table(field)
        value = written.get(name, default.get(name, field.default))
        if inner is None or value is None:
            yield _input(here, field, value, stated=name in written)
        else:
            yield from _table(here, inner, written.get(name, {}), defaults(model, name))


def _input(path: str, field: FieldInfo, value: Any, *, stated: bool) -> ListedInput:
    kind, not_set = field_type_of(field), value is None or value == ()
    text = NOT_SET if not_set else value if isinstance(value, str) else to_toml(value)
    number, dimension = None, ""
    if isinstance(kind, Quantity) and not not_set:
        number, dimension = kind.read(value), kind.shown or kind.dimension
    elif isinstance(value, int | float) and not isinstance(value, bool):
        number = float(value)
    return ListedInput(path, text, number, dimension, field.description or "", stated)

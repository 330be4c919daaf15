"""Every input of a scenario as it was written: what a sheet or a report lists."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from pydantic.fields import FieldInfo

from engine.scenario.read import Scenario, fields_of
from engine.schema import InputTable, Quantity
from engine.schema.introspection import defaults, field_type_of, nested_table
from engine.schema.toml import to_toml

NOT_SET = "left out"


@dataclass(frozen=True)
class ListedInput:
    """One input: its path in the file, what was written there, and what it means.

    `value` is a plain number, or a quantity in SI that is shown in `dimension`; None where it is
    neither. `stated` tells what the file says from what is a default.
    """

    path: str
    written: str
    value: float | None
    dimension: str
    help: str
    stated: bool

    @property
    def table(self) -> str:
        """The table it stands in."""
        return self.path.rpartition(".")[0]

    @property
    def name(self) -> str:
        """Its own name, in words."""
        return self.path.rpartition(".")[2].replace("_", " ")


def inputs_of(scenario: Scenario) -> tuple[ListedInput, ...]:
    """Every input, defaults included, in the file's order."""
    models = fields_of({method.id: type(method) for method in scenario.methods}, type(scenario.standard))
    return tuple(
        row for path, model in models.items() for row in _table(path, model, _given(scenario.written, path), {})
    )


def _given(written: Mapping[str, Any], path: str) -> Mapping[str, Any]:
    for step in filter(None, path.split(".")):
        written = written.get(step, {})
    return written


def _table(
    path: str, model: type[InputTable], as_given: Mapping[str, Any], otherwise: Mapping[str, Any]
) -> Iterator[ListedInput]:
    """The keys of a table: what the file gives, laid over what the table above has for a default."""
    for name, field in model.model_fields.items():
        here, inner = f"{path}.{name}" if path else name, nested_table(field)
        value = as_given.get(name, otherwise.get(name, field.default))
        if inner is None or value is None:
            yield _input(here, field, value, stated=name in as_given)
        else:
            yield from _table(here, inner, as_given.get(name, {}), defaults(model, name))


def _input(path: str, field: FieldInfo, value: Any, *, stated: bool) -> ListedInput:
    kind, left_out = field_type_of(field), value is None or value == ()
    words = NOT_SET if left_out else value if isinstance(value, str) else to_toml(value)
    number, dimension = None, ""
    if isinstance(kind, Quantity) and not left_out:
        number, dimension = kind.read(value), kind.shown or kind.dimension
    elif isinstance(value, int | float) and not isinstance(value, bool):
        number = float(value)
    return ListedInput(path, words, number, dimension, field.description or "", stated)

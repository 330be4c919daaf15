"""All inputs of a scenario as written, for sheets and reports."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from typing import Any

from pydantic.fields import FieldInfo

from engine.scenario.alternatives import KEY
from engine.scenario.changes import value_at
from engine.scenario.read import ARRAY, ARRAYS, Scenario, fields_of
from engine.scenario.shelf import USE
from engine.scenario.sources import IN_FILE
from engine.schema import FROM, InputTable, Quantity
from engine.schema.introspection import defaults, field_type_of, nested_table
from engine.schema.toml import to_toml
from engine.schema.wording import Wording

NOT_SET = "not set"
DEFAULT = "default"

UNLISTED = (USE, FROM, KEY)
"""Keys that are no values of the job: shelves, references to them, and alternatives."""


@dataclass(frozen=True)
class ListedInput:
    """One input: its path in the file, its text there, and its meaning.

    `value` is a plain number, or a quantity in SI with its `dimension`; None for other inputs. `stated` is False for a
    default. `origin` says in words where it comes from: "file", "default", an entry of a shelf, with its source.
    """

    path: str
    written: str
    value: float | None
    dimension: str
    help: str
    stated: bool
    origin: str

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
    wording = Wording(scenario.standard.system, scenario.standard.words)
    return tuple(
        replace(row, origin=scenario.origins.origin_of(row.path).words) if row.stated else row
        for path, model in models.items()
        for row in _table(path, model, _table_at(scenario.written, path), {}, wording)
        if row.name not in UNLISTED
    )


def newer_spellings(scenario: Scenario) -> Iterator[tuple[str, str]]:
    """Tables that may be written in a newer way, which reaches farther; what is written stays valid."""
    if ARRAY in scenario.written:
        yield (
            f"[{ARRAY}]",
            f'may be written [[{ARRAYS}]] with name = "A", so that others can lie beside it; both are read',
        )


def sources_listed(scenario: Scenario) -> Mapping[str, tuple[str, ...]]:
    """Each stated source, with the paths of the values that come from it."""
    listed: dict[str, tuple[str, ...]] = {}
    for path, origin in scenario.origins.by_path.items():
        if origin.source:
            listed[origin.source] = (*listed.get(origin.source, ()), path)
    return listed


def origins_listed(scenario: Scenario) -> tuple[tuple[str, str], ...]:
    """Origins with the inputs that come from each; of the file without a source and the defaults only their number."""
    by_origin: dict[str, list[str]] = {}
    for row in inputs_of(scenario):
        by_origin.setdefault(row.origin, []).append(row.path)
    in_file, default = (f"{len(by_origin.pop(origin, ()))} inputs" for origin in (IN_FILE.words, DEFAULT))
    named = ((origin, ", ".join(paths)) for origin, paths in by_origin.items())
    return (*named, ("file, no source stated", in_file), (DEFAULT, default))


def _table_at(written: Mapping[str, Any], path: str) -> Mapping[str, Any]:
    table = value_at(written, tuple(filter(None, path.split("."))))
    return table if isinstance(table, Mapping) else {}


def _table(
    path: str, model: type[InputTable], written: Mapping[str, Any], default: Mapping[str, Any], wording: Wording
) -> Iterator[ListedInput]:
    """The inputs of a table: the written values, else the default that the table above has for them."""
    for name, field in model.model_fields.items():
        here, inner = f"{path}.{name}" if path else name, nested_table(field)
        value = written.get(name, default.get(name, field.default))
        if inner is None or value is None:
            shown = value if name in written else wording.default(field, value)
            yield _input(here, field, shown, value, wording, stated=name in written)
        else:
            yield from _table(here, inner, written.get(name, {}), defaults(model, name), wording)


def _input(path: str, field: FieldInfo, shown: Any, value: Any, wording: Wording, *, stated: bool) -> ListedInput:
    kind, not_set = field_type_of(field), value is None or value == ()
    text = NOT_SET if not_set else shown if isinstance(shown, str) else to_toml(shown)
    number, dimension = None, ""
    if isinstance(kind, Quantity) and not not_set:
        number, dimension = kind.read(value), kind.shown or kind.dimension
    elif isinstance(value, int | float) and not isinstance(value, bool):
        number = float(value)
    return ListedInput(path, text, number, dimension, wording.description(field), stated, DEFAULT)

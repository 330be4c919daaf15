"""Ways in which a strength, a rating or a document may be stated, each with its own values."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import lru_cache
from typing import Any, get_args

from pydantic import ValidationError
from pydantic.fields import FieldInfo

from engine.common.vocabulary import ALLOWABLES, Vocabulary
from engine.schema import InputTable
from engine.strength import ModuleRating, StrengthBasis
from engine.units import System, text

PLAIN_TITLES = {"stated": "stated allowable", "tested": "load test"}
"""Titles of bases that say too little without their table."""


@dataclass(frozen=True)
class Way:
    """One way: its title, its model, the keys of which one shows that it is meant, and its fields."""

    title: str
    model: type[InputTable]
    keys: tuple[str, ...]
    fields: Mapping[str, FieldInfo]

    def describes(self, value: Any) -> bool:
        """True if a written value is stated in this way."""
        return isinstance(value, Mapping) and any(key in value for key in self.keys)

    @property
    def blank(self) -> dict[str, Any]:
        """Its table before any value is given: a key without a value is refused, so it cannot be forgotten."""
        return {self.keys[0]: ""}

    @property
    def gives_result(self) -> bool:
        """True if a strength or a rating follows from it."""
        return issubclass(self.model, StrengthBasis | ModuleRating)

    def result(self, value: Any, system: System, words: Vocabulary = ALLOWABLES) -> str:
        """The allowable, or design resistance, that follows from a written table, with its unit; empty if none does."""
        try:
            read = self.model.model_validate(value)
        except ValidationError:
            return ""
        if isinstance(read, ModuleRating):
            mode = read.mode()
            return f"{text(mode.nominal / mode.safety_factor, 'pressure', system)} design load"
        if not isinstance(read, StrengthBasis):
            return ""
        if words is not ALLOWABLES:
            return _design_value(read, system, words)
        if not read.gives_allowable:
            return ""
        mode = min(read.modes(), key=lambda each: each.nominal / each.safety_factor)
        by_duration = ", before the factors of wood" if mode.load_duration else ""
        return f"{text(mode.nominal / mode.safety_factor, 'force', system)} allowable{by_duration}"


def _design_value(basis: StrengthBasis, system: System, words: Vocabulary) -> str:
    """The design resistance where the table has its partial factor; else the characteristic value."""
    if not basis.gives_design_resistance:
        return ""
    mode = min(basis.modes(), key=lambda each: each.nominal / (each.partial_factor or 1.0))
    if mode.partial_factor is None:
        return f"{text(mode.nominal, 'force', system)} characteristic"
    return f"{text(mode.nominal / mode.partial_factor, 'force', system)} {words.resistance}"


def ways_of(info: FieldInfo, words: Vocabulary) -> tuple[Way, ...]:
    """The ways in which an input may be stated under a standard; none for values and for lists of tables."""
    tables = tuple(dict.fromkeys(_tables_in(info.annotation, *info.metadata)))
    return _ways(tables, words is ALLOWABLES)


@lru_cache
def _ways(tables: tuple[type[InputTable], ...], with_allowables: bool) -> tuple[Way, ...]:
    if tables == (ModuleRating,):
        return tuple(
            Way(f"{key} load", ModuleRating, (key,), {key: ModuleRating.model_fields[key]})
            for key in ("test", "design")
        )
    bases = [table for table in tables if issubclass(table, StrengthBasis)]
    if bases:
        return tuple(
            Way(PLAIN_TITLES.get(basis.title, basis.title), basis, basis.identifying_keys, basis.model_fields)
            for basis in bases
            if basis.gives_allowable or not with_allowables
        )
    one_line = [table for table in tables if getattr(table, "one_line", False)]
    return tuple(Way("shown by others", table, tuple(table.model_fields), table.model_fields) for table in one_line)


def _tables_in(*annotations: Any) -> Iterator[type[InputTable]]:
    """The tables that a value may be, through unions and marks, but not inside lists of other tables."""
    for annotation in annotations:
        if isinstance(annotation, type) and issubclass(annotation, InputTable):
            yield annotation
        elif hasattr(annotation, "__args__") or get_args(annotation):
            yield from _tables_in(*get_args(annotation))

"""A scenario with one input changed, for headroom and sensitivity."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass, replace
from functools import reduce
from typing import Any

from engine.scenario.read import Scenario
from engine.schema import InputTable, Quantity
from engine.schema.introspection import field_type_of
from engine.strength import StrengthBasis
from engine.strength.scaled import ScaledStrength

Change = Callable[[float], float]


@dataclass(frozen=True)
class VariedInput:
    """One number or strength of a scenario: its path in the file, its name for people, and its dimension."""

    path: str
    name: str
    dimension: str


def with_change(scenario: Scenario, path: str, change: Change) -> Scenario | None:
    """The scenario with one input changed; None if it has no such number.

    Args:
        scenario: the scenario.
        path: of the input as in `--set`, in `site` or in a table of the job.
        change: gives the new value of a number from the old one [SI]; a strength is scaled by `change(1.0)`.
    """
    table, *steps = path.split(".")
    after = _changed(_table(scenario, table), steps, change)
    if after is None:
        return None
    if table == "site":
        return replace(scenario, standard=type(scenario.standard)(after))
    return replace(scenario, job=replace(scenario.job, **{table: after}))


def number_at(scenario: Scenario, path: str) -> float | None:
    """A number of the scenario [SI]; None if it has no such number."""
    values: list[float] = []

    def unchanged(value: float) -> float:
        values.append(value)
        return value

    with_change(scenario, path, unchanged)
    return values[0] if values else None


def bounds_at(scenario: Scenario, path: str) -> tuple[float, float]:
    """Smallest and largest value allowed for a number of the scenario [SI]; a strength has no bounds."""
    table, *steps, name = path.split(".")
    holder = reduce(getattr, steps, _table(scenario, table))
    kind = field_type_of(type(holder).model_fields[name])
    return kind.bounds if isinstance(kind, Quantity) else (-math.inf, math.inf)


def _table(scenario: Scenario, table: str) -> Any:
    return scenario.standard.site if table == "site" else getattr(scenario.job, table, None)


def _changed(value: Any, steps: list[str], change: Change) -> Any:
    """The value with the part at the end of the steps changed; None if there is none."""
    if steps:
        inner = _changed(getattr(value, steps[0], None), steps[1:], change)
        return (
            None if inner is None or not isinstance(value, InputTable) else value.model_copy(update={steps[0]: inner})
        )
    if isinstance(value, tuple) and all(isinstance(basis, StrengthBasis) for basis in value):
        return tuple(ScaledStrength.model_construct(basis=basis, factor=change(1.0)) for basis in value)
    return change(value) if isinstance(value, float) else None

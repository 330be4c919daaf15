"""What a story is told of, and in which words."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from engine.common.calculation import COUNTED, CalculationStep, Reference, Term
from engine.comparison.compare import Column, Comparison
from engine.comparison.figure import Row
from engine.design.design import Design
from engine.links import Check
from engine.units import System, number, unit


@dataclass(frozen=True, eq=False)
class Told:
    """One figure of one method, and the units it is shown in."""

    comparison: Comparison
    column: Column
    design: Design
    row: Row
    system: System

    def term(self, value: float, dimension: str) -> Term:
        """An SI value in the unit it is shown in."""
        return Term(number(value, dimension, self.system), unit(dimension, self.system))

    def money(self, value: float) -> Term:
        """A price in the scenario's currency."""
        return Term(value, self.comparison.scenario.job.currency)


Tell = Callable[[Told], tuple[CalculationStep, ...]]


def step(
    symbol: str, meaning: str, result: Term, equation: str, terms: Mapping[str, Term], source: Reference = COUNTED
) -> CalculationStep:
    """A step; arithmetic on what was counted, where no other source is given."""
    return CalculationStep(symbol, meaning, result, equation, terms, source)


def given(symbol: str, meaning: str, result: Term, source: Reference = COUNTED) -> CalculationStep:
    """A value taken as it stands."""
    return CalculationStep(symbol, meaning, result, "", {}, source)


def where(check: Check) -> str:
    """A check's worst place and combination, in words."""
    return ", ".join(filter(None, [check.place.name, check.combination]))

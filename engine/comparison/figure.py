"""A figure of the comparison: one declaration for table, JSON, files, lessons and "why?"."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import groupby
from typing import Literal

from engine.common.calculation import COUNTED, CalculationStep, Reference, Term
from engine.comparison.compare import Column, Comparison
from engine.design.design import Design
from engine.project.job import Job
from engine.units import System, number, text, unit

Value = float | str | None
Steps = tuple[CalculationStep, ...]

NOT_IN_TABLE = ""
"""Group of figures that JSON and lessons have and tables leave out."""

UTILISATION = "utilisation by component"
"""Group of the links' utilisations."""


@dataclass(frozen=True, eq=False)
class FigureContext:
    """One method whose figure is explained, and the units it is shown in."""

    comparison: Comparison
    column: Column
    design: Design
    system: System

    @property
    def job(self) -> Job:
        """The job of the design."""
        return self.design.job

    def term(self, value: float, dimension: str) -> Term:
        """An SI value in the unit it is shown in."""
        return Term(number(value, dimension, self.system), unit(dimension, self.system))

    def money(self, value: float) -> Term:
        """A price in the scenario's currency."""
        return Term(value, self.job.currency)


def no_steps(context: FigureContext) -> Steps:
    """The explanation of a figure that has none."""
    return ()


def always(column: Column) -> bool:
    """True for every method."""
    return True


@dataclass(frozen=True)
class Figure:
    """One figure of every method.

    Attributes:
        key: its name in JSON and lessons.
        group: the heading it stands under in tables; `NOT_IN_TABLE` keeps it out of them.
        label: its name in tables, in the words that fit the job.
        help: what it means, in one phrase.
        dimension: of its SI value; empty for words.
        value: its value for a method; None where it is not known.
        explain: the steps from the figure back to the loads.
        shown: its value in tables where that differs from `value`: words in place of a missing number, for instance.
        limit: the largest acceptable value, where there is one.
        better: whether less or more is better for a designer; empty where neither is.
        is_stated: False for methods whose value rests on placeholders; then no method is called the best.
        in_json: False for figures that JSON holds elsewhere, as it holds the links.
    """

    key: str
    group: str
    label: Callable[[Job], str]
    help: Callable[[Job], str]
    dimension: str
    value: Callable[[Column], Value]
    explain: Callable[[FigureContext], Steps] = no_steps
    shown: Callable[[Column], Value] | None = None
    limit: float | None = None
    better: Literal["less", "more", ""] = ""
    is_stated: Callable[[Column], bool] = always
    in_json: bool = True

    def table_value(self, column: Column) -> Value:
        """The value as tables have it: a number, or words in its place."""
        return (self.shown or self.value)(column)

    def cell(self, column: Column, system: System) -> str:
        """The figure as every screen and table shows it; a dash where there is none."""
        value = self.table_value(column)
        if isinstance(value, str):
            return value or "–"
        return text(value, self.dimension, system)

    def change(self, column: Column, before: Column | None, system: System) -> str:
        """The change from an earlier column, with sign and word; "same" where there is none."""
        if before is None:
            return "new"
        return change_text(self.table_value(column), self.table_value(before), self.dimension, system)

    def is_over(self, column: Column) -> bool:
        """True where the value exceeds its limit."""
        value = self.value(column)
        return self.limit is not None and isinstance(value, float | int) and value > self.limit

    def best(self, columns: Sequence[Column], system: System) -> frozenset[str]:
        """Ids of the methods with the best value, as it is shown; none if all show the same, or a placeholder."""
        values = {column: value for column in columns if isinstance(value := self.value(column), float | int)}
        shown = {column: self.cell(column, system) for column in values}
        fit = {column: value for column, value in values.items() if not self.is_over(column)}
        if not (self.better and fit and len(set(shown.values())) > 1 and all(map(self.is_stated, values))):
            return frozenset()
        best = (min if self.better == "less" else max)(fit, key=fit.__getitem__)
        return frozenset(column.id for column in fit if shown[column] == shown[best])


def words(text: str) -> Callable[[Job], str]:
    """The same words for every job."""
    return lambda job: text


def change_text(now: Value, before: Value, dimension: str, system: System) -> str:
    """The change of a figure: "+32 more", "−0.10 less", "was OVER", "same"."""
    if now == before:
        return "same"
    if isinstance(now, str | None) or isinstance(before, str | None):
        return f"was {before if isinstance(before, str) else text(before, dimension, system)}"
    size = text(abs(now - before), dimension, system)
    if size == text(0.0, dimension, system):
        return "nearly the same"
    return f"+{size} more" if now > before else f"−{size} less"


def by_group(figures: Sequence[Figure]) -> Iterator[tuple[str, tuple[Figure, ...]]]:
    """Figures under their groups, both in reading order."""
    for group, members in groupby(figures, key=lambda figure: figure.group):
        yield group, tuple(members)


def step(
    symbol: str,
    meaning: str,
    result: Term,
    equation: str,
    terms: Mapping[str, Term],
    source: Reference = COUNTED,
) -> CalculationStep:
    """A step; simple arithmetic where no other source is given."""
    return CalculationStep(symbol, meaning, result, equation, terms, source)


def value_step(symbol: str, meaning: str, result: Term, source: Reference = COUNTED) -> CalculationStep:
    """A value without an equation."""
    return CalculationStep(symbol, meaning, result, "", {}, source)

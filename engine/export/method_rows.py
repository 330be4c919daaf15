"""The methods as rows of a table: verdict, what is checked by whom, and counts."""

from __future__ import annotations

from engine.comparison.compare import Column, Comparison
from engine.comparison.figures import figure_named
from engine.comparison.figures.verdict import verdict_line, verdict_word
from engine.units import System

METHOD_HEADINGS = ("method", "verdict", "controlling component, what is not checked", "attachments", "modules", "total")


def method_rows(comparison: Comparison, system: System) -> tuple[tuple[str, ...], ...]:
    """One row a method, under `METHOD_HEADINGS`."""
    return tuple(
        (column.title, verdict_word(column), _basis(column), *_counts(comparison, column, system))
        for column in comparison.columns
    )


def _basis(column: Column) -> str:
    """Everything that the verdict rests on; the reason where nothing was checked."""
    if column.candidate is None and column.flags:
        return column.flags[0].text
    return verdict_line(column).removeprefix(f"{verdict_word(column)}: ")


def _counts(comparison: Comparison, column: Column, system: System) -> tuple[str, str, str]:
    attachments, modules, total = (
        figure_named(key).cell(column, system) for key in ("attachments", "modules", "total_cost")
    )
    return attachments, modules, f"{total} {comparison.scenario.job.currency}" if column.design else total

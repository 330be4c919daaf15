"""The alternatives of a scenario, ranked, as text for the command line and the app."""

from __future__ import annotations

from collections.abc import Iterator

from rich.console import RenderableType
from rich.table import Table

from engine.comparison.alternatives import ranked, ranking_rule
from engine.comparison.compare import Comparison
from engine.comparison.figures import figure_named
from engine.comparison.figures.verdict import verdict_and_component
from engine.units import System

FIGURES = ("modules", "attachments", "total_cost")
NONE = (
    'No alternatives are stated. Add them in the inputs, or to the scenario: [[alternatives]], name = "rail span", '
    'set = { "methods.rail.spacing" = "rail span" }; or keep a comparison as the baseline (k).'
)


def alternatives_parts(comparison: Comparison, system: System) -> Iterator[RenderableType]:
    """A heading, the rule of ranking, and a row a method of each alternative, the best first."""
    if not comparison.alternatives:
        yield NONE
        return
    yield f"ALTERNATIVES, {ranking_rule(comparison)}"
    yield _table(comparison, system)


def _table(comparison: Comparison, system: System) -> Table:
    table, job = Table.grid(padding=(0, 2, 0, 0)), comparison.scenario.job
    figures = [figure_named(key) for key in FIGURES]
    table.add_column(no_wrap=True, justify="right")
    for _ in range(3):
        table.add_column()
    for _ in figures:
        table.add_column(no_wrap=True, justify="right")
    table.add_row("rank", "alternative", "method", "verdict", *(each.label(job) for each in figures))
    for each in ranked(comparison):
        cells = (figure.cell(each.column, system) for figure in figures)
        table.add_row(str(each.rank), each.alternative, each.column.title, verdict_and_component(each.column), *cells)
    return table

"""The figures of the comparison, each declared once, in reading order.

To add a figure: one `Figure` in the file of its subject. Table, JSON, CSV, lessons and "why?" take it from here.
"""

from __future__ import annotations

from engine.comparison.compare import Column
from engine.comparison.figure import NOT_IN_TABLE, Figure, Value
from engine.comparison.figures import attachments, hardware, heat, loads, money, spans, utilisation, verdict

__all__ = ["figure_named", "figures", "table_figures", "value_of"]


def figures() -> tuple[Figure, ...]:
    """Every figure, in reading order."""
    return (
        *verdict.FIGURES,
        *attachments.FIGURES,
        *loads.FIGURES,
        *utilisation.figures(),
        *spans.FIGURES,
        *heat.FIGURES,
        *hardware.FIGURES,
        *money.FIGURES,
    )


def table_figures() -> tuple[Figure, ...]:
    """The figures that tables and screens show."""
    return tuple(figure for figure in figures() if figure.group != NOT_IN_TABLE)


def figure_named(key: str) -> Figure:
    """A figure by its key.

    Raises:
        KeyError: there is none of that key.
    """
    return {figure.key: figure for figure in figures()}[key]


def value_of(column: Column, key: str) -> Value:
    """A method's value of a figure, by the figure's key."""
    return figure_named(key).value(column)

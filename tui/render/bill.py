"""The bills of the methods side by side, each figure with its difference from one method."""

from __future__ import annotations

from textual.content import Content

from engine.comparison.bill_figures import bill_rows
from engine.comparison.compare import Column, Comparison
from engine.comparison.figure import Figure, by_group
from engine.units import System, text
from tui.render.method_tabs import nothing_to_show
from tui.render.styles import MUTED, STATUS_STYLE, cautions

LABEL = 22
MIN_CELL, MAX_CELL = 18, 30
"""Cells of a method's column."""


def draw(comparison: Comparison, base: Column | None, system: System, width: int) -> Content:
    """The table, then the cautions."""
    cell = max(MIN_CELL, min(MAX_CELL, (width - LABEL) // max(1, len(comparison.columns))))
    lines = [
        Content(" " * LABEL)
        + Content.styled("".join(column.title.rjust(cell) for column in comparison.columns), "bold")
    ]
    verdicts = (
        Content.styled(column.status.word.rjust(cell), STATUS_STYLE[column.status]) for column in comparison.columns
    )
    lines.append(Content.assemble("verdict".ljust(LABEL), *verdicts))
    for group, members in by_group(bill_rows(comparison, system)):
        lines.append(Content.styled(f"── {group} ".ljust(LABEL + cell * len(comparison.columns), "─"), MUTED))
        lines += [_row(row, comparison, base, system, cell) for row in members]
    lines += [Content(""), *cautions(comparison, width)]
    for column in comparison.columns:
        if column.design is None:
            lines += [Content(""), Content.styled(column.title, "bold"), nothing_to_show(column, width, system)]
    return Content("\n").join(lines)


def _row(row: Figure, comparison: Comparison, base: Column | None, system: System, cell: int) -> Content:
    figure = cell // 2 + 1
    line = Content(row.label(comparison.scenario.job).ljust(LABEL)[:LABEL])
    of_base = row.table_value(base) if base else None
    for column in comparison.columns:
        value = row.table_value(column)
        apart = "" if column is base else difference(value, of_base, row.dimension, system)
        line += Content(row.cell(column, system).rjust(figure)) + Content.styled(apart.rjust(cell - figure), MUTED)
    return line


def difference(value: object, of_base: object, dimension: str, system: System) -> str:
    """Difference of a figure from the base's, with its sign and without its unit; empty if there is none."""
    if not isinstance(value, int | float) or not isinstance(of_base, int | float):
        return ""
    apart = text(abs(value - of_base), dimension, system, with_unit=False)
    if apart == text(0.0, dimension, system, with_unit=False):
        return "="
    return f"{'+' if value > of_base else '−'}{apart}"

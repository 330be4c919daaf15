"""The comparison as lines: every figure of every method, then flags and cautions."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import zip_longest

from textual.content import Content

from engine.comparison.answer import answer_line
from engine.comparison.compare import Column, Comparison
from engine.comparison.figure import Figure, by_group, change_text
from engine.comparison.figures import table_figures
from engine.comparison.figures.verdict import verdict_word
from engine.units import System, text
from tui.render.styles import MUTED, SEVERITY_STYLE, SIGNS, STATUS_STYLE, cautions, flags, wrapped

LABEL = 24
MIN_CELL, MAX_CELL = 14, 26
"""Cells of a method's column."""


@dataclass(frozen=True)
class Sheet:
    """The comparison as lines; `heads` is the line of the methods' names, `starts` the first line of each row."""

    lines: tuple[Content, ...]
    heads: int
    starts: tuple[int, ...]


def draw(
    answer: Comparison,
    baseline: Comparison | None,
    system: System,
    width: int,
    *,
    covered: bool = False,
) -> Sheet:
    """The whole comparison for a pane `width` cells wide: the answer, the table, flags, cautions.

    Args:
        answer: the comparison.
        baseline: an earlier comparison; each figure that differs shows its change.
        system: units shown.
        width: width of the pane [cells].
        covered: the answer is left out, because a lesson still asks for it.
    """
    cell = _cell(answer, width)
    lines = _heading(answer, baseline, system, width, covered=covered)
    heads = len(lines)
    lines.append(
        Content("".ljust(LABEL))
        + Content.styled("".join(column.title.rjust(cell) for column in answer.columns), "bold")
    )
    starts: list[int] = []
    across = min(width, LABEL + cell * len(answer.columns))
    for group, members in by_group(table_figures()):
        lines.append(Content.styled(f"── {group} ".ljust(across, "─"), MUTED))
        for row in members:
            starts.append(len(lines))
            lines += _row(row, answer, system, cell)
            lines += _changes(row, answer.columns, baseline, system, cell) if baseline else []
    for column in answer.columns:
        lines += [Content(""), Content.styled(column.title, "bold")]
        lines += flags(column, width)
    return Sheet((*lines, Content(""), *cautions(answer, width)), heads, tuple(starts))


def marked(sheet: Sheet, row: int, method: str, answer: Comparison, system: System, width: int) -> tuple[Content, ...]:
    """The lines of a sheet with one figure in focus: number of its row, id of its method. Only its row is drawn."""
    lines = tuple(_row(table_figures()[row], answer, system, _cell(answer, width), method))
    start = sheet.starts[row]
    return (*sheet.lines[:start], *lines, *sheet.lines[start + len(lines) :])


def _cell(answer: Comparison, width: int) -> int:
    """Width of a method's column [cells]."""
    return max(MIN_CELL, min(MAX_CELL, (width - 1 - LABEL) // max(1, len(answer.columns))))


def _heading(
    answer: Comparison, baseline: Comparison | None, system: System, width: int, *, covered: bool
) -> list[Content]:
    lines = [Content.styled(textwrap.shorten(answer.title, width, placeholder=" …"), "bold")]
    lines += [] if covered else wrapped(answer_line(answer, system), width, "bold")
    lines += wrapped(_site(answer, baseline, system), width, MUTED)
    if baseline:
        lines += wrapped(f"The change from the baseline ({baseline.title}) is shown under each value", width)
    return [*lines, _warnings(answer)]


def _warnings(answer: Comparison) -> Content:
    """Number of warnings: they are listed below the figures and may be out of sight."""
    count = sum(flag.severity == "warning" for column in answer.columns for flag in column.flags)
    words = f"{SIGNS['warning']}{count} warning{'s' if count > 1 else ''} below the figures" if count else ""
    return Content.styled(words, SEVERITY_STYLE["warning"])


def _site(answer: Comparison, baseline: Comparison | None, system: System) -> str:
    """The loads, each with its change from the baseline."""
    before = {name: value for name, value, _ in baseline.site} if baseline else {}
    figures = []
    for name, value, dimension in answer.site:
        changed = (
            f" ({change_text(value, before[name], dimension, system)})"
            if name in before and before[name] != value
            else ""
        )
        figures.append(f"{name} {text(value, dimension, system)}{changed}")
    return f"{answer.scenario.standard.title}: {', '.join(figures)}"


def _row(row: Figure, answer: Comparison, system: System, cell: int, chosen: str = "") -> Iterator[Content]:
    """A row; the figure in focus is reversed, so that it shows without colour too."""
    styles = [f"{_style(row, column)}{' reverse' if column.id == chosen else ''}" for column in answer.columns]
    label = row.label(answer.scenario.job)
    return _lines(label, [row.cell(column, system) for column in answer.columns], styles, cell)


def _changes(
    row: Figure, columns: tuple[Column, ...], baseline: Comparison, system: System, cell: int
) -> Iterator[Content]:
    """Change of each figure from the baseline; nothing if the whole row is the same."""
    changes = [row.change(column, baseline.column(column.id), system) for column in columns]
    if any(change != "same" for change in changes):
        yield from _lines("", changes, [MUTED] * len(columns), cell)


def _lines(label: str, cells: list[str], styles: list[str], cell: int) -> Iterator[Content]:
    """A label and cells side by side; long ones continue on the next line."""
    columns = [textwrap.wrap(label, LABEL - 1), *(textwrap.wrap(words, cell - 1) for words in cells)]
    for name, *parts in zip_longest(*columns, fillvalue=""):
        line = Content(name.ljust(LABEL))
        for part, style in zip(parts, styles, strict=True):
            line += Content(" " * (cell - len(part))) + Content.styled(part, style)
        yield line


def _style(row: Figure, column: Column) -> str:
    """Colour of a figure; its value or its word says the same."""
    if row.key == "status":
        return f"{STATUS_STYLE[column.status]} bold"
    return "$text-error bold" if row.is_over(column) else ""


def verdicts(answer: Comparison) -> Content:
    """Verdicts of all methods in one line, for screens without room for the comparison."""
    parts = []
    for column in answer.columns:
        words, style = verdict_word(column), f"{STATUS_STYLE[column.status]} bold"
        parts.append(Content(f"{column.title} ") + Content.styled(words, style))
    return Content(" · ").join(parts)

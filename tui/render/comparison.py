"""The comparison as lines: the answer, and every figure of every method in groups that fold."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator, Set
from dataclasses import dataclass
from itertools import zip_longest

from textual.content import Content

from engine.comparison.answer import answer_line
from engine.comparison.compare import Column, Comparison
from engine.comparison.figure import UTILISATION, Figure, by_group
from engine.comparison.figures import table_figures
from engine.comparison.figures.verdict import verdict_word
from engine.units import System
from tui.render import bars
from tui.render.notes import loads, notes
from tui.render.styles import BEST, MUTED, PLACEHOLDER, STATUS_STYLE, wrapped

LABEL = 23
MIN_CELL, MAX_CELL = 13, 34
"""Cells of a method's column."""

MARK = 2
"""Cells behind a figure for its mark."""

RATIO = 5
"""Cells of a utilisation before its bar."""

FULL = 1.25
"""Utilisation at the end of a bar."""

OPEN, FOLDED = "▾", "▸"
LEGEND = f"{BEST} best of the row"


@dataclass(frozen=True)
class Entry:
    """A place of the cursor, from its first line on: a figure, or a folded group."""

    line: int
    group: str
    figure: Figure | None = None


@dataclass(frozen=True)
class Sheet:
    """The figures as lines, below the methods' names; `entries` are the places of the cursor, from the top.

    The notes begin at the line `notes`; without any, it is the number of lines.
    """

    lines: tuple[Content, ...]
    entries: tuple[Entry, ...]
    notes: int


def groups() -> tuple[str, ...]:
    """The groups of figures in reading order."""
    return tuple(group for group, _ in by_group(table_figures()))


def answer_lines(answer: Comparison, baseline: Comparison | None, system: System, *, with_loads: bool) -> list[Content]:
    """The answer; where there is room the loads, and the baseline that changes are shown against."""
    lines = [Content.styled(answer_line(answer, system), "bold")]
    if with_loads:
        lines.append(Content.styled(loads(answer, baseline, system), MUTED))
    if baseline:
        lines.append(Content(f"The change from the baseline ({baseline.title}) is shown under each value."))
    return lines


def folded_to_fit(answer: Comparison, system: System, width: int, height: int) -> frozenset[str]:
    """The groups to fold in a pane of that size: utilisations stay open, the others as long as there is room."""
    sheet = draw(answer, None, system, width, with_notes=False)
    first = {entry.group: entry.line for entry in reversed(sheet.entries)}
    starts = [*(first[group] for group in groups()), len(sheet.lines) + 1]
    rows = {group: end - start - 1 for group, start, end in zip(groups(), starts, starts[1:], strict=False)}
    room, folded = height - 1 - len(rows) - rows.pop(UTILISATION), set[str]()
    for group, count in rows.items():
        if count <= room:
            room -= count
        else:
            folded.add(group)
    return frozenset(folded)


def draw(
    answer: Comparison,
    baseline: Comparison | None,
    system: System,
    width: int,
    *,
    folded: Set[str] = frozenset(),
    with_notes: bool = True,
    with_loads: bool = True,
) -> Sheet:
    """The figures for a pane `width` cells wide.

    Args:
        answer: the comparison.
        baseline: an earlier comparison; each figure that differs shows its change.
        system: units shown.
        width: width of the pane [cells].
        folded: groups of which only the name is shown.
        with_notes: the notes follow below.
        with_loads: the loads come before them.
    """
    cell = _cell(answer, width)
    lines = [_heads(answer, cell)]
    entries: list[Entry] = []
    for group, members in by_group(table_figures()):
        if group in folded:
            entries.append(Entry(len(lines), group))
        lines.append(_group_line(group, cell, answer, is_folded=group in folded))
        for row in () if group in folded else members:
            entries.append(Entry(len(lines), group, row))
            lines += _row(row, answer, system, cell)
            lines += _changes(row, answer.columns, baseline, system, cell) if baseline else []
    start = len(lines)
    if with_notes:
        lines += [Content(""), *wrapped(loads(answer, baseline, system), width - 1, MUTED)] if with_loads else []
        lines += [Content(""), *notes(answer, width, system)]
    return Sheet(tuple(lines), tuple(entries), start)


def marked(
    sheet: Sheet, number: int, method: str, answer: Comparison, system: System, width: int
) -> tuple[Content, ...]:
    """The lines of a sheet with one entry in focus, at a method: number of the entry, id of the method."""
    entry, cell = sheet.entries[number], _cell(answer, width)
    if entry.figure is None:
        lines = [_group_line(entry.group, cell, answer, is_folded=True, style="bold reverse")]
    else:
        lines = list(_row(entry.figure, answer, system, cell, method))
    return (*sheet.lines[: entry.line], *lines, *sheet.lines[entry.line + len(lines) :])


def _cell(answer: Comparison, width: int) -> int:
    """Width of a method's column [cells]."""
    return max(MIN_CELL, min(MAX_CELL, (width - LABEL) // max(1, len(answer.columns))))


def _heads(answer: Comparison, cell: int) -> Content:
    """The methods' names, and at their left the meaning of the mark."""
    room = cell - MARK
    names = (textwrap.shorten(column.title, room, placeholder=" …").rjust(room) for column in answer.columns)
    words = "".join(f"{name}{'':{MARK}}" for name in names)
    return Content.styled(LEGEND.ljust(LABEL), MUTED) + Content.styled(words, "bold")


def _group_line(group: str, cell: int, answer: Comparison, *, is_folded: bool, style: str = MUTED) -> Content:
    words = f"{FOLDED if is_folded else OPEN} {group} "
    across = LABEL + cell * len(answer.columns)
    return Content.styled(words, style) + Content.styled("" if is_folded else "─" * (across - len(words)), MUTED)


def _row(row: Figure, answer: Comparison, system: System, cell: int, chosen: str = "") -> Iterator[Content]:
    """A row; the figure in focus is reversed, so that it shows without colour too."""
    best, label = row.best(answer.columns, system), row.label(answer.scenario.job)
    cells = []
    for column in answer.columns:
        mark = BEST if column.id in best else "" if row.is_stated(column) else PLACEHOLDER
        cells.append(_figure(row, column, system, cell, mark, is_chosen=column.id == chosen))
    return _side_by_side(label, cells, cell, "bold" if chosen else "")


def _figure(row: Figure, column: Column, system: System, cell: int, mark: str, *, is_chosen: bool) -> list[Content]:
    """The lines of a cell: words at the right, or a utilisation before its bar, each with its mark behind."""
    style = f"{_style(row, column)}{' reverse' if is_chosen else ''}"
    value, words, room = row.value(column), row.cell(column, system), cell - 1 - MARK
    if row.group == UTILISATION and isinstance(value, float | int):
        figure = Content(" " * (RATIO - len(words))) + Content.styled(words, style) + f"{mark:>{MARK}} "
        return [figure + bars.bar(value, cell - 1 - len(figure), FULL)]
    lines = [Content(" " * (room - len(line))) + Content.styled(line, style) for line in textwrap.wrap(words, room)]
    return [line + (" " * MARK if number else f"{mark:>{MARK}}") for number, line in enumerate(lines)]


def _changes(
    row: Figure, columns: tuple[Column, ...], baseline: Comparison, system: System, cell: int
) -> Iterator[Content]:
    """Change of each figure from the baseline; nothing if the whole row is the same."""
    changes = [row.change(column, baseline.column(column.id), system) for column in columns]
    if any(change != "same" for change in changes):
        room = cell - 1 - MARK
        cells = [
            [Content.styled(f"{line:>{room}}{'':{MARK}}", MUTED) for line in textwrap.wrap(change, room)]
            for change in changes
        ]
        yield from _side_by_side("", cells, cell)


def _side_by_side(label: str, cells: list[list[Content]], cell: int, style: str = "") -> Iterator[Content]:
    """A label and cells side by side; long ones continue on the next line."""
    names = [Content.styled(name.ljust(LABEL), style) for name in textwrap.wrap(label, LABEL - 1)]
    blank, empty = Content(" " * LABEL), Content(" " * (cell - 1))
    for name, *parts in zip_longest(names, *cells):
        line = name or blank
        for part in parts:
            line += Content(" ") + (part or empty)
        yield line


def _style(row: Figure, column: Column) -> str:
    """Colour of a figure; its value or its word says the same."""
    if row.key == "status":
        return f"{STATUS_STYLE[column.status]} bold"
    return "$text-error bold" if row.is_over(column) else ""


def verdicts(answer: Comparison, width: int) -> Content:
    """Verdicts of all methods, for screens without room for the comparison; none is divided between two lines."""
    lines: list[Content] = []
    for column in answer.columns:
        words, style = verdict_word(column), f"{STATUS_STYLE[column.status]} bold"
        verdict = Content(f"{column.title} ") + Content.styled(words, style)
        beside = Content(" · ").join([lines[-1], verdict]) if lines else verdict
        lines[-1:] = [beside] if beside.cell_length <= width else [*lines[-1:], verdict]
    return Content("\n").join(lines)

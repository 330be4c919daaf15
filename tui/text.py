"""Numbers to coloured text: what screens show, through the one formatter. User text is never markup."""

from __future__ import annotations

import textwrap
from dataclasses import dataclass

from textual.content import Content

from engine.comparison import Column, Comparison
from engine.export.steps import step_lines
from engine.export.what_if import headroom_text, sensitivity_text
from engine.headroom import headroom as headroom_of
from engine.progress import Tell, nobody
from engine.sensitivity import sensitivity
from engine.span_study import column_at
from engine.stories import story, story_of_attachment
from engine.table import STATUS_WORDS, Row, change, grouped, rows
from engine.units import System, text
from tui.state import Question, State

MUTED = "$foreground 75%"
STATUS_STYLE = {"holds": "$text-success", "over": "$text-error", "refused": "$text-error", "outside scope": "$text-warning"}
SEVERITY_STYLE = {"warning": "$text-error", "caution": "$text-warning", "note": MUTED}
SIGNS = {"warning": "!! ", "caution": " ! ", "note": " · "}
LABEL = 20
READABLE = 100
"""Sentences are not set wider than this."""


@dataclass(frozen=True)
class Sheet:
    """The comparison as lines, and on which of them each row begins."""

    lines: tuple[Content, ...]
    starts: tuple[int, ...]


def comparison(answer: Comparison, baseline: Comparison | None, system: System, width: int, cursor: tuple[int, str] | None = None) -> Sheet:
    """The whole comparison for a pane `width` cells wide: table, then flags, then cautions.

    Args:
        answer: what is compared.
        baseline: an earlier comparison; each figure that differs shows its change.
        system: units shown.
        width: cells there are.
        cursor: the row's number and the method's id of the figure in focus.
    """
    cell = max(14, min(26, (width - 1 - LABEL) // max(1, len(answer.columns))))
    lines = _heading(answer, baseline, system, width)
    lines.append(Content("".ljust(LABEL)) + Content.styled("".join(column.title.rjust(cell) for column in answer.columns), "bold"))
    starts: list[int] = []
    across = min(width, LABEL + cell * len(answer.columns))
    for group, members in grouped(rows(answer)):
        lines.append(Content.styled(f"── {group} ".ljust(across, "─"), MUTED))
        for row in members:
            chosen = cursor[1] if cursor and cursor[0] == len(starts) else None
            starts.append(len(lines))
            lines += _row(row, answer.columns, system, cell, chosen)
            lines += _changes(row, answer.columns, baseline, system, cell) if baseline else []
    for column in answer.columns:
        lines += [Content(""), Content.styled(column.title, "bold")]
        lines += flags(column, width)
    lines.append(Content(""))
    lines += [Content.styled(line, MUTED) for caution in answer.cautions for line in textwrap.wrap(caution, width)]
    return Sheet(tuple(lines), tuple(starts))


def _heading(answer: Comparison, baseline: Comparison | None, system: System, width: int) -> list[Content]:
    lines = [Content.styled(textwrap.shorten(answer.title, width, placeholder=" …"), "bold")]
    lines += [Content.styled(line, MUTED) for line in _site(answer, baseline, system, width)]
    if baseline:
        lines += [Content(line) for line in textwrap.wrap(f"Below a figure: its change since the baseline, {baseline.title}", width)]
    return [*lines, Content("")]


def verdicts(answer: Comparison) -> Content:
    """Every method's verdict in one line, for where the comparison itself has no room."""
    parts = []
    for column in answer.columns:
        weakest = f" {column.weakest.utilisation or 0:.2f}" if column.weakest else ""
        parts.append(
            Content(f"{column.title} ") + Content.styled(f"{STATUS_WORDS[column.status]}{weakest}", f"{STATUS_STYLE[column.status]} bold")
        )
    return Content(" · ").join(parts)


def why(state: State, question: Question, width: int, tell: Tell = nobody) -> Content:
    """How the figure asked about came about, step by step, and the cautions."""
    width = min(width, READABLE)
    comparison = state.comparison
    column = _asked_about(comparison, question, tell) if comparison else None
    if comparison is None or column is None:
        return Content("This method is not compared any more.")
    if question.point is None:
        row = next((row for row in rows(comparison) if row.key == question.row), rows(comparison)[0])
        told = story(comparison, column, row, state.system)
    else:
        told = story_of_attachment(comparison, column, question.point)
    lines = [Content.styled(line, "bold") for line in textwrap.wrap(told.heading, width)]
    for step in told.steps:
        first, *more = step_lines(step, state.system, width)
        lines += [Content(""), Content(first).stylize("bold", 0, 25), *map(Content, more[:-1]), Content.styled(more[-1], MUTED)]
    lines += [Content(""), *(Content.styled(line, MUTED) for caution in comparison.cautions for line in textwrap.wrap(caution, width))]
    return Content("\n").join(lines)


def _asked_about(comparison: Comparison, question: Question, tell: Tell) -> Column | None:
    """The column that a figure stands in, or the one that a spacing of the span study would make."""
    if question.spacing is None:
        return comparison.column(question.method)
    return column_at(comparison.scenario, question.method, question.spacing, tell)


def headroom(state: State, width: int, tell: Tell) -> Content:
    """How much more each method could take, and which input moves the verdict."""
    if state.comparison is None:
        return Content("There is no comparison yet.")
    could, moves = headroom_of(state.comparison, tell), sensitivity(state.comparison, tell)
    cautions = [line for caution in state.comparison.cautions for line in textwrap.wrap(caution, min(width, READABLE))]
    return Content("\n".join([headroom_text(could, state.system), sensitivity_text(moves), *cautions]))


def flags(column: Column, width: int) -> list[Content]:
    """A method's flags, each with a sign as well as a colour."""
    if not column.flags:
        return [Content.styled("   nothing to flag", MUTED)]
    return [
        Content.styled(line, SEVERITY_STYLE[flag.severity])
        for flag in column.flags
        for line in textwrap.wrap(flag.text, max(20, width - 1), initial_indent=SIGNS[flag.severity], subsequent_indent="   ")
    ]


def _row(row: Row, columns: tuple[Column, ...], system: System, cell: int, chosen: str | None) -> list[Content]:
    """A row; what is too long for its cell goes on below. The figure in focus stands out without colour too."""
    cells = [_wrapped(row.cell(column, system), cell) for column in columns]
    lines = []
    for number in range(max(map(len, cells))):
        line = Content((row.label if number == 0 else "").ljust(LABEL)[:LABEL])
        for column, words in zip(columns, cells, strict=True):
            part = words[number] if number < len(words) else ""
            focus = " reverse" if column.id == chosen and part else ""
            line += Content(" " * (cell - len(part))) + Content.styled(part, _style(row, column) + focus)
        lines.append(line)
    return lines


def _changes(row: Row, columns: tuple[Column, ...], baseline: Comparison, system: System, cell: int) -> list[Content]:
    """Each figure's change since the baseline; nothing where the whole row is as it was."""
    changes = [row.change(column, baseline.column(column.id), system) for column in columns]
    if all(change == "same" for change in changes):
        return []
    cells = [_wrapped(change, cell) for change in changes]
    return [
        Content.styled("".ljust(LABEL) + "".join((words[n] if n < len(words) else "").rjust(cell) for words in cells), MUTED)
        for n in range(max(map(len, cells)))
    ]


def _wrapped(words: str, cell: int) -> list[str]:
    return textwrap.wrap(words, cell - 1) or [""]


def _style(row: Row, column: Column) -> str:
    """Colour by meaning; the figure or the word carries it too."""
    if row.label == "verdict":
        return f"{STATUS_STYLE[column.status]} bold"
    value = row.value(column)
    over = isinstance(value, float) and value > 1 and (row.group == "links used" or row.label in ("bare roof used", "overspan"))
    return "$text-error bold" if over else ""


def _site(answer: Comparison, baseline: Comparison | None, system: System, width: int) -> list[str]:
    before = {name: value for name, value, _ in baseline.site} if baseline else {}
    figures = []
    for name, value, dimension in answer.site:
        changed = f" ({change(value, before[name], dimension, system)})" if name in before and before[name] != value else ""
        figures.append(f"{name} {text(value, dimension, system)}{changed}")
    return textwrap.wrap(f"{answer.scenario.standard.title}: {', '.join(figures)}", max(20, width))

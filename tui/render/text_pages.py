"""Pages of text: the calculation behind a figure, and the headroom."""

from __future__ import annotations

from textual.content import Content

from engine.common.progress import ProgressListener, no_listener
from engine.comparison.compare import Column, Comparison
from engine.comparison.figures import figure_named
from engine.explain.find import Explanation, explain_attachment, explain_figure
from engine.explain.print import step_lines
from engine.studies.headroom import headroom as headroom_of
from engine.studies.sensitivity import sensitivity
from engine.studies.spacing import column_at
from tui.model.state import Question, State
from tui.render.plain_text import plain_text
from tui.render.styles import MUTED, cautions, wrapped
from tui.render.what_if import headroom_parts, sensitivity_parts

READABLE = 100
"""Sentences are not set wider than this."""


def why(state: State, question: Question, width: int, tell: ProgressListener = no_listener) -> Content:
    """How the figure asked about came about, step by step, and the cautions."""
    width = min(width, READABLE)
    comparison = state.comparison
    column = _asked_about(comparison, question, tell) if comparison else None
    if comparison is None or column is None:
        return Content("This is not compared any more.")
    if question.attachment is None:
        told = explain_figure(comparison, column, figure_named(question.row or "status"), state.system)
    elif question.attachment >= (len(column.design.layout.attachments) if column.design else 0):
        return Content("There is no such attachment any more.")
    else:
        forward = explain_attachment(column, question.attachment)
        told = Explanation(forward.heading, tuple(reversed(forward.steps)))
    lines = wrapped(told.heading, width, "bold")
    for step in told.steps:
        first, *more = step_lines(step, state.system, width)
        lines += [
            Content(""),
            Content(first).stylize("bold", 0, 25),
            *map(Content, more[:-1]),
            Content.styled(more[-1], MUTED),
        ]
    return Content("\n").join([*lines, Content(""), *cautions(comparison, width)])


def _asked_about(comparison: Comparison, question: Question, tell: ProgressListener) -> Column | None:
    """The column that a figure stands in, or the one that a spacing of the span study would make."""
    if question.spacing is None:
        return comparison.column(question.method)
    return column_at(comparison.scenario, question.method, question.spacing, tell)


def headroom(state: State, width: int, tell: ProgressListener) -> Content:
    """How much more each method could take, and which input moves the verdict."""
    if state.comparison is None:
        return Content("There is no comparison yet.")
    could, moves = headroom_of(state.comparison, tell), sensitivity(state.comparison, tell)
    width = min(width, READABLE)
    parts = *headroom_parts(could, state.system), "", *sensitivity_parts(moves), ""
    return Content("\n").join([Content(plain_text(*parts, width=width)), *cautions(state.comparison, width)])

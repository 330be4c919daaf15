"""Pages of text that are computed on request: a calculation, the headroom, the placement map, the alternatives."""

from __future__ import annotations

from textual.content import Content

from engine.common.progress import ProgressListener, no_listener
from engine.comparison.alternatives import BASELINE, beside, with_alternatives
from engine.comparison.building_comparison import compare_slopes
from engine.comparison.compare import Column, Comparison
from engine.comparison.figures import figure_named
from engine.explain.find import Explanation, explain_attachment, explain_figure
from engine.explain.print import step_lines
from engine.studies.headroom import headroom as headroom_of
from engine.studies.moved_array import column_moved
from engine.studies.placement import placement as placement_of
from engine.studies.sensitivity import sensitivity
from engine.studies.spacing import column_at
from engine.units import ordered
from tui.model.state import Question, State
from tui.render.alternatives import alternatives_parts
from tui.render.building import building_parts
from tui.render.placement import placement_parts
from tui.render.plain_text import plain_text
from tui.render.styles import MUTED, cautions, wrapped
from tui.render.what_if import headroom_parts, sensitivity_parts

MAX_WIDTH = 100
"""Maximum width of sentences [cells]."""


def why(state: State, question: Question, width: int, tell: ProgressListener = no_listener) -> Content:
    """The calculation of a figure step by step, and the cautions."""
    width = min(width, MAX_WIDTH)
    comparison = state.comparison
    column = _column_of(comparison, question, tell) if comparison else None
    if comparison is None or column is None:
        return Content("This method is no longer compared.")
    if question.attachment is None:
        explanation = explain_figure(comparison, column, figure_named(question.row or "status"), state.system)
    elif question.attachment >= (len(column.design.layout.attachments) if column.design else 0):
        return Content("This attachment no longer exists.")
    else:
        forward = explain_attachment(column, question.attachment)
        explanation = Explanation(forward.heading, tuple(reversed(forward.steps)))
    lines = wrapped(ordered(explanation.heading, state.system), width, "bold")
    for step in explanation.steps:
        first, *more = step_lines(step, state.system, width)
        lines += [
            Content(""),
            Content(first).stylize("bold", 0, 25),
            *map(Content, more[:-1]),
            Content.styled(more[-1], MUTED),
        ]
    return Content("\n").join([*lines, Content(""), *cautions(comparison, width)])


def _column_of(comparison: Comparison, question: Question, tell: ProgressListener) -> Column | None:
    """The column of a figure, or the column at a spacing or a place of a study."""
    if question.varied == "spacing":
        return column_at(comparison.scenario, question.method, question.number, tell)
    if question.varied == "place":
        return column_moved(comparison, question.method, question.number, tell)
    return comparison.column(question.method)


def headroom(state: State, width: int, tell: ProgressListener) -> Content:
    """The wind and snow each method can carry, and the inputs that change the verdict."""
    if state.comparison is None:
        return Content("There is no comparison yet.")
    margins, effects = headroom_of(state.comparison, tell), sensitivity(state.comparison, tell)
    width = min(width, MAX_WIDTH)
    parts = *headroom_parts(margins, state.system), "", *sensitivity_parts(effects), ""
    page = Content(plain_text(*parts, width=width))
    return Content("\n").join([page, *cautions(state.comparison, min(width, MAX_WIDTH))])


def placement(state: State, width: int, tell: ProgressListener) -> Content:
    """The places of the array at which each method holds."""
    if state.comparison is None:
        return Content("There is no comparison yet.")
    width = min(width, MAX_WIDTH)
    found = placement_of(state.comparison, tell)
    page = Content(plain_text(*placement_parts(found, state.comparison, state.system, width), width=width))
    return Content("\n").join([page, *cautions(state.comparison, width)])


def alternatives(state: State, width: int, tell: ProgressListener) -> Content:
    """The alternatives of the scenario, and the baseline if one is kept, ranked."""
    if state.comparison is None:
        return Content("There is no comparison yet.")
    found = with_alternatives(state.comparison, tell)
    found = beside(found, BASELINE, state.baseline) if state.baseline else found
    page = Content(plain_text(*alternatives_parts(found, state.system), "", width=width))
    return Content("\n").join([page, *cautions(state.comparison, min(width, MAX_WIDTH))])


def building(state: State, width: int, tell: ProgressListener) -> Content:
    """The totals of all slopes, and the best method of each."""
    if state.compared is None:
        return Content(state.stale_mark or "There is no comparison yet.")
    width = min(width, MAX_WIDTH)
    found = compare_slopes(state.compared.slopes(), tell=tell)
    page = Content(plain_text(*building_parts(found, state.system, width), "", width=width))
    return Content("\n").join([page, *cautions(found.slopes[0], width)])

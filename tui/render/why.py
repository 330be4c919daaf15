"""Why a figure is what it is: one sentence, the steps as lines of a tree, and one step in full."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
from textual.content import Content

from engine import links
from engine.common.calculation import CalculationStep
from engine.common.progress import ProgressListener, no_listener
from engine.comparison.compare import Column, Comparison
from engine.comparison.figures import figure_named
from engine.comparison.roof_plan import Plan, plan
from engine.explain.find import Explanation, explain_attachment, explain_figure
from engine.explain.print import in_system, printed, step_lines
from engine.explain.tree import Branch, tree_of
from engine.links import Check
from engine.scenario.changes import Steps
from engine.studies.moved_array import column_moved
from engine.studies.spacing import column_at
from engine.units import System, in_one
from tui.model.state import Question, State
from tui.render.roof_plan import controlling_attachment
from tui.render.styles import MUTED, wrapped


@dataclass(frozen=True, eq=False)
class Reason:
    """A sentence, and the steps behind it as a tree; without steps the sentence says why there are none.

    `plan`: the method's roof; `attachment`: the number of the attachment at the place that the figure is about.
    """

    sentence: str
    branches: tuple[Branch, ...] = ()
    plan: Plan | None = None
    attachment: int = 0


def why(state: State, question: Question, tell: ProgressListener = no_listener) -> Reason:
    """The calculation of a figure, from its result back to the inputs."""
    comparison = state.comparison
    column = _column_of(comparison, question, tell) if comparison else None
    if comparison is None or column is None:
        return Reason("This method is no longer compared.")
    if question.attachment is None:
        row = question.row or "status"
        explanation = explain_figure(comparison, column, figure_named(row), state.system)
        check = column.checks.get(row) or column.decisive
    elif question.attachment >= (len(column.design.layout.attachments) if column.design else 0):
        return Reason("This attachment no longer exists.")
    else:
        forward = explain_attachment(column, question.attachment)
        explanation = Explanation(forward.heading, tuple(reversed(forward.steps)))
        check = column.checks.get("roof_fastening")
    sentence = in_one(explanation.heading, state.system)
    otherwise = ("methods", column.id, "spacing")
    branches = tree_of(explanation.steps, _strength_of(check, column), otherwise)
    if column.design is None or column.candidate is None:
        return Reason(sentence, branches)
    drawn = plan(column.design)
    attachment = _at(drawn, check) if question.attachment is None else question.attachment
    return Reason(sentence, branches, drawn, attachment)


def _at(drawn: Plan, check: Check | None) -> int:
    """Number of the attachment nearest to the place of a check; of the most used one where it has no place."""
    at = drawn.attachments
    if check is None or check.place.x is None or check.place.y is None:
        return controlling_attachment(drawn)
    return int(np.argmin(np.hypot(at.x - check.place.x, at.y - check.place.y)))


def _strength_of(check: Check | None, column: Column) -> Steps:
    """Path of the strength that a check rests on; empty where none is named."""
    if check is None or column.design is None:
        return ()
    link = next(link for link in links.LINKS if check.link in (link.key, *link.ids))
    paths = link.strengths(column.design.job, check) if check.utilisation is not None else ()
    return tuple(paths[0].split(".")) if paths else ()


def _column_of(comparison: Comparison, question: Question, tell: ProgressListener) -> Column | None:
    """The column of a figure, or the column at a spacing or a place of a study."""
    if question.varied == "spacing":
        return column_at(comparison.scenario, question.method, question.number, tell)
    if question.varied == "place":
        return column_moved(comparison, question.method, question.number, tell)
    return comparison.column(question.method)


def line(step: CalculationStep, system: System) -> str:
    """A step in one line: its result, and what that is."""
    step = in_system(step, system)
    return f"{step.symbol} = {printed(step.result, system)}   {in_one(step.meaning, system)}"


def in_full(branch: Branch, system: System, label: str, width: int) -> Content:
    """A step with its equation, values and source, and the input that it leads to."""
    step = replace(branch.step, meaning=in_one(branch.step.meaning, system))
    first, *more = step_lines(step, system, width)
    lines = [Content.styled(first, "bold"), *map(Content, more[:-1]), Content.styled(more[-1], MUTED)]
    return Content("\n").join([*lines, *wrapped(f"g: go to {label}", width, "$text-accent")])

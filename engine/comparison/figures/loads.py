"""Loads on the roof: the largest at one attachment, their balance, and the roof alone."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial

from engine.common.calculation import STATICS, Term
from engine.comparison.compare import Column
from engine.comparison.figure import NOT_IN_TABLE, Figure, FigureContext, Steps, Value, step, value_step, words
from engine.comparison.figures.utilisation import ratio_steps
from engine.links import roof_fastening
from engine.links.trail import CalculationTrail
from engine.project.job import Job

GROUP = "loads on the roof"


def _labelled(kind: str, load: str) -> Callable[[Job], str]:
    """A label of a factored load: "largest uplift", "largest design uplift"."""
    return lambda job: f"{kind} {job.words.of(load)}"


def _largest_uplift(column: Column) -> Value:
    return float(column.candidate.demands.attachment_up.max()) if column.candidate else None


def _largest_down_load(column: Column) -> Value:
    return float(column.candidate.demands.attachment_down_load.max()) if column.candidate else None


def _mean(column: Column, size: str) -> Value:
    """Mean over all attachments of the largest load of each [N], by the name of these loads in the demands."""
    return float(getattr(column.candidate.demands, size).mean()) if column.candidate else None


def _balance(column: Column) -> Value:
    if column.candidate is None:
        return None
    uplift = column.candidate.demands.attachment_up
    return float(uplift.mean() / uplift.max()) if uplift.max() > 0 else 1.0


def _roof_alone(column: Column) -> Value:
    return column.roof_alone.utilisation if column.roof_alone else None


def _fastening(column: Column) -> Value:
    check = column.checks.get(roof_fastening.LINK.key)
    return check.utilisation if check else None


def _strength_needed(column: Column) -> Value:
    return max(roof_fastening.uplift_needed(column.candidate.demands)) if column.candidate else None


def _roof_alone_help(job: Job) -> str:
    roof = job.roof
    return f"largest utilisation of a {roof.fastening_word} or {roof.rib_word} by wind and snow without the array"


def _explain_force(context: FigureContext, *, up: bool) -> Steps:
    value = (_largest_uplift if up else _largest_down_load)(context.column)
    if context.column.candidate is None or not isinstance(value, float):
        return ()
    trail = CalculationTrail(context.column.candidate.demands)
    attachment, steps = trail.largest_force(up=up)
    meaning = f"largest {'uplift' if up else 'down load'} of one attachment, {trail.attachment_name(attachment)}"
    first = value_step("T" if up else "C", meaning, context.term(value, "force"), STATICS)
    return (first, *reversed(steps))


def _explain_mean(context: FigureContext, size: str, load: str) -> Steps:
    value = _mean(context.column, size)
    if context.column.candidate is None or not isinstance(value, float):
        return ()
    loads = getattr(context.column.candidate.demands, size)
    terms = {"sum": context.term(float(loads.sum()), "force"), "n": Term(len(loads))}
    meaning = f"mean of the largest {load} of each attachment, with {len(loads)} attachments"
    first = step("mean", meaning, context.term(value, "force"), "sum / n", terms)
    return (first, *_explain_force(context, up=size == "attachment_up"))


def _explain_balance(context: FigureContext) -> Steps:
    value = _balance(context.column)
    if context.column.candidate is None or not isinstance(value, float):
        return ()
    uplift = context.column.candidate.demands.attachment_up
    terms = {
        "T_mean": context.term(float(uplift.mean()), "force"),
        "T_max": context.term(float(uplift.max()), "force"),
    }
    meaning = "mean uplift of all attachments over the largest; 1.00 is perfectly balanced"
    first = step("balance", meaning, Term(value), "T_mean / T_max if T_max else 1", terms)
    return (first, *_explain_force(context, up=True))


def _explain_roof_alone(context: FigureContext) -> Steps:
    alone = context.column.roof_alone
    return ratio_steps(context, alone) if alone else ()


FIGURES = (
    Figure(
        "point_load_up_n",
        GROUP,
        _labelled("largest", "uplift"),
        lambda job: f"the largest {job.words.of('uplift')} on one attachment",
        "force",
        value=_largest_uplift,
        explain=partial(_explain_force, up=True),
        better="less",
    ),
    Figure(
        "point_load_up_mean_n",
        GROUP,
        _labelled("mean", "uplift"),
        words("the mean over all attachments; more attachments lower it, not always the largest"),
        "force",
        value=partial(_mean, size="attachment_up"),
        explain=partial(_explain_mean, size="attachment_up", load="uplift"),
        better="less",
    ),
    Figure(
        "point_load_down_n",
        GROUP,
        _labelled("largest", "down load"),
        lambda job: f"the largest {job.words.of('down load')} on one attachment",
        "force",
        value=_largest_down_load,
        explain=partial(_explain_force, up=False),
        better="less",
    ),
    Figure(
        "point_load_down_mean_n",
        GROUP,
        _labelled("mean", "down load"),
        words("the mean over all attachments; more attachments lower it, not always the largest"),
        "force",
        value=partial(_mean, size="attachment_down_load"),
        explain=partial(_explain_mean, size="attachment_down_load", load="down load"),
        better="less",
    ),
    Figure(
        "evenness",
        GROUP,
        words("mean / largest uplift"),
        words("balance among attachments: 1.00 is perfectly balanced"),
        "ratio",
        value=_balance,
        explain=_explain_balance,
        better="more",
    ),
    Figure(
        "bare_roof_utilisation",
        GROUP,
        words("roof alone"),
        _roof_alone_help,
        "ratio",
        value=_roof_alone,
        explain=_explain_roof_alone,
        limit=1.0,
    ),
    Figure(
        "strength_needed_n",
        NOT_IN_TABLE,
        lambda job: f"strength needed of a {job.roof.fastening_word}",
        lambda job: f"{job.words.against('uplift')} that a fastening needs, with the array and without it",
        "force",
        value=_strength_needed,
    ),
    Figure(
        "fastening_utilisation",
        NOT_IN_TABLE,
        lambda job: job.roof.fastening_word,
        words("utilisation of the roof's fastening"),
        "ratio",
        value=_fastening,
        limit=1.0,
    ),
)

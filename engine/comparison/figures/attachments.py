"""Attachments and modules, as counted on the layout."""

from __future__ import annotations

from engine.common.calculation import Confidence, Reference, Term
from engine.common.sentences import listed
from engine.comparison.compare import Column
from engine.comparison.figure import NOT_IN_TABLE, Figure, FigureContext, Steps, Value, step, value_step, words

GROUP = "attachments"
RULE_OF_PRACTICE = Reference("rule of practice", "", "", Confidence.PRACTICE)

CHOSEN = {
    "fewest": "the fewest found that every component can carry, never below the minimum by rule of practice; "
    "where none holds, the layout that is least over",
    "rail span": "as far apart as the rail itself spans, as the scenario says",
    "fixed": "at the spacing that the scenario states",
}


def _attachments(column: Column) -> Value:
    return len(column.design.layout.attachments) if column.design else None


def _minimum(column: Column) -> Value:
    return column.design.field.minimum_attachments if column.design else None


def _modules(column: Column) -> Value:
    return column.design.field.modules if column.design else None


def _runs(column: Column) -> Value:
    return column.design.field.runs if column.design else None


def _per_module(column: Column) -> Value:
    if column.design is None or not column.design.field.modules:
        return None
    return len(column.design.layout.attachments) / column.design.field.modules


def _spacing(column: Column) -> Value:
    return column.design.spacing_label or None if column.design else None


def _explain_attachments(context: FigureContext) -> Steps:
    rule = context.design.method.spacing.rule
    meaning = f"attachments, {context.design.spacing_label}: {CHOSEN[rule]}"
    count = Term(len(context.design.layout.attachments))
    return (value_step("n", meaning, count), *_explain_minimum(context))


def _explain_minimum(context: FigureContext) -> Steps:
    field = context.design.field
    terms = {"modules": Term(field.modules), "runs": Term(field.runs)}
    meaning = "minimum by rule of practice: two a module and two for each unbroken run of modules"
    first = step("n_min", meaning, Term(field.minimum_attachments), "2 * (modules + runs)", terms, RULE_OF_PRACTICE)
    return (first, *_explain_modules(context))


def _explain_per_module(context: FigureContext) -> Steps:
    count, modules = len(context.design.layout.attachments), context.design.field.modules
    terms = {"n": Term(count), "modules": Term(modules)}
    first = step("n_m", "attachments per module", Term(count / modules), "n / modules", terms)
    return (first, *_explain_attachments(context))


def _explain_modules(context: FigureContext) -> Steps:
    field = context.design.field
    removed = f"; {field.lost} removed for keep-clear areas" if field.lost else ""
    removed += f"; {field.bridging} removed at end laps" if field.bridging else ""
    stated = listed([array.count_in_words for array in context.job.arrays], "and")
    meaning = f"modules laid out; the scenario has {stated}{removed}"
    return (value_step("modules", meaning, Term(field.modules)),)


FIGURES = (
    Figure(
        "attachments",
        GROUP,
        words("attachments"),
        words("places where the array is fixed to the roof"),
        "count",
        value=_attachments,
        explain=_explain_attachments,
        better="less",
    ),
    Figure(
        "attachments_minimum",
        GROUP,
        words("minimum by rule of practice"),
        words("four attachments a module, shared with its neighbours: 2 x (modules + runs); never fewer"),
        "count",
        value=_minimum,
        explain=_explain_minimum,
    ),
    Figure(
        "attachments_per_module",
        GROUP,
        words("attachments per module"),
        words("attachments divided by modules"),
        "ratio",
        value=_per_module,
        explain=_explain_per_module,
        better="less",
    ),
    Figure(
        "spacing",
        GROUP,
        words("spacing"),
        words('ribs from attachment to attachment; "+ 32" are single attachments added to reach the minimum'),
        "",
        value=_spacing,
        explain=_explain_attachments,
    ),
    Figure(
        "modules", GROUP, words("modules"), words("modules laid out"), "count", value=_modules, explain=_explain_modules
    ),
    Figure("runs", NOT_IN_TABLE, words("runs"), words("unbroken runs of modules"), "count", value=_runs),
)

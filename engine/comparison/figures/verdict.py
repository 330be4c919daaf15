"""The verdict on a method, and the component that controls it."""

from __future__ import annotations

from engine.common.calculation import Term
from engine.comparison.compare import Column
from engine.comparison.figure import NOT_IN_TABLE, Figure, FigureContext, Steps, Value, step, words
from engine.comparison.figures.utilisation import explain_link, ratio_steps
from engine.links.trail_terms import identifier

STATUS_WORDS = {
    "holds": "HOLDS",
    "over": "OVER",
    "refused": "REFUSED",
    "outside scope": "OUTSIDE SCOPE",
}

MEANING = (
    "HOLDS: every checked component carries its load. OVER: one does not. REFUSED: the method does not fit this roof. "
    "OUTSIDE SCOPE: the load standard gives no wind load for it, so nothing is checked"
)


def controlling_in_words(column: Column) -> str | None:
    """The controlling component with its utilisation: "clip 1.02"; None where nothing was checked."""
    check = column.controlling
    return None if check is None or check.utilisation is None else f"{check.title} {check.utilisation:.2f}"


def summary(column: Column) -> str:
    """Verdict and controlling component in one line, for the head of drawings and schedules."""
    controlling = controlling_in_words(column)
    parts = [
        STATUS_WORDS[column.status],
        f"controlling component {controlling}" if controlling else "nothing is checked",
    ]
    alone = column.design.roof_alone if column.design else None
    if alone and alone.ratio > 1:
        parts.append(f"roof alone {alone.ratio:.2f}")
    return ", ".join(parts)


def _explain_verdict(context: FigureContext) -> Steps:
    """The controlling component, and the roof alone, which may be over by itself."""
    alone = context.design.roof_alone
    return (*_explain_controlling(context), *(ratio_steps(context, alone) if alone else ()))


def _explain_controlling(context: FigureContext) -> Steps:
    """All utilisations, then the steps to the largest."""
    controlling, checks = context.column.controlling, context.column.checks
    if controlling is None or controlling.utilisation is None:
        return ()
    terms = {
        identifier(check.title): Term(check.utilisation) for check in checks.values() if check.utilisation is not None
    }
    meaning = f"largest utilisation: the {controlling.title}; above 1.00 it is over"
    first = step("u", meaning, Term(controlling.utilisation), f"max({', '.join(terms)})", terms)
    key = next(key for key, check in checks.items() if check is controlling)
    return (first, *explain_link(context, key))


def _title(column: Column) -> Value:
    return column.controlling.title if column.controlling else None


def _utilisation(column: Column) -> Value:
    return column.controlling.utilisation if column.controlling else None


FIGURES = (
    Figure(
        "status",
        "verdict",
        words("verdict"),
        words(MEANING),
        "",
        value=lambda column: column.status,
        explain=_explain_verdict,
        shown=lambda column: STATUS_WORDS[column.status],
    ),
    Figure(
        "weakest_link",
        "verdict",
        words("controlling component"),
        words("the component with the largest utilisation: demand over allowable"),
        "",
        value=lambda column: column.controlling.link if column.controlling else None,
        explain=_explain_controlling,
        shown=controlling_in_words,
    ),
    Figure("weakest_title", NOT_IN_TABLE, words("controlling component"), words("its name"), "", value=_title),
    Figure(
        "weakest_utilisation",
        NOT_IN_TABLE,
        words("utilisation"),
        words("utilisation of the controlling component"),
        "ratio",
        value=_utilisation,
        limit=1.0,
    ),
)

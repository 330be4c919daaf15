"""Utilisation of every link, and the steps that lead to it."""

from __future__ import annotations

from collections.abc import Callable

from engine import links
from engine.common.calculation import STATICS, Term
from engine.comparison.compare import Column
from engine.comparison.figure import UTILISATION, Figure, FigureContext, Steps, Value, step
from engine.links import Check, Link
from engine.links.trail import CalculationTrail
from engine.project.job import Job

HELP = "demand over allowable; above 1.00 it is over"
NOT_CHECKED = "not checked"


def figures() -> tuple[Figure, ...]:
    """One figure a link, in the order of the load path."""
    return tuple(_figure(link) for link in links.LINKS)


def _figure(link: Link) -> Figure:
    def value(column: Column) -> Value:
        check = column.checks.get(link.key)
        return check.utilisation if check else None

    def shown(column: Column) -> Value:
        check = column.checks.get(link.key)
        return NOT_CHECKED if check and check.utilisation is None else value(column)

    return Figure(
        link.key,
        UTILISATION,
        link.title,
        _with_help(link.help),
        "ratio",
        value=value,
        explain=lambda context: explain_link(context, link.key),
        shown=shown,
        limit=1.0,
        in_json=False,
    )


def _with_help(help_: Callable[[Job], str]) -> Callable[[Job], str]:
    return lambda job: f"{help_(job)}; {HELP}"


def explain_link(context: FigureContext, key: str) -> Steps:
    """The ratio of a link's check, then the steps back from it to the loads; no steps where it is not checked."""
    check, candidate = context.column.checks.get(key), context.column.candidate
    if check is None or check.utilisation is None or candidate is None:
        return ()
    link = next(link for link in links.LINKS if link.key == key)
    steps = link.explain(CalculationTrail(candidate.demands), check)
    return (*ratio_steps(context, check), *reversed(steps))


def ratio_steps(context: FigureContext, check: Check) -> Steps:
    """Demand over resistance of a check; no steps where it was not made."""
    if check.utilisation is None or check.demand is None or check.resistance is None:
        return ()
    terms = {
        "demand": context.term(check.demand, check.dimension),
        "resistance": context.term(check.resistance, check.dimension),
    }
    place = ", ".join(filter(None, [check.place.name, check.combination]))
    meaning = f"utilisation of the {check.title} at its controlling place: {place}"
    if check.note:
        meaning += f"; {check.note}"
    return (step("used", meaning, Term(check.utilisation), "demand / resistance", terms, STATICS),)

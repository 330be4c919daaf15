"""Utilisation of every link, and the steps that lead to it."""

from __future__ import annotations

from collections.abc import Callable

from engine import links
from engine.common.calculation import STATICS, CalculationStep, Term
from engine.common.sentences import capitalized
from engine.comparison.compare import Column
from engine.comparison.figure import UTILISATION, Figure, FigureContext, Steps, Value, step
from engine.links import Check, Link
from engine.links.check import Part
from engine.links.trail import CalculationTrail
from engine.links.trail_terms import identifier
from engine.links.unchecked import in_words
from engine.project.job import Job
from engine.units import System, text

NOT_CHECKED, BY_OTHERS, NO_CHECK, REPORTED = "not checked", "shown by others", "needs no check", "only reported"


def figures() -> tuple[Figure, ...]:
    """One figure a link, in the order of the load path."""
    return tuple(_figure(link) for link in links.LINKS)


def _figure(link: Link) -> Figure:
    def value(column: Column) -> Value:
        check = column.checks.get(link.key)
        return check.utilisation if check else None

    def shown(column: Column) -> Value:
        check = column.checks.get(link.key)
        return why_no_ratio(column, check) if check and check.utilisation is None else value(column)

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
        better="less",
        in_json=False,
    )


def why_no_ratio(column: Column, check: Check) -> str:
    """The word in place of a utilisation: it is not checked, shown by others, needs no check, or is reported."""
    if any(entry.link == check.link for entry in column.unchecked.still_open):
        return NOT_CHECKED
    if check.unchecked:
        return BY_OTHERS
    return NO_CHECK if check.demand is None else REPORTED


def reason_without_ratio(column: Column, check: Check) -> str:
    """Sentences that say why a link has no utilisation: what is missing, who has shown it, or why it needs no check."""
    found = column.unchecked
    missing = [entry for entry in found.still_open if entry.link == check.link]
    shown = [each for each in found.shown if each.entry.link == check.link]
    sentences = [f"{words} not checked: {entry.reason}. {entry.ask}" for words, entry in in_words(missing)]
    sentences += dict.fromkeys(f"{check.title}: {each.acceptance.sentence}" for each in shown)
    sentences += [f"{check.title}: {check.note}"] if check.note else []
    return ". ".join(capitalized(sentence) for sentence in sentences)


def limit_in_words(job: Job) -> str:
    """Meaning of a utilisation, and its limit: the end of every help text."""
    return f"{job.words.load} over {job.words.resistance}; above 1.00 it is over"


def _with_help(help_: Callable[[Job], str]) -> Callable[[Job], str]:
    return lambda job: f"{help_(job)}; {limit_in_words(job)}"


def of_resistance(load: Check | Part, dimension: str, system: System) -> str:
    """Demand of resistance: "356 of 350 lb"; the demand alone where there is no resistance."""
    if load.demand is None:
        return ""
    if load.resistance is None:
        return text(load.demand, dimension, system)
    return f"{text(load.demand, dimension, system, with_unit=False)} of {text(load.resistance, dimension, system)}"


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
    if check.utilisation is None:
        return ()
    place = ", ".join(filter(None, [check.place.name, check.combination]))
    meaning = f"utilisation of the {check.title} at its controlling place: {place}"
    if check.note:
        meaning += f"; {check.note}"
    return (ratio_step(context, check, "used", meaning),)


def ratio_step(context: FigureContext, check: Check, symbol: str, meaning: str) -> CalculationStep:
    """Demand over resistance of a check, summed where several loads act together."""
    terms, ratios = dict[str, Term](), list[str]()
    for load in check.loads:
        name = identifier(f"_{load.name}" if check.parts else "")
        terms[f"demand{name}"] = context.term(load.demand, check.dimension)
        terms[f"resistance{name}"] = context.term(load.resistance, check.dimension)
        ratios.append(f"demand{name} / resistance{name}")
    return step(symbol, meaning, Term(check.ratio), " + ".join(ratios), terms, STATICS)

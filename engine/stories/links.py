"""What the roof feels and what each link uses, back to the wind speed."""

from __future__ import annotations

from functools import partial

from engine.chains import CHAINS
from engine.common.calculation import STATICS, CalculationStep, Term
from engine.comparison.link_figures import LINK_KEYS
from engine.explain.find import explain_force
from engine.links import Check
from engine.links.trail import Road
from engine.links.trail_terms import named
from engine.stories.told import Tell, Told, given, step, where


def _ratio(told: Told, check: Check) -> tuple[CalculationStep, ...]:
    """Demand over resistance; what is not checked says why."""
    if check.utilisation is None or check.demand is None or check.resistance is None:
        return ()
    terms = {
        "demand": told.term(check.demand, check.dimension),
        "resistance": told.term(check.resistance, check.dimension),
    }
    meaning = f"share of the {check.title} that is used, at its worst place: {where(check)}{'; ' if check.note else ''}{check.note}"
    return (step("used", meaning, Term(check.utilisation), "demand / resistance", terms, STATICS),)


def _link(told: Told, position: int) -> tuple[CalculationStep, ...]:
    if not told.column.links:
        return ()
    check, candidate, chain = told.column.links[position], told.design.candidate, CHAINS.get(LINK_KEYS[position])
    if check.utilisation is None or candidate is None or chain is None:
        return _ratio(told, check)
    road = Road(told.comparison.scenario.job, told.design, candidate)
    return (*_ratio(told, check), *reversed(chain(road, check)))


def _weakest(told: Told) -> tuple[CalculationStep, ...]:
    """All links, then the weakest one's own story."""
    weakest = told.column.weakest
    if weakest is None or weakest.utilisation is None:
        return ()
    checked = {
        named(check.title): Term(check.utilisation) for check in told.column.links if check.utilisation is not None
    }
    meaning = f"the link that is used most: the {weakest.title}; above 1 it is over"
    first = step("u", meaning, Term(weakest.utilisation), f"max({', '.join(checked)})", checked)
    return (first, *_link(told, told.column.links.index(weakest)))


def _verdict(told: Told) -> tuple[CalculationStep, ...]:
    """The weakest link, and what the bare roof uses, which may be over by itself."""
    bare = told.design.bare_roof
    return (*_weakest(told), *(_ratio(told, bare) if bare else ()))


def _bare_roof(told: Told) -> tuple[CalculationStep, ...]:
    return _ratio(told, told.design.bare_roof) if told.design.bare_roof else ()


def _force(told: Told, *, up: bool) -> tuple[CalculationStep, ...]:
    value = told.column.attachment_up if up else told.column.attachment_down_load
    if value is None:
        return ()
    told_force = explain_force(told.comparison, told.column, up=up)
    meaning = f"the largest {'pull' if up else 'push'} of one attachment, {told_force.heading.removeprefix(f'{told.column.title}: ')}"
    return (given("T" if up else "C", meaning, told.term(value, "force"), STATICS), *reversed(told_force.steps))


def _evenness(told: Told) -> tuple[CalculationStep, ...]:
    if told.column.evenness is None or told.design.candidate is None:
        return ()
    pulls = told.design.candidate.demands.attachment_up
    terms = {"T_mean": told.term(float(pulls.mean()), "force"), "T_max": told.term(float(pulls.max()), "force")}
    meaning = "mean pull of all attachments over the largest; 1 is perfectly even"
    return (
        step("evenness", meaning, Term(told.column.evenness), "T_mean / T_max if T_max else 1", terms),
        *_force(told, up=True),
    )


STORIES: dict[str, Tell] = {
    "status": _verdict,
    "weakest_link": _weakest,
    "point_load_up_n": partial(_force, up=True),
    "point_load_down_n": partial(_force, up=False),
    "evenness": _evenness,
    "bare_roof_utilisation": _bare_roof,
    **{key: partial(_link, position=number) for number, key in enumerate(LINK_KEYS)},
}

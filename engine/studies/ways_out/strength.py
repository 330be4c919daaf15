"""Ways out by strengths that others would have to show: how strong each part would have to be."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from functools import reduce
from typing import Any

from engine import links
from engine.common.sentences import listed
from engine.common.vocabulary import ALLOWABLES
from engine.comparison.compare import Column, Comparison, compare
from engine.design.design import Design
from engine.links import Check, roof_fastening
from engine.links.unchecked import HARDWARE_MAKER, MODULE_MAKER, ROOF_MAKER
from engine.project.job import Job
from engine.scenario.changed import changed
from engine.scenario.changes import Steps
from engine.scenario.read import Scenario
from engine.strength import strength
from engine.strength.uplift_test import UpliftTest
from engine.studies.sensitivity import PERTURBATIONS
from engine.studies.ways_out.as_written import rounded_up, strength_as_written, system_at
from engine.studies.ways_out.proposal import Proposal
from engine.studies.ways_out.whole_box import most_allowed, worst_in_box
from engine.units import System, from_shown, text

OWNERS = {"roof": ROOF_MAKER, "hardware": HARDWARE_MAKER, "module": MODULE_MAKER}

NAMES = {each.input.path: each.input.name for each in PERTURBATIONS if "moment" in each.input.path}
"""Names of the moments; other strengths are named by the job."""

SMALLEST_PART = 0.5
"""Part of the utilisation that other loads must leave, so that one strength alone is asked for (judgement) [-]."""

MOST_ROUNDS = 8
"""Other links may be over once the first ones hold: so many times the strengths still missing are added."""


def stronger_parts(column: Column, comparison: Comparison) -> Iterator[Proposal]:
    """All strengths at which the layout found would hold; more of them if another link is then over.

    Nothing if a link is over that no single strength could help.
    """
    needed, scenario = dict[str, float](), comparison.scenario
    for _ in range(MOST_ROUNDS):
        more = _needed(column.design, scenario) if column.design else {}
        if all(value <= needed.get(path, 0.0) for path, value in more.items()):
            return
        needed |= {path: max(value, needed.get(path, 0.0)) for path, value in more.items()}
        changes = {_steps(path): _written(scenario, path, value) for path, value in needed.items()}
        yield Proposal(_in_words(scenario, needed), changes)
        column = compare(changed(scenario, changes), (column.id,)).columns[0]


def _steps(path: str) -> Steps:
    return tuple(path.split("."))


def _needed(design: Design, scenario: Scenario) -> dict[str, float]:
    """Path of a strength → the allowable [SI] at which no link is over; empty if strengths alone do not help."""
    found: dict[str, float] = {}
    for check in _over(design, scenario):
        link = next(link for link in links.LINKS if check.link in (link.ids or (link.key,)))
        paths = link.strengths(design.job, check)
        if not paths:
            return {}
        for path, factor in _factors(check, paths, most_allowed(design)).items():
            found[path] = max(factor * _allowable(design, check, path), found.get(path, 0.0))
    return found


def _factors(check: Check, paths: Sequence[str], most: float) -> dict[str, float]:
    """By how much strengths would have to grow for a utilisation of at most `most` [-].

    Only that against the main load, where the others leave room for it.
    """
    if len(paths) == len(check.loads) > 1:
        path, main = max(zip(paths, check.loads, strict=True), key=lambda each: each[1].ratio)
        left = most - (check.ratio - main.ratio)
        if left >= SMALLEST_PART:
            return {path: main.ratio / left}
    return dict.fromkeys(paths, check.ratio / most)


def _over(design: Design, scenario: Scenario) -> list[Check]:
    """The checks that are over: those of the layout and of the roof alone, or where it is set out inaccurately."""
    if design.status.nothing_over:
        check = worst_in_box(design, scenario.standard).check
        return [check] if check and check.ratio > most_allowed(design) else []
    checks = [*(design.candidate.checks.values() if design.candidate else ()), design.roof_alone]
    return [check for check in checks if check and not check.holds]


def _allowable(design: Design, check: Check, path: str) -> float:
    """The allowable or design resistance [SI] that a strength now has in the combination that governs a check."""
    value = _value(design.job, path)
    if isinstance(value, float):
        return value
    combination = next(each for each in design.loads.combinations if each.name == check.combination)
    return strength(value).resistance(combination)


def _value(job: Job, path: str) -> Any:
    return reduce(getattr, path.split("."), job)


def _written(scenario: Scenario, path: str, needed: float) -> object:
    """A strength as the scenario's file has it, rounded up."""
    dimension, words = _dimension(scenario.job, path), scenario.job.words
    quantity = strength_as_written(needed, dimension, system_at(scenario, _steps(path)))
    return quantity if dimension == "moment" else {words.written: quantity}


def _dimension(job: Job, path: str) -> str:
    """Strengths are forces, with a basis; moments are stated as numbers."""
    return "moment" if isinstance(_value(job, path), float) else "force"


def _in_words(scenario: Scenario, needed: Mapping[str, float]) -> str:
    """Who would have to show what: "the roof maker shows 356 lb for the clip, uplift"."""
    shown: dict[str, list[str]] = {}
    for path, value in needed.items():
        shown.setdefault(path.split(".")[0], []).append(_part(scenario, path, value))
    return "; ".join(f"{_lead(scenario.job, table)} {listed(parts, 'and')}" for table, parts in shown.items())


def _lead(job: Job, table: str) -> str:
    """The beginning of a request; a roof that is still to be chosen is chosen stronger."""
    return "choose a roof with" if table == "roof" and not job.roof.existing else f"the {OWNERS[table]} shows"


def _part(scenario: Scenario, path: str, needed: float) -> str:
    """The strength of one part, and the test that would show it where its allowable comes from a test."""
    job, dimension, system = scenario.job, _dimension(scenario.job, path), system_at(scenario, _steps(path))
    name = ({each.path: each.name for each in job.strengths} | NAMES).get(path, path)
    size = from_shown(rounded_up(needed, dimension, system), dimension, system)
    quantity = text(size, dimension, system)
    if job.words is not ALLOWABLES:
        return f"{quantity} ({job.words.moment if dimension == 'moment' else job.words.resistance}) for the {name}"
    words, factor = f"{quantity} for the {name}", _safety_factor(_value(job, path))
    return words if factor is None else f"{words} ({_as_test(job, path, size, factor, system)})"


def _as_test(job: Job, path: str, allowable: float, factor: float, system: System) -> str:
    """The load at failure in a test, and its pressure at the spacings of this roof where pressure was tested."""
    roof, loads = job.roof, [text(factor * allowable, "force", system)]
    if any(isinstance(basis, UpliftTest) for basis in _value(job, path)):
        pressure = roof_fastening.pressure_in_test(roof, allowable, factor)
        across, along = text(roof.rib_spacing, "small length", system), text(roof.support_spacing, "length", system)
        loads.append(f"{text(pressure, 'pressure', system)} at {across} x {along}")
    return f"a test to failure of {listed(loads, 'or')}, safety factor {round(factor, 2):g}"


def _safety_factor(value: Any) -> float | None:
    """The safety factor of a strength that comes from tests; None for others."""
    if isinstance(value, float):
        return None
    factors = {mode.safety_factor for mode in strength(value).modes}
    return next(iter(factors)) if len(factors) == 1 and factors != {1.0} else None

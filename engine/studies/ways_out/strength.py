"""Ways out by strengths that others would have to show: how strong each part would have to be."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from functools import reduce
from typing import Any

from engine import links
from engine.common.sentences import listed
from engine.common.tolerances import SAME_RATIO
from engine.common.vocabulary import ALLOWABLES
from engine.comparison.compare import Column, Comparison, compare
from engine.design.design import Design
from engine.links import Check
from engine.links.unchecked import HARDWARE_MAKER, MODULE_MAKER, ROOF_MAKER
from engine.project.job import Job
from engine.scenario.changed import changed
from engine.strength import strength
from engine.studies.sensitivity import PERTURBATIONS
from engine.studies.ways_out.proposal import Proposal
from engine.units import System, number, unit

OWNERS = {"roof": ROOF_MAKER, "hardware": HARDWARE_MAKER, "module": MODULE_MAKER}

NAMES = {each.input.path: each.input.name for each in PERTURBATIONS if "moment" in each.input.path}
"""Names of the moments; other strengths are named by the job."""

SMALLEST_PART = 0.5
"""Part of the utilisation that other loads must leave, so that one strength alone is asked for (judgement) [-]."""

PARTS: Mapping[System, int] = {"us": 1, "si": 100}
DECIMALS: Mapping[System, str] = {"us": ".0f", "si": ".2f"}
"""Fineness to which a strength is rounded up, and the format in which it is written."""

MOST_ROUNDS = 4
"""Other links may be over once the first ones hold: so many times the strengths still missing are added."""


def stronger_parts(column: Column, comparison: Comparison) -> Iterator[Proposal]:
    """All strengths at which the layout found would hold; more of them if another link is then over.

    Nothing if a link is over that no single strength could help.
    """
    needed: dict[str, float] = {}
    for _ in range(MOST_ROUNDS):
        design = column.design
        if design is None:
            return
        more = _needed(design)
        if not more:
            return
        needed |= {path: max(value, needed.get(path, 0.0)) for path, value in more.items()}
        job, system = comparison.scenario.job, comparison.scenario.standard.system
        changes = {tuple(path.split(".")): _written(job, system, path, value) for path, value in needed.items()}
        yield Proposal(_in_words(job, system, needed), changes)
        column = compare(changed(comparison.scenario, changes), (column.id,)).columns[0]


def _needed(design: Design) -> dict[str, float]:
    """Path of a strength → the allowable [SI] at which no link is over; empty if strengths alone do not help."""
    found: dict[str, float] = {}
    for check in _over(design):
        link = next(link for link in links.LINKS if check.link in (link.ids or (link.key,)))
        paths = link.strengths(design.job, check)
        if not paths:
            return {}
        for path, factor in _factors(check, paths).items():
            found[path] = max(factor * _allowable(design, check, path), found.get(path, 0.0))
    return found


def _factors(check: Check, paths: Sequence[str]) -> dict[str, float]:
    """By how much strengths would have to grow: only that against the main load, where the others leave room for it."""
    if len(paths) == len(check.loads) > 1:
        path, main = max(zip(paths, check.loads, strict=True), key=lambda each: each[1].ratio)
        left = 1 - (check.ratio - main.ratio)
        if left >= SMALLEST_PART:
            return {path: main.ratio / left}
    return dict.fromkeys(paths, check.ratio)


def _over(design: Design) -> list[Check]:
    """The checks that are over: those of the layout, of the roof alone, and where it is set out inaccurately."""
    set_out = design.within_tolerance.check if design.within_tolerance else None
    checks = [*(design.candidate.checks.values() if design.candidate else ()), design.roof_alone, set_out]
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


def _written(job: Job, system: System, path: str, needed: float) -> object:
    """A strength as the scenario's file has it, rounded up."""
    dimension = _dimension(job, path)
    quantity = f"{_rounded_up(needed, dimension, system):{DECIMALS[system]}} {unit(dimension, system)}"
    return quantity if dimension == "moment" else {job.words.written: quantity}


def _dimension(job: Job, path: str) -> str:
    """Strengths are forces, with a basis; moments are stated as numbers."""
    return "moment" if isinstance(_value(job, path), float) else "force"


def _rounded_up(needed: float, dimension: str, system: System) -> float:
    """A strength in display units, rounded up to what is written: whole pounds, hundredths of a kN."""
    parts = PARTS[system]
    return math.ceil(number(needed, dimension, system) * parts - SAME_RATIO) / parts


def _in_words(job: Job, system: System, needed: Mapping[str, float]) -> str:
    """Who would have to show what: "the roof maker shows 356 lb for the clip, uplift"."""
    shown: dict[str, list[str]] = {}
    for path, value in needed.items():
        shown.setdefault(OWNERS[path.split(".")[0]], []).append(_part(job, system, path, value))
    return "; ".join(f"the {owner} shows {listed(parts, 'and')}" for owner, parts in shown.items())


def _part(job: Job, system: System, path: str, needed: float) -> str:
    """The strength of one part, and the test that would show it where its allowable comes from a test."""
    dimension = _dimension(job, path)
    name = ({each.path: each.name for each in job.strengths} | NAMES).get(path, path)
    size = _rounded_up(needed, dimension, system)
    quantity = f"{size:,{DECIMALS[system]}} {unit(dimension, system)}"
    if job.words is not ALLOWABLES:
        return f"{quantity} ({job.words.moment if dimension == 'moment' else job.words.resistance}) for the {name}"
    words, factor = f"{quantity} for the {name}", _safety_factor(_value(job, path))
    if factor is None:
        return words
    return f"{words} (a test to failure of {size * factor:,.0f} lb, safety factor {factor:g})"


def _safety_factor(value: Any) -> float | None:
    """The safety factor of a strength that comes from tests; None for others."""
    if isinstance(value, float):
        return None
    factors = {mode.safety_factor for mode in strength(value).modes}
    return next(iter(factors)) if len(factors) == 1 and factors != {1.0} else None

"""Rail, rack or frame: what bends it, load by load; how far it sags; what its legs carry."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from engine.common.arrays import Floats
from engine.common.calculation import CalculationStep, Term
from engine.links import Check
from engine.links.check import allowable_resistances
from engine.links.member import bending_ratios, deflection_ratios, leg_ratios
from engine.links.trail import Road
from engine.links.trail_terms import combined, foot_pounds, given, of_case, pounds, products_of, sum_of, used
from engine.load_path.transfer import member_areas
from engine.project.hardware import RailSection
from engine.strength import strength
from engine.units import FOOT, INCH, KSI, POUND_FORCE


def member(road: Road, check: Check) -> list[CalculationStep]:
    """What the check found worst: bending, deflection, or a leg."""
    if check.place.name == "leg":
        return _leg(road, check)
    return _sagging(road, check) if check.dimension == "small length" else _bent(road, check)


@dataclass(frozen=True, eq=False)
class _Line:
    """One line of a set, in one combination: forces on it, across and along (L,) [N], and the set's number."""

    group: int
    line: int
    across: Floats
    along: Floats
    steps: tuple[CalculationStep, ...]


def _line(road: Road, group: int, line: int, number: int, weights: Floats, station: int = -1) -> _Line:
    """The forces on a line; the one that `weights` (L,) makes most of is told from its load cases.

    Over the outermost supports (`station`) what hangs beyond has an effective wind area of its own.
    """
    these, bars, combination = road.layout.lines[group], road.layout.member.bars, road.demands.combinations[number]
    end = {0: 1, len(these.stands_on) - 1: 2}.get(station, 0)
    area, what = (
        float(member_areas(road.layout, these)[end]),
        "what hangs beyond its last point" if end else "the member",
    )
    modules, cases = these.module[line], {}
    along = np.zeros(len(modules))
    for case, factor in combination.factors.items():
        normal, in_plane = road.demands.forces_on_members.of(case, modules, np.full(len(modules), area))
        cases[case] = (these.share[line] * normal + these.couple[line] * in_plane) / bars
        sideways = (
            np.full_like(normal, road.demands.forces_on_members.across(case)) if road.layout.member.up else in_plane
        )
        along += factor * these.share[line] * sideways / bars
    across = sum((factor * cases[case] for case, factor in combination.factors.items()), np.zeros(len(modules)))
    top = int(np.argmax(np.abs(weights * across)))
    steps = [
        given(
            "A_s", f"effective wind area of {what}: length x width, the width not below length/3", area / FOOT**2, "ft2"
        )
    ]
    for case in combination.factors:
        normal, in_plane = road.demands.forces_on_members.of(
            case, modules[top : top + 1], np.array([area]), steps.append
        )
        products = products_of("c", [these.share[line] / bars], "", "F", normal)
        if these.couple[line, top] * in_plane[0]:
            products += products_of("c", [these.couple[line, top] / bars], "", "F", in_plane)
        meaning = f"{case}: where the member is loaded most, by share and force of the module there"
        steps.append(sum_of(of_case("P", case), meaning, pounds(cases[case][top]), products))
    here = {case: float(force[top]) / POUND_FORCE for case, force in cases.items()}
    steps.append(combined("P", "load there (down positive)", pounds(across[top]), combination, here))
    return _Line(group, line, across, along, tuple(steps))


def _bent(road: Road, check: Check) -> list[CalculationStep]:
    """M/Ma about the strong axis plus M/Ma about the weak one."""
    job, demands, link = road.job, road.demands, road.layout.member
    ratios = [bending_ratios(demands, group) for group in demands.members]
    group = int(np.argmax([each.per_item.max() for each in ratios]))
    (line, station), number = ratios[group].governing
    ordinates = demands.solved.bending[group].moments[station]
    found, bent = _line(road, group, line, number, ordinates, station), demands.members[group]
    moment = foot_pounds(bent.strong[line, station, number])
    steps = [*found.steps, _moment("M", "normal to the roof", moment, ordinates, found.across)]
    section = demands.section
    strong = section.moment_strong if section else job.hardware.frame_moment
    allowed = allowable_resistances(strong or 0.0, demands.combinations)[number]
    terms, equation = {"M": moment, "Ma": foot_pounds(allowed)}, "max(M, -M) / Ma"
    if section:
        weak = foot_pounds(bent.weak[line, station, number])
        steps.append(_moment("Mw", "along the roof", weak, ordinates, found.along))
        weak_allowed = allowable_resistances(section.moment_weak, demands.combinations)[number]
        terms |= {"Mw": weak, "Mwa": foot_pounds(weak_allowed)}
        equation += " + max(Mw, -Mw) / Mwa"
    return [*steps, used(link.link, check.used, equation, terms)]


def _moment(symbol: str, way: str, result: Term, ordinates: Floats, forces: Floats) -> CalculationStep:
    """A moment as influence ordinate times force, over every place where the member is loaded."""
    products = products_of("m", ordinates / FOOT, "ft", "P", forces)
    return sum_of(symbol, f"bending {way}, by every load's moment at that place (sagging positive)", result, products)


def _sagging(road: Road, check: Check) -> list[CalculationStep]:
    demands, section = road.demands, road.demands.section
    if section is None:
        return []
    ratios = [deflection_ratios(section, group) for group in demands.members]
    group = int(np.argmax([each.per_item.max() for each in ratios]))
    (line, span), number = ratios[group].governing
    ordinates = demands.solved.bending[group].deflections_ei[span]
    found, bent = _line(road, group, line, number, ordinates), demands.members[group]
    stiffness = float(bent.deflection_ei[line, span, number]) / (POUND_FORCE * INCH**3)
    products = products_of("a", ordinates / INCH**3, "in3", "P", found.across)
    steps = [
        *found.steps,
        sum_of("B", "deflection times EI at midspan, by every load", Term(stiffness, "lb in3"), products),
    ]
    return [*steps, *_deflected(check, section, stiffness, float(bent.spans[span]), road.layout.member.link)]


def _deflected(check: Check, section: RailSection, stiffness: float, span: float, link: str) -> list[CalculationStep]:
    terms = {
        "B": Term(stiffness, "lb in3"),
        "E": Term(1000 * section.modulus / KSI, "psi"),
        "I": Term(section.inertia / INCH**4, "in4"),
        "L": Term(span / INCH, "in"),
        "n": Term(section.deflection_ratio or 0.0),
    }
    return [used(link, check.used, "max(B, -B) / (E * I) / (L / n)", terms)]


def _leg(road: Road, check: Check) -> list[CalculationStep]:
    (attachment,), number = leg_ratios(road.demands).governing
    combination = road.demands.combinations[number]
    mode = strength(road.job.hardware.leg_capacity).governing(combination)
    terms = {
        "N": pounds(road.demands.attachment_normal[attachment, number]),
        "Ra": pounds(mode.resistance(combination)),
    }
    ending = used(road.layout.member.link, check.used, "max(N, -N) / Ra", terms)
    return [*road.force(attachment, number), *mode.steps, mode.resistance_step(combination), ending]

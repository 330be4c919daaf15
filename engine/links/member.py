"""The member between modules and attachments: rail, rack beam, or the module's own frame."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import partial

import numpy as np

from engine.common.arrays import Floats
from engine.common.calculation import CalculationStep, Term
from engine.links.check import (
    Check,
    Location,
    governing_check,
    governing_of,
)
from engine.links.frame_overhang import check_overhang, explain_overhang, is_overhang
from engine.links.link import Link
from engine.links.ratios import (
    DemandOverResistance,
    Ratios,
    SumOfRatios,
    allowable_resistances,
    by_direction,
    resistances,
)
from engine.links.trail import CalculationTrail
from engine.links.trail_terms import (
    case_symbol,
    combination_step,
    foot_pounds,
    pounds,
    products_of,
    sum_step,
    utilisation_step,
    value_step,
)
from engine.links.unchecked import DEFLECTION, HARDWARE_MAKER, Unchecked
from engine.load_path.demands import Demands
from engine.load_path.run_response import LinesResponse
from engine.load_path.transfer import MemberDemands, member_areas
from engine.mounting.layout import Member
from engine.project.job import Job
from engine.strength import strength
from engine.units import FOOT, INCH, KSI, POUND_FORCE

LEG = "leg"

# -- ratios ---------------------------------------------------------------------------------


def bending_ratios(demands: Demands, group: MemberDemands) -> DemandOverResistance | SumOfRatios:
    """M/Ma about the strong axis, plus M/Ma about the weak one for bars, shape (B, T, C)."""
    section, combinations = demands.section, demands.combinations
    if section is None:
        frame_moment = allowable_resistances(demands.job.hardware.frame_moment or 0.0, combinations)
        return DemandOverResistance(np.abs(group.strong), frame_moment)
    strong, weak = (
        allowable_resistances(allowable, combinations) for allowable in (section.moment_strong, section.moment_weak)
    )
    return SumOfRatios(
        {
            "bending normal to the roof": DemandOverResistance(np.abs(group.strong), strong),
            "bending along the roof": DemandOverResistance(np.abs(group.weak), weak),
        }
    )


def deflection_ratios(demands: Demands, group: MemberDemands) -> DemandOverResistance:
    """Midspan deflection of a bar over its stated part of the span [m], shape (B, S-1, C)."""
    section = demands.section
    assert section is not None
    deflection = np.abs(group.deflection_ei) / (section.modulus * section.inertia)
    return DemandOverResistance(deflection, (group.spans / (section.deflection_ratio or np.nan))[:, None])


def leg_ratios(demands: Demands) -> DemandOverResistance:
    """Load normal to the roof over the capacity of every rack leg, shape (P, C)."""
    capacity = resistances(strength(demands.job.hardware.leg_capacity), demands.combinations)
    return by_direction(demands.attachment_normal, capacity, capacity)


# -- checks ---------------------------------------------------------------------------------


def check_member(demands: Demands) -> Check:
    """Bending about both axes, deflection where a limit is stated, and the legs of a rack."""
    member = demands.layout.member
    if member.section is None:
        return _check_module_frame(demands)
    checks = [_check_bending(demands), _check_deflection(demands)]
    if member.legs:
        checks.append(_check_legs(demands))
    return governing_of(checks)


RatiosOfLines = Callable[[Demands, MemberDemands], Ratios]
"""Utilisations of one set of lines."""


def _governing_set(demands: Demands, ratios: RatiosOfLines) -> int:
    """Number of the set of lines with the largest utilisation.

    That of a set depends on its lines alone: it is found once for all layouts that have them.
    """
    largest = list[float]()
    for run in demands.runs:
        key = _largest, demands.forces_on_members
        of_all = run.among.once(key, partial(_largest, demands, run.among))
        largest += of_all[ratios][run.lines]
    return int(np.argmax(largest))


def _largest(demands: Demands, among: LinesResponse) -> dict[RatiosOfLines, list[float]]:
    """The largest utilisations of each set of lines that were solved together.

    Their bending is large and takes long: all kinds of utilisation are read from it at once.
    """
    largest: dict[RatiosOfLines, list[float]] = {kind: [] for kind in _kinds(demands)}
    for lines in among.members(demands.forces_on_members):
        for ratios, found in largest.items():
            found.append(float(ratios(demands, lines).utilisation.max()))
    return largest


def _kinds(demands: Demands) -> tuple[RatiosOfLines, ...]:
    """The kinds of utilisation that are checked along a line."""
    return (bending_ratios, deflection_ratios) if _limits_deflection(demands) else (bending_ratios,)


def _limits_deflection(demands: Demands) -> bool:
    return demands.section is not None and demands.section.deflection_ratio is not None


def _check_bending(demands: Demands) -> Check:
    member, group = demands.layout.member, demands.member(_governing_set(demands, bending_ratios))
    place = _along(member, group, "bending" if member.section else "long edge")
    ratios = bending_ratios(demands, group)
    return governing_check(member.link, member.title, "moment", ratios, demands.combinations, place)


def _along(member: Member, group: MemberDemands, name: str) -> Callable[[int, int], Location]:
    def place(line: int, station: int) -> Location:
        x, y = member.on_roof(group.stations[station], group.y[line])
        return Location(name, float(x), float(y))

    return place


def _check_deflection(demands: Demands) -> Check:
    member = demands.layout.member
    if not _limits_deflection(demands):
        document = f"deflection limit of the {member.title}"
        missing = Unchecked(member.link, member.title, DEFLECTION, "no limit given", HARDWARE_MAKER, document)
        return Check(member.link, member.title, "small length", unchecked=(missing,))
    group = demands.member(_governing_set(demands, deflection_ratios))

    def place(line: int, span: int) -> Location:
        x, y = member.on_roof(group.middles[span], group.y[line])
        return Location("deflection at midspan", float(x), float(y))

    ratios = deflection_ratios(demands, group)
    return governing_check(member.link, member.title, "small length", ratios, demands.combinations, place)


def _check_legs(demands: Demands) -> Check:
    member, attachments = demands.layout.member, demands.layout.attachments

    def place(attachment: int) -> Location:
        return Location(LEG, float(attachments.x[attachment]), float(attachments.y[attachment]))

    return governing_check(member.link, member.title, "force", leg_ratios(demands), demands.combinations, place)


def _check_module_frame(demands: Demands) -> Check:
    """Bending with the overhangs' moments where the frame's strength is stated, else the overhangs' lengths."""
    if demands.job.hardware.frame_moment is None:
        return check_overhang(demands)
    return _check_bending(demands)


# -- explanation ----------------------------------------------------------------------------


def explain_member(trail: CalculationTrail, check: Check) -> list[CalculationStep]:
    """Steps to what controls the member: bending, deflection, a leg, or an overhang of a module's frame."""
    if is_overhang(check):
        return explain_overhang(trail, check)
    if check.place.name == LEG:
        return _explain_leg(trail, check)
    return _explain_deflection(trail, check) if check.dimension == "small length" else _explain_bending(trail, check)


@dataclass(frozen=True, eq=False)
class _LineForces:
    """Forces on one line of a set in one combination, normal to the roof and along it, shape (L,) each [N]."""

    normal: Floats
    along: Floats
    steps: tuple[CalculationStep, ...]


def _line_forces(
    trail: CalculationTrail, group: int, line: int, number: int, weights: Floats, station: int = -1
) -> _LineForces:
    """The forces on a line; the one with the largest effect, by `weights` (L,), is explained from its load cases.

    At the outermost supports (`station`) the overhang has an effective wind area of its own.
    """
    demands, lines, bars = trail.demands, trail.layout.lines[group], trail.layout.member.bars
    combination, modules, cases = demands.combinations[number], lines.module[line], {}
    end = {0: 1, len(lines.stands_on) - 1: 2}.get(station, 0)
    area = float(member_areas(trail.layout, lines)[end])
    along = np.zeros(len(modules))
    for case, factor in combination.factors.items():
        normal, in_plane = demands.forces_on_members.of(case, modules, np.full(len(modules), area))
        cases[case] = (lines.share[line] * normal + lines.couple[line] * in_plane) / bars
        sideways = in_plane
        if trail.layout.member.runs_up_slope:
            sideways = np.full_like(normal, demands.forces_on_members.across(case))
        along += factor * lines.share[line] * sideways / bars
    total = sum((factor * cases[case] for case, factor in combination.factors.items()), np.zeros(len(modules)))
    largest = int(np.argmax(np.abs(weights * total)))
    part = "the overhang beyond the last attachment" if end else "the member"
    meaning = f"effective wind area of {part}: length x width, the width not below length/3"
    steps = [value_step("A_s", meaning, area / FOOT**2, "ft2")]
    for case in combination.factors:
        here, at = modules[largest : largest + 1], np.array([area])
        normal, in_plane = demands.forces_on_members.of(case, here, at, steps.append)
        products = products_of("c", [lines.share[line] / bars], "", "F", normal)
        if lines.couple[line, largest] * in_plane[0]:
            products += products_of("c", [lines.couple[line, largest] / bars], "", "F", in_plane)
        meaning = f"{case}: load at the place with the largest effect, by share and force of the module there"
        steps.append(sum_step(case_symbol("P", case), meaning, pounds(cases[case][largest]), products))
    at_largest = {case: float(force[largest]) / POUND_FORCE for case, force in cases.items()}
    steps.append(combination_step("P", "load there (down positive)", pounds(total[largest]), combination, at_largest))
    return _LineForces(total, along, tuple(steps))


def _explain_bending(trail: CalculationTrail, check: Check) -> list[CalculationStep]:
    """M/Ma about the strong axis plus M/Ma about the weak one."""
    demands, section = trail.demands, trail.demands.section
    group, (line, station), number = _governing_line(demands, bending_ratios)
    ordinates, moments = demands.bending[group].moments[station], demands.member(group)
    forces = _line_forces(trail, group, line, number, ordinates, station)
    strong = foot_pounds(moments.strong[line, station, number])
    steps = [*forces.steps, _moment_step("M", "normal to the roof", strong, ordinates, forces.normal)]
    stated = section.moment_strong if section else trail.job.hardware.frame_moment
    allowable = allowable_resistances(stated or 0.0, demands.combinations)[number]
    terms, equation = {"M": strong, "Ma": foot_pounds(allowable)}, "max(M, -M) / Ma"
    if section:
        weak = foot_pounds(moments.weak[line, station, number])
        steps.append(_moment_step("Mw", "along the roof", weak, ordinates, forces.along))
        weak_allowable = allowable_resistances(section.moment_weak, demands.combinations)[number]
        terms |= {"Mw": weak, "Mwa": foot_pounds(weak_allowable)}
        equation += " + max(Mw, -Mw) / Mwa"
    return [*steps, utilisation_step(trail.layout.member.link, check.ratio, equation, terms)]


def _governing_line(demands: Demands, ratios: RatiosOfLines) -> tuple[int, tuple[int, ...], int]:
    """Set of lines, place in it, and combination with the largest utilisation, by their numbers."""
    group = _governing_set(demands, ratios)
    place, number = ratios(demands, demands.member(group)).governing
    return group, place, number


def _moment_step(symbol: str, direction: str, result: Term, ordinates: Floats, forces: Floats) -> CalculationStep:
    """A moment as influence ordinate times force, summed over every place where the member is loaded."""
    products = products_of("m", ordinates / FOOT, "ft", "P", forces)
    meaning = f"bending moment {direction}, from every load's moment at that place (sagging positive)"
    return sum_step(symbol, meaning, result, products)


def _explain_deflection(trail: CalculationTrail, check: Check) -> list[CalculationStep]:
    demands, section = trail.demands, trail.demands.section
    if section is None:
        return []
    group, (line, span), number = _governing_line(demands, deflection_ratios)
    ordinates, member = demands.bending[group].deflections_ei[span], demands.member(group)
    forces = _line_forces(trail, group, line, number, ordinates)
    stiffness = Term(float(member.deflection_ei[line, span, number]) / (POUND_FORCE * INCH**3), "lb in3")
    products = products_of("a", ordinates / INCH**3, "in3", "P", forces.normal)
    terms = {
        "B": stiffness,
        "E": Term(1000 * section.modulus / KSI, "psi"),
        "I": Term(section.inertia / INCH**4, "in4"),
        "L": Term(float(member.spans[span]) / INCH, "in"),
        "n": Term(section.deflection_ratio or 0.0),
    }
    return [
        *forces.steps,
        sum_step("B", "deflection times EI at midspan, from every load", stiffness, products),
        utilisation_step(trail.layout.member.link, check.ratio, "max(B, -B) / (E * I) / (L / n)", terms),
    ]


def _explain_leg(trail: CalculationTrail, check: Check) -> list[CalculationStep]:
    (attachment,), number = leg_ratios(trail.demands).governing
    combination = trail.demands.combinations[number]
    mode = strength(trail.job.hardware.leg_capacity).governing(combination)
    load, allowable = trail.demands.attachment_normal[attachment, number], mode.resistance(combination)
    terms = {"N": pounds(load), "Ra": pounds(allowable)}
    utilisation = utilisation_step(trail.layout.member.link, check.ratio, "max(N, -N) / Ra", terms)
    force = trail.attachment_force(attachment, number)
    return [*force, *mode.steps, mode.resistance_step(combination), utilisation]


def _strengths(job: Job, check: Check) -> tuple[str, ...]:
    """The bar's moments, the leg, or the frame's moment; a deflection or an overhang is no matter of strength."""
    if check.place.name == LEG:
        return ("hardware.leg_capacity",)
    if check.dimension != "moment":
        return ()
    bar = {"rail": "rail", "rack": "rack_beam"}.get(check.link)
    return (f"hardware.{bar}.moment_strong", f"hardware.{bar}.moment_weak") if bar else ("hardware.frame_moment",)


LINK = Link(
    "member",
    title=lambda job: "rail (rack beam, module frame)",
    help=lambda job: "the part that carries modules between attachments: rail, rack beam, or the module's own frame",
    check=check_member,
    explain=explain_member,
    limits_member=True,
    strengths=_strengths,
    ids=("rail", "rack", "module_frame"),
)

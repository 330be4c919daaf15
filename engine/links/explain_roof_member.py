"""The explanation of a member's moment: the loads on it, its allowable moment, its utilisation."""

from __future__ import annotations

import numpy as np

from engine.common.calculation import SCENARIO, STATICS, CalculationStep, Confidence, Reference, Term
from engine.common.combination import Combination
from engine.links.member_moments import KINDS, LIFTED, OVER, MemberMoments
from engine.links.roof_fastening_alone import tributary
from engine.links.trail import CalculationTrail
from engine.links.trail_terms import foot_pounds, products_of, sum_step, utilisation_step, value_step
from engine.load_path.bare_roof import member_wind_areas
from engine.load_path.roof_members import RoofMembers
from engine.project.roof_member import SAFETY_FACTOR, AllowableMoments, RoofMember
from engine.units import FOOT, INCH, KSI, both

SECTION = Reference("AISI", "S100", "bending: Se Fy / 1.67", Confidence.SEVERAL)
UPLIFT = Reference("AISI", "S100", "uplift under a fastened panel: R Se Fy / 1.67", Confidence.SEVERAL)


def explain_bending(
    trail: CalculationTrail, moments: MemberMoments, member: RoofMember, utilisation: float
) -> list[CalculationStep]:
    """Steps from the loads to the controlling moment, to its allowable one and to the utilisation."""
    allowable, beams = member.allowable, moments.beams
    if allowable is None:
        return []
    (line, item), number = moments.ratios(allowable, trail.demands.combinations).governing
    station = int(moments.station[item])
    arms = beams.unit.moments(beams.stations[[[station]]])[0, 0]
    forces = beams.forces[line, :, number]
    steps = _load_steps(trail, moments, line, arms, number)
    kind, place = KINDS[moments.kind[item]], moments.place(line, item)
    start = "eave" if moments.members.up_slope else "rake"
    roof = trail.job.roof
    loads = "attachments and fastenings" if roof.solid_deck else f"{roof.fastening_word} at every {roof.rib_word}"
    at = both(beams.stations[station], "length", trail.job.system)
    meaning = f"bending moment of {place.name}, {at} from the {start}, from the {loads} (sagging positive)"
    moment = foot_pounds(beams.moments[line, station, number])
    steps.append(sum_step("M", meaning, moment, products_of("m", arms / FOOT, "ft", "N", forces)))
    steps += _allowable_steps(member, allowable, kind, trail.demands.combinations[number])
    symbol = steps[-1].symbol
    terms = {"M": moment, symbol: steps[-1].result}
    return [*steps, utilisation_step("roof_member", utilisation, f"max(M, -M) / {symbol}", terms)]


def _load_steps(
    trail: CalculationTrail, moments: MemberMoments, line: int, arms: np.ndarray, number: int
) -> list[CalculationStep]:
    """Steps to the load that bends the member most there: an attachment's, or wind and snow on one fastening's area."""
    members, at = moments.members, trail.layout.attachments
    bending = np.abs(arms * members.from_attachments[line, :, number])
    if bending.max() > 0:
        x, y = _place(members, line, int(np.argmax(bending)))
        off = np.abs(at.x - x), np.abs(at.y - y)
        # The nearest along the member, of those the nearest across it: it may load two members of a deck.
        nearest = int(np.lexsort(off if members.up_slope else off[::-1])[0])
        area = float(member_wind_areas(trail.job, at.x[[nearest]], at.y[[nearest]])[0])
        word = trail.job.roof.member_word
        steps = trail.attachment_force_for(nearest, number, area, f"effective wind area of the {word}, span x span / 3")
        return [*steps, *_share_step(trail, members, line, nearest, steps[-1].result)]
    x, y = _place(members, line, int(np.argmax(np.abs(arms * members.from_surface[line, :, number]))))
    roof = trail.demands.roof
    return _surface_steps(
        trail, int(np.abs(roof.ribs - x).argmin()), int(np.abs(roof.fastening_y - y).argmin()), number
    )


def _share_step(
    trail: CalculationTrail, members: RoofMembers, line: int, attachment: int, force: Term
) -> list[CalculationStep]:
    """The part of an attachment's force that one of two members under a deck carries."""
    if members.shares is None:
        return []
    share, word = float(members.shares[line, attachment]), trail.job.roof.member_word
    meaning = f"its part on {word} {line + 1}, by the lever rule between this and the next one"
    terms = {"s": Term(share), "N": force}
    return [CalculationStep("N_m", meaning, Term(share * force.value, force.unit), "s * N", terms, STATICS)]


def _place(members: RoofMembers, line: int, item: int) -> tuple[float, float]:
    """Place x and y of a load on a member [m]."""
    along, across = float(members.along[item]), float(members.across[line])
    return (across, along) if members.up_slope else (along, across)


def _surface_steps(trail: CalculationTrail, rib: int, level: int, number: int) -> list[CalculationStep]:
    """Steps to the wind and the snow on the area of one fastening, with wind at the member's effective area."""
    demands, place, steps = trail.demands, tributary(trail, rib, level), list[CalculationStep]()
    area = member_wind_areas(trail.job, demands.roof.ribs[[rib]], demands.roof.fastening_y[[level]])
    for case in demands.combinations[number].factors:
        if case in demands.loads.wind_cases:
            demands.loads.cladding_pressure(case, place, steps.append, area)
        elif case in demands.loads.snow_cases:
            demands.loads.snow_on_roof(case, place, steps.append)
    return steps


def _allowable_steps(
    member: RoofMember, allowable: AllowableMoments, kind: str, combination: Combination
) -> list[CalculationStep]:
    """Steps to the allowable moment for one kind of place: stated, or from the section; divided where factors are."""
    lifted = kind == LIFTED
    moment = allowable.up or 0.0 if lifted else allowable.support if kind == OVER else allowable.midspan
    result, meaning = foot_pounds(moment), f"{combination.words.moment} of the {member.kind}, {kind}"
    if not (member.section_modulus and member.yield_strength):
        return [CalculationStep("Ma", meaning, result, "", {}, SCENARIO), *_divided(result, combination)]
    modulus = value_step("Se", "effective section modulus", member.section_modulus / INCH**3, "in3", SCENARIO)
    strength = value_step("Fy", "yield strength", member.yield_strength / KSI, "ksi", SCENARIO)
    steps, terms = [modulus, strength], {"Se": modulus.result, "Fy": strength.result, "Omega": Term(SAFETY_FACTOR)}
    equation = "Se * Fy * 1000 / 12 / Omega"
    if lifted:
        said = member.uplift_factor_source or "AISI S100, through-fastened panels"
        steps.append(value_step("R", f"uplift factor: {said}", member.uplift_factor or 0.0, "", SCENARIO))
        terms, equation = terms | {"R": steps[-1].result}, f"R * {equation}"
    source = UPLIFT if lifted else SECTION
    return [*steps, CalculationStep("Ma", meaning, result, equation, terms, source), *_divided(result, combination)]


def _divided(stated: Term, combination: Combination) -> list[CalculationStep]:
    """The step from a stated moment to what it resists in a combination; none where that is the same."""
    divisor = 1 / combination.of_allowable(1.0)
    if divisor == 1:
        return []
    terms, result = {"Ma": stated, combination.words.divisor: Term(divisor)}, Term(stated.value / divisor, stated.unit)
    meaning = f"{combination.words.resistance} in {combination.name}"
    return [CalculationStep("Md", meaning, result, f"Ma / {combination.words.divisor}", terms, STATICS)]

"""The explanation of a purlin's moment: the loads on its clips or screws, its allowable moment, its utilisation."""

from __future__ import annotations

import numpy as np

from engine.common.calculation import SCENARIO, CalculationStep, Confidence, Reference, Term
from engine.links.purlin_moments import KINDS, LIFTED, OVER, PurlinMoments
from engine.links.roof_fastening_alone import tributary
from engine.links.trail import CalculationTrail
from engine.links.trail_terms import foot_pounds, products_of, sum_step, utilisation_step, value_step
from engine.load_path.roof_loads import purlin_areas
from engine.project.roof_member import SAFETY_FACTOR, AllowableMoments, RoofMember
from engine.units import FOOT, INCH, KSI, both

SECTION = Reference("AISI", "S100", "bending: Se Fy / 1.67", Confidence.SEVERAL)
UPLIFT = Reference("AISI", "S100", "uplift under a fastened panel: R Se Fy / 1.67", Confidence.SEVERAL)


def explain_purlin(
    trail: CalculationTrail, moments: PurlinMoments, member: RoofMember, utilisation: float
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
    meaning = (
        f"bending moment of {place.name}, {both(beams.stations[station], 'length')} from the rake, from the "
        f"{trail.job.roof.fastening_word} at every {trail.job.roof.rib_word} (sagging positive)"
    )
    moment = foot_pounds(beams.moments[line, station, number])
    steps.append(sum_step("M", meaning, moment, products_of("m", arms / FOOT, "ft", "N", forces)))
    steps += _allowable_steps(member, allowable, kind)
    terms = {"M": moment, "Ma": steps[-1].result}
    return [*steps, utilisation_step("roof_member", utilisation, "max(M, -M) / Ma", terms)]


def _load_steps(
    trail: CalculationTrail, moments: PurlinMoments, line: int, arms: np.ndarray, number: int
) -> list[CalculationStep]:
    """Steps to the load that bends the purlin most there: an attachment's, or wind and snow on one fastening's area."""
    purlins, attachments = moments.purlins, trail.layout.attachments
    bending = np.abs(arms * purlins.from_attachments[line, :, number])
    rib = int(np.argmax(bending))
    if bending[rib] > 0:
        on_rib = np.flatnonzero(attachments.rib == rib)
        nearest = int(on_rib[np.argmin(np.abs(attachments.y[on_rib] - purlins.y[line]))])
        area = float(purlin_areas(trail.job, attachments.x[[nearest]])[0])
        return trail.attachment_force_for(nearest, number, area, "effective wind area of the purlin, span x span / 3")
    rib = int(np.argmax(np.abs(arms * purlins.from_surface[line, :, number])))
    return _surface_steps(trail, rib, line, number)


def _surface_steps(trail: CalculationTrail, rib: int, line: int, number: int) -> list[CalculationStep]:
    """Steps to the wind and the snow on the area of one fastening, with wind at the purlin's effective area."""
    demands, place, steps = trail.demands, tributary(trail, rib, line), list[CalculationStep]()
    area = purlin_areas(trail.job, demands.roof.ribs[[rib]])
    for case in demands.combinations[number].factors:
        if case in demands.loads.wind_cases:
            demands.loads.cladding_pressure(case, place, steps.append, area)
        elif case in demands.loads.snow_cases:
            demands.loads.snow_on_roof(case, place, steps.append)
    return steps


def _allowable_steps(member: RoofMember, allowable: AllowableMoments, kind: str) -> list[CalculationStep]:
    """Steps to the allowable moment for one kind of place: stated, or from the section."""
    lifted = kind == LIFTED
    moment = allowable.up or 0.0 if lifted else allowable.support if kind == OVER else allowable.midspan
    result, meaning = foot_pounds(moment), f"allowable moment of the {member.kind}, {kind}"
    if not (member.section_modulus and member.yield_strength):
        return [CalculationStep("Ma", meaning, result, "", {}, SCENARIO)]
    modulus = value_step("Se", "effective section modulus", member.section_modulus / INCH**3, "in3", SCENARIO)
    strength = value_step("Fy", "yield strength", member.yield_strength / KSI, "ksi", SCENARIO)
    steps, terms = [modulus, strength], {"Se": modulus.result, "Fy": strength.result, "Omega": Term(SAFETY_FACTOR)}
    equation = "Se * Fy * 1000 / 12 / Omega"
    if lifted:
        source = member.uplift_factor_source or "AISI S100, through-fastened panels"
        steps.append(value_step("R", f"uplift factor: {source}", member.uplift_factor or 0.0, "", SCENARIO))
        terms, equation = terms | {"R": steps[-1].result}, f"R * {equation}"
    return [*steps, CalculationStep("Ma", meaning, result, equation, terms, UPLIFT if lifted else SECTION)]

"""The seam or rib as a beam over its fastenings."""

from __future__ import annotations

from collections.abc import Iterable

import numpy as np

from engine.common.arrays import Floats, Ints
from engine.common.calculation import CalculationStep, Term
from engine.common.tolerances import SUMMED_LENGTH
from engine.links.check import Check, Location, governing_check
from engine.links.link import Link
from engine.links.ratios import DemandOverResistance, allowable_resistances, by_direction
from engine.links.roof_fastening_alone import surface_load_steps
from engine.links.trail import CalculationTrail
from engine.links.trail_terms import Product, foot_pounds, pounds, products_of, sum_step, utilisation_step, value_step
from engine.load_path.demands import Demands
from engine.project.job import Job
from engine.statics.continuous_beam import UnitCouples, UnitForces, solve_beams
from engine.statics.rib_bending import RibMoments
from engine.statics.rib_supports import group_ribs
from engine.units import FOOT, both


def rib_ratios(demands: Demands, moments: RibMoments) -> DemandOverResistance:
    """Moment over allowable along ribs, at the places of `RibMoments.extremes`.

    A sagging moment compresses the rib, a hogging one the pan; each has its own allowable.
    """
    roof = demands.job.roof
    rib_compressed, pan_compressed = (
        allowable_resistances(allowable, demands.combinations)
        for allowable in (roof.moment_rib_compressed, roof.moment_pan_compressed)
    )
    return by_direction(moments.extremes, up=pan_compressed, down=rib_compressed)


def check_rib(demands: Demands) -> Check:
    """The rib with the largest utilisation among those that carry attachments, with the array."""
    return _check_parts(demands, demands.rib_moments_in_parts)


def check_rib_alone(demands: Demands) -> Check:
    """The rib with the largest utilisation on the whole slope, without the array."""
    return _check_parts(demands, demands.roof.alone.moments_in_parts)


def _check_parts(demands: Demands, parts: Iterable[tuple[Ints, RibMoments]]) -> Check:
    """The check of the rib with the largest utilisation among all parts: some ribs, and their moments."""
    return max((_check_moments(demands, moments, rib) for rib, moments in parts), key=lambda check: check.ratio)


def _check_moments(demands: Demands, moments: RibMoments, rib: Ints) -> Check:
    ratios, ribs, word = rib_ratios(demands, moments), demands.roof.ribs, demands.job.roof.rib_word

    def place(row: int, along: int) -> Location:
        _, combination = ratios.governing
        name = f"{word} {rib[row] + 1}"
        return Location(name, float(ribs[rib[row]]), moments.position(row, along, combination))

    return governing_check("rib", f"{word} bending", "moment", ratios, demands.combinations, place)


def explain_rib(trail: CalculationTrail, check: Check) -> list[CalculationStep]:
    """Steps to the moment at the controlling place, from attachments and surface loads, and its utilisation."""
    job, demands, moments = trail.job, trail.demands, trail.demands.rib_moments
    (row, along), number = rib_ratios(demands, moments).governing
    steps, place = list[CalculationStep](), np.array([[moments.position(row, along, number)]])
    by_attachment = _moments_of_attachments(trail, row, place, number)
    if by_attachment:
        largest = max(by_attachment, key=lambda each: abs(each[1].value))[0]
        steps += trail.attachment_force(largest, number)
    else:
        steps += surface_load_steps(trail, int(demands.rib[row]), _main_level(trail, row, number), number)
    moment = moments.extremes[row, along, number]
    products = [product for _, product in by_attachment] + _moments_of_surface(trail, row, place, number)
    meaning = (
        f"bending moment of {job.roof.rib_word} {demands.rib[row] + 1}, "
        "from its attachments and the surface load on its own area (sagging positive)"
    )
    steps.append(sum_step("M", meaning, foot_pounds(moment), products))
    steps.append(_place_step(trail, row, float(place[0, 0])))
    stated = job.roof.moment_pan_compressed if moment < 0 else job.roof.moment_rib_compressed
    allowable = allowable_resistances(stated, demands.combinations)[number]
    terms = {"M": foot_pounds(moment), "Ma": foot_pounds(allowable)}
    return [*steps, utilisation_step("rib", check.ratio, "max(M, -M) / Ma", terms)]


def _place_step(trail: CalculationTrail, row: int, place: float) -> CalculationStep:
    """The controlling place along the rib [m], by its distance from the nearest fastening."""
    demands, roof = trail.demands, trail.job.roof
    apart = float(np.abs(demands.fastening_y[demands.is_fastened[row]] - place).min())
    part = roof.fastening_word.removesuffix("s")
    side = f"over a {part}" if apart < SUMMED_LENGTH else f"between {part}s"
    at = both(place, "length", trail.job.system)
    meaning = f"distance of that place, {at} from the eave, from the nearest {part}: {side}"
    return value_step("d", meaning, apart / FOOT, "ft")


def _moments_of_attachments(trail: CalculationTrail, row: int, place: Floats, number: int) -> list[tuple[int, Product]]:
    """Each attachment on a rib with the moment from its normal force, and that from its along-slope force."""
    job, demands, attachments = trail.job, trail.demands, trail.layout.attachments
    if job.hardware.bypasses_sheet:
        return []
    on_rib = np.flatnonzero(attachments.rib == demands.rib[row])
    supports, y = demands.fastening_y[demands.is_fastened[row]][None], attachments.y[on_rib][None]
    per_force = solve_beams(supports, UnitForces(y, y)).moments(place)[0, 0]
    per_couple = solve_beams(supports, UnitCouples(y)).moments(place)[0, 0]
    found = []
    for attachment, arm, turn in zip(on_rib.tolist(), per_force, per_couple, strict=True):
        normal = float(demands.attachment_normal[attachment, number])
        along = float(demands.attachment_in_plane[attachment, number])
        normal = min(normal, 0.0) if job.roof.solid_deck else normal
        found.append((attachment, Product("m", Term(float(arm) / FOOT, "ft"), "N", pounds(normal))))
        if along:
            lever = Term(-float(turn) * attachments.height / FOOT, "ft")
            found.append((attachment, Product("m", lever, "N", pounds(along))))
    return found


def _main_level(trail: CalculationTrail, row: int, number: int) -> int:
    """The level of a rib at which wind and snow on the panel itself load its fastening most."""
    return int(np.argmax(np.abs(trail.demands.fastening_from_surface[row, :, number])))


def _moments_of_surface(trail: CalculationTrail, row: int, place: Floats, number: int) -> list[Product]:
    """Moments from wind and snow on the stretch of rib that each fastening holds."""
    demands, (_, groups) = trail.demands, group_ribs(trail.job)
    group = next(group for group in groups if demands.rib[row] in group.ribs)
    stretches = UnitForces(group.low[None], group.high[None])
    arms = solve_beams(group.y[None], stretches).moments(place)[0, 0]
    return products_of("m", arms / FOOT, "ft", "N", demands.fastening_from_surface[row, group.levels, number])


def _strengths(job: Job, check: Check) -> tuple[str, ...]:
    """The moments whose allowable is the one that the check is held against."""
    stated = {
        "roof.panel.moment_rib_compressed": job.roof.moment_rib_compressed,
        "roof.panel.moment_pan_compressed": job.roof.moment_pan_compressed,
    }
    resistance = check.resistance or 0.0
    against = min(stated.values(), key=lambda allowable: abs(allowable - resistance))
    return tuple(path for path, allowable in stated.items() if allowable == against)


LINK = Link(
    "rib",
    title=lambda job: f"{job.roof.rib_word} bending",
    help=lambda job: f"the {job.roof.rib_word} as a beam between its fastenings",
    check=check_rib,
    explain=explain_rib,
    check_roof_alone=check_rib_alone,
    limits_roof=lambda job: True,
    strengths=_strengths,
    search_rank=10,
)

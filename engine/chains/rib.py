"""The rib as a beam over its fastenings, and what slides along its panel."""

from __future__ import annotations

import numpy as np

from engine.common.arrays import Floats
from engine.common.calculation import CalculationStep, Term
from engine.links import Check, rib_ratios
from engine.links.check import allowable_resistances
from engine.links.fixed_point import panel_ratios
from engine.links.trail import Road
from engine.links.trail_terms import Product, foot_pounds, pounds, products_of, sum_of, used
from engine.statics.continuous_beam import UnitCouples, UnitForces, solve_beams
from engine.statics.rib_supports import group_ribs
from engine.strength import shear_strength
from engine.units import FOOT


def rib(road: Road, check: Check) -> list[CalculationStep]:
    """The moment that points and air bring to the worst place of the worst rib."""
    job, demands = road.job, road.demands
    (row, along), number = rib_ratios(demands, demands.rib_moments).governing
    steps, place = list[CalculationStep](), np.array([[demands.rib_moments.place(row, along, number)]])
    products = _from_points(road, row, place, number)
    if products:
        top = max(products, key=lambda each: abs(each[1].size))[0]
        steps += road.force(top, number)
    moment = demands.rib_moments.extremes[row, along, number]
    meaning = (
        f"bending of {job.roof.rib_word} {demands.rib[row] + 1}, by what attachments bring and the air on its own area"
    )
    every = [product for _, product in products] + _from_air(road, row, place, number)
    steps.append(sum_of("M", f"{meaning} (sagging positive)", foot_pounds(moment), every))
    panel = job.roof.panel
    allowable = panel.moment_pan_compressed if moment < 0 else panel.moment_rib_compressed
    allowed = allowable_resistances(allowable, demands.combinations)[number]
    terms = {"M": foot_pounds(moment), "Ma": foot_pounds(allowed)}
    return [*steps, used("rib", check.used, "max(M, -M) / Ma", terms)]


def _from_points(road: Road, row: int, place: Floats, number: int) -> list[tuple[int, Product]]:
    """Each attachment of a rib with the moment it brings, pressing and turning."""
    job, demands, attachments = road.job, road.demands, road.layout.attachments
    if job.hardware.bracket == "structure":
        return []
    on_rib = np.flatnonzero(attachments.rib == demands.rib[row])
    supports, y = demands.fastening_y[demands.is_fastened[row]][None], attachments.y[on_rib][None]
    pressed = solve_beams(supports, UnitForces(y, y)).moments(place)[0, 0]
    turned = solve_beams(supports, UnitCouples(y)).moments(place)[0, 0]
    found = []
    for attachment, by, turn in zip(on_rib.tolist(), pressed, turned, strict=True):
        normal, along = (
            float(force[attachment, number]) for force in (demands.attachment_normal, demands.attachment_in_plane)
        )
        normal = min(normal, 0.0) if job.roof.solid_deck else normal
        found.append((attachment, Product("m", Term(float(by) / FOOT, "ft"), "N", pounds(normal))))
        if along:
            lever = Term(-float(turn) * attachments.height / FOOT, "ft")
            found.append((attachment, Product("m", lever, "N", pounds(along))))
    return found


def _from_air(road: Road, row: int, place: Floats, number: int) -> list[Product]:
    """The air and bare snow on each fastening's stretch of the rib."""
    demands, (_, rib_groups) = road.demands, group_ribs(road.job)
    these = next(these for these in rib_groups if demands.rib[row] in these.ribs)
    spread = solve_beams(these.y[None], UnitForces(these.low[None], these.high[None])).moments(place)[0, 0]
    surface = demands.fastening_from_surface[row, these.levels, number]
    return products_of("m", spread / FOOT, "ft", "N", surface)


def fixed_point(road: Road, check: Check) -> list[CalculationStep]:
    """Everything that slides on the worst panel: what its attachments bring, its own weight, and the snow beside them.

    The attachment that brings most is told from the loads on.
    """
    job, demands, attachments = road.job, road.demands, road.layout.attachments
    if job.roof.fixed_point is None:
        return []
    (row,), number = panel_ratios(job.roof.fixed_point, demands).governing
    combination, total = demands.combinations[number], float(demands.panel_in_plane[row, number])
    on_rib = np.flatnonzero(attachments.rib == demands.rib[row])
    along = demands.attachment_in_plane[on_rib, number] if job.hardware.bracket != "structure" else np.zeros(0)
    brought = road.slide(int(on_rib[np.argmax(np.abs(along))]), number) if len(along) else []
    every = [*along, float(demands.roof.sheet_and_snow_sliding[demands.rib[row], number])]
    products = products_of("n", [1.0] * len(every), "", "V", every)
    meaning = "what slides along the panel, by every attachment on it, and the sheet and the snow beside them (down the slope positive)"
    mode = shear_strength(job.roof.fixed_point.in_plane).governing(combination)
    terms = {"V": pounds(total), "Ra": pounds(mode.resistance(combination))}
    sliding = sum_of("V", meaning, pounds(total), products)
    return [
        *brought,
        sliding,
        *mode.steps,
        mode.resistance_step(combination),
        used("fixed_point", check.used, "max(V, -V) / Ra", terms),
    ]

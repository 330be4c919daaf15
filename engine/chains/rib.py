"""The rib as a beam over its fastenings, and what slides along its panel."""

from __future__ import annotations

import numpy as np

from engine.common.arrays import Floats
from engine.common.calculation import Step, Term
from engine.links import Check, asked_of_ribs
from engine.links.check import of_allowable
from engine.links.fixed_point import asked_of_panels
from engine.links.trail import Road
from engine.links.trail_terms import Product, foot_pounds, pounds, products_of, sum_of, used
from engine.statics.continuous_beam import Couples, Spread, respond
from engine.statics.rib_supports import fastened
from engine.strength import shear_strength
from engine.units import FOOT


def rib(road: Road, check: Check) -> list[Step]:
    """The moment that points and air bring to the worst place of the worst rib."""
    job, demands = road.job, road.demands
    (row, along), number = asked_of_ribs(demands, demands.bent).governing
    steps, place = list[Step](), np.array([[demands.bent.place(row, along, number)]])
    products = _from_points(road, row, place, number)
    if products:
        top = max(products, key=lambda each: abs(each[1].size))[0]
        steps += road.force(top, number)
    moment = demands.bent.extremes[row, along, number]
    meaning = f"bending of {job.roof.rib_word} {demands.rib[row] + 1}, by what attachments bring and the air on its own area"
    every = [product for _, product in products] + _from_air(road, row, place, number)
    steps.append(sum_of("M", f"{meaning} (sagging positive)", foot_pounds(moment), every))
    panel = job.roof.panel
    allowable = panel.moment_pan_compressed if moment < 0 else panel.moment_rib_compressed
    allowed = of_allowable(allowable, demands.combinations)[number]
    terms = {"M": foot_pounds(moment), "Ma": foot_pounds(allowed)}
    return [*steps, used("rib", check.used, "max(M, -M) / Ma", terms)]


def _from_points(road: Road, row: int, place: Floats, number: int) -> list[tuple[int, Product]]:
    """Each attachment of a rib with the moment it brings, pressing and turning."""
    job, demands, points = road.job, road.demands, road.layout.points
    if job.hardware.bracket == "structure":
        return []
    on_rib = np.flatnonzero(points.rib == demands.rib[row])
    supports, y = demands.fastening_y[demands.held[row]][None], points.y[on_rib][None]
    pressed = respond(supports, Spread(y, y)).moments(place)[0, 0]
    turned = respond(supports, Couples(y)).moments(place)[0, 0]
    found = []
    for point, by, turn in zip(on_rib.tolist(), pressed, turned, strict=True):
        normal, along = (float(force[point, number]) for force in (demands.point_normal, demands.point_in_plane))
        normal = min(normal, 0.0) if job.roof.solid_deck else normal
        found.append((point, Product("m", Term(float(by) / FOOT, "ft"), "N", pounds(normal))))
        if along:
            lever = Term(-float(turn) * points.height / FOOT, "ft")
            found.append((point, Product("m", lever, "N", pounds(along))))
    return found


def _from_air(road: Road, row: int, place: Floats, number: int) -> list[Product]:
    """The air and bare snow on each fastening's stretch of the rib."""
    demands, (_, alike) = road.demands, fastened(road.job)
    these = next(these for these in alike if demands.rib[row] in these.ribs)
    spread = respond(these.y[None], Spread(these.low[None], these.high[None])).moments(place)[0, 0]
    surface = demands.fastening_surface[row, these.at, number]
    return products_of("m", spread / FOOT, "ft", "N", surface)


def fixed_point(road: Road, check: Check) -> list[Step]:
    """Everything that slides on the worst panel: what its attachments bring, its own weight, and the snow beside them.

    The attachment that brings most is told from the loads on.
    """
    job, demands, points = road.job, road.demands, road.layout.points
    if job.roof.fixed_point is None:
        return []
    (row,), number = asked_of_panels(job.roof.fixed_point, demands).governing
    combination, total = demands.combinations[number], float(demands.panel_in_plane[row, number])
    on_rib = np.flatnonzero(points.rib == demands.rib[row])
    along = demands.point_in_plane[on_rib, number] if job.hardware.bracket != "structure" else np.zeros(0)
    brought = road.slide(int(on_rib[np.argmax(np.abs(along))]), number) if len(along) else []
    every = [*along, float(demands.roof.beside_in_plane[demands.rib[row], number])]
    products = products_of("n", [1.0] * len(every), "", "V", every)
    meaning = "what slides along the panel, by every attachment on it, and the sheet and the snow beside them (down the slope positive)"
    mode = shear_strength(job.roof.fixed_point.in_plane).governing(combination)
    terms = {"V": pounds(total), "Ra": pounds(mode.resistance(combination))}
    sliding = sum_of("V", meaning, pounds(total), products)
    return [*brought, sliding, *mode.steps, mode.answer(combination), used("fixed_point", check.used, "max(V, -V) / Ra", terms)]

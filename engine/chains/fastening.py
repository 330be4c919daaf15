"""The roof's fastening with the array: its rib as a continuous beam under what attachments bring, and the air on its own area."""

from __future__ import annotations

import numpy as np

from engine.chains.attachment import used_of_attachment
from engine.chains.bare import bare_fastening
from engine.common.arrays import Floats, Ints
from engine.common.calculation import CalculationStep, Term
from engine.links import Check, fastening_ratios
from engine.links.roof_fastening import BARE
from engine.links.trail import Road
from engine.links.trail_terms import named, pounds, products_of, sum_of, used
from engine.statics.continuous_beam import UnitCouples, UnitForces, solve_beams
from engine.strength import shear_strength, strength
from engine.units import both


def fastening(road: Road, check: Check) -> list[CalculationStep]:
    """The fastening that is asked most, with the array or without it."""
    cases = fastening_ratios(road.demands)
    case = next(case for case in cases if check.place.name.endswith(case))
    (row, which), number = cases[case].governing
    if case == BARE:
        return bare_fastening(road, check, int(road.demands.rib[row]), which, number)
    if case == "pushed down":
        return []
    return through(road, most_from(road, row, which, number), row, which, number)


def through(road: Road, attachment: int, row: int, which: int, number: int) -> list[CalculationStep]:
    """From the wind to the shares of an attachment and of a fastening that are used in a combination, by their numbers."""
    return [
        *road.force(attachment, number),
        used_of_attachment(road, attachment, number),
        *used_of_fastening(road, row, which, number),
    ]


def worst_fastening(road: Road) -> tuple[int, int, int]:
    """The fastening that is asked most with the array in place: its row, its level, and the combination."""
    with_array = next(iter(fastening_ratios(road.demands).values()))
    (row, which), number = with_array.governing
    return row, which, number


def most_from(road: Road, row: int, which: int, number: int) -> int:
    """The point that brings most to a fastening."""
    on_rib, pressed, _ = _shares(road, row, which)
    return int(on_rib[np.argmax(np.abs(pressed * road.demands.attachment_normal[on_rib, number]))])


def most_loaded_by(road: Road, attachment: int) -> tuple[int, int]:
    """The fastening that takes most of a point's load: its row and its level."""
    attachments, demands = road.layout.attachments, road.demands
    row = int(np.flatnonzero(demands.rib == attachments.rib[attachment])[0])
    y, at = attachments.y[attachment].reshape(1, 1), np.flatnonzero(demands.is_fastened[row])
    taken = solve_beams(demands.fastening_y[at][None], UnitForces(y, y)).reactions[0, :, 0]
    return row, int(at[np.argmax(taken)])


def _shares(road: Road, row: int, which: int) -> tuple[Ints, Floats, Floats]:
    """Each point on a rib (n,), and what a fastening takes of its normal force and of its couple [1/m]."""
    attachments, demands = road.layout.attachments, road.demands
    on_rib = np.flatnonzero(attachments.rib == demands.rib[row])
    is_fastened, y = demands.is_fastened[row], attachments.y[on_rib][None]
    supports, here = demands.fastening_y[is_fastened][None], int(is_fastened[:which].sum())
    pressed = solve_beams(supports, UnitForces(y, y)).reactions[0, here]
    turned = solve_beams(supports, UnitCouples(y)).reactions[0, here]
    return on_rib, pressed, turned


def used_of_fastening(road: Road, row: int, which: int, number: int) -> list[CalculationStep]:
    """What pulls a fastening in a combination, and the share of it that is used."""
    job, demands, combination = road.job, road.demands, road.demands.combinations[number]
    word, pull = job.roof.fastening_word, pounds(demands.fastening[row, which, number])
    mode = strength(job.roof.fastening.uplift).governing(combination)
    terms, equation = {"R": pull, "Ra": pounds(mode.resistance(combination))}, "max(-R, 0) / Ra"
    if not job.roof.floats and job.roof.fastening.in_plane is not None:
        shear = abs(demands.panel_in_plane[row, number]) / demands.is_fastened[row].sum()
        terms |= {"V": pounds(shear), "Va": pounds(shear_strength(job.roof.fastening.in_plane).resistance(combination))}
        equation += " + V / Va"
    with_array = next(iter(fastening_ratios(demands).values()))
    found, words = float(with_array.utilisation[row, which, number]), f"share of the {word} that is used"
    return [
        _pull(road, row, which, number, pull),
        *mode.steps,
        mode.resistance_step(combination),
        used(named(word), found, equation, terms, words),
    ]


def _pull(road: Road, row: int, which: int, number: int, pull: Term) -> CalculationStep:
    """Attachments on the rib, pressing and turning, and the air."""
    job, demands = road.job, road.demands
    on_rib, pressed, turned = _shares(road, row, which)
    normal, along = demands.attachment_normal[on_rib, number], demands.attachment_in_plane[on_rib, number]
    normal = np.minimum(normal, 0.0) if job.roof.solid_deck else normal
    turning = np.flatnonzero(along)
    lever = -turned[turning] * road.layout.attachments.height
    products = products_of("r", pressed, "", "N", normal) + products_of("t", lever, "", "V", along[turning])
    rib, covered_fraction = job.roof.rib_word, demands.roof.covered_fraction[demands.rib[row], which]
    place = f"{both(demands.fastening_y[which], 'length')} from the eave"
    meaning = (
        f"{job.roof.fastening_word} on {rib} {demands.rib[row] + 1}, {place}: the {rib} as a continuous beam, and the air on its own area "
        f"({covered_fraction:.0%} of it under modules)"
    )
    surface = {"surface": pounds(demands.fastening_from_surface[row, which, number])}
    return sum_of("R", meaning, pull, [] if job.hardware.bracket == "structure" else products, surface)

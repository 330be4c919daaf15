"""The roof's fastening with the array: its rib as a continuous beam under what attachments bring, and the air on its own area."""

from __future__ import annotations

import numpy as np

from engine.chains.attachment import used_of_attachment
from engine.chains.bare import bare_fastening
from engine.common.arrays import Floats, Ints
from engine.common.calculation import Step, Term
from engine.links import Check, asked_of_fastenings
from engine.links.roof_fastening import BARE
from engine.links.trail import Road
from engine.links.trail_terms import named, pounds, products_of, sum_of, used
from engine.statics.continuous_beam import Couples, Spread, respond
from engine.strength import shear_strength, strength
from engine.units import both


def fastening(road: Road, check: Check) -> list[Step]:
    """The fastening that is asked most, with the array or without it."""
    cases = asked_of_fastenings(road.demands)
    case = next(case for case in cases if check.place.name.endswith(case))
    (row, which), number = cases[case].governing
    if case == BARE:
        return bare_fastening(road, check, int(road.demands.rib[row]), which, number)
    if case == "pushed down":
        return []
    return through(road, most_from(road, row, which, number), row, which, number)


def through(road: Road, point: int, row: int, which: int, number: int) -> list[Step]:
    """From the wind to the shares of an attachment and of a fastening that are used in a combination, by their numbers."""
    return [*road.force(point, number), used_of_attachment(road, point, number), *used_of_fastening(road, row, which, number)]


def worst_fastening(road: Road) -> tuple[int, int, int]:
    """The fastening that is asked most with the array in place: its row, its level, and the combination."""
    with_array = next(iter(asked_of_fastenings(road.demands).values()))
    (row, which), number = with_array.governing
    return row, which, number


def most_from(road: Road, row: int, which: int, number: int) -> int:
    """The point that brings most to a fastening."""
    on_rib, pressed, _ = _shares(road, row, which)
    return int(on_rib[np.argmax(np.abs(pressed * road.demands.point_normal[on_rib, number]))])


def most_loaded_by(road: Road, point: int) -> tuple[int, int]:
    """The fastening that takes most of a point's load: its row and its level."""
    points, demands = road.layout.points, road.demands
    row = int(np.flatnonzero(demands.rib == points.rib[point])[0])
    y, at = points.y[point].reshape(1, 1), np.flatnonzero(demands.held[row])
    taken = respond(demands.fastening_y[at][None], Spread(y, y)).reactions[0, :, 0]
    return row, int(at[np.argmax(taken)])


def _shares(road: Road, row: int, which: int) -> tuple[Ints, Floats, Floats]:
    """Each point on a rib (n,), and what a fastening takes of its normal force and of its couple [1/m]."""
    points, demands = road.layout.points, road.demands
    on_rib = np.flatnonzero(points.rib == demands.rib[row])
    held, y = demands.held[row], points.y[on_rib][None]
    supports, here = demands.fastening_y[held][None], int(held[:which].sum())
    pressed = respond(supports, Spread(y, y)).reactions[0, here]
    turned = respond(supports, Couples(y)).reactions[0, here]
    return on_rib, pressed, turned


def used_of_fastening(road: Road, row: int, which: int, number: int) -> list[Step]:
    """What pulls a fastening in a combination, and the share of it that is used."""
    job, demands, combination = road.job, road.demands, road.demands.combinations[number]
    word, pull = job.roof.fastening_word, pounds(demands.fastening[row, which, number])
    mode = strength(job.roof.fastening.uplift).governing(combination)
    terms, equation = {"R": pull, "Ra": pounds(mode.resistance(combination))}, "max(-R, 0) / Ra"
    if not job.roof.floats and job.roof.fastening.in_plane is not None:
        shear = abs(demands.panel_in_plane[row, number]) / demands.held[row].sum()
        terms |= {"V": pounds(shear), "Va": pounds(shear_strength(job.roof.fastening.in_plane).resistance(combination))}
        equation += " + V / Va"
    with_array = next(iter(asked_of_fastenings(demands).values()))
    found, words = float(with_array.utilisation[row, which, number]), f"share of the {word} that is used"
    return [_pull(road, row, which, number, pull), *mode.steps, mode.answer(combination), used(named(word), found, equation, terms, words)]


def _pull(road: Road, row: int, which: int, number: int, pull: Term) -> Step:
    """Attachments on the rib, pressing and turning, and the air."""
    job, demands = road.job, road.demands
    on_rib, pressed, turned = _shares(road, row, which)
    normal, along = demands.point_normal[on_rib, number], demands.point_in_plane[on_rib, number]
    normal = np.minimum(normal, 0.0) if job.roof.solid_deck else normal
    turning = np.flatnonzero(along)
    lever = -turned[turning] * road.layout.points.height
    products = products_of("r", pressed, "", "N", normal) + products_of("t", lever, "", "V", along[turning])
    rib, covered = job.roof.rib_word, demands.roof.covered[demands.rib[row], which]
    place = f"{both(demands.fastening_y[which], 'length')} from the eave"
    meaning = (
        f"{job.roof.fastening_word} on {rib} {demands.rib[row] + 1}, {place}: the {rib} as a continuous beam, and the air on its own area "
        f"({covered:.0%} of it under modules)"
    )
    surface = {"surface": pounds(demands.fastening_surface[row, which, number])}
    return sum_of("R", meaning, pull, [] if job.hardware.bracket == "structure" else products, surface)

"""The attachment: pulled or pushed, pried, and slid."""

from __future__ import annotations

from engine.common.calculation import Step, Term
from engine.links import Check, asked_of_attachments
from engine.links.trail import Road
from engine.links.trail_terms import pounds, used
from engine.strength import shear_strength, strength
from engine.units import INCH


def attachment(road: Road, check: Check) -> list[Step]:
    """The attachment that is asked most."""
    (point,), number = asked_of_attachments(road.demands).governing
    return [*road.force(point, number), used_of_attachment(road, point, number)]


def used_of_attachment(road: Road, point: int, number: int) -> Step:
    """The share of an attachment that is used in a combination, by their numbers."""
    hardware, demands, combination = road.job.hardware, road.demands, road.demands.combinations[number]
    terms = {
        "N": pounds(demands.point_normal[point, number]),
        "Ua": pounds(strength(hardware.attachment_uplift).resistance(combination)),
        "Da": pounds(strength(hardware.attachment_down).resistance(combination)),
        "V": pounds(abs(demands.point_in_plane[point, number])),
        "Va": pounds(shear_strength(hardware.attachment_in_plane).resistance(combination)),
        "e": Term(road.layout.points.height / INCH, "in"),
        "L": Term(hardware.attachment_length / INCH, "in"),
    }
    equation = "max((V * e / L - N) / Ua, (V * e / L + N) / Da) + V / Va"
    across = demands.point_across[point, number]
    if hardware.attachment_across is not None and across:
        terms |= {"X": pounds(abs(across)), "Xa": pounds(shear_strength(hardware.attachment_across).resistance(combination))}
        equation += " + X / Xa"
    found = float(asked_of_attachments(demands).utilisation[point, number])
    return used("attachment", found, equation, terms, "share of the attachment that is used: pulled or pushed, pried, and slid")

"""The attachment: pulled or pushed, pried, and slid."""

from __future__ import annotations

from engine.common.calculation import CalculationStep, Term
from engine.links import Check, attachment_ratios
from engine.links.trail import Road
from engine.links.trail_terms import pounds, used
from engine.strength import shear_strength, strength
from engine.units import INCH


def attachment(road: Road, check: Check) -> list[CalculationStep]:
    """The attachment that is asked most."""
    (attachment,), number = attachment_ratios(road.demands).governing
    return [*road.force(attachment, number), used_of_attachment(road, attachment, number)]


def used_of_attachment(road: Road, attachment: int, number: int) -> CalculationStep:
    """The share of an attachment that is used in a combination, by their numbers."""
    hardware, demands, combination = road.job.hardware, road.demands, road.demands.combinations[number]
    terms = {
        "N": pounds(demands.attachment_normal[attachment, number]),
        "Ua": pounds(strength(hardware.attachment_uplift).resistance(combination)),
        "Da": pounds(strength(hardware.attachment_down).resistance(combination)),
        "V": pounds(abs(demands.attachment_in_plane[attachment, number])),
        "Va": pounds(shear_strength(hardware.attachment_in_plane).resistance(combination)),
        "e": Term(road.layout.attachments.height / INCH, "in"),
        "L": Term(hardware.attachment_length / INCH, "in"),
    }
    equation = "max((V * e / L - N) / Ua, (V * e / L + N) / Da) + V / Va"
    across = demands.attachment_across_force[attachment, number]
    if hardware.attachment_across is not None and across:
        terms |= {
            "X": pounds(abs(across)),
            "Xa": pounds(shear_strength(hardware.attachment_across).resistance(combination)),
        }
        equation += " + X / Xa"
    found = float(attachment_ratios(demands).utilisation[attachment, number])
    return used(
        "attachment", found, equation, terms, "share of the attachment that is used: pulled or pushed, pried, and slid"
    )

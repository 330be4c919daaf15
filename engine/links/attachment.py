"""The attachment: uplift or down load, together with along-slope load."""

from __future__ import annotations

import numpy as np

from engine.common.calculation import CalculationStep, Term
from engine.links.check import Check, DemandOverResistance, Location, governing_check, resistances
from engine.links.link import Link
from engine.links.trail import CalculationTrail
from engine.links.trail_terms import pounds, utilisation_step
from engine.load_path.demands import Demands
from engine.strength import shear_strength, strength
from engine.units import INCH


def attachment_ratios(demands: Demands) -> DemandOverResistance:
    """T/Ta + V/Va, and X/Xa across the rib where a strength is stated, as one equivalent force, shape (P, C).

    The sum is linear, which is safe. An along-slope force enters above the rib and pries the attachment: V x height /
    length pulls one end and pushes the other, added to T or taken from it. Uplift and down load have strengths of
    their own; the larger ratio counts.
    """
    hardware, combinations = demands.job.hardware, demands.combinations
    up, down, along = (
        resistances(known, combinations)
        for known in (
            strength(hardware.attachment_uplift),
            strength(hardware.attachment_down),
            shear_strength(hardware.attachment_in_plane),
        )
    )
    slide = np.abs(demands.attachment_in_plane)
    prying = slide * demands.layout.attachments.height / hardware.attachment_length
    uplift, down_load = prying - demands.attachment_normal, prying + demands.attachment_normal
    uplift_controls = uplift / up > down_load / down
    resistance = np.where(uplift_controls, up, down)
    demand = np.where(uplift_controls, uplift, down_load) + slide * resistance / along
    if hardware.attachment_across is not None:
        across = resistances(shear_strength(hardware.attachment_across), combinations)
        demand += np.abs(demands.attachment_across_force) * resistance / across
    return DemandOverResistance(demand, resistance)


def check_attachment(demands: Demands) -> Check:
    """The attachment with the largest utilisation."""
    roof, attachments, note = demands.job.roof, demands.layout.attachments, ""
    if demands.job.hardware.attachment_across is None and demands.attachment_across_force.any():
        note = f"load across the {roof.rib_word}s not checked: no strength given"

    def place(attachment: int) -> Location:
        name = f"{roof.rib_word} {attachments.rib[attachment] + 1}"
        return Location(name, float(attachments.x[attachment]), float(attachments.y[attachment]))

    ratios = attachment_ratios(demands)
    return governing_check("attachment", "attachment", "force", ratios, demands.combinations, place, note)


def explain_attachment(trail: CalculationTrail, check: Check) -> list[CalculationStep]:
    """Steps to the controlling attachment's force and its utilisation."""
    (attachment,), number = attachment_ratios(trail.demands).governing
    return [*trail.attachment_force(attachment, number), attachment_utilisation_step(trail, attachment, number)]


def attachment_utilisation_step(trail: CalculationTrail, attachment: int, number: int) -> CalculationStep:
    """The utilisation of an attachment in a combination, by their numbers."""
    hardware, demands, combination = trail.job.hardware, trail.demands, trail.demands.combinations[number]
    terms = {
        "N": pounds(demands.attachment_normal[attachment, number]),
        "Ua": pounds(strength(hardware.attachment_uplift).resistance(combination)),
        "Da": pounds(strength(hardware.attachment_down).resistance(combination)),
        "V": pounds(abs(demands.attachment_in_plane[attachment, number])),
        "Va": pounds(shear_strength(hardware.attachment_in_plane).resistance(combination)),
        "e": Term(trail.layout.attachments.height / INCH, "in"),
        "L": Term(hardware.attachment_length / INCH, "in"),
    }
    equation = "max((V * e / L - N) / Ua, (V * e / L + N) / Da) + V / Va"
    across = demands.attachment_across_force[attachment, number]
    if hardware.attachment_across is not None and across:
        allowable = shear_strength(hardware.attachment_across).resistance(combination)
        terms |= {"X": pounds(abs(across)), "Xa": pounds(allowable)}
        equation += " + X / Xa"
    found = float(attachment_ratios(demands).utilisation[attachment, number])
    meaning = "utilisation of the attachment: uplift or down load, prying and along-slope load together"
    return utilisation_step("attachment", found, equation, terms, meaning)


LINK = Link(
    "attachment",
    title=lambda job: "attachment",
    help=lambda job: "the part that grips the roof, in uplift or down load together with along-slope load",
    check=check_attachment,
    explain=explain_attachment,
    limits_roof=lambda job: job.hardware.pierces,
    search_rank=3,
)

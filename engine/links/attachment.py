"""The attachment: uplift or down load, together with along-slope load."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from engine.common.arrays import Floats
from engine.common.calculation import CalculationStep, Term
from engine.links.check import Check, Location, governing_check, governing_of
from engine.links.deck_nails import DECK_NAILS, unchecked_deck_nails
from engine.links.link import Link
from engine.links.ratios import DemandOverResistance, SumOfRatios, resistances
from engine.links.trail import CalculationTrail
from engine.links.trail_terms import pounds, utilisation_step
from engine.links.unchecked import ACROSS, DOWN, HARDWARE_MAKER, UP, Unchecked
from engine.load_path.demands import Demands
from engine.project.job import Job
from engine.strength import shear_strength, strength
from engine.units import INCH

ALONG_SLOPE, ALONG_EAVE = "along-slope load", "load along the eave"
NORMAL_PART = {UP: "uplift with prying", DOWN: "down load with prying"}


def attachment_utilisation(demands: Demands) -> Floats:
    """Utilisation of every attachment in every combination, in uplift or in down load, the larger, shape (P, C)."""
    return np.maximum(*(attachment_ratios(demands, direction).utilisation for direction in (UP, DOWN)))


def attachment_ratios(demands: Demands, direction: str) -> SumOfRatios:
    """T/Ta + V/Va, and X/Xa across the rib where a strength is stated, T in uplift or in down load, shape (P, C).

    An along-slope force enters above the rib and pries the attachment: V x height / length pulls one end and pushes
    the other, added to T or taken from it.
    """
    hardware, combinations = demands.job.hardware, demands.combinations
    stated = hardware.attachment_uplift if direction == UP else hardware.attachment_down
    along_slope = np.abs(demands.attachment_in_plane)
    prying = along_slope * demands.layout.attachments.height / hardware.attachment_length
    normal = demands.attachment_normal if direction == DOWN else -demands.attachment_normal
    parts = {
        NORMAL_PART[direction]: DemandOverResistance(
            np.maximum(normal + prying, 0.0), resistances(strength(stated), combinations)
        ),
        ALONG_SLOPE: DemandOverResistance(
            along_slope, resistances(shear_strength(hardware.attachment_in_plane), combinations)
        ),
    }
    if hardware.attachment_across is not None:
        allowable = resistances(shear_strength(hardware.attachment_across), combinations)
        parts[ALONG_EAVE] = DemandOverResistance(np.abs(demands.attachment_across_force), allowable)
    return SumOfRatios(parts)


def check_attachment(demands: Demands) -> Check:
    """The attachment with the largest utilisation."""
    attachments = demands.layout.attachments

    def place(attachment: int) -> Location:
        name = f"{demands.job.place_word} {attachments.rib[attachment] + 1}"
        return Location(name, float(attachments.x[attachment]), float(attachments.y[attachment]))

    def check(direction: str) -> Check:
        ratios = attachment_ratios(demands, direction)
        return governing_check("attachment", "attachment", "force", ratios, demands.combinations, place, unchecked)

    unchecked = tuple(_unchecked(demands))
    return governing_of([check(UP), check(DOWN)])


def _unchecked(demands: Demands) -> Iterator[Unchecked]:
    if demands.job.hardware.attachment_across is None and demands.attachment_across_force.any():
        reason = f"no strength across the {demands.job.roof.rib_word}s given"
        document = f"{demands.job.words.against('load')} of an attachment along the eave"
        yield Unchecked("attachment", "attachment", ACROSS, reason, HARDWARE_MAKER, document)
    if demands.job.hardware.kind.pulls_on_deck:
        yield from unchecked_deck_nails(demands)


def explain_attachment(trail: CalculationTrail, check: Check) -> list[CalculationStep]:
    """Steps to the controlling attachment's force and its utilisation."""
    return steps_to_attachment(trail, *governing_attachment(trail.demands))


def governing_attachment(demands: Demands, attachment: int | None = None) -> tuple[int, int]:
    """The attachment with the largest utilisation, or the one of a number, and the combination that governs there."""
    utilisation = attachment_utilisation(demands)
    if attachment is None:
        attachment = int(np.argmax(utilisation.max(axis=1)))
    return attachment, int(np.argmax(utilisation[attachment]))


def steps_to_attachment(trail: CalculationTrail, attachment: int, number: int) -> list[CalculationStep]:
    """Steps from the wind to the utilisation of an attachment in a combination, by their numbers."""
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
    found = float(attachment_utilisation(demands)[attachment, number])
    meaning = "utilisation of the attachment: uplift or down load, prying and along-slope load together"
    return utilisation_step("attachment", found, equation, terms, meaning)


def _strengths(job: Job, check: Check) -> tuple[str, ...]:
    """One path for each load; both of uplift and down load where only one acts, whose direction is unknown."""
    paths = {
        NORMAL_PART[UP]: "hardware.attachment_uplift",
        NORMAL_PART[DOWN]: "hardware.attachment_down",
        ALONG_SLOPE: "hardware.attachment_in_plane",
        ALONG_EAVE: "hardware.attachment_across",
    }
    normal = (paths[NORMAL_PART[UP]], paths[NORMAL_PART[DOWN]])
    return tuple(paths[part.name] for part in check.parts) or normal


LINK = Link(
    "attachment",
    title=lambda job: "attachment",
    help=lambda job: "the part that grips the roof, in uplift or down load together with along-slope load",
    check=check_attachment,
    explain=explain_attachment,
    limits_roof=lambda job: job.hardware.pierces,
    strengths=_strengths,
    ids=("attachment", DECK_NAILS),
    search_rank=3,
)

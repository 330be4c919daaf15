"""The seam or rib where an attachment holds it: opening of the seam in uplift, crippling in down load.

Bending of the rib says nothing of this; only a test of the attachment on this profile and gauge does.
"""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from engine.common.calculation import CalculationStep
from engine.links.check import Check, Location, governing_check, governing_of
from engine.links.link import Link
from engine.links.ratios import DemandOverResistance, resistances
from engine.links.trail import CalculationTrail
from engine.links.trail_terms import pounds, utilisation_step
from engine.links.unchecked import DOWN, ROOF_MAKER, UP, Unchecked, loaded_directions
from engine.load_path.demands import Demands
from engine.project.job import Job
from engine.strength import Capacity, strength

KEY = "rib_at_clamp"
SIGN = {UP: -1.0, DOWN: 1.0}


def title(job: Job) -> str:
    """Name of the place on this roof."""
    return f"{job.roof.rib_word} at the {job.hardware.kind.word}"


def local_ratios(demands: Demands, direction: str, capacity: Capacity) -> DemandOverResistance:
    """Load of every attachment in one direction over the strength of the rib there, shape (P, C)."""
    load = np.maximum(SIGN[direction] * demands.attachment_normal, 0.0)
    return DemandOverResistance(load, resistances(strength(capacity), demands.combinations))


def check_rib_at_clamp(demands: Demands) -> Check:
    """The attachment with the largest utilisation of the rib that it holds."""
    return governing_of([_check(demands, direction) for direction in (UP, DOWN)])


def _check(demands: Demands, direction: str) -> Check:
    job, name = demands.job, title(demands.job)
    reason = _needs_no_check(job, direction)
    if reason:
        return Check(KEY, name, "force", note=reason)
    capacity = _capacity(job, direction)
    if capacity is None:
        return Check(KEY, name, "force", unchecked=tuple(_unchecked(demands, direction)))
    attachments = demands.layout.attachments

    def place(attachment: int) -> Location:
        where = f"{job.roof.rib_word} {attachments.rib[attachment] + 1}, {direction}"
        return Location(where, float(attachments.x[attachment]), float(attachments.y[attachment]))

    ratios = local_ratios(demands, direction, capacity)
    return governing_check(KEY, name, "force", ratios, demands.combinations, place)


def _capacity(job: Job, direction: str) -> Capacity | None:
    return job.roof.panel.at_clamp_uplift if direction == UP else job.roof.panel.at_clamp_down


def _needs_no_check(job: Job, direction: str) -> str:
    """Reason why a direction needs no check; empty if it does."""
    word = job.roof.rib_word
    if job.hardware.bypasses_sheet:
        return f"needs no check: attachments stand on {job.hardware.kind.stands_on} and do not load the {word}"
    if direction == UP and any(basis.tested_on_this_roof for basis in job.hardware.attachment_uplift):
        return f"uplift needs no check: the attachment was pulled on this roof, its {word} included"
    return ""


def _unchecked(demands: Demands, direction: str) -> Iterator[Unchecked]:
    """The direction, if any attachment is loaded in it."""
    if direction in loaded_directions(demands.attachment_normal):
        part = demands.job.hardware.kind.word
        document = f"test of the {part} on this profile and gauge, up and down"
        reason = f"no {part} test on this profile and gauge given"
        yield Unchecked(KEY, title(demands.job), direction, reason, ROOF_MAKER, document)


def explain_rib_at_clamp(trail: CalculationTrail, check: Check) -> list[CalculationStep]:
    """Steps to the controlling attachment's force and the utilisation of the rib there."""
    direction = UP if check.place.name.endswith(UP) else DOWN
    capacity = _capacity(trail.job, direction)
    if capacity is None:
        return []
    (attachment,), number = local_ratios(trail.demands, direction, capacity).governing
    mode = strength(capacity).governing(trail.demands.combinations[number])
    resistance = mode.resistance_step(trail.demands.combinations[number])
    force = pounds(trail.demands.attachment_normal[attachment, number])
    equation = "max(-N, 0) / Ra" if direction == UP else "max(N, 0) / Ra"
    utilisation = utilisation_step(KEY, check.ratio, equation, {"N": force, "Ra": resistance.result})
    return [*trail.attachment_force(attachment, number), *mode.steps, resistance, utilisation]


def _strengths(job: Job, check: Check) -> tuple[str, ...]:
    return ("roof.panel.at_clamp_uplift" if check.place.name.endswith(UP) else "roof.panel.at_clamp_down",)


LINK = Link(
    KEY,
    title=title,
    help=lambda job: f"the {job.roof.rib_word} where an attachment holds it: opening in uplift, crippling in down load",
    check=check_rib_at_clamp,
    explain=explain_rib_at_clamp,
    limits_roof=lambda job: True,
    strengths=_strengths,
)

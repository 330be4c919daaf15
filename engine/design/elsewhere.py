"""The layout of a design on the same roof with its array, ribs or supports elsewhere."""

from __future__ import annotations

from dataclasses import replace
from itertools import product

from engine.design.design import Design, make_design, prepare
from engine.design.shared_roof import SharedRoof
from engine.design.status import Status, Verdict
from engine.design.trial import DesignContext
from engine.loads.interface import LoadStandard
from engine.mounting.interface import Refusal
from engine.project.job import Job


def moved(job: Job, right: float, up: float) -> Job:
    """The job with its array moved along the eave and up the slope [m]."""
    x, y = job.array.origin
    return replace(job, array=job.array.model_copy(update={"origin": (x + right, y + up)}))


def same_layout_at(job: Job, design: Design, standard: LoadStandard, shared: SharedRoof) -> Design | None:
    """The design with the same spacing at every module on another job; None where it cannot be built there."""
    context, pattern = prepare(job, design.method, standard, shared=shared), design.layout.pattern
    if not isinstance(context, DesignContext) or context.field.modules != design.field.modules:
        return None
    context = replace(context, strips=pattern)
    searched = design.method.spacing.rule == "fewest"  # a stated spacing gets no attachments beside its own
    layout = context.lay_out(pattern, context.field.minimum_attachments if searched else 0)
    if isinstance(layout, Refusal):
        return None
    return replace(make_design(context, context.candidate(layout), design.limits), remedied=design.remedied)


def within_tolerance(design: Design, standard: LoadStandard, shared: SharedRoof) -> Verdict:
    """The worst verdict on a design whose array is set out inaccurately, by the tolerance of the job to every side.

    It is refused where the design cannot be built at one of the four corners.
    """
    tolerance, verdicts = design.job.placement.tolerance, [design.verdict]
    for right, up in product((-tolerance, tolerance), repeat=2) if tolerance else ():
        there = same_layout_at(moved(design.job, right, up), design, standard, shared)
        verdicts.append(there.verdict if there else Verdict(Status.REFUSED))
    return max(verdicts, key=lambda each: (not each.status.nothing_over, each.utilisation))

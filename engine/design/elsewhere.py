"""The layout of a design on the same roof with its array, ribs or supports elsewhere."""

from __future__ import annotations

from dataclasses import replace
from itertools import product

from engine.common.progress import ProgressListener, no_listener
from engine.design.design import Design, Refused, design, make_design, prepare
from engine.design.shared_roof import SharedRoof
from engine.design.status import Status, Verdict
from engine.design.trial import DesignContext
from engine.loads.interface import LoadStandard
from engine.mounting.interface import MountingMethod, Refusal
from engine.project.job import Job


def moved(job: Job, right: float, up: float) -> Job:
    """The job with all its arrays moved along the eave and up the slope [m]."""
    return replace(job, arrays=tuple(array.moved(right, up) for array in job.arrays))


def same_layout_at(job: Job, known: Design, standard: LoadStandard, shared: SharedRoof) -> Design | None:
    """The design with the same spacing at every module on another job; None where it cannot be built there."""
    context, pattern = prepare(job, known.method, standard, shared=shared), known.layout.pattern
    if not isinstance(context, DesignContext) or context.field.modules != known.field.modules:
        return None
    context = replace(context, strips=pattern)
    searched = known.method.spacing.rule == "fewest"  # a stated spacing gets no attachments beside its own
    layout = context.lay_out(pattern, context.field.minimum_attachments if searched else 0)
    if isinstance(layout, Refusal):
        return None
    return replace(make_design(context, context.candidate(layout), known.limits), remedied=known.remedied)


def layout_or_search(
    job: Job,
    known: Design,
    most: int,
    method: MountingMethod,
    standard: LoadStandard,
    shared: SharedRoof,
    tell: ProgressListener = no_listener,
) -> Design | Refused:
    """The design on another job: a known layout if it holds there with at most `most` attachments, else a search."""
    same = same_layout_at(job, known, standard, shared)
    if same and same.status.nothing_over and len(same.layout.attachments) <= most:
        return same
    return design(job, method, standard, tell, shared)


def within_tolerance(found: Design, standard: LoadStandard, shared: SharedRoof) -> Verdict:
    """The worst verdict on a design whose array is set out inaccurately, by the tolerance of the job to every side.

    It is refused where the design cannot be built at one of the four corners.
    """
    tolerance, verdicts = found.job.placement.tolerance, [found.verdict]
    for right, up in product((-tolerance, tolerance), repeat=2) if tolerance else ():
        there = same_layout_at(moved(found.job, right, up), found, standard, shared)
        verdicts.append(there.verdict if there else Verdict(Status.REFUSED))
    return max(verdicts, key=lambda each: (not each.status.nothing_over, each.utilisation))

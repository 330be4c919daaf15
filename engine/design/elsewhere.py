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

Place = tuple[float, float]
"""A place in the square of the tolerance, in parts of it along the eave and up the slope [-]."""

CORNERS: tuple[Place, ...] = tuple(product((-1.0, 1.0), (-1.0, 1.0)))
BETWEEN_CORNERS: tuple[Place, ...] = tuple(product((-0.5, 0.0, 0.5), (-1.0, 1.0)))

CLOSE_TO_LIMIT = 0.95
"""Utilisation from which places between those tried are tried too: there it differs by less than the rest [-]."""


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
    return replace(
        make_design(context, context.candidate(layout), known.limits), remedied=known.remedied, spared=known.spared
    )


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


def verdict_at(place: Place, found: Design, standard: LoadStandard, shared: SharedRoof) -> Verdict:
    """The verdict on the layout of a design whose array is set out at a place of its tolerance.

    It is refused where the design cannot be built.
    """
    right, up = (found.job.placement.tolerance * part for part in place)
    there = same_layout_at(moved(found.job, right, up), found, standard, shared)
    return there.verdict if there else Verdict(Status.REFUSED)


def within_tolerance(found: Design, standard: LoadStandard, shared: SharedRoof) -> Verdict:
    """The worst verdict on a design whose array is set out inaccurately, by the tolerance of the job to every side.

    It is refused where the design cannot be built at one of the places that are tried: the four corners of the square
    and, where one of them is close to the limit, places between them. A clamp right over a seam loads it most.
    """
    worst = found.verdict
    for places in (CORNERS, BETWEEN_CORNERS) if found.job.placement.tolerance else ():
        verdicts = (verdict_at(place, found, standard, shared) for place in places)
        worst = max(worst, *verdicts, key=lambda verdict: verdict.badness)
        if not worst.status.nothing_over or worst.utilisation < CLOSE_TO_LIMIT:
            break
    return worst

"""The layout of a design on the same roof with its array, ribs or supports elsewhere."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from functools import cached_property
from itertools import product

import numpy as np

from engine.common.progress import ProgressListener, no_listener
from engine.design.design import Design, LoadedModules, Refused, design, load_modules, make_design, prepare
from engine.design.shared_roof import SharedRoof
from engine.design.status import Status, Verdict
from engine.design.trial import DesignContext
from engine.load_path.run_response import Responses
from engine.loads.interface import LoadStandard
from engine.mounting.interface import MountingMethod, Refusal
from engine.project.job import Job
from engine.project.placement import SeamDrift

Place = tuple[float, float, float]
"""A place in the tolerance: parts of it to the right and up the slope, and part of the largest drift of seams [-]."""

SIDES = (-1.0, 1.0)
CORNERS: tuple[Place, ...] = tuple((along, up, 0.0) for along, up in product(SIDES, SIDES))
DRIFTED_CORNERS: tuple[Place, ...] = tuple((along, up, along) for along, up in product(SIDES, SIDES))
BETWEEN_CORNERS: tuple[Place, ...] = tuple((along, up, 0.0) for along, up in product((-0.5, 0.0, 0.5), SIDES))

CLOSE_TO_LIMIT = 0.95
"""Utilisation from which places between those tried are tried too: there it differs by less than the rest [-]."""


def moved(job: Job, right: float, up: float) -> Job:
    """The job with all its arrays moved along the eave and up the slope [m]."""
    return replace(job, arrays=tuple(array.moved(right, up) for array in job.arrays))


def same_layout_at(
    job: Job, known: Design, standard: LoadStandard, shared: SharedRoof, modules: LoadedModules | None = None
) -> Design | None:
    """The design with the same spacing at every module on another job; None where it cannot be built there.

    `modules` are those of the other job where they are known already.
    """
    context, pattern = prepare(job, known.method, standard, shared=shared, modules=modules), known.layout.pattern
    if not isinstance(context, DesignContext) or context.field.modules != known.field.modules:
        return None
    context = replace(context, strips=pattern, one_layout=True)
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


def largest_drift(found: Design) -> float:
    """Largest drift of a seam under the array, midway between those that are measured [m].

    The installer measures the first, a middle and the last. Only standing seams drift, as their panels are hung one by
    one: the ribs of a sheet are rolled into it, and sheets nest in one another.
    """
    roof, outlines = found.job.roof, found.field.outlines
    since_measured = float(outlines.right.max() - outlines.left.min()) / 4
    return found.job.placement.tolerance_per_seam * since_measured / roof.rib_spacing if roof.floats else 0.0


def largest_offset(found: Design) -> float:
    """Largest distance along the eave between a seam and its place under the array, within the tolerance [m]."""
    return found.job.placement.tolerance + largest_drift(found)


def set_out_at(place: Place, found: Design) -> Job:
    """The job of a design whose array is set out at a place of its tolerance.

    Seams drift to the left where the array is right of its place, so that the one adds to the other.
    """
    along, up, drifted = place
    right, drift = along * found.job.placement.tolerance, -drifted * largest_drift(found)
    there = moved(found.job, right, up * found.job.placement.tolerance)
    if not drift:
        return there
    outlines = found.field.outlines
    under_array = np.linspace(outlines.left.min(), outlines.right.max(), 5) + right
    return replace(there, seam_drift=SeamDrift(tuple(under_array.tolist()), (0.0, drift, 0.0, drift, 0.0)))


@dataclass(eq=False)
class SetOut:
    """A design whose array is set out at places of its tolerance, which share what is the same at several.

    `_modules`: those of each place that was tried, by its parts of the tolerance to the right and up the slope.
    """

    found: Design
    standard: LoadStandard
    shared: SharedRoof
    _modules: dict[tuple[float, float], LoadedModules | Refusal] = field(default_factory=dict)

    def verdict_at(self, place: Place) -> Verdict:
        """The verdict on the same layout at a place; it is refused where the design cannot be built."""
        job, (right, up, _) = set_out_at(place, self.found), place
        if (right, up) not in self._modules:
            self._modules[right, up] = load_modules(job, self.found.method, self.standard, self._responses)
        modules = self._modules[right, up]
        if isinstance(modules, Refusal):
            return Verdict(Status.REFUSED)
        there = same_layout_at(job, self.found, self.standard, self.shared, modules)
        return there.verdict if there else Verdict(Status.REFUSED)

    @cached_property
    def _responses(self) -> Responses:
        return Responses(self.found.job, self.found.field, self.found.loads)


def within_tolerance(found: Design, standard: LoadStandard, shared: SharedRoof) -> Verdict:
    """The worst verdict on a design whose array is set out inaccurately, by the tolerance of the job to every side.

    It is refused where the design cannot be built at one of the places that are tried: the four corners of the square,
    with seams in their places and with seams that drift, and where one of them is close to the limit, places between
    them. A clamp right over a seam loads it most.
    """
    worst, set_out = found.verdict, SetOut(found, standard, shared)
    for places in _places_to_try(found):
        if places is BETWEEN_CORNERS and worst.utilisation < CLOSE_TO_LIMIT:
            break
        worst = max(worst, *map(set_out.verdict_at, places), key=lambda verdict: verdict.badness)
        if not worst.status.nothing_over:
            break
    return worst


def _places_to_try(found: Design) -> Iterator[tuple[Place, ...]]:
    """Groups of places that differ within the tolerance of a design."""
    if found.job.placement.tolerance:
        yield CORNERS
    if largest_drift(found):
        yield DRIFTED_CORNERS
    if found.job.placement.tolerance:
        yield BETWEEN_CORNERS

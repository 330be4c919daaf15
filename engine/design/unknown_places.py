"""Designs on a roof on which nobody has surveyed the ribs or the supports: the worst of the places where they may be.

Each place is one phase of their spacing. A layout that holds at one place is tried at the next one first; only where it
fails a new one is searched. So the worst verdict and the largest number of attachments are found at little cost.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from itertools import product

from engine.common.progress import ProgressListener, no_listener
from engine.design.design import Design, Refused, design, stated_span_limits
from engine.design.elsewhere import layout_or_search
from engine.design.shared_roof import SharedRoof
from engine.design.status import Status
from engine.links.roof_fastening import uplift_needed
from engine.loads.interface import LoadStandard
from engine.mounting.interface import MountingMethod
from engine.project.job import Job
from engine.project.roof import Roof

PLACES = 4
"""Number of places tried over one rib or support spacing (judgement): clamps near a seam repeat with the spacing."""


def possible_jobs(job: Job) -> tuple[Job, ...]:
    """The job with its ribs and supports at every place that is tried; itself alone where both are surveyed."""
    possible = product(_ribs(job.roof), _supports(job.roof))
    return tuple(with_roof(job, ribs | supports) for ribs, supports in possible)


def with_roof(job: Job, values: Mapping[str, float]) -> Job:
    """The job with other values of its roof [SI], which then count as surveyed."""
    return replace(job, roof=job.roof.model_copy(update=values)) if values else job


def possible_first_ribs(roof: Roof) -> list[float]:
    """Places of the first rib that are tried where nobody has surveyed them [m from the left rake]."""
    return [roof.rib_spacing * number / PLACES for number in range(PLACES)]


def possible_first_bays(roof: Roof) -> list[float]:
    """Lengths of the first bay that are tried where nobody has surveyed the supports [m].

    The first support is at the eave, where every roof has one (common practice, no source).
    """
    return [roof.support_spacing * number / PLACES for number in range(1, PLACES + 1)]


def _ribs(roof: Roof) -> list[dict[str, float]]:
    return [{}] if roof.ribs_surveyed else [{"first_rib": place} for place in possible_first_ribs(roof)]


def _supports(roof: Roof) -> list[dict[str, float]]:
    return [{}] if roof.supports_surveyed else [{"first_bay": bay} for bay in possible_first_bays(roof)]


def worst_design(
    jobs: Sequence[Job],
    method: MountingMethod,
    standard: LoadStandard,
    tell: ProgressListener = no_listener,
    shared: SharedRoof | None = None,
) -> Design | Refused:
    """The worst design of a method on these jobs: refused, else over, else with the most attachments, most used.

    The first job at which nothing holds is enough.
    """
    shared = shared or SharedRoof()
    worst = design(jobs[0], method, standard, tell, shared)
    for job in jobs[1:]:
        if isinstance(worst, Refused) or not worst.status.nothing_over:
            return worst
        found = layout_or_search(job, worst, len(worst.layout.attachments), method, standard, shared, tell)
        worst = found if isinstance(found, Refused) else max(worst, found, key=_badness)
    if isinstance(worst, Refused) or len(jobs) == 1:
        return worst
    return replace(worst, limits=stated_span_limits(worst.job, method, standard, shared))


def worst_job(job: Job, method: MountingMethod, standard: LoadStandard, tell: ProgressListener = no_listener) -> Job:
    """The job with its ribs and supports where they are worst for a method; itself where both are surveyed."""
    jobs = possible_jobs(job)
    if len(jobs) == 1:
        return job
    found = worst_design(jobs, method, standard, tell)
    return jobs[0] if isinstance(found, Refused) else found.job


def _badness(found: Design) -> tuple[int, int, float, float]:
    """Verdict, attachments, the load on a fastening of unknown strength [N], utilisation."""
    unknown = found.status == Status.STRENGTH_UNKNOWN and found.candidate
    needed = max(uplift_needed(found.candidate.demands)) if unknown and found.candidate else 0.0
    return found.status.rank, len(found.layout.attachments), needed, found.verdict.utilisation

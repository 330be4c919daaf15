"""The design of one method as it may be built: where ribs and supports are worst, and set out inaccurately."""

from __future__ import annotations

from dataclasses import replace

from engine.common.progress import ProgressListener, no_listener
from engine.design.design import Design, Refused
from engine.design.elsewhere import within_tolerance
from engine.design.shared_roof import SharedRoof
from engine.design.unknown_places import possible_jobs, worst_design
from engine.loads.interface import LoadStandard
from engine.mounting.interface import MountingMethod
from engine.project.job import Job


def placed_design(
    job: Job,
    method: MountingMethod,
    standard: LoadStandard,
    tell: ProgressListener = no_listener,
    shared: SharedRoof | None = None,
) -> Design | Refused:
    """The design of a method at the worst of the places where ribs and supports may be, with its tolerance checked."""
    shared, jobs = shared or SharedRoof(), possible_jobs(job)
    found = worst_design(jobs, method, standard, tell, shared)
    if isinstance(found, Refused):
        return found
    found = replace(found, places_tried=len(jobs))
    if not found.status.nothing_over:
        return found
    tell(f"{found.title}: {found.spacing_label}, set out inaccurately")
    return replace(found, within_tolerance=within_tolerance(found, standard, shared))

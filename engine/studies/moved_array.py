"""The array moved step by step across the seams, with a method's own spacing: what its place does to every load."""

from __future__ import annotations

from engine.common.progress import ProgressListener, counted, no_listener
from engine.comparison.compare import Column, Comparison, column_of
from engine.design.design import Design
from engine.design.elsewhere import moved, same_layout_at
from engine.design.shared_roof import SharedRoof
from engine.mounting.layout import Member
from engine.project.job import Job
from engine.studies.spacing import SpacingStudy, crossed_by, row_of_design

STEPS = 8
"""Steps from one rib to the next, or from one support to the next."""

NOT_SURVEYED = "Nobody has surveyed where the {} are, so the array cannot be moved against them: state {}."


def moved_study(comparison: Comparison, column: Column, tell: ProgressListener = no_listener) -> SpacingStudy:
    """One method with its array moved from its stated place to the next rib; up to the next support if members run up.

    Places at which it cannot be built are left out.
    """
    known = column.design
    if known is None or known.candidate is None:
        return SpacingStudy(column.id, column.title, "Nothing is checked, so nothing can be moved.")
    reason = _not_surveyed(comparison.scenario.job, known.layout.member)
    if reason:
        return SpacingStudy(column.id, column.title, reason)
    member, pitch, shared = known.layout.member, _pitch(known), SharedRoof()
    rows, tell = [], counted(tell, STEPS + 1)
    for step in range(STEPS + 1):
        distance = pitch * step / STEPS
        tell(f"{column.title}, place by place")
        design = same_layout_at(_moved(known, distance), known, comparison.scenario.standard, shared)
        if design:
            rows.append(row_of_design(design, distance))
    return SpacingStudy(
        id=column.id,
        title=column.title,
        sentence=known.spacing_label,
        rows=tuple(rows),
        member=member.link,
        runs_up_slope=member.runs_up_slope,
        crossed_at=crossed_by(member, known.job),
    )


def column_moved(
    comparison: Comparison, method: str, number: int, tell: ProgressListener = no_listener
) -> Column | None:
    """Column of one place of such a study, `number` counted from 0 at the stated place; None if there is none."""
    column = comparison.column(method)
    rows = moved_study(comparison, column, tell).rows if column else ()
    return column_of(rows[number].design) if number < len(rows) else None


def _not_surveyed(job: Job, member: Member) -> str:
    """Why the array cannot be moved along its rows; empty if it can."""
    roof = job.roof
    if member.runs_up_slope:
        return "" if roof.supports_surveyed else NOT_SURVEYED.format(f"{roof.support}s", "roof.first_support")
    return "" if roof.ribs_surveyed else NOT_SURVEYED.format(f"{roof.rib_word}s", "roof.first_rib")


def _pitch(known: Design) -> float:
    """Distance after which the places repeat [m]."""
    roof = known.job.roof
    return roof.support_spacing if known.layout.member.runs_up_slope else roof.rib_spacing


def _moved(known: Design, distance: float) -> Job:
    return moved(known.job, *((0.0, distance) if known.layout.member.runs_up_slope else (distance, 0.0)))

"""Strengths that a standard can use: an allowable is no design resistance, and a characteristic value no allowable."""

from __future__ import annotations

from collections.abc import Iterator

from engine.common.errors import Problem
from engine.project.job import Job


def allowables_only(job: Job, title: str) -> Iterator[Problem]:
    """Stated strengths that give no allowable, for standards of allowable-stress design."""
    for path, basis in job.stated_bases:
        if not basis.gives_allowable:
            text = f"'{basis.key}' given; {title} is used with allowables here: give an allowable, or a test with its"
            yield Problem(path, f"{text} safety factor")


def design_values_only(job: Job, title: str) -> Iterator[Problem]:
    """Stated strengths that give no design resistance, for standards with partial factors."""
    for path, basis in job.stated_bases:
        if not basis.gives_design_resistance:
            text = f"'{basis.key}' given, which is no design resistance; {title} needs "
            yield Problem(path, text + basis.needed_for_design)
    member = job.roof.stated_member
    if member is not None and member.section_modulus is not None:
        text = f"given, from which an allowable moment follows; {title} needs characteristic moments: give those"
        yield Problem("roof.member.section_modulus", text)

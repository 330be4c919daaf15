"""The placeholder strengths that a design rests on."""

from __future__ import annotations

from collections.abc import Iterator

from engine.design.design import Design
from engine.mounting.layout import Member
from engine.project.hardware import Hardware
from engine.project.job import RACK_LEG, Job, NamedStrength


def strengths_used(job: Job, member: Member) -> Iterator[NamedStrength]:
    """The strengths that the checks of a method use."""
    for known in job.strengths:
        if known.capacity and (member.legs or known.name != RACK_LEG):
            yield known


def placeholder_strengths(job: Job, member: Member) -> Iterator[tuple[str, str]]:
    """Path and name of each strength used that nobody has stated."""
    for known in strengths_used(job, member):
        if not known.given:
            yield known.path, known.name
    section = job.hardware.section(member.section)
    if section and section.is_placeholder:
        yield f"hardware.{member.section}.moment_strong", f"{member.title}, bending"
        yield f"hardware.{member.section}.moment_weak", f"{member.title}, bending along the slope"


def has_placeholder_prices(design: Design) -> bool:
    """True if the price of a part in the bill is the one that loadpath invented."""
    hardware, invented = design.job.hardware, Hardware()
    return any(hardware.price(item.part) == invented.price(item.part) for item in design.bill.items)

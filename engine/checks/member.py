"""The member between modules and attachments: rail, rack, or the module's own frame."""

from __future__ import annotations

from collections.abc import Callable, Sequence

import numpy as np

from engine.checks.check import Asked, Check, Place, of_allowable, resistances, two_way, worst, worst_of
from engine.combination import Combination
from engine.demands import Demands, MemberDemands
from engine.hardware import Beam
from engine.job import Job
from engine.layout import Field, Layout, Member
from engine.strength import strength


def check_member(job: Job, field: Field, layout: Layout, demands: Demands) -> Check:
    """Bending about both axes, deflection where a limit is stated, and the legs of a rack."""
    member = layout.member
    if member.beam is None:
        return _module_frame(job, member, demands)
    checks = [check(job, member, group, demands) for group in demands.members for check in (_bending, _deflection)]
    if member.legs:
        checks.append(_legs(job, layout, demands))
    return worst_of(checks)


def asked_of_bending(job: Job, member: Member, group: MemberDemands, combinations: Sequence[Combination]) -> Asked:
    """M/Ma about the strong axis plus M/Ma about the weak one, as one equivalent strong-axis moment (B, T, C)."""
    if member.beam is None:
        return Asked(np.abs(group.strong), of_allowable(job.hardware.frame_moment or 0.0, combinations))
    beam: Beam = getattr(job.hardware, member.beam)
    strong, weak = (of_allowable(allowable, combinations) for allowable in (beam.moment_strong, beam.moment_weak))
    return Asked(np.abs(group.strong) + np.abs(group.weak) * strong / weak, strong)


def _bending(job: Job, member: Member, group: MemberDemands, demands: Demands) -> Check:
    asked = asked_of_bending(job, member, group, demands.combinations)
    place = _along(member, group, "bending" if member.beam else "long edge")
    return worst(member.link, member.title, "moment", asked, demands.combinations, place)


def _along(member: Member, group: MemberDemands, what: str) -> Callable[[int, int], Place]:
    def place(line: int, station: int) -> Place:
        x, y = member.on_roof(group.stations[station], group.y[line])
        return Place(what, float(x), float(y))

    return place


def asked_of_deflection(job: Job, member: Member, group: MemberDemands) -> Asked:
    """Midspan deflection against its stated part of the span (B, S-1, C) [m]."""
    beam: Beam = getattr(job.hardware, member.beam or "")
    return Asked(np.abs(group.sag_stiffness) / (beam.modulus * beam.inertia), (group.spans / (beam.deflection_ratio or np.nan))[:, None])


def _deflection(job: Job, member: Member, group: MemberDemands, demands: Demands) -> Check:
    if getattr(job.hardware, member.beam or "").deflection_ratio is None:
        return Check(member.link, member.title, "small length", note="deflection not checked: no limit is stated")

    def place(line: int, span: int) -> Place:
        x, y = member.on_roof(group.middles[span], group.y[line])
        return Place("deflection at midspan", float(x), float(y))

    asked = asked_of_deflection(job, member, group)
    return worst(member.link, member.title, "small length", asked, demands.combinations, place)


def asked_of_legs(job: Job, demands: Demands) -> Asked:
    """Each leg's load normal to the roof (P, C)."""
    can = resistances(strength(job.hardware.leg_capacity), demands.combinations)
    return two_way(demands.point_normal, can, can)


def _legs(job: Job, layout: Layout, demands: Demands) -> Check:
    def place(point: int) -> Place:
        return Place("leg", float(layout.points.x[point]), float(layout.points.y[point]))

    return worst(layout.member.link, layout.member.title, "force", asked_of_legs(job, demands), demands.combinations, place)


def _module_frame(job: Job, member: Member, demands: Demands) -> Check:
    if job.hardware.frame_moment is None:
        return Check(
            member.link,
            member.title,
            "moment",
            note="not checked: no bending strength of the frame is stated, and the maker's test may not have held the long edge here",
        )
    return worst_of([_bending(job, member, group, demands) for group in demands.members])

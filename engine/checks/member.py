"""The member between modules and attachments: rail, rack, or the module's own frame."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np

from engine.checks.check import Asked, Check, Place, of_allowable, resistances, two_way, worst, worst_of
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
    beam: Beam = getattr(job.hardware, member.beam)
    checks = [check(member, beam, group, demands) for group in demands.members for check in (_bending, _deflection)]
    if member.legs:
        checks.append(_legs(job, layout, demands))
    return worst_of(checks)


def _bending(member: Member, beam: Beam, group: MemberDemands, demands: Demands) -> Check:
    """M/Ma about the strong axis plus M/Ma about the weak one, as one equivalent strong-axis moment."""
    strong = of_allowable(beam.moment_strong, demands.combinations)
    weak = of_allowable(beam.moment_weak, demands.combinations)
    equivalent = np.abs(group.strong) + np.abs(group.weak) * strong / weak
    flat = equivalent.reshape(-1, equivalent.shape[-1])
    return worst(
        member.link,
        member.title,
        "moment",
        Asked(flat, np.broadcast_to(strong, flat.shape)),
        demands.combinations,
        _along(member, group, "bending"),
    )


def _along(member: Member, group: MemberDemands, what: str) -> Callable[[int], Place]:
    def place(item: int) -> Place:
        line, station = divmod(item, len(group.stations))
        x, y = member.on_roof(group.stations[station], group.y[line])
        return Place(what, float(x), float(y))

    return place


def _deflection(member: Member, beam: Beam, group: MemberDemands, demands: Demands) -> Check:
    """Midspan deflection against its stated part of the span."""
    if beam.deflection_ratio is None:
        return Check(member.link, member.title, "small length", note="deflection not checked: no limit is stated")
    sag = np.abs(group.sag_stiffness) / (beam.modulus * beam.inertia)
    limit = np.broadcast_to((group.spans / beam.deflection_ratio)[:, None], sag.shape)
    count = sag.shape[1]

    def place(item: int) -> Place:
        line, span = divmod(item, count)
        x, y = member.on_roof(group.middles[span], group.y[line])
        return Place("deflection at midspan", float(x), float(y))

    flat = Asked(sag.reshape(-1, sag.shape[-1]), limit.reshape(-1, sag.shape[-1]))
    return worst(member.link, member.title, "small length", flat, demands.combinations, place)


def _legs(job: Job, layout: Layout, demands: Demands) -> Check:
    """Each leg's load normal to the roof."""
    can = resistances(strength(job.hardware.leg_capacity), demands.combinations)

    def place(point: int) -> Place:
        return Place("leg", float(layout.points.x[point]), float(layout.points.y[point]))

    return worst(layout.member.link, layout.member.title, "force", two_way(demands.point_normal, can, can), demands.combinations, place)


def _module_frame(job: Job, member: Member, demands: Demands) -> Check:
    if job.hardware.frame_moment is None:
        return Check(
            member.link,
            member.title,
            "moment",
            note="not checked: no bending strength of the frame is stated, and the maker's test may not have held the long edge here",
        )
    can = of_allowable(job.hardware.frame_moment, demands.combinations)
    checks = []
    for group in demands.members:
        flat = np.abs(group.strong).reshape(-1, group.strong.shape[-1])
        asked = Asked(flat, np.broadcast_to(can, flat.shape))
        checks.append(worst(member.link, member.title, "moment", asked, demands.combinations, _along(member, group, "long edge")))
    return worst_of(checks)

"""The member between modules and attachments: rail, rack, or the module's own frame."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np

from engine.links.check import Asked, Check, Place, of_allowable, resistances, two_way, worst, worst_of
from engine.load_path.demands import Demands
from engine.load_path.transfer import MemberDemands
from engine.mounting.layout import Member
from engine.project.hardware import Beam
from engine.strength import strength


def check_member(demands: Demands) -> Check:
    """Bending about both axes, deflection where a limit is stated, and the legs of a rack."""
    member = demands.layout.member
    if member.beam is None:
        return _module_frame(demands)
    checks = [check(demands, group) for group in demands.members for check in (_bending, _deflection)]
    if member.legs:
        checks.append(_legs(demands))
    return worst_of(checks)


def asked_of_bending(demands: Demands, group: MemberDemands) -> Asked:
    """M/Ma about the strong axis plus M/Ma about the weak one, as one equivalent strong-axis moment (B, T, C)."""
    hardware, beam, combinations = demands.job.hardware, demands.beam, demands.combinations
    if beam is None:
        return Asked(np.abs(group.strong), of_allowable(hardware.frame_moment or 0.0, combinations))
    strong, weak = (of_allowable(allowable, combinations) for allowable in (beam.moment_strong, beam.moment_weak))
    return Asked(np.abs(group.strong) + np.abs(group.weak) * strong / weak, strong)


def _bending(demands: Demands, group: MemberDemands) -> Check:
    member = demands.layout.member
    place = _along(member, group, "bending" if member.beam else "long edge")
    return worst(member.link, member.title, "moment", asked_of_bending(demands, group), demands.combinations, place)


def _along(member: Member, group: MemberDemands, what: str) -> Callable[[int, int], Place]:
    def place(line: int, station: int) -> Place:
        x, y = member.on_roof(group.stations[station], group.y[line])
        return Place(what, float(x), float(y))

    return place


def asked_of_deflection(beam: Beam, group: MemberDemands) -> Asked:
    """Midspan deflection against its stated part of the span (B, S-1, C) [m]."""
    return Asked(np.abs(group.sag_stiffness) / (beam.modulus * beam.inertia), (group.spans / (beam.deflection_ratio or np.nan))[:, None])


def _deflection(demands: Demands, group: MemberDemands) -> Check:
    member, beam = demands.layout.member, demands.beam
    if beam is None or beam.deflection_ratio is None:
        return Check(member.link, member.title, "small length", note="deflection not checked: no limit is stated")

    def place(line: int, span: int) -> Place:
        x, y = member.on_roof(group.middles[span], group.y[line])
        return Place("deflection at midspan", float(x), float(y))

    return worst(member.link, member.title, "small length", asked_of_deflection(beam, group), demands.combinations, place)


def asked_of_legs(demands: Demands) -> Asked:
    """Each leg's load normal to the roof (P, C)."""
    can = resistances(strength(demands.job.hardware.leg_capacity), demands.combinations)
    return two_way(demands.point_normal, can, can)


def _legs(demands: Demands) -> Check:
    member, points = demands.layout.member, demands.layout.points

    def place(point: int) -> Place:
        return Place("leg", float(points.x[point]), float(points.y[point]))

    return worst(member.link, member.title, "force", asked_of_legs(demands), demands.combinations, place)


def _module_frame(demands: Demands) -> Check:
    member = demands.layout.member
    if demands.job.hardware.frame_moment is None:
        return Check(
            member.link,
            member.title,
            "moment",
            note="not checked: no bending strength of the frame is stated, and the maker's test may not have held the long edge here",
        )
    return worst_of([_bending(demands, group) for group in demands.members])

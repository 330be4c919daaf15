"""The member between modules and attachments: rail, rack, or the module's own frame."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np

from engine.links.check import (
    Check,
    DemandOverResistance,
    Location,
    allowable_resistances,
    by_direction,
    governing_check,
    governing_of,
    resistances,
)
from engine.load_path.demands import Demands
from engine.load_path.transfer import MemberDemands
from engine.mounting.layout import Member
from engine.project.hardware import RailSection
from engine.strength import strength


def check_member(demands: Demands) -> Check:
    """Bending about both axes, deflection where a limit is stated, and the legs of a rack."""
    member = demands.layout.member
    if member.section is None:
        return _module_frame(demands)
    checks = [check(demands, group) for group in demands.members for check in (_bending, _deflection)]
    if member.legs:
        checks.append(_legs(demands))
    return governing_of(checks)


def bending_ratios(demands: Demands, group: MemberDemands) -> DemandOverResistance:
    """M/Ma about the strong axis plus M/Ma about the weak one, as one equivalent strong-axis moment (B, T, C)."""
    hardware, section, combinations = demands.job.hardware, demands.section, demands.combinations
    if section is None:
        return DemandOverResistance(
            np.abs(group.strong), allowable_resistances(hardware.frame_moment or 0.0, combinations)
        )
    strong, weak = (
        allowable_resistances(allowable, combinations) for allowable in (section.moment_strong, section.moment_weak)
    )
    return DemandOverResistance(np.abs(group.strong) + np.abs(group.weak) * strong / weak, strong)


def _bending(demands: Demands, group: MemberDemands) -> Check:
    member = demands.layout.member
    place = _along(member, group, "bending" if member.section else "long edge")
    return governing_check(
        member.link, member.title, "moment", bending_ratios(demands, group), demands.combinations, place
    )


def _along(member: Member, group: MemberDemands, what: str) -> Callable[[int, int], Location]:
    def place(line: int, station: int) -> Location:
        x, y = member.on_roof(group.stations[station], group.y[line])
        return Location(what, float(x), float(y))

    return place


def deflection_ratios(section: RailSection, group: MemberDemands) -> DemandOverResistance:
    """Midspan deflection against its stated part of the span (B, S-1, C) [m]."""
    return DemandOverResistance(
        np.abs(group.deflection_ei) / (section.modulus * section.inertia),
        (group.spans / (section.deflection_ratio or np.nan))[:, None],
    )


def _deflection(demands: Demands, group: MemberDemands) -> Check:
    member, section = demands.layout.member, demands.section
    if section is None or section.deflection_ratio is None:
        return Check(member.link, member.title, "small length", note="deflection not checked: no limit is stated")

    def place(line: int, span: int) -> Location:
        x, y = member.on_roof(group.middles[span], group.y[line])
        return Location("deflection at midspan", float(x), float(y))

    return governing_check(
        member.link, member.title, "small length", deflection_ratios(section, group), demands.combinations, place
    )


def leg_ratios(demands: Demands) -> DemandOverResistance:
    """Each leg's load normal to the roof (P, C)."""
    can = resistances(strength(demands.job.hardware.leg_capacity), demands.combinations)
    return by_direction(demands.attachment_normal, can, can)


def _legs(demands: Demands) -> Check:
    member, attachments = demands.layout.member, demands.layout.attachments

    def place(attachment: int) -> Location:
        return Location("leg", float(attachments.x[attachment]), float(attachments.y[attachment]))

    return governing_check(member.link, member.title, "force", leg_ratios(demands), demands.combinations, place)


def _module_frame(demands: Demands) -> Check:
    member = demands.layout.member
    if demands.job.hardware.frame_moment is None:
        return Check(
            member.link,
            member.title,
            "moment",
            note="not checked: no bending strength of the frame is stated, and the maker's test may not have held the long edge here",
        )
    return governing_of([_bending(demands, group) for group in demands.members])

"""The members under the roof, purlins, joists or rafters, as beams; a deck itself is left to its engineer."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from engine.common.arrays import index_of_largest
from engine.common.calculation import CalculationStep
from engine.links.check import Check, governing_check
from engine.links.explain_roof_member import explain_bending
from engine.links.link import Link
from engine.links.member_moments import LIFTED, MemberMoments
from engine.links.trail import CalculationTrail
from engine.links.unchecked import BUILDING_ENGINEER, UP, Unchecked, loaded_directions
from engine.load_path.demands import Demands
from engine.project.job import Job
from engine.statics.point_loads import PointLoadedBeams

KEY = "roof_member"
DOCUMENT = "review of the members under the array for its weight, its uplift and the snow on it"
UPLIFT_DOCUMENT = "{moment} of the members under uplift, or a test that shows their uplift factor"
DECK_DOCUMENT = "review of the deck between its members under the attachments"


def title(job: Job) -> str:
    """Name of the members on this roof."""
    if job.roof.solid_deck and job.roof.stated_member is None:
        return "deck and joists"
    return f"{job.roof.member_word}s"


def has_strength(job: Job) -> bool:
    """True if the members are checked: their strength is stated."""
    return job.roof.stated_member is not None and job.roof.stated_member.allowable is not None


def check_roof_member(demands: Demands) -> Check:
    """The member with the largest utilisation with the array; without a strength the largest moment."""
    if demands.job.roof.stated_member is None or demands.roof_members is None:
        return Check(KEY, title(demands.job), "moment", unchecked=tuple(_unchecked(demands, None)))
    return _check(demands, moments_of(demands, demands.roof_members.loaded))


def check_member_alone(demands: Demands) -> Check:
    """The member with the largest utilisation without the array."""
    if demands.roof_members is None or not has_strength(demands.job):
        return Check(KEY, title(demands.job), "moment")
    alone = _check(demands, moments_of(demands, demands.roof_members.bare))
    return replace(alone, place=replace(alone.place, name=f"{alone.place.name}, without the array"))


def moments_of(demands: Demands, beams: PointLoadedBeams) -> MemberMoments:
    """The moments of the members, with the array or without it.

    Raises:
        ValueError: the members of a deck are not stated.
    """
    if demands.roof_members is None:
        raise ValueError("the members are not stated")
    return MemberMoments.of(demands.roof_members, demands.job.roof.member_word, beams)


def _check(demands: Demands, moments: MemberMoments) -> Check:
    name, member, unchecked = title(demands.job), demands.job.roof.stated_member, tuple(_unchecked(demands, moments))
    allowable = member.allowable if member else None
    if allowable:
        ratios = moments.ratios(allowable, demands.combinations)
        check = governing_check(KEY, name, "moment", ratios, demands.combinations, moments.place, unchecked)
        return replace(check, measure="moment")
    line, item, combination = at = index_of_largest(moments.demand)
    return Check(
        KEY,
        name,
        "moment",
        demand=float(moments.demand[at]),
        combination=demands.combinations[combination].name,
        place=moments.place(line, item),
        unchecked=unchecked,
        measure="moment",
    )


def _unchecked(demands: Demands, moments: MemberMoments | None) -> Iterator[Unchecked]:
    """The directions in which the members are loaded and no strength of theirs is stated."""
    job, name = demands.job, title(demands.job)
    allowable = job.roof.stated_member.allowable if job.roof.stated_member else None
    if allowable is None:
        reason = "its strength is not an input" if job.roof.solid_deck else "its strength is not stated"
        for direction in loaded_directions(demands.attachment_normal):
            yield Unchecked(KEY, name, direction, reason, BUILDING_ENGINEER, DOCUMENT)
    elif allowable.up is None and moments and moments.is_loaded(LIFTED):
        yield Unchecked(
            KEY,
            name,
            UP,
            "no strength under uplift stated",
            BUILDING_ENGINEER,
            UPLIFT_DOCUMENT.format(moment=demands.job.words.moment),
        )
    if allowable and job.roof.solid_deck and not job.hardware.kind.at_rafters:
        for direction in loaded_directions(demands.attachment_normal):
            yield Unchecked(KEY, "deck", direction, "its strength is not an input", BUILDING_ENGINEER, DECK_DOCUMENT)


def explain_roof_member(trail: CalculationTrail, check: Check) -> list[CalculationStep]:
    """Steps to the moment of the controlling member and its utilisation; none where nothing is checked."""
    members, member = trail.demands.roof_members, trail.job.roof.stated_member
    if members is None or member is None or member.allowable is None:
        return []
    return explain_bending(trail, moments_of(trail.demands, members.loaded), member, check.ratio)


LINK = Link(
    KEY,
    title=title,
    help=lambda job: "what carries the roof, bent by the loads of the roof and of the attachments",
    check=check_roof_member,
    explain=explain_roof_member,
    check_roof_alone=check_member_alone,
    limits_roof=has_strength,
    depends_on_layout=has_strength,
    search_rank=10,
)

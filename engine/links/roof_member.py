"""The members under the roof: purlins as beams over the frames; a deck and its joists are left to their engineer."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from engine.common.arrays import index_of_largest
from engine.common.calculation import CalculationStep
from engine.links.check import Check, governing_check
from engine.links.explain_purlin import explain_purlin
from engine.links.link import Link
from engine.links.purlin_moments import LIFTED, PurlinMoments
from engine.links.trail import CalculationTrail
from engine.links.unchecked import BUILDING_ENGINEER, UP, Unchecked, loaded_directions
from engine.load_path.demands import Demands
from engine.project.job import Job

KEY = "roof_member"
DOCUMENT = "review of the members under the array for its weight, its uplift and the snow on it"
UPLIFT_DOCUMENT = "allowable moment of the purlins under uplift, or a test that shows their uplift factor"


def title(job: Job) -> str:
    """Name of the members on this roof."""
    return "purlins" if job.roof.support == "purlin" else "deck and joists"


def has_strength(job: Job) -> bool:
    """True if the purlins are checked: their strength is stated."""
    return job.roof.purlins is not None and job.roof.purlins.allowable is not None


def check_roof_member(demands: Demands) -> Check:
    """The purlin with the largest utilisation with the array; without a strength the largest moment."""
    if demands.job.roof.purlins is None or demands.purlins is None:
        return Check(KEY, title(demands.job), "moment", unchecked=tuple(_unchecked(demands, None)))
    return _check(demands, PurlinMoments.of(demands.purlins, demands.purlins.loaded))


def check_member_alone(demands: Demands) -> Check:
    """The purlin with the largest utilisation without the array."""
    if demands.purlins is None or not has_strength(demands.job):
        return Check(KEY, title(demands.job), "moment")
    alone = _check(demands, PurlinMoments.of(demands.purlins, demands.purlins.bare))
    return replace(alone, place=replace(alone.place, name=f"{alone.place.name}, without the array"))


def _check(demands: Demands, moments: PurlinMoments) -> Check:
    name, member, unchecked = title(demands.job), demands.job.roof.purlins, tuple(_unchecked(demands, moments))
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


def _unchecked(demands: Demands, moments: PurlinMoments | None) -> Iterator[Unchecked]:
    """The directions in which the members are loaded and no strength of theirs is stated."""
    job, name = demands.job, title(demands.job)
    allowable = job.roof.purlins.allowable if job.roof.purlins else None
    if allowable is None:
        reason = "its strength is not an input" if job.roof.solid_deck else "its strength is not stated"
        for direction in loaded_directions(demands.attachment_normal):
            yield Unchecked(KEY, name, direction, reason, BUILDING_ENGINEER, DOCUMENT)
    elif allowable.up is None and moments and moments.is_loaded(LIFTED):
        yield Unchecked(KEY, name, UP, "no strength under uplift stated", BUILDING_ENGINEER, UPLIFT_DOCUMENT)


def explain_roof_member(trail: CalculationTrail, check: Check) -> list[CalculationStep]:
    """Steps to the moment of the controlling purlin and its utilisation; none where nothing is checked."""
    purlins, member = trail.demands.purlins, trail.job.roof.purlins
    if purlins is None or member is None or member.allowable is None:
        return []
    return explain_purlin(trail, PurlinMoments.of(purlins, purlins.loaded), member, check.ratio)


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

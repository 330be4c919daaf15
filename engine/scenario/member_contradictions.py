"""Members under the roof that do not fit it, and strengths of theirs that are no strength."""

from __future__ import annotations

from collections.abc import Iterator

from engine.common.errors import Problem
from engine.common.tolerances import SAME_LENGTH, SAME_RATIO
from engine.project.building import Building
from engine.project.roof import Roof
from engine.project.roof_member import HIGHEST_YIELD, LONGEST_SPAN, RoofMember
from engine.units import both


def member_contradictions(roof: Roof, building: Building) -> Iterator[Problem]:
    """Members that are not there, spans that do not fill the building, strengths stated by halves or twice."""
    member, up_slope = roof.member, roof.members_up_slope
    if not member.is_stated:
        return
    yield from _grid(member, roof, building)
    if building.roof_shape == "hip":
        yield Problem("roof.member", "given on a hip roof, where members differ in length; not supported")
    elif not member.spans:
        yield from _without_spans(member)
    elif not member.fills(building, up_slope=up_slope):
        start, end = member.between(building, up_slope=up_slope)
        text = f"add up to {both(sum(member.spans), 'length')}"
        if len(member.spans) == 1:
            text = f"{both(member.spans[0], 'length')} given, repeated"
        where = "up the slope" if up_slope else "from wall to wall"
        length = both(end - start, "length")
        yield Problem("roof.member.spans", f"{text}; {where} it is {length}: list spans that fill it")
    yield from _member_strength(member)
    yield from _uplift_factor(member, roof)


def _grid(member: RoofMember, roof: Roof, building: Building) -> Iterator[Problem]:
    """The places of members: given under a deck, and nowhere else."""
    given = [key for key in ("runs", "spacing", "first") if key in member.model_fields_set]
    if not roof.solid_deck and given:
        yield Problem(f"roof.member.{given[0]}", "given; purlins lie where the panel is fastened, along the eave")
    for key, value in zip(("spacing", "first"), roof.member_grid, strict=True):
        if roof.solid_deck and member.spans and value is None:
            yield Problem(f"roof.member.{key}", f"missing; {roof.member_word}s under a deck need it")
    if roof.solid_deck and member.spans:
        yield from _first(roof, building)


def _first(roof: Roof, building: Building) -> Iterator[Problem]:
    """A first member that is no farther from its edge than the next one from it, and on the roof."""
    (spacing, _), first = roof.member_grid, roof.member.first
    if spacing is None or first is None:
        return
    across = building.length if roof.members_up_slope else building.slope_length
    for limit, name in ((spacing, "their spacing"), (across, "the length of the roof there")):
        if first > limit + SAME_LENGTH:
            given, allowed = both(first, "small length"), both(limit, "small length")
            yield Problem("roof.member.first", f"{given} given; allowed is at most {name}, {allowed}")
            return


def _without_spans(member: RoofMember) -> Iterator[Problem]:
    """A strength without spans checks nothing."""
    if member.allowable:
        yield Problem("roof.member.spans", "missing; the strength of the members needs it")


def _member_strength(member: RoofMember) -> Iterator[Problem]:
    """Allowable moments, or section modulus and yield strength: one of the two, and whole."""
    moments = ("moment_down_midspan", "moment_down_support", "moment_up")
    section = ("section_modulus", "yield_strength", "uplift_factor")
    by_moments, by_section = ([key for key in keys if getattr(member, key) is not None] for keys in (moments, section))
    if by_moments and by_section:
        choice = "give allowable moments, or section_modulus and yield_strength"
        yield Problem(f"roof.member.{by_section[0]}", f"given beside roof.member.{by_moments[0]}; {choice}")
        return
    stated, needed = (by_moments, moments[:2]) if by_moments else (by_section, section[:2])
    for key in needed:
        if stated and key not in stated:
            yield Problem(f"roof.member.{key}", f"missing; roof.member.{stated[0]} needs it")


def _uplift_factor(member: RoofMember, roof: Roof) -> Iterator[Problem]:
    """An uplift factor without a source: only under screwed panels, and within the limits of AISI S100."""
    path, needs = "roof.member.uplift_factor", "it needs roof.member.uplift_factor_source"
    if member.uplift_factor is None:
        if member.uplift_factor_source is not None:
            yield Problem(f"{path}_source", "given without roof.member.uplift_factor; give both or neither")
        return
    if member.uplift_factor_source is not None:
        return
    given, longest = f"{member.uplift_factor:g} given", max(member.spans or (0.0,))
    if roof.floats:
        yield Problem(path, f"{given} on a standing seam roof; {needs}, such as a test by AISI S908")
    elif longest > LONGEST_SPAN + SAME_LENGTH:
        limit = both(LONGEST_SPAN, "length")
        yield Problem(path, f"{given} for a span of {both(longest, 'length')}; beyond {limit} {needs}")
    elif member.yield_strength and member.yield_strength > HIGHEST_YIELD * (1 + SAME_RATIO):
        limit = both(HIGHEST_YIELD, "stress")
        yield Problem(path, f"{given} for {both(member.yield_strength, 'stress')}; beyond {limit} {needs}")

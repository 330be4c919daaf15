"""Fields of a job that do not fit together: roofs, arrays and hardware that cannot be built.

Each is refused in one sentence: the value given, the value allowed, and the reason.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from engine.common.errors import Problem
from engine.common.tolerances import SAME_LENGTH
from engine.project.bracket import WOOD_DECK, brackets_for
from engine.project.building import Building
from engine.project.hardware import AT_RIB, IN_PAN, Hardware
from engine.project.higher_roof import EAVE, HigherRoof
from engine.project.job import Job
from engine.project.module import LONG, Module
from engine.project.roof import PER_WIDTH, Roof
from engine.scenario.array_contradictions import array_contradictions, at_least
from engine.scenario.member_contradictions import member_contradictions
from engine.strength import seam_problem, shear_problem
from engine.strength.steel_screws import SteelScrews
from engine.strength.wood_screws import COOL, WoodScrews
from engine.units import both, text

MEAN_HEIGHT_FROM = 10.0
"""Up to this slope the height of the eave may be given as the mean roof height [deg], ASCE 7 §26.2."""

LEAST_LAG_THREAD = 4.0
"""Least length of a lag's thread in wood, in its diameters (NDS chapter 12)."""

SUNLIGHT = 1000.0
"""Power of sunlight under standard test conditions [W/m²]."""


def contradictions(job: Job) -> Iterator[Problem]:
    """All problems of fields that do not fit together."""
    yield from _building(job.building)
    yield from _roof(job.roof, job.building)
    yield from _fastening(job.roof)
    yield from member_contradictions(job.roof, job.building)
    yield from _module(job.module)
    yield from array_contradictions(job)
    yield from _screws(job.hardware)
    yield from _bracket(job)
    yield from _shear(job)


def _at_most(path: str, given: float, limit: float, name: str, reason: str, shown: str = "length") -> Iterator[Problem]:
    if given > limit + SAME_LENGTH:
        yield Problem(path, f"{both(given, shown)} given; allowed is at most {name}, {both(limit, shown)}: {reason}")


def _building(building: Building) -> Iterator[Problem]:
    half_rise = building.run * math.tan(math.radians(building.slope)) / 2
    height = building.mean_roof_height
    if building.slope > MEAN_HEIGHT_FROM and height < half_rise - SAME_LENGTH:
        allowed = f"allowed is at least {both(half_rise, 'length')}, half the rise of the roof"
        yield Problem(
            "building.mean_roof_height",
            f"{both(height, 'length')} given; {allowed}: the eave would be below ground",
        )
    yield from _at_most(
        "building.parapet_height",
        building.parapet_height,
        height,
        "building.mean_roof_height",
        "a parapet starts at the roof",
    )
    yield from _overhang(building)
    for number, higher in enumerate(building.higher_roofs, 1):
        yield from _higher_roof(f"building.higher_roofs.{number}", higher, building)


def _overhang(building: Building) -> Iterator[Problem]:
    """Overhangs that leave room between the walls; none behind a parapet, and no rakes on a hip roof."""
    overhang, length, path = building.overhang, building.length, "building.overhang"
    if not overhang.exists:
        return
    if building.parapet_height > 0:
        given = both(building.parapet_height, "small length")
        yield Problem("building.parapet_height", f"{given} given beside {path}; a roof with a parapet has no overhang")
    if building.roof_shape == "hip" and overhang.rake > 0:
        given = both(overhang.rake, "length")
        yield Problem(f"{path}.rake", f"{given} given; a hip roof has eaves all around, allowed is 0 ft")
    if building.has_ridge and overhang.high_edge > 0:
        given = both(overhang.high_edge, "length")
        yield Problem(f"{path}.high_edge", f"{given} given; only a single slope has a high edge, allowed is 0 ft")
    reason = "walls must stand below the roof"
    for key in ("eave", "high_edge"):
        given = getattr(overhang, key)
        yield from _at_most(f"{path}.{key}", given, building.width / 4, "a quarter of building.width", reason)
    yield from _at_most(f"{path}.rake", overhang.rake, length / 4, "a quarter of building.length", reason)


def _higher_roof(path: str, higher: HigherRoof, building: Building) -> Iterator[Problem]:
    """A side that the slope has; the measures of a roof whose snow slides here."""
    if building.roof_shape == "hip" and higher.side != EAVE:
        yield Problem(f"{path}.side", f"'{higher.side}' given; on a hip roof only '{EAVE}' can meet a higher roof")
    if higher.slides_here:
        for key in ("slope", "ridge_distance"):
            if getattr(higher, key) is None:
                yield Problem(
                    f"{path}.{key}", "missing; snow that slides here needs it, else write slides_here = false"
                )
    if higher.ridge_distance is not None:
        reason = "the ridge would be beyond that roof"
        limit, name = higher.upwind_length, f"{path}.upwind_length"
        yield from _at_most(f"{path}.ridge_distance", higher.ridge_distance, limit, name, reason)


def _loaded_width(roof: Roof) -> Iterator[Problem]:
    """The width that bends with one rib: only for moments for a width, and no more than the rib covers."""
    width, path = roof.panel.loaded_width, "roof.panel.loaded_width"
    if width is None:
        return
    if roof.panel.moments_for not in PER_WIDTH:
        needed = " or ".join(f"'{each}'" for each in PER_WIDTH)
        yield Problem(path, f"{both(width, 'small length')} given; it needs roof.panel.moments_for = {needed}")
    reason = "one rib bends no more of the panel than it covers"
    yield from _at_most(path, width, roof.rib_spacing, "roof.rib_spacing", reason, "small length")


def _roof(roof: Roof, building: Building) -> Iterator[Problem]:
    yield from _at_most(
        "roof.first_rib",
        roof.first_rib,
        roof.rib_spacing,
        "roof.rib_spacing",
        "a panel has a rib on either side",
        "small length",
    )
    yield from _free_ends(roof)
    yield from _first_bay(roof)
    yield from _loaded_width(roof)
    for number, line in enumerate(roof.snow_retention, 1):
        reason = "the line must be on the slope"
        yield from _at_most(
            f"roof.snow_retention.{number}.at", line.at, building.slope_length, "the length of the slope", reason
        )
    if (roof.edge_strip is None) != (roof.edge_support_spacing is None):
        yield Problem("roof.edge_strip", "needs roof.edge_support_spacing too: give both or neither")
    if roof.wood_temperature == COOL and roof.wood_temperature_source is None:
        yield Problem("roof.wood_temperature", "'cool' given; it needs roof.wood_temperature_source too")
    if roof.first_support + roof.last_support >= building.slope_length:
        yield Problem("roof.first_support", "with roof.last_support leaves no length of slope for fastenings")
    elif len(roof.supports(building)) < 2:
        yield Problem(
            "roof.support_spacing", "gives fewer than two fastenings on the slope; a panel needs at least two"
        )
    if len(roof.ribs(building)) < 2:
        yield Problem("roof.rib_spacing", f"gives fewer than two {roof.rib_word}s on the roof; at least two are needed")


def _free_ends(roof: Roof) -> Iterator[Problem]:
    """Panels that reach farther beyond their last fastening than fastenings are apart."""
    limit, name = roof.support_spacing, "roof.support_spacing"
    if roof.edge_support_spacing is not None:
        reason = "edge strips have closer fastenings"
        yield from _at_most("roof.edge_support_spacing", roof.edge_support_spacing, limit, name, reason)
        limit, name = min((limit, name), (roof.edge_support_spacing, "roof.edge_support_spacing"))
    for key, overhang in (("first_support", roof.first_support), ("last_support", roof.last_support)):
        yield from _at_most(f"roof.{key}", overhang, limit, name, "the panel would hang free")


def _first_bay(roof: Roof) -> Iterator[Problem]:
    """A first bay without a first fastening, or longer than the others."""
    if roof.first_bay is None:
        return
    path = "roof.first_bay"
    if not roof.supports_surveyed:
        yield Problem(path, f"{both(roof.first_bay, 'length')} given; it needs roof.first_support too")
    reason = "no bay is longer than the others"
    yield from _at_most(path, roof.first_bay, roof.support_spacing, "roof.support_spacing", reason)


def _fastening(roof: Roof) -> Iterator[Problem]:
    path, uplift = "roof.fastening.uplift", roof.fastening.uplift
    if uplift is None:
        if "fastening" in roof.model_fields_set:
            yield Problem(path, "missing; where it is unknown, leave out the whole table [roof.fastening]")
        return
    if roof.floats and (reason := seam_problem(uplift)):
        yield Problem(path, reason)
    for basis in uplift:
        if refusal := basis.why_not_applicable(roof.rib_spacing, roof.support_spacing):
            yield Problem(path, refusal)


def _ratings(module: Module) -> Iterator[Problem]:
    """Ratings for any support, or ratings by support: one of the two, and whole."""
    given = {"rating_up": module.rating_up, "rating_down": module.rating_down}
    stated, missing = ([key for key, rating in given.items() if (rating is None) == absent] for absent in (False, True))
    choice = "give rating_up and rating_down for any support, or ratings by support"
    if module.ratings and stated:
        yield Problem("module.ratings", f"module.{' and module.'.join(stated)} given too; {choice}")
    elif missing and not module.ratings:
        yield Problem(f"module.{missing[0]}", f"missing; {choice}")
    for number, row in enumerate(module.ratings, 1):
        half = (module.length if row.side == LONG else module.width) / 2
        if row.zone and row.zone[1] > half + SAME_LENGTH:
            text = f"ends beyond the middle of the {row.side} side; give from and to, measured from the corner"
            yield Problem(f"module.ratings.{number}.zone", text)


def _module(module: Module) -> Iterator[Problem]:
    yield from _ratings(module)
    if module.width > module.length:
        yield Problem("module.width", "larger than module.length; the width is the shorter side")
    for key, (_, end) in (("clamp_zone", module.clamp_zone), ("edge_support", module.edge_support)):
        if end > module.length / 2 + SAME_LENGTH:
            yield Problem(
                f"module.{key}", "ends beyond the middle of the long side; give from and to, measured from the corner"
            )
    if module.power > SUNLIGHT * module.area:
        given, allowed = text(module.power, "power", "us"), text(SUNLIGHT * module.area, "power", "us")
        reason = f"{SUNLIGHT:.0f} W for each square metre of the module"
        yield Problem("module.power", f"{given} given; allowed is at most {allowed}, {reason}")


def _screws(hardware: Hardware) -> Iterator[Problem]:
    """The screws of an attachment are one number, in its strengths and in the bill."""
    if not hardware.pierces:
        return
    billed, path = hardware.attachment_screws, "hardware.attachment_screws"
    if billed == 0:
        yield Problem(path, "0 given; an attachment that is screwed on has at least 1")
    stated = [(f"hardware.{key}", basis.screw_count) for key, basis in hardware.attachment_bases if basis.screw_count]
    if not stated:
        return
    first, count = stated[0]
    if billed and billed != count:
        yield Problem(path, f"{billed} given; {first} states {count} screws: write the same number in both")
    for other, differing in stated[1:]:
        if differing != count:
            text = f"{differing} screws given; {first} states {count}: an attachment has one number of screws"
            yield Problem(other, text)


def _bracket(job: Job) -> Iterator[Problem]:
    roof, hardware = job.roof, job.hardware
    if not hardware.kind.fits(roof.kind, roof.support):
        allowed = " or ".join(f"'{name}'" for name in brackets_for(roof.kind, roof.support))
        where = f"on a roof of kind '{roof.kind}' with support '{roof.support}'"
        yield Problem("hardware.bracket", f"'{hardware.bracket}' given; {where} allowed is {allowed}")
    yield from _place(roof, hardware)
    yield from _rafters(roof, hardware)
    yield from _wood_screws(roof, hardware)


def _place(roof: Roof, hardware: Hardware) -> Iterator[Problem]:
    """Holes in the pan are only for brackets that bypass the sheet; holes in a seam are for none."""
    bracket, path = f"hardware.bracket '{hardware.bracket}'", "hardware.place"
    if hardware.place == IN_PAN and not hardware.kind.in_pan:
        yield Problem(path, f"'{IN_PAN}' given; with {bracket} allowed is '{AT_RIB}'")
    if hardware.place == AT_RIB and hardware.kind.in_pan and roof.floats:
        yield Problem(path, f"'{AT_RIB}' given; with {bracket} allowed is '{IN_PAN}': no screw goes through a seam")


def _rafters(roof: Roof, hardware: Hardware) -> Iterator[Problem]:
    """Rafters lie under a wood deck; brackets on them need their spacing and place."""
    rafters, path = roof.rafters, "roof.rafters"
    if rafters.model_fields_set and roof.support != WOOD_DECK:
        yield Problem(path, f"given; only a roof with support '{WOOD_DECK}' has rafters")
    if hardware.kind.at_rafters:
        needed = f"hardware.bracket '{hardware.bracket}' needs it"
        if rafters.spacing is None:
            yield Problem(f"{path}.spacing", f"missing; {needed}")
        if rafters.first is None:
            yield Problem(f"{path}.first", f"missing; {needed}, measured on site: a rib meets a rafter only in phase")
        yield from _brackets_off_members(roof)
    if rafters.first is not None and rafters.spacing is not None:
        reason = "rafters follow one another from the rake"
        yield from _at_most(f"{path}.first", rafters.first, rafters.spacing, f"{path}.spacing", reason, "small length")


def _brackets_off_members(roof: Roof) -> Iterator[Problem]:
    """Brackets on rafters load the members that are stated: these must be the same rafters."""
    member, rafters, path = roof.stated_member, roof.rafters, "roof.member"
    if member is None:
        return
    if not roof.members_up_slope:
        yield Problem(f"{path}.runs", f"'{member.runs}' given; brackets on rafters need members that run up the slope")
    for key in ("spacing", "first"):
        given, needed = getattr(member, key), getattr(rafters, key)
        if given is not None and needed is not None and abs(given - needed) > SAME_LENGTH:
            words = f"{both(given, 'small length')} given; brackets on rafters need that of roof.rafters"
            yield Problem(f"{path}.{key}", f"{words}, {both(needed, 'small length')}")


def _wood_screws(roof: Roof, hardware: Hardware) -> Iterator[Problem]:
    """Screws of brackets on a wood deck or on rafters are screws in wood, with enough thread in it."""
    if roof.support != WOOD_DECK or not hardware.kind.in_pan:
        return
    in_rafter = roof.rafters.thread if hardware.kind.at_rafters else None
    for key, basis in hardware.attachment_bases:
        path = f"hardware.{key}"
        if isinstance(basis, SteelScrews):
            yield Problem(path, "screws in steel given; the wood below needs wood_screws, lag, or a stated strength")
        if isinstance(basis, WoodScrews):
            yield from _thread(f"{path}.thread", basis, in_rafter)


def _thread(path: str, screws: WoodScrews, in_rafter: float | None) -> Iterator[Problem]:
    """The thread of screws in wood: at least four diameters of a lag, at most what is `in_rafter` [m]."""
    if screws.lag is not None:
        least, reason = LEAST_LAG_THREAD * screws.screw_diameter, "shorter lags have no rated withdrawal (NDS)"
        yield from at_least(path, screws.thread, least, f"{LEAST_LAG_THREAD:.0f} diameters", reason)
    if in_rafter is not None:
        reason = "no more thread is in the rafter"
        yield from _at_most(path, screws.thread, in_rafter, "roof.rafters.thread", reason, "small length")


def _shear(job: Job) -> Iterator[Problem]:
    """Strengths along the roof whose basis does not cover that direction."""
    strengths = {
        "roof.fastening.in_plane": job.roof.fastening.in_plane,
        "roof.fixed_point.in_plane": job.roof.fixed_point.in_plane if job.roof.fixed_point else None,
        "hardware.attachment_in_plane": job.hardware.attachment_in_plane,
        "hardware.attachment_across": job.hardware.attachment_across,
    }
    for path, capacity in strengths.items():
        if capacity is not None and (reason := shear_problem(capacity)):
            yield Problem(path, reason)

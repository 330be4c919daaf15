"""The part of a module's frame that hangs beyond its last support, where the frame's strength is not stated.

With both last supports of a side inside the zone of a rating that applies, the maker's test proves the frame: neither
an overhang nor a span is longer than one that was tested. Else the maker must confirm the place in a letter. A support
nearer to the corner than the zone is outside it too, because it may leave a wider span. Until the letter is there, an
overhang a is held against the longest one for which it is likely: z √(pr/p), with z the outer end of the zone, pr the
rating and p the pressure on the module, but never more than a third of the side. The frame then bends over its last
support no more than in the test: p a² is at most pr z². The third, and a quarter of the side where the maker states no
zone, are judgement, no source.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

import numpy as np

from engine.common.arrays import Bools, Floats, Ints
from engine.common.calculation import SCENARIO, CalculationStep, Confidence, Reference, Term
from engine.links.check import Check, Location, governing_check
from engine.links.maker_ratings import MakerRating, maker_ratings
from engine.links.module_pressure import pressure_steps
from engine.links.ratios import DemandOverResistance
from engine.links.trail import CalculationTrail
from engine.links.trail_terms import utilisation_step, value_step
from engine.links.unchecked import MODULE_MAKER, Unchecked, loaded_directions
from engine.load_path.demands import Demands
from engine.mounting.holding import LONGEST_OVERHANG
from engine.units import INCH

FRAME, TITLE = "module_frame", "module frame"

WITHOUT_ZONE = 1 / 4
"""Longest overhang where no zone is stated, as part of the side (judgement, no source) [-]."""

MANUAL = Reference("module maker's manual", "", "zone for clamps", Confidence.STATED)
JUDGEMENT = Reference("loadpath", "", "overhang beyond the maker's zone", Confidence.CHOICE)


@dataclass(frozen=True, eq=False)
class OverhangLimits:
    """The longest overhang of every module and the rating it follows from.

    `limit` (M, C) [m]; `rating` (M,) numbers of `ratings`, -1 where none is for modules held in this way. `in_zone`
    (M,): inside the zone of a rating; `proven` (M,): so, or rated at any place.
    """

    ratings: tuple[MakerRating, ...]
    rating: Ints
    limit: Floats
    in_zone: Bools
    proven: Bools


def overhang_limits(demands: Demands) -> OverhangLimits:
    """The limits of all modules; of the ratings for modules held in this way the one that allows most counts."""
    ratings, length = maker_ratings(demands), demands.holding.length
    in_zone = np.any([rating.in_zone for rating in ratings], axis=0)
    proven = np.any([rating.proven for rating in ratings], axis=0)
    usable = np.stack([np.where(proven, rating.proven, rating.held) for rating in ratings])
    limits = np.stack([_limit(demands, rating) for rating in ratings])
    best = np.where(usable, limits.min(axis=2), -np.inf).argmax(axis=0)
    rated = np.any(usable, axis=0)
    limit = np.where(rated[:, None], limits[best, np.arange(len(best))], WITHOUT_ZONE * length)
    return OverhangLimits(ratings, np.where(rated, best, -1), limit, in_zone, proven)


def longest_overhang(zone_end: float, length: float, rating: Floats, pressure: Floats) -> Floats:
    """The longest overhang at which the frame bends no more than in the maker's test [m], shape of `pressure`.

    Args:
        zone_end: outer end of the maker's zone, from the corner [m].
        length: of the side [m]; the overhang is at most `LONGEST_OVERHANG` of it.
        rating: the maker's rating in the direction of the pressure [Pa].
        pressure: on the module, without its sign, as for its rating [Pa].
    """
    as_tested = np.full(pressure.shape, np.inf)
    np.divide(rating, pressure, out=as_tested, where=pressure > 0)
    shortest: Floats = np.minimum(zone_end * np.sqrt(as_tested), LONGEST_OVERHANG * length)
    return shortest


def _limit(demands: Demands, rating: MakerRating) -> Floats:
    """The longest overhang by one rating, for every module and combination (M, C) [m]."""
    pressure, length = np.abs(demands.module_pressure), demands.holding.length
    if rating.zone is None:
        return np.full(pressure.shape, WITHOUT_ZONE * length)
    return longest_overhang(rating.zone[1], length, rating.resistance(demands), pressure)


def is_overhang(check: Check) -> bool:
    """True if a check is of an overhang, not of bending."""
    return check.link == FRAME and check.dimension == "small length"


def check_overhang(demands: Demands) -> Check:
    """The longest overhang against its limit, of the modules that no rating's zone covers."""
    limits = overhang_limits(demands)
    if limits.in_zone.all():
        note = "needs no check: every module is held inside the maker's zone, where its rating proves the frame"
        return Check(FRAME, TITLE, "small length", note=note)
    field, (module, ratios) = demands.field, _outside_zone(demands, limits)

    def place(number: int) -> Location:
        here = module[number]
        name = f"overhang, module in {field.place_of(int(here))}"
        return Location(name, float(field.outlines.left[here]), float(field.outlines.low[here]))

    unchecked = tuple(_unchecked(demands, limits))
    check = governing_check(FRAME, TITLE, "small length", ratios, demands.combinations, place, unchecked)
    return replace(check, measure="overhang")


def _outside_zone(demands: Demands, limits: OverhangLimits) -> tuple[Ints, DemandOverResistance]:
    """The modules N outside every zone, and overhang over limit of each, shape (N, C)."""
    module = np.flatnonzero(~limits.in_zone)
    limit = limits.limit[module]
    overhang = np.broadcast_to(demands.holding.overhang[module, None], limit.shape)
    return module, DemandOverResistance(overhang, limit)


def _unchecked(demands: Demands, limits: OverhangLimits) -> Iterator[Unchecked]:
    """The directions in which frames are loaded whose place of support the maker has not shown."""
    outside = ~limits.proven
    if not outside.any():
        return
    document = f"letter on modules held at these places of their {demands.holding.side} sides"
    if not demands.layout.member.clamped:
        document += ", or the frame's bending strength"
    reason = f"{outside.sum()} of {len(outside)} modules held outside the maker's zone"
    for direction in loaded_directions(demands.module_pressure[outside]):
        yield Unchecked(FRAME, TITLE, direction, reason, MODULE_MAKER, document)


def explain_overhang(trail: CalculationTrail, check: Check) -> list[CalculationStep]:
    """Steps to the pressure on the module, to the longest overhang at this pressure, and to the utilisation."""
    demands, limits = trail.demands, overhang_limits(trail.demands)
    modules, ratios = _outside_zone(demands, limits)
    (number,), combination = ratios.governing
    module = int(modules[number])
    steps = pressure_steps(trail, module, combination)
    length = value_step("L", "length of the side that is held", demands.holding.length / INCH, "in", SCENARIO)
    terms, equation = {"L": length.result}, "L / 4"
    steps.append(length)
    rating = limits.ratings[limits.rating[module]] if limits.rating[module] >= 0 else None
    if rating and rating.zone:
        allowable = rating.mode(steps[-2].result.value).resistance_step(demands.combinations[combination])
        zone = value_step("z", "outer end of the maker's zone, from the corner", rating.zone[1] / INCH, "in", MANUAL)
        terms |= {"p": steps[-2].result, "Ra": allowable.result, "z": zone.result}
        steps, equation = [*steps, allowable, zone], "min(z * sqrt(Ra / max(p, -p)), L / 3)"
    demand, limit = ratios.at((number, combination))
    meaning = "longest overhang for which the module maker's letter is likely: no more bending than in the maker's test"
    steps.append(CalculationStep("am", meaning, Term(limit / INCH, "in"), equation, terms, JUDGEMENT))
    overhang = value_step("a", "overhang from the corner to the last support", demand / INCH, "in")
    terms = {"a": overhang.result, "am": steps[-1].result}
    return [*steps, overhang, utilisation_step(FRAME, check.ratio, "a / am", terms)]

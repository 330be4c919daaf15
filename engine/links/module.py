"""The module: pressure normal to it against its maker's rating for the way it is held."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from engine.common.arrays import Bools, Ints
from engine.common.calculation import CalculationStep
from engine.links.check import Check, Location, governing_check, governing_of
from engine.links.frame_overhang import check_overhang, explain_overhang, is_overhang
from engine.links.link import Link
from engine.links.maker_ratings import MakerRating, maker_ratings
from engine.links.module_pressure import pressure_steps
from engine.links.ratios import DemandOverResistance
from engine.links.trail import CalculationTrail
from engine.links.trail_terms import utilisation_step
from engine.links.unchecked import MODULE_MAKER, Unchecked, loaded_directions
from engine.load_path.demands import Demands
from engine.units import both

NAME = "module"


@dataclass(frozen=True, eq=False)
class RatedModules:
    """The modules N to which one of the maker's ratings applies: their numbers, and each one's best rating (N,)."""

    ratings: tuple[MakerRating, ...]
    module: Ints
    best: Ints
    ratios: DemandOverResistance


def rated_modules(demands: Demands) -> RatedModules:
    """The rated modules, each with the one rating, up and down, under which its largest utilisation is smallest."""
    ratings, pressure = maker_ratings(demands), np.abs(demands.module_pressure)
    allowable = np.stack([rating.resistance(demands) for rating in ratings])
    applies = np.stack([rating.applies for rating in ratings])
    largest = np.where(applies, (pressure / allowable).max(axis=2), np.inf)
    module = np.flatnonzero(applies.any(axis=0))
    best = largest.argmin(axis=0)[module]
    return RatedModules(ratings, module, best, DemandOverResistance(pressure[module], allowable[best, module]))


def check_module(demands: Demands) -> Check:
    """The rated module with the largest utilisation; or its frame, where a side hangs too far beyond the rails.

    Without rails the frame is the member of the load path and is checked there.
    """
    check = _check_rating(demands)
    if not demands.layout.member.clamped:
        return check
    overhang = check_overhang(demands)
    return check if overhang.holds else governing_of([check, overhang])


def _check_rating(demands: Demands) -> Check:
    field, rated = demands.field, rated_modules(demands)
    unchecked = tuple(_unchecked(demands, rated))
    if not len(rated.module):
        return Check(NAME, NAME, "pressure", float(np.abs(demands.module_pressure).max()), unchecked=unchecked)

    def place(number: int) -> Location:
        module = rated.module[number]
        name = f"module in {field.place_of(module)}"
        return Location(name, float(field.outlines.left[module]), float(field.outlines.low[module]))

    return governing_check(NAME, NAME, "pressure", rated.ratios, demands.combinations, place, unchecked)


def _unchecked(demands: Demands, rated: RatedModules) -> Iterator[Unchecked]:
    """The directions in which modules that no rating covers are loaded."""
    unrated: Bools = np.ones(demands.field.modules, dtype=bool)
    unrated[rated.module] = False
    if not unrated.any():
        return
    holding = demands.holding
    ends = holding.nearest[unrated].min(), holding.overhang[unrated].max()
    places = " to ".join(dict.fromkeys(both(float(end), "small length", demands.job.system) for end in ends))
    document = (
        f"letter that rates modules clamped at {holding.points[unrated].min()} points of their {holding.side} sides, "
        f"{places} from a corner"
    )
    for direction in loaded_directions(demands.module_pressure[unrated]):
        yield Unchecked(NAME, NAME, direction, "outside the maker's ratings", MODULE_MAKER, document)


def explain_module(trail: CalculationTrail, check: Check) -> list[CalculationStep]:
    """Steps to the controlling module's pressure, or to its overhang, and to its utilisation."""
    if is_overhang(check):
        return explain_overhang(trail, check)
    demands, rated = trail.demands, rated_modules(trail.demands)
    (number,), combination = rated.ratios.governing
    steps = pressure_steps(trail, int(rated.module[number]), combination)
    pressure, mode = steps[-1].result, rated.ratings[rated.best[number]].mode(steps[-1].result.value)
    resistance = mode.resistance_step(demands.combinations[combination])
    terms = {"p": pressure, "Ra": resistance.result}
    return [*steps, resistance, utilisation_step(NAME, check.ratio, "max(p, -p) / Ra", terms)]


LINK = Link(
    NAME,
    title=lambda job: NAME,
    help=lambda job: "the module, pressed or lifted, against its maker's rating",
    check=check_module,
    explain=explain_module,
    depends_on_layout=lambda job: bool(job.module.ratings),
)

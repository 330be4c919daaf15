"""The module maker's ratings, and the modules of a layout to which they apply."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from engine.common.arrays import Bools, Floats
from engine.links.ratios import resistances
from engine.load_path.demands import Demands
from engine.mounting.holding import Holding
from engine.project.module import LONG, Module, RatingBySupport
from engine.strength import FailureMode


@dataclass(frozen=True, eq=False)
class MakerRating:
    """One of the maker's ratings in one layout, up and down together.

    `zone`: from and to, measured from the corner [m], in which it was proven; None for any place. Of the modules M,
    `applies` to those it rates, `held` are those held as it says, wherever along the side, and `in_zone` those of them
    inside its zone.
    """

    up: FailureMode
    down: FailureMode
    zone: tuple[float, float] | None
    applies: Bools
    held: Bools
    in_zone: Bools

    @property
    def proven(self) -> Bools:
        """True for the modules (M,) that the maker has shown to be held at a good place."""
        return self.held if self.zone is None else self.in_zone

    def mode(self, pressure: float) -> FailureMode:
        """The rating in the direction of a pressure, uplift negative."""
        return self.up if pressure < 0 else self.down

    def resistance(self, demands: Demands) -> Floats:
        """The rating of every module in the direction of its pressure (M, C) [Pa]."""
        up, down = (resistances(mode, demands.combinations) for mode in (self.up, self.down))
        return np.where(demands.module_pressure < 0, up, down)


def maker_ratings(demands: Demands) -> tuple[MakerRating, ...]:
    """The ratings stated. One for any support applies everywhere; its zone is the clamp zone, on long sides only."""
    module, holding = demands.job.module, demands.holding
    if module.ratings:
        return tuple(_by_support(row, holding) for row in module.ratings)
    return (_for_any_support(module, holding),)


def _by_support(row: RatingBySupport, holding: Holding) -> MakerRating:
    up, down = (replace(mode, name=f"{mode.name} for {row.words}") for mode in (row.up.mode(), row.down.mode()))
    held, applies = holding.as_in(row), holding.rated_by(row)
    return MakerRating(up, down, row.zone, applies, held, applies & (row.zone is not None))


def _for_any_support(module: Module, holding: Holding) -> MakerRating:
    if module.rating_up is None or module.rating_down is None:
        raise ValueError("a module without ratings by support has one for any support")
    every = np.ones(len(holding.points), dtype=bool)
    zone = module.clamp_zone if holding.side == LONG else None
    in_zone = holding.within(zone) if zone else ~every
    return MakerRating(module.rating_up.mode(), module.rating_down.mode(), zone, every, every, in_zone)

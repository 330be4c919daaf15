"""The clamp: what lifts a module's edge off what carries it."""

from __future__ import annotations

import numpy as np

from engine.links.check import Check, DemandOverResistance, Location, governing_check, resistances
from engine.load_path.demands import Demands
from engine.strength import strength


def clamp_ratios(demands: Demands) -> DemandOverResistance:
    """Each clamp's uplift (K, C); a clamp between two modules carries its part of both."""
    can = resistances(strength(demands.job.hardware.clamp_uplift), demands.combinations)
    return DemandOverResistance(np.maximum(-demands.clamp_force, 0.0), can)


def check_clamp(demands: Demands) -> Check:
    """The clamp that is lifted most."""

    def place(clamp: int) -> Location:
        return Location("clamp", *map(float, demands.clamp_position[clamp]))

    return governing_check("clamp", "module clamp", "force", clamp_ratios(demands), demands.combinations, place)

"""The clamp: what lifts a module's edge off what carries it."""

from __future__ import annotations

import numpy as np

from engine.links.check import Asked, Check, Place, resistances, worst
from engine.load_path.demands import Demands
from engine.strength import strength


def asked_of_clamps(demands: Demands) -> Asked:
    """Each clamp's uplift (K, C); a clamp between two modules carries its part of both."""
    can = resistances(strength(demands.job.hardware.clamp_uplift), demands.combinations)
    return Asked(np.maximum(-demands.clamp, 0.0), can)


def check_clamp(demands: Demands) -> Check:
    """The clamp that is lifted most."""

    def place(clamp: int) -> Place:
        return Place("clamp", *map(float, demands.clamp_place[clamp]))

    return worst("clamp", "module clamp", "force", asked_of_clamps(demands), demands.combinations, place)

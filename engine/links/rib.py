"""The seam or rib in bending between its fastenings."""

from __future__ import annotations

import numpy as np

from engine.common.arrays import Ints
from engine.links.check import (
    Check,
    DemandOverResistance,
    Location,
    allowable_resistances,
    by_direction,
    governing_check,
)
from engine.load_path.demands import Demands
from engine.statics.rib_bending import RibMoments


def check_rib(demands: Demands) -> Check:
    """The ribs that carry points, with the array; without it, see `check_bare_rib`."""
    return _bent(demands, demands.rib_moments, demands.rib)


def check_bare_rib(demands: Demands) -> Check:
    """What the roof's bending has used before any array: every rib of the slope."""
    return _bent(demands, demands.roof.moments_without_array, np.arange(len(demands.roof.ribs)))


def rib_ratios(demands: Demands, rib_moments: RibMoments) -> DemandOverResistance:
    """Moments of either sign anywhere along ribs, as in `Bent.extremes`: sagging compresses the rib, hogging the pan."""
    panel = demands.job.roof.panel
    rib_compressed, pan_compressed = (
        allowable_resistances(allowable, demands.combinations)
        for allowable in (panel.moment_rib_compressed, panel.moment_pan_compressed)
    )
    return by_direction(rib_moments.extremes, up=pan_compressed, down=rib_compressed)


def _bent(demands: Demands, rib_moments: RibMoments, rib: Ints) -> Check:
    ratios, ribs, word = rib_ratios(demands, rib_moments), demands.roof.ribs, demands.job.roof.rib_word

    def place(row: int, along: int) -> Location:
        _, number = ratios.governing
        return Location(f"{word} {rib[row] + 1}", float(ribs[rib[row]]), rib_moments.place(row, along, number))

    return governing_check("rib", f"{word} bending", "moment", ratios, demands.combinations, place)

"""The seam or rib in bending between its fastenings."""

from __future__ import annotations

import numpy as np

from engine.common.arrays import Ints
from engine.links.check import Asked, Check, Place, of_allowable, two_way, worst
from engine.load_path.demands import Demands
from engine.statics.rib_bending import Bent


def check_rib(demands: Demands) -> Check:
    """The ribs that carry points, with the array; without it, see `check_bare_rib`."""
    return _bent(demands, demands.bent, demands.rib)


def check_bare_rib(demands: Demands) -> Check:
    """What the roof's bending has used before any array: every rib of the slope."""
    return _bent(demands, demands.roof.bare_bent, np.arange(len(demands.roof.ribs)))


def asked_of_ribs(demands: Demands, bent: Bent) -> Asked:
    """Moments of either sign anywhere along ribs, as in `Bent.extremes`: sagging compresses the rib, hogging the pan."""
    panel = demands.job.roof.panel
    rib_compressed, pan_compressed = (
        of_allowable(allowable, demands.combinations) for allowable in (panel.moment_rib_compressed, panel.moment_pan_compressed)
    )
    return two_way(bent.extremes, up=pan_compressed, down=rib_compressed)


def _bent(demands: Demands, bent: Bent, rib: Ints) -> Check:
    asked, ribs, word = asked_of_ribs(demands, bent), demands.roof.ribs, demands.job.roof.rib_word

    def place(row: int, along: int) -> Place:
        _, number = asked.governing
        return Place(f"{word} {rib[row] + 1}", float(ribs[rib[row]]), bent.place(row, along, number))

    return worst("rib", f"{word} bending", "moment", asked, demands.combinations, place)

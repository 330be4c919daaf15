"""The fixed point: where a floating panel is held against sliding."""

from __future__ import annotations

import numpy as np

from engine.links.check import Asked, Check, Place, resistances, worst
from engine.load_path.demands import Demands
from engine.project.roof import FixedPoint
from engine.strength import shear_strength


def asked_of_panels(fixed: FixedPoint, demands: Demands) -> Asked:
    """Everything that slides on one panel collects there, down the slope or up it (R, C)."""
    return Asked(np.abs(demands.panel_in_plane), resistances(shear_strength(fixed.in_plane), demands.combinations))


def check_fixed_point(demands: Demands) -> Check:
    """The panel that slides hardest."""
    roof, most = demands.job.roof, float(np.abs(demands.panel_in_plane).max())
    if not roof.floats:
        return Check("fixed_point", "fixed point", "force", most, note="none: the panel's own screws share it, see there")
    if roof.fixed_point is None:
        return Check("fixed_point", "fixed point", "force", most, note="not checked: no strength against sliding is stated")
    ribs = demands.roof.ribs

    def place(row: int) -> Place:
        return Place(f"panel at {roof.rib_word} {demands.rib[row] + 1}", float(ribs[demands.rib[row]]))

    return worst("fixed_point", "fixed point", "force", asked_of_panels(roof.fixed_point, demands), demands.combinations, place)

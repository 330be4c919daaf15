"""The fixed point: where a floating panel is held against sliding."""

from __future__ import annotations

import numpy as np

from engine.links.check import Check, DemandOverResistance, Location, governing_check, resistances
from engine.load_path.demands import Demands
from engine.project.roof import FixedPoint
from engine.strength import shear_strength


def panel_ratios(fixed: FixedPoint, demands: Demands) -> DemandOverResistance:
    """Everything that slides on one panel collects there, down the slope or up it (R, C)."""
    return DemandOverResistance(
        np.abs(demands.panel_in_plane), resistances(shear_strength(fixed.in_plane), demands.combinations)
    )


def check_fixed_point(demands: Demands) -> Check:
    """The panel that slides hardest."""
    roof, per_item = demands.job.roof, float(np.abs(demands.panel_in_plane).max())
    if not roof.floats:
        return Check(
            "fixed_point", "fixed point", "force", per_item, note="none: the panel's own screws share it, see there"
        )
    if roof.fixed_point is None:
        return Check(
            "fixed_point", "fixed point", "force", per_item, note="not checked: no strength against sliding is stated"
        )
    ribs = demands.roof.ribs

    def place(row: int) -> Location:
        return Location(f"panel at {roof.rib_word} {demands.rib[row] + 1}", float(ribs[demands.rib[row]]))

    return governing_check(
        "fixed_point", "fixed point", "force", panel_ratios(roof.fixed_point, demands), demands.combinations, place
    )

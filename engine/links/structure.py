"""The structure: added weight against what it was designed to take."""

from __future__ import annotations

import numpy as np

from engine.common.combination import Combination
from engine.links.check import Check, DemandOverResistance, Location, allowable_resistances, governing_check
from engine.load_path.demands import Demands


def check_structure(demands: Demands) -> Check:
    """Weight of modules and hardware per area they cover, against the collateral allowance."""
    weight, allowance = demands.dead_pressure, demands.job.roof.collateral_allowance
    if allowance is None:
        return Check(
            "structure", "structure", "pressure", weight, note="not checked: no collateral allowance is stated"
        )
    alone = (Combination("added weight", {}, "permanent"),)
    ratios = DemandOverResistance(np.array([[weight]]), allowable_resistances(allowance, alone)[None])
    return governing_check("structure", "structure", "pressure", ratios, alone, lambda _: Location("under the array"))

"""The structure: added weight against what it was designed to take."""

from __future__ import annotations

import numpy as np

from engine.common.combination import Combination
from engine.links.check import Asked, Check, Place, of_allowable, worst
from engine.load_path.demands import Demands


def check_structure(demands: Demands) -> Check:
    """Weight of modules and hardware per area they cover, against the collateral allowance."""
    weight, allowance = demands.dead_pressure, demands.job.roof.collateral_allowance
    if allowance is None:
        return Check("structure", "structure", "pressure", weight, note="not checked: no collateral allowance is stated")
    alone = (Combination("added weight", {}, "permanent"),)
    asked = Asked(np.array([[weight]]), of_allowable(allowance, alone)[None])
    return worst("structure", "structure", "pressure", asked, alone, lambda _: Place("under the array"))

"""The structure: added weight against what it was designed to take."""

from __future__ import annotations

import numpy as np

from engine.checks.check import Asked, Check, Place, of_allowable, worst
from engine.combination import Combination
from engine.demands import Demands
from engine.job import Job
from engine.layout import Field, Layout


def check_structure(job: Job, field: Field, layout: Layout, demands: Demands) -> Check:
    """Weight of modules and hardware per area they cover, against the collateral allowance."""
    weight = demands.dead_pressure
    if job.roof.collateral_allowance is None:
        return Check("structure", "structure", "pressure", weight, note="not checked: no collateral allowance is stated")
    alone = (Combination("added weight", {}, "permanent"),)
    asked = Asked(np.array([[weight]]), of_allowable(job.roof.collateral_allowance, alone)[None])
    return worst("structure", "structure", "pressure", asked, alone, lambda _: Place("under the array"))

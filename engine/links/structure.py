"""The structure: added weight against the allowance it was designed for."""

from __future__ import annotations

import numpy as np

from engine.common.calculation import CalculationStep
from engine.common.combination import Combination
from engine.links.check import Check, Location, governing_check
from engine.links.link import Link, never
from engine.links.ratios import DemandOverResistance, allowable_resistances
from engine.links.trail import CalculationTrail
from engine.links.unchecked import BUILDING_ENGINEER, DOWN, Unchecked
from engine.load_path.demands import Demands


def check_structure(demands: Demands) -> Check:
    """Weight of modules and hardware per covered area, against the collateral allowance."""
    weight, allowance = demands.dead_pressure, demands.job.roof.collateral_allowance
    if allowance is None:
        document = "collateral allowance of the building's design"
        missing = Unchecked(
            "structure", "structure", DOWN, "no collateral allowance given", BUILDING_ENGINEER, document
        )
        return Check("structure", "structure", "pressure", weight, unchecked=(missing,))
    added = (Combination("added weight", {}, "permanent"),)
    ratios = DemandOverResistance(np.array([[weight]]), allowable_resistances(allowance, added)[None])
    return governing_check("structure", "structure", "pressure", ratios, added, lambda _: Location("under the array"))


def explain_structure(trail: CalculationTrail, check: Check) -> list[CalculationStep]:
    """No steps of its own: demand over resistance says all."""
    return []


LINK = Link(
    "structure",
    title=lambda job: "structure",
    help=lambda job: "added weight against the allowance that the building was designed for",
    check=check_structure,
    explain=explain_structure,
    depends_on_layout=never,
)

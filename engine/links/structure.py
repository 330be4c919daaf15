"""The structure: what the array adds to the roof, against the allowance it was designed for."""

from __future__ import annotations

import numpy as np

from engine.common.calculation import CalculationStep
from engine.common.combination import Combination
from engine.links.check import Check, Location, governing_check
from engine.links.link import Link, never
from engine.links.ratios import DemandOverResistance, SumOfRatios, allowable_resistances
from engine.links.trail import CalculationTrail
from engine.links.unchecked import BUILDING_ENGINEER, DOWN, Unchecked
from engine.load_path.added_load import added_pressure
from engine.load_path.demands import Demands

WEIGHT, SNOW = "weight", "snow beyond the roof's own"


def check_structure(demands: Demands) -> Check:
    """Weight of modules and hardware and the snow they add, per covered area, against the collateral allowance."""
    added, allowance = added_pressure(demands), demands.job.roof.collateral_allowance
    if allowance is None:
        document = "collateral allowance of the building's design"
        missing = Unchecked(
            "structure", "structure", DOWN, "no collateral allowance given", BUILDING_ENGINEER, document
        )
        return Check("structure", "structure", "pressure", added.weight + added.snow, unchecked=(missing,))
    permanent = (Combination(added.combination, {}, "permanent"),)
    allowable = allowable_resistances(allowance, permanent)[None]
    parts = {WEIGHT: added.weight, SNOW: added.snow}
    ratios = SumOfRatios({name: DemandOverResistance(np.array([[each]]), allowable) for name, each in parts.items()})
    return governing_check(
        "structure", "structure", "pressure", ratios, permanent, lambda _: Location("under the array")
    )


def explain_structure(trail: CalculationTrail, check: Check) -> list[CalculationStep]:
    """No steps of its own: demand over resistance says all."""
    return []


LINK = Link(
    "structure",
    title=lambda job: "structure",
    help=lambda job: "added weight and snow against the allowance that the building was designed for",
    check=check_structure,
    explain=explain_structure,
    depends_on_layout=never,
)

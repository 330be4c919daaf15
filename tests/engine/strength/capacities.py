"""Capacities as they are written, and what comes of them in pounds."""

from __future__ import annotations

import pytest
from pydantic import BaseModel, ValidationError

from engine.common.combination import Combination
from engine.strength import Capacity, StrengthBasis, shear_strength, strength
from engine.units import POUND_FORCE

WIND = Combination("wind", {}, "wind")

STATED: dict[str, object] = {"allowable": "600 lb"}
TESTED: dict[str, object] = {"tested": "1500 lb", "safety_factor": 2.5}
UPLIFT: dict[str, object] = {
    "tested_pressure": "70 psf",
    "tested_rib_spacing": "24 in",
    "tested_fastening_spacing": "5 ft",
}
STEEL: dict[str, object] = {
    "screws": 2,
    "size": "#12",
    "into": "16 ga",
    "tensile_strength": "65 ksi",
    "sheet": "24 ga",
    "washer": "0.5 in",
}
WOOD: dict[str, object] = {"wood_screws": 2, "size": "#10", "thread": "15/32 in", "specific_gravity": 0.42}
LAG: dict[str, object] = {"lag": 1, "size": "1/4 in", "thread": "2 in", "specific_gravity": 0.50}
PULLS: dict[str, object] = {"pull_tests": ["520 lb", "610 lb", "575 lb"], "connection": "other"}

BASES: dict[str, dict[str, object]] = {
    "stated": STATED,
    "tested": TESTED,
    "uplift test": UPLIFT,
    "three uplift tests": UPLIFT | {"tests": 3},
    "steel screws": STEEL,
    "steel screws, newer": STEEL | {"edition": "newer"},
    "steel screws, pried and pulled from one side": STEEL
    | {"prying": 1.8, "eccentric": "yes", "screw_tension": "500 lb", "screw_shear": "400 lb"},
    "steel screws, hard sheet": STEEL | {"sheet": "29 ga", "sheet_tensile_strength": "82 ksi", "washer": "1 in"},
    "wood screws": WOOD,
    "wood screws, wet and hot": WOOD | {"wet": "yes", "hot": "yes"},
    "lag screw": LAG,
    "pulls": PULLS,
    "pulls on a screw": PULLS | {"connection": "screw"},
    "stated, as a design resistance too": STATED | {"as_design_factor": 1.4},
    "design resistance": {"design": "2.4 kN"},
    "characteristic": {"characteristic": "3 kN"},
    "characteristic, own factor": {"characteristic": "3 kN", "gamma_m": 1.33},
    "characteristic tests": {"characteristic_tests": ["3.1 kN", "3.4 kN", "3.2 kN"]},
}


class Holder(BaseModel):
    capacity: Capacity


def read(written: object) -> tuple[StrengthBasis, ...]:
    return Holder.model_validate({"capacity": written}).capacity


def pounds(written: object, combination: Combination = WIND) -> float:
    return strength(read(written)).resistance(combination) / POUND_FORCE


def shear_pounds(written: object) -> float:
    return shear_strength(read(written)).resistance(WIND) / POUND_FORCE


def mode_pounds(written: object) -> dict[str, float]:
    """What each mode allows."""
    return {mode.name: mode.resistance(WIND) / POUND_FORCE for mode in strength(read(written)).modes}


def refusal(written: object) -> str:
    with pytest.raises(ValidationError) as refused:
        read(written)
    return " ".join(error["msg"] for error in refused.value.errors())

"""Lengthening of sheets and bars by heat."""

from __future__ import annotations

from engine.common.calculation import Confidence, Reference
from engine.units import UNITS

STEEL, ALUMINIUM = MATERIALS = ("steel", "aluminium")

FAHRENHEIT = UNITS["temperature difference"]["F"]
"""One degree Fahrenheit of difference [K]."""

EXPANSION = {STEEL: 6.5e-6 / FAHRENHEIT, ALUMINIUM: 13.0e-6 / FAHRENHEIT}
"""Coefficient of expansion [1/K]: 6.5 and 13 millionths per degree Fahrenheit."""

HANDBOOK = Reference("handbooks of steel and aluminium", "", "coefficient of expansion", Confidence.SEVERAL)


def lengthening(expansion: float, length: float, temperature_range: float) -> float:
    """Change of a length over a range of temperature [m].

    Args:
        expansion: coefficient of expansion [1/K].
        length: from the fixed place [m].
        temperature_range: from the coldest to the hottest [K].
    """
    return expansion * length * temperature_range

"""Thermal factors Ct, ASCE 7 Tables 7.3-2 and 7.3-3."""

from __future__ import annotations

import numpy as np

from engine.loads.asce7.site import SEVEN_16, Site
from engine.units import PSF, UNITS

THERMAL_16 = {"heated": 1.0, "just above freezing": 1.1, "unheated": 1.2, "freezer": 1.3}
"""Ct, ASCE 7-16 Table 7.3-2."""

THERMAL_22 = {"just above freezing": 1.2, "unheated": 1.2, "freezer": 1.3}
"""Ct, ASCE 7-22 Table 7.3-2."""

RESISTANCES = (20.0, 30.0, 40.0, 50.0)
"""Rows of Table 7.3-3 [h ft² °F/Btu]."""

GROUND = (10.0, 20.0, 30.0, 40.0, 50.0, 60.0, 70.0)
"""Columns of Table 7.3-3, ground snow [psf]."""
HEATED_22 = (
    (1.20, 1.11, 1.05, 1.01, 1.00, 1.00, 1.00),
    (1.20, 1.17, 1.14, 1.13, 1.12, 1.11, 1.10),
    (1.20, 1.19, 1.17, 1.16, 1.16, 1.15, 1.15),
    (1.20, 1.20, 1.19, 1.19, 1.19, 1.18, 1.18),
)
"""Ct of heated, unventilated roofs, a row by thermal resistance and a column by ground snow, ASCE 7-22 Table 7.3-3."""

SAFE_THERMAL = 1.2
"""Largest value of the table, for an unknown resistance or one beyond its last row."""

THERMAL_RESISTANCE = UNITS["thermal resistance"]["h ft2 F/Btu"]
"""One h ft² °F/Btu in m² K/W."""


def heated_thermal_factor(resistance: float | None, ground: float) -> float:
    """Ct of a heated roof, ASCE 7-22 Table 7.3-3, bilinear; 1.2 if the resistance is unknown or above 50.

    Args:
        resistance: thermal resistance of the roof [h ft² °F/Btu]; None if unknown.
        ground: ground snow [psf].
    """
    if resistance is None or resistance > RESISTANCES[-1]:
        return SAFE_THERMAL
    rows = [float(np.interp(ground, GROUND, row)) for row in HEATED_22]
    return float(np.interp(resistance, RESISTANCES, rows))


def roof_thermal_factor(site: Site, thermal: str) -> float:
    """Ct of the roof alone, Table 7.3-2 (7-16), Tables 7.3-2 and 7.3-3 (7-22); `thermal` as in the building's table."""
    if site.standard == SEVEN_16:
        return THERMAL_16[thermal]
    if thermal == "heated":
        resistance = site.roof_thermal_resistance
        return heated_thermal_factor(
            None if resistance is None else resistance / THERMAL_RESISTANCE, site.ground_snow / PSF
        )
    return THERMAL_22[thermal]

"""Peak velocity pressure, EN 1991-1-4 chapter 4."""

from __future__ import annotations

import math

from engine.common.calculation import SCENARIO, CalculationStep, Recorder, Term, silent
from engine.common.tolerances import SAME_ANGLE
from engine.loads.en1991.national import NationalValues
from engine.loads.en1991.references import WIND, clause
from engine.loads.en1991.site import Site
from engine.project.building import Building

TERRAIN = {"0": (0.003, 1.0), "I": (0.01, 1.0), "II": (0.05, 2.0), "III": (0.3, 5.0), "IV": (1.0, 10.0)}
"""Terrain category → z0 and zmin [m], table 4.1."""

FLATTER_IS_FLAT = 5.0
"""Roofs with a smaller slope are flat [deg], 7.2.3."""


def roughness(terrain: str, height: float, record: Recorder = silent) -> float:
    """cr, Eq. 4.4 and 4.5: 0.19 (z0/0.05)^0.07 ln(z/z0), z at least zmin; height above ground [m]."""
    z0, lowest = TERRAIN[terrain]
    z = max(height, lowest)
    result = 0.19 * math.pow(z0 / 0.05, 0.07) * math.log(z / z0)
    terms = {"z": Term(z, "m"), "z0": Term(z0, "m"), "e": Term(math.e)}
    equation = "0.19 * (z0 / 0.05) ** 0.07 * log(z / z0) / log(e)"
    record(
        CalculationStep("cr", f"roughness, terrain {terrain}", Term(result), equation, terms, clause(WIND, "Eq. 4.4"))
    )
    return result


def turbulence(terrain: str, height: float, orography: float, record: Recorder = silent) -> float:
    """Iv, Eq. 4.7: 1 / (co ln(z/z0)), with kl 1; height above ground [m]."""
    z0, lowest = TERRAIN[terrain]
    z = max(height, lowest)
    result = 1 / (orography * math.log(z / z0))
    terms = {"co": Term(orography), "z": Term(z, "m"), "z0": Term(z0, "m"), "e": Term(math.e)}
    equation = "log(e) / (co * log(z / z0))"
    record(CalculationStep("Iv", "turbulence intensity", Term(result), equation, terms, clause(WIND, "Eq. 4.7")))
    return result


def basic_velocity_pressure(site: Site, record: Recorder = silent) -> float:
    """qb, Eq. 4.10: half the density of air times vb², with cdir and cseason 1 [N/m²]."""
    density, speed = NationalValues.of(site).air_density, site.wind_speed
    record(CalculationStep("vb", "basic wind velocity, 10 min mean", Term(speed, "m/s"), "", {}, SCENARIO))
    terms = {"rho": Term(density, "kg/m3"), "vb": Term(speed, "m/s")}
    result = density * speed**2 / 2
    meaning = "basic velocity pressure"
    record(CalculationStep("qb", meaning, Term(result, "N/m2"), "rho * vb ** 2 / 2", terms, clause(WIND, "Eq. 4.10")))
    return result


def peak_velocity_pressure(site: Site, height: float, record: Recorder = silent) -> float:
    """qp, Eq. 4.8: qb cr² co² (1 + 7 Iv) [N/m²].

    Args:
        site: the site.
        height: reference height ze, the top of the building [m].
        record: takes the steps.
    """
    co = site.orography_factor
    qb = basic_velocity_pressure(site, record)
    cr, iv = roughness(site.terrain, height, record), turbulence(site.terrain, height, co, record)
    result = qb * cr**2 * co**2 * (1 + 7 * iv)
    terms = {"qb": Term(qb, "N/m2"), "cr": Term(cr), "co": Term(co), "Iv": Term(iv)}
    meaning, equation = "peak velocity pressure at the top of the building", "qb * cr ** 2 * co ** 2 * (1 + 7 * Iv)"
    record(CalculationStep("qp", meaning, Term(result, "N/m2"), equation, terms, clause(WIND, "Eq. 4.8")))
    return result


def height_of_roof(building: Building) -> float:
    """h: height of the ridge, of the high eave or of a flat roof, without its parapet [m]."""
    rise = building.run * math.tan(math.radians(building.slope))
    return building.mean_roof_height + rise / 2


def is_flat(building: Building) -> bool:
    """True if the roof counts as flat, 7.2.3: its slope is less than 5 deg."""
    return building.slope < FLATTER_IS_FLAT - SAME_ANGLE


def reference_height(building: Building) -> float:
    """ze: h, on flat roofs with the parapet [m], figure 7.5 and 7.2.3."""
    parapet = building.parapet_height if is_flat(building) else 0.0
    return height_of_roof(building) + parapet

"""Velocity pressure, ASCE 7 chapter 26."""

from __future__ import annotations

import math

from engine.common.calculation import SCENARIO, CalculationStep, Recorder, Term, silent
from engine.loads.asce7.references import clause
from engine.loads.asce7.site import SEVEN_16, SEVEN_22, Site
from engine.units import FOOT, MPH

KD = 0.85
"""Directionality factor of cladding and rooftop arrays, Table 26.6-1."""

KD_OF_PRESSURE = {SEVEN_16: 1.0, SEVEN_22: KD}
"""Edition → Kd of its pressure equations; in ASCE 7-16 Kd is a factor of qh."""

TERRAIN: dict[str, dict[str, tuple[float, float]]] = {
    SEVEN_16: {"B": (7.0, 1200.0), "C": (9.5, 900.0), "D": (11.5, 700.0)},
    SEVEN_22: {"B": (7.5, 3280.0), "C": (9.8, 2460.0), "D": (11.5, 1935.0)},
}
"""Edition → exposure → α and zg [ft], Table 26.11-1."""

AT_GRADIENT = {SEVEN_16: 2.01, SEVEN_22: 2.41}
"""Edition → Kz at the gradient height zg and above."""

MIN_HEIGHT = 15.0
"""Kz is constant below this height [ft]."""

GCPI = {"enclosed": 0.18, "partially enclosed": 0.55}
"""Enclosure → internal pressure coefficient, positive and negative, Table 26.13-1."""


def exposure_coefficient(edition: str, exposure: str, height: float, record: Recorder = silent) -> float:
    """Kz, Table 26.10-1: 2.01 (7-16) or 2.41 (7-22) times (z/zg)^(2/α), z at least 15 ft.

    Args:
        edition: "ASCE 7-16" or "ASCE 7-22".
        exposure: "B", "C" or "D".
        height: above ground [ft].
        record: takes the step.

    Notes:
        By the formula; the printed table is rounded and differs by at most 0.01.
    """
    alpha, gradient = TERRAIN[edition][exposure]
    z = min(max(height, MIN_HEIGHT), gradient)
    kz = AT_GRADIENT[edition] * math.pow(z / gradient, 2 / alpha)
    terms = {"z": Term(z, "ft"), "zg": Term(gradient, "ft"), "alpha": Term(alpha)}
    equation = f"{AT_GRADIENT[edition]} * (z / zg) ** (2 / alpha)"
    meaning = f"exposure {exposure} at mean roof height, at least 15 ft"
    record(CalculationStep("Kz", meaning, Term(kz), equation, terms, clause(edition, "Table 26.10-1")))
    return kz


def elevation_factor(edition: str, elevation: float, record: Recorder = silent) -> float:
    """Ke, Table 26.9-1: exp(-0.0000362 z).

    Args:
        edition: "ASCE 7-16" or "ASCE 7-22".
        elevation: of the ground above sea level [ft]; 0 gives 1.0, which is always permitted.
        record: takes the step.
    """
    ke = math.exp(-0.0000362 * elevation)
    terms = {"ze": Term(elevation, "ft")}
    record(
        CalculationStep(
            "Ke",
            "ground elevation factor",
            Term(ke),
            "exp(-0.0000362 * ze)",
            terms,
            clause(edition, "Table 26.9-1"),
        )
    )
    return ke


def qh(site: Site, height: float, record: Recorder = silent) -> float:
    """Eq. 26.10-1: 0.00256 Kz Kzt Kd Ke V² (7-16), without Kd (7-22) [psf].

    Args:
        site: the site.
        height: mean roof height [ft].
        record: takes the steps.
    """
    edition, speed, kzt = site.standard, site.wind_speed / MPH, site.topographic_factor
    kz = exposure_coefficient(edition, site.exposure, height, record)
    ke = elevation_factor(edition, site.ground_elevation / FOOT, record)
    record(CalculationStep("V", "basic wind speed", Term(speed, "mph"), "", {}, SCENARIO))
    terms = {"Kz": Term(kz), "Kzt": Term(kzt), "Ke": Term(ke), "V": Term(speed, "mph")}
    pressure, equation = 0.00256 * kz * kzt * ke * speed**2, "0.00256 * Kz * Kzt * Ke * V ** 2"
    if edition == SEVEN_16:
        pressure, equation, terms = KD * pressure, "Kd * " + equation, {"Kd": Term(KD)} | terms
    record(
        CalculationStep(
            "qh",
            "velocity pressure at mean roof height",
            Term(pressure, "psf"),
            equation,
            terms,
            clause(edition, "Eq. 26.10-1"),
        )
    )
    return pressure

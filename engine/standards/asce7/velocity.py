"""Velocity pressure, ASCE 7 chapter 26."""

from __future__ import annotations

import math

from engine.reference import SCENARIO, Recorder, Step, Term, silent
from engine.standards.asce7.references import clause
from engine.standards.asce7.site import SEVEN_16, SEVEN_22, Site
from engine.units import FOOT, MPH, PSF

KD = 0.85
"""Directionality factor of cladding and of rooftop arrays, Table 26.6-1."""

TERRAIN: dict[str, dict[str, tuple[float, float]]] = {
    SEVEN_16: {"B": (7.0, 1200.0), "C": (9.5, 900.0), "D": (11.5, 700.0)},
    SEVEN_22: {"B": (7.5, 3280.0), "C": (9.8, 2460.0), "D": (11.5, 1935.0)},
}
"""Edition → exposure → α and zg [ft], Table 26.11-1."""

FACTOR = {SEVEN_16: 2.01, SEVEN_22: 2.41}
INSIDE = {"enclosed": 0.18, "partially enclosed": 0.55}
"""Internal pressure coefficient GCpi, Table 26.13-1."""


def exposure_coefficient(edition: str, exposure: str, height: float, record: Recorder = silent) -> float:
    """Kz, Table 26.10-1: 2.01 or 2.41 (z/zg)^(2/α), z not below 15 ft.

    Args:
        edition: "ASCE 7-16" or "ASCE 7-22".
        exposure: "B", "C" or "D".
        height: above ground [ft].
        record: takes the step.
    """
    alpha, gradient = TERRAIN[edition][exposure]
    z = min(max(height, 15.0), gradient)
    kz = float(FACTOR[edition] * (z / gradient) ** (2 / alpha))
    terms = {"z": Term(z, "ft"), "zg": Term(gradient, "ft"), "alpha": Term(alpha)}
    equation = f"{FACTOR[edition]} * (z / zg) ** (2 / alpha)"
    record(
        Step("Kz", f"exposure {exposure} at mean roof height, not below 15 ft", Term(kz), equation, terms, clause(edition, "Table 26.10-1"))
    )
    return kz


def elevation_factor(edition: str, elevation: float, record: Recorder = silent) -> float:
    """Ke, Table 26.9-1: exp(-0.0000362 z); 1.0 is always permitted and never exceeded here.

    Args:
        edition: as above.
        elevation: of the ground above sea level [ft].
        record: takes the step.
    """
    ke = math.exp(-0.0000362 * elevation)
    terms = {"ze": Term(elevation, "ft")}
    record(Step("Ke", "thinner air above sea level", Term(ke), "exp(-0.0000362 * ze)", terms, clause(edition, "Table 26.9-1")))
    return ke


def velocity_pressure(site: Site, height: float, record: Recorder = silent) -> float:
    """Eq. 26.10-1 times Kd, wherever the edition puts it: what every coefficient multiplies [psf].

    ASCE 7-16 has Kd in qh; ASCE 7-22 has it in each pressure equation. The product is the same.

    Args:
        site: the site.
        height: mean roof height [ft].
        record: takes the steps.
    """
    edition = site.standard
    speed = site.wind_speed / MPH
    kz = exposure_coefficient(edition, site.exposure, height, record)
    ke = elevation_factor(edition, site.ground_elevation / FOOT, record)
    record(Step("V", "basic wind speed", Term(speed, "mph"), "", {}, SCENARIO))
    pressure = 0.00256 * kz * site.topographic_factor * KD * ke * speed**2
    terms = {"Kz": Term(kz), "Kzt": Term(site.topographic_factor), "Kd": Term(KD), "Ke": Term(ke), "V": Term(speed, "mph")}
    where = "Eq. 26.10-1" if edition == SEVEN_16 else "Eq. 26.10-1 with the Kd of each pressure equation"
    record(
        Step(
            "q",
            "velocity pressure, Kd included",
            Term(pressure, "psf"),
            "0.00256 * Kz * Kzt * Kd * Ke * V ** 2",
            terms,
            clause(edition, where),
        )
    )
    return pressure


def inside_pressure(site: Site, enclosure: str, q: float) -> float:
    """GCpi times velocity pressure, Table 26.13-1 [Pa]; q [psf], Kd included."""
    return INSIDE[enclosure] * q * PSF

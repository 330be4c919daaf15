"""Library: A general finite-element program's verification of ASCE 7-22 wind, in SI.

Printed: exposure C, z 5 m, ground at 110 m: Ke 0.986995, Kz 0.866796; V 52 m/s, Kd 0.85: 1205.36 N/m².
"""

from __future__ import annotations

import math

import pytest

from engine.loads.asce7.net_pressure import NetPressure
from engine.loads.asce7.site import Site
from engine.loads.asce7.velocity_pressure import elevation_factor, exposure_coefficient
from engine.units import FOOT, PSF
from support.published import verified

EDITION = "ASCE 7-22"


def test_factors() -> None:
    """The program has 0.000119 per metre, the clause in feet 0.0000362.

    They are 2.6e-5 apart at 110 m; zg is rounded likewise.
    """
    assert math.exp(-0.000119 * 110) == pytest.approx(0.986995, abs=5e-7)
    apart = (0.000119 - 0.0000362 / FOOT) * 110
    assert verified("Ke at 110 m", 0.986995, elevation_factor(EDITION, 110 / FOOT)) == pytest.approx(
        0.986995, abs=apart
    )
    assert verified("Kz at 5 m", 0.866796, exposure_coefficient(EDITION, "C", 5 / FOOT)) == pytest.approx(
        0.866796, abs=1e-3
    )


def test_velocity_pressure() -> None:
    """0.00256 psf/mph² against 0.613 N/m² per (m/s)²: the two printed constants differ by 0.1 %."""
    site = Site(standard=EDITION, wind_speed="52 m/s", exposure="C", ground_elevation="110 m", ground_snow="0 kPa")
    assert verified(
        "velocity pressure", 1205.36, NetPressure.at(site, 5 / FOOT).reference_pressure * PSF, "N/m²"
    ) == pytest.approx(1205.36, rel=1.5e-3)

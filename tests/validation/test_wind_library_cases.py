"""Library: Public test cases of a general wind library, ASCE 7-16, GCpi ± 0.18.

It takes Kz from the printed table; ours comes from the formula, at most 0.01 away. So
coefficients are held to their three printed decimals, and pressures to theirs with the library's own q.
"""

from __future__ import annotations

import numpy as np
import pytest

from engine.loads.asce7.gcp_figures import GcpFigure, gcp_figure
from engine.loads.asce7.net_pressure import NetPressure
from engine.loads.asce7.site import Site
from support.published import verified

CASES = {
    "b1": ("115 mph", "C", 20.0, 32.0, ("flat", 0.0), 25.90, (0.249, 11.1), {"1'": (-0.900, -28.0), "1": (-1.492, -43.3), "2": (-2.032, -57.3), "3": (-2.665, -73.7)}),
    "b4": ("120 mph", "B", 30.0, 50.0, ("gable", 15.0), 21.93, (0.371, 12.1), {"1": (-1.146, -29.1), "2e": (-1.146, -29.1), "2n": (-2.000, -47.8), "2r": (-2.000, -47.8), "3e": (-2.000, -47.8), "3r": (-2.342, -55.3)}),
    "b6": ("130 mph", "D", 18.0, 75.0, ("monoslope", 5.0), 38.98, (0.212, 15.3), {"1": (-1.100, -49.9), "2": (-1.212, -54.3), "2'": (-1.512, -66.0), "3": (-1.275, -56.7), "3'": (-1.725, -74.3)}),
}  # fmt: skip


@pytest.mark.parametrize("case", CASES)
def test_velocity_pressure(case: str) -> None:
    speed, exposure, height, _, _, q, _, _ = CASES[case]
    site = Site(standard="ASCE 7-16", wind_speed=speed, exposure=exposure, ground_snow="0 psf")
    kz = q / (0.00256 * 0.85 * float(speed.split()[0]) ** 2)
    ours = NetPressure.at(site, height).reference_pressure / (0.00256 * 0.85 * float(speed.split()[0]) ** 2)
    assert verified(f"{case}, Kz", kz, ours) == pytest.approx(
        kz, abs=0.011
    )  # table against formula: 0.01, and the last digit of q


@pytest.mark.parametrize("case", CASES)
def test_coefficients_and_pressures(case: str) -> None:
    _, _, _, area, roof, q, (push, push_pressure), zones = CASES[case]
    found = gcp_figure("ASCE 7-16", *roof)
    assert isinstance(found, GcpFigure)
    ours = float(found.down(np.array([area]))[0])
    assert verified(f"{case}, pressed, GCp", push, ours) == pytest.approx(push, abs=5.1e-4)
    # b1 and b4 print the downward pressure with the internal coefficient's suction; q has two decimals
    assert verified(f"{case}, pressed, p", push_pressure, q * (ours + 0.18), "psf") == pytest.approx(
        push_pressure, abs=0.06
    )
    for zone, (coefficient, pressure) in zones.items():
        value = float(found.suctions(np.array([area]))[0, found.zone_names.index(zone)])
        assert verified(f"{case}, zone {zone}, GCp", coefficient, value) == pytest.approx(coefficient, abs=5.1e-4), zone
        assert verified(f"{case}, zone {zone}, p", pressure, q * (value - 0.18), "psf") == pytest.approx(
            pressure, abs=0.06
        ), zone

"""Printed: Worked examples of EN 1991-1-4, peak velocity pressure.

The figures were copied from the published examples by way of a summary of them; no standard was read in print.
"""

from __future__ import annotations

import pytest

from engine.loads.en1991.peak_velocity_pressure import (
    basic_velocity_pressure,
    peak_velocity_pressure,
    roughness,
    turbulence,
)
from support.european import site
from support.published import verified


def test_steel_buildings_in_europe_wind_on_a_portal_frame() -> None:
    """Printed: Steel Buildings in Europe, worked example of wind on a single-bay frame, 26 m/s, terrain II, 7.3 m."""
    here = site(wind_speed="26 m/s", terrain="II")
    assert verified("qb", 422.5, basic_velocity_pressure(here), "N/m2") == pytest.approx(422.5, abs=0.05)
    assert verified("qp", 911, peak_velocity_pressure(here, 7.3), "N/m2") == pytest.approx(911, abs=0.5)


def test_steel_buildings_in_europe_single_storey() -> None:
    """Printed: Steel Buildings in Europe, single-storey buildings, example pages 57 to 58: 26 m/s, terrain III, 8 m.

    Its ce and qp follow from its rounded kr and cr: 0.706 and 1.56 instead of 0.7072 and 1.566.
    """
    here = site(wind_speed="26 m/s", terrain="III")
    assert verified("cr", 0.706, roughness("III", 8.0)) == pytest.approx(0.706, abs=0.002)
    exposure = peak_velocity_pressure(here, 8.0) / basic_velocity_pressure(here)
    assert verified("ce", 1.56, exposure) == pytest.approx(1.56, abs=0.01)
    assert verified("qp", 659, peak_velocity_pressure(here, 8.0), "N/m2") == pytest.approx(659, abs=3.5)


def test_student_library() -> None:
    """Printed: A published design-office calculation in a student library: 26 m/s, terrain IV, 9 m (below zmin)."""
    here = site(wind_speed="26 m/s", terrain="IV")
    assert verified("cr", 0.54, roughness("IV", 9.0)) == pytest.approx(0.54, abs=0.005)
    assert verified("Iv", 0.434, turbulence("IV", 9.0, 1.0)) == pytest.approx(0.434, abs=0.0005)
    exposure = peak_velocity_pressure(here, 9.0) / basic_velocity_pressure(here)
    assert verified("ce", 1.18, exposure) == pytest.approx(1.18, abs=0.005)
    assert verified("qp", 497, peak_velocity_pressure(here, 9.0), "N/m2") == pytest.approx(497, abs=0.5)


def test_first_report() -> None:
    """Printed: A published student report: 22 m/s, terrain III, 13.48 m."""
    here = site(wind_speed="22 m/s", terrain="III")
    assert verified("cr", 0.82, roughness("III", 13.48)) == pytest.approx(0.82, abs=0.005)
    assert verified("Iv", 0.263, turbulence("III", 13.48, 1.0)) == pytest.approx(0.263, abs=0.0005)
    ours = peak_velocity_pressure(here, 13.48) / 1000
    assert verified("qp", 0.58, ours, "kN/m2") == pytest.approx(0.58, abs=0.005)


def test_second_report() -> None:
    """Printed: A second published student report: 23 m/s, terrain II, 6.813 m."""
    here = site(wind_speed="23 m/s", terrain="II")
    assert verified("cr", 0.93, roughness("II", 6.813)) == pytest.approx(0.93, abs=0.005)
    assert verified("Iv", 0.203, turbulence("II", 6.813, 1.0)) == pytest.approx(0.203, abs=0.0005)
    ours = peak_velocity_pressure(here, 6.813) / 1000
    assert verified("qp", 0.70, ours, "kN/m2") == pytest.approx(0.70, abs=0.005)


@pytest.mark.parametrize(
    ("terrain", "exposure"), [("0", 2.985), ("I", 2.769), ("II", 2.352), ("III", 1.709), ("IV", 1.176)]
)
def test_exposure_factor_at_ten_metres(terrain: str, exposure: float) -> None:
    """By hand: ce at 10 m from Eq. 4.4 to 4.9, on paper, for every terrain."""
    here = site(terrain=terrain)
    ours = peak_velocity_pressure(here, 10.0) / basic_velocity_pressure(here)
    assert verified(f"ce, terrain {terrain}", exposure, ours) == pytest.approx(exposure, abs=5e-4)

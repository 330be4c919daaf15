"""Snow, ASCE 7 chapter 7, against the check values of the plan of record (computed there from the clauses)."""

from __future__ import annotations

import math

import pytest

from engine.standards.asce7 import snow
from engine.standards.asce7.site import Site

SLOPE = math.degrees(math.atan(4 / 12))


def site(edition: str, ground: str, **more: object) -> Site:
    return Site(standard=edition, wind_speed="100 mph", exposure="B", ground_snow=ground, **more)


def test_cold_slippery_slope_16() -> None:
    """pg 30, Ct 1.2, 4:12 slippery: pf 25.2, Cs 0.9375, ps 23.63; on the plane normal 21.26, down-slope 7.09 psf."""
    place = site("ASCE 7-16", "30 psf", roof_surface="slippery")
    assert snow.flat_roof_snow(place, 1.2) == pytest.approx(25.2, abs=0.01)
    assert snow.slope_factor("ASCE 7-16", SLOPE, 1.2, slippery=True) == pytest.approx(0.9375, abs=5.1e-4)
    sloped = snow.sloped_snow(place, SLOPE, 1.2)
    assert sloped == pytest.approx(23.63, abs=0.006)
    tilt = math.radians(SLOPE)
    assert sloped * math.cos(tilt) ** 2 == pytest.approx(21.26, abs=0.006)
    assert sloped * math.sin(tilt) * math.cos(tilt) == pytest.approx(7.09, abs=0.006)


def test_heated_roof_22() -> None:
    """pg 40, R30 heated: Ct 1.13, pf 31.64; and two bilinear points of Table 7.3-3."""
    assert snow.heated_thermal_factor(30, 40) == pytest.approx(1.13)
    assert snow.flat_roof_snow(site("ASCE 7-22", "40 psf"), 1.13) == pytest.approx(31.64, abs=0.006)
    assert snow.heated_thermal_factor(20, 27.5) == pytest.approx(1.065)
    assert snow.heated_thermal_factor(25, 35) == pytest.approx(1.0825)


@pytest.mark.parametrize(
    ("edition", "risk", "ground", "expected"),
    [
        ("ASCE 7-16", "II", 15, 15.0),
        ("ASCE 7-16", "IV", 15, 18.0),
        ("ASCE 7-16", "III", 50, 22.0),
        ("ASCE 7-22", "II", 50, 30.0),
        ("ASCE 7-22", "IV", 50, 40.0),
    ],
)
def test_minimum_for_low_slopes(edition: str, risk: str, ground: float, expected: float) -> None:
    place = site(edition, f"{ground} psf", risk_category=risk)
    assert snow.minimum_snow(place, 5.0) == pytest.approx(expected)
    assert snow.minimum_snow(place, 15.0) is None


@pytest.mark.parametrize(
    ("edition", "thermal", "slippery", "knee"),
    [("ASCE 7-16", 1.0, True, 5), ("ASCE 7-16", 1.0, False, 30), ("ASCE 7-16", 1.1, True, 10), ("ASCE 7-16", 1.1, False, 37.5),
     ("ASCE 7-16", 1.2, True, 15), ("ASCE 7-16", 1.2, False, 45), ("ASCE 7-22", 1.1, True, 5), ("ASCE 7-22", 1.15, False, 37.5),
     ("ASCE 7-22", 1.2, False, 45)],
)  # fmt: skip
def test_slope_factor_knees(edition: str, thermal: float, slippery: bool, knee: float) -> None:
    """Fig. 7.4-1: 1 to the knee, 0 from 70 deg, straight between."""
    assert snow.slope_factor(edition, knee, thermal, slippery) == pytest.approx(1.0)
    assert snow.slope_factor(edition, (knee + 70) / 2, thermal, slippery) == pytest.approx(0.5)
    assert snow.slope_factor(edition, 70, thermal, slippery) == pytest.approx(0.0)
    assert snow.slope_factor(edition, 80, thermal, slippery) == 0.0


def test_rain_on_snow() -> None:
    """§7.10: θ < W/50 and pg ≤ 20 psf (7-16), 5 psf; 7-22 8 psf up to its cap."""
    assert snow.rain_on_snow(site("ASCE 7-16", "20 psf"), 1.0, 30.0) == 5.0
    assert snow.rain_on_snow(site("ASCE 7-16", "25 psf"), 1.0, 30.0) == 0.0
    assert snow.rain_on_snow(site("ASCE 7-16", "20 psf"), 3.0, 30.0) == 0.0
    assert snow.rain_on_snow(site("ASCE 7-22", "25 psf"), 1.0, 30.0) == 8.0
    assert snow.rain_on_snow(site("ASCE 7-16", "0 psf"), 1.0, 30.0) == 0.0

"""By hand: Snow, ASCE 7-16 and 7-22 chapter 7, from the clauses."""

from __future__ import annotations

import math

import pytest

from engine.loads.asce7 import snow
from engine.loads.asce7.site import Site
from support.published import verified

SLOPE = math.degrees(math.atan(4 / 12))


def site(edition: str, ground: str, **more: object) -> Site:
    return Site(standard=edition, wind_speed="100 mph", exposure="B", ground_snow=ground, **more)


def test_cold_slippery_slope_16() -> None:
    """pg 30, Ct 1.2, 4:12 slippery: pf 25.2, Cs 0.9375, ps 23.63; on the plane normal 21.26, down-slope 7.09 psf."""
    place = site("ASCE 7-16", "30 psf", roof_surface="slippery")
    assert verified("cold slope 7-16, pf", 25.2, snow.flat_roof_snow(place, 1.2), "psf") == pytest.approx(
        25.2, abs=0.01
    )
    factor = snow.slope_factor("ASCE 7-16", SLOPE, 1.2, slippery=True)
    assert verified("cold slope 7-16, Cs", 0.9375, factor) == pytest.approx(0.9375, abs=5.1e-4)
    sloped, tilt = snow.sloped_snow(place, SLOPE, 1.2), math.radians(SLOPE)
    assert verified("cold slope 7-16, ps", 23.63, sloped, "psf") == pytest.approx(23.63, abs=0.006)
    normal, down_slope = sloped * math.cos(tilt) ** 2, sloped * math.sin(tilt) * math.cos(tilt)
    assert verified("cold slope 7-16, normal to the plane", 21.26, normal, "psf") == pytest.approx(21.26, abs=0.006)
    assert verified("cold slope 7-16, down the slope", 7.09, down_slope, "psf") == pytest.approx(7.09, abs=0.006)


def test_heated_roof_22() -> None:
    """pg 40, R30 heated: Ct 1.13, pf 31.64; and two bilinear points of Table 7.3-3."""
    for insulation, ground, factor in ((30, 40, 1.13), (20, 27.5, 1.065), (25, 35, 1.0825)):
        ours = snow.heated_thermal_factor(insulation, ground)
        assert verified(f"heated roof 7-22, Ct, R{insulation}, pg {ground:g} psf", factor, ours) == pytest.approx(
            factor
        )
    flat = snow.flat_roof_snow(site("ASCE 7-22", "40 psf"), 1.13)
    assert verified("heated roof 7-22, pf", 31.64, flat, "psf") == pytest.approx(31.64, abs=0.006)


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
    ours = snow.minimum_snow(place, 5.0)
    assert verified(f"least snow, {edition}, category {risk}, pg {ground} psf", expected, ours, "psf") == pytest.approx(
        expected
    )
    assert snow.minimum_snow(place, 15.0) is None


@pytest.mark.parametrize(
    ("edition", "thermal", "slippery", "knee"),
    [("ASCE 7-16", 1.0, True, 5), ("ASCE 7-16", 1.0, False, 30), ("ASCE 7-16", 1.1, True, 10), ("ASCE 7-16", 1.1, False, 37.5),
     ("ASCE 7-16", 1.2, True, 15), ("ASCE 7-16", 1.2, False, 45), ("ASCE 7-22", 1.1, True, 5), ("ASCE 7-22", 1.15, False, 37.5),
     ("ASCE 7-22", 1.2, False, 45)],
)  # fmt: skip
def test_slope_factor_knees(edition: str, thermal: float, slippery: bool, knee: float) -> None:
    """Fig. 7.4-1: 1 to the knee, 0 from 70 deg, straight between."""
    surface = "slippery" if slippery else "other"
    for slope, factor in ((knee, 1.0), ((knee + 70) / 2, 0.5), (70, 0.0)):
        ours = snow.slope_factor(edition, slope, thermal, slippery)
        assert verified(f"Cs, {edition}, {surface} surfaces, from the knee to 70 deg", factor, ours) == pytest.approx(
            factor
        )
    assert snow.slope_factor(edition, 80, thermal, slippery) == 0.0


@pytest.mark.parametrize(
    ("edition", "ground", "slope", "expected"),
    [
        ("ASCE 7-16", 20, 1.0, 5.0),
        ("ASCE 7-16", 25, 1.0, 0.0),
        ("ASCE 7-16", 20, 3.0, 0.0),
        ("ASCE 7-22", 25, 1.0, 8.0),
        ("ASCE 7-16", 0, 1.0, 0.0),
    ],
)
def test_rain_on_snow(edition: str, ground: int, slope: float, expected: float) -> None:
    """§7.10: θ < W/50 (here W 30 ft) and pg ≤ 20 psf (7-16), 5 psf; 7-22 8 psf up to its cap."""
    ours = snow.rain_on_snow(site(edition, f"{ground} psf"), slope, 30.0)
    assert verified(f"rain on snow, {edition}, pg {ground} psf, {slope:g} deg", expected, ours, "psf") == expected

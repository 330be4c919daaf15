"""Which snow cases apply, what they put on modules and on the bare roof, and what is said of the rest."""

from __future__ import annotations

from dataclasses import replace

import pytest
from standards_fields import building, field, loads, on_module, on_roof, site

from engine.loads.asce7 import snow
from engine.loads.asce7.field_loads import Asce7Loads
from engine.mounting.layout import Attitude
from engine.units import FOOT, PSF

ROW = Attitude(10.0, 0.5 * FOOT, 1.0 * FOOT, 3.0 * FOOT, 6.0 * FOOT)


def test_no_snow_no_case() -> None:
    found = loads(site(ground_snow="0 psf"))
    assert found.snow_cases == ()
    assert not [remark for remark in found.remarks if remark.code.startswith("snow")]


@pytest.mark.parametrize(
    ("of", "ground", "cases"),
    [
        ({"slope": "1:12"}, "25 psf", ("S", "S min", "S unbalanced")),
        ({"slope": "15 deg"}, "25 psf", ("S", "S unbalanced")),
        ({"slope": "1 deg", "width": "110 ft"}, "20 psf", ("S", "S min", "S rain")),
        ({"slope": "1.2 deg", "width": "110 ft"}, "20 psf", ("S", "S min")),
        ({"slope": "1 deg", "width": "110 ft"}, "21 psf", ("S", "S min")),
        ({"slope": "6:12", "width": "40 ft"}, "25 psf", ("S", "S unbalanced")),
        ({"slope": "6:12", "width": "41 ft"}, "25 psf", ("S", "S unbalanced")),
        ({"slope": "8:12", "width": "40 ft"}, "25 psf", ("S",)),
    ],
)
def test_cases_of_7_16(of: dict[str, str], ground: str, cases: tuple[str, ...]) -> None:
    """Minimum below 15 deg; rain below W/50 and to 20 psf; gables of 2.38 to 30.2 deg unbalanced."""
    assert loads(site(ground_snow=ground), building(**of), field(rows=2, at=(60.0, 5.0))).snow_cases == cases


def test_modules_have_their_own_thermal_factor_and_angle() -> None:
    """Bare heated roof Ct 1.0 (knee 30 deg), modules 1.2 (knee 45 deg): at 40 + 10 deg Cs is 1 - 5/25."""
    steep = building(slope="40 deg", roof_shape="gable")
    found = loads(of=steep, modules=field(attitude=replace(ROW, net_coefficient=1.0)))
    assert on_module(found, "S") == pytest.approx((1 - 5 / 25) * 0.7 * 1.2 * 25 * PSF)
    assert on_roof(found, "S") == pytest.approx((1 - 10 / 40) * 0.7 * 1.0 * 25 * PSF)


def test_array_thermal_factor_is_the_scenarios_choice() -> None:
    assert on_module(loads(site(array_thermal_factor=1.0)), "S") == pytest.approx(0.7 * 25 * PSF)
    assert on_module(loads(), "S") == pytest.approx(0.7 * 1.2 * 25 * PSF)


def test_rain_is_added_to_balanced_snow_only() -> None:
    found = loads(site("ASCE 7-22", ground_snow="30 psf"), building(slope="1 deg", width="110 ft"))
    assert on_module(found, "S rain") == pytest.approx(on_module(found, "S") + 8 * PSF)
    assert on_module(found, "S min") == pytest.approx(30 * PSF)


@pytest.mark.parametrize(("edition", "risk", "expected"), [("ASCE 7-16", "III", 27.5), ("ASCE 7-22", "III", 25.0)])
def test_narrow_gable_unbalanced(edition: str, risk: str, expected: float) -> None:
    """§7.6.1: all of the ground's snow (Is pg in 7-16) on the lee slope, modules and bare roof alike, far from the ridge."""
    found = loads(
        site(edition, risk_category=risk), building(slope="6:12", width="36 ft"), field(rows=2, at=(60.0, 5.0))
    )
    assert on_module(found, "S unbalanced") == on_roof(found, "S unbalanced") == pytest.approx(expected * PSF)


def test_a_narrow_gable_may_drift_too() -> None:
    """§7.6.1 for roofs on anything but simple rafters; the frame is not asked for, so the larger counts at each place.

    By hand, pg 25, W 18 ft (lu counts 20), 6:12: hd = .43 x 20^(1/3) x 35^(1/4) - 1.5 = 1.3390 ft, 16.33 psf over 5.05 ft.
    """
    narrow = building(slope="6:12", width="36 ft")
    top = narrow.slope_length / FOOT
    found = loads(
        of=narrow, modules=field(rows=2, at=(60.0, top - 9.0))
    )  # the upper row ends 3 ft from the ridge, the lower 6 ft
    low, high = (on_module(found, "S unbalanced", module) / PSF for module in (0, 6))
    drifted = on_module(found, "S", 6) / PSF + 16.33
    assert low == pytest.approx(25.0)
    assert drifted > 25
    assert high == pytest.approx(drifted, abs=0.005)
    assert codes_of(found)["snow_unbalanced"].endswith("a second case: the larger counts")


def test_thermal_factor_of_the_bare_roof() -> None:
    """7-16 by the building's warmth; 7-22 by Table 7.3-3 where the resistance is stated, else its safe end, said."""
    for warmth, ct in (("heated", 1.0), ("just above freezing", 1.1), ("unheated", 1.2), ("freezer", 1.3)):
        assert snow.roof_thermal_factor(site(), warmth) == ct
    new = site("ASCE 7-22", ground_snow="40 psf")
    assert snow.roof_thermal_factor(new, "heated") == 1.2
    for warmth, ct in (("just above freezing", 1.2), ("unheated", 1.2), ("freezer", 1.3)):
        assert snow.roof_thermal_factor(new, warmth) == ct
    known = site("ASCE 7-22", ground_snow="40 psf", roof_thermal_resistance="30 h ft2 F/Btu")
    assert snow.roof_thermal_factor(known, "heated") == pytest.approx(1.13)
    assert "snow_thermal" in {remark.code for remark in loads(new).remarks}
    assert "snow_thermal" not in {remark.code for remark in loads(known).remarks}


@pytest.mark.parametrize("edition", ["ASCE 7-16", "ASCE 7-22"])
def test_how_open_the_roof_stands(edition: str) -> None:
    """Ce, Table 7.3-1, alike in both editions."""
    printed = {"fully exposed": "0.9 0.9 0.8", "partially exposed": "1.0 1.0 0.9", "sheltered": "1.2 1.1 1.0"}
    for stands, row in printed.items():
        for category, ce in zip("BCD", row.split(), strict=True):
            place = site(edition, exposure=category, snow_exposure=stands, ground_snow="10 psf")
            assert snow.flat_roof_snow(place, 1.0) == pytest.approx(0.7 * float(ce) * 10)


HEATED = {
    20: (1.20, 1.11, 1.05, 1.01, 1.00, 1.00, 1.00),
    30: (1.20, 1.17, 1.14, 1.13, 1.12, 1.11, 1.10),
    40: (1.20, 1.19, 1.17, 1.16, 1.16, 1.15, 1.15),
    50: (1.20, 1.20, 1.19, 1.19, 1.19, 1.18, 1.18),
}
"""ASCE 7-22 Table 7.3-3 for ground snow of 10, 20 … 70 psf, alike in three public sources; a newsletter's one
figure, 1.17 for a resistance of 30 under 30 psf, stands beside 1.14 in all of them."""


@pytest.mark.parametrize("resistance", HEATED)
def test_heated_table(resistance: int) -> None:
    """Every cell, half-way between cells, and beyond the last rows and columns."""
    row = HEATED[resistance]
    for number, ct in enumerate(row):
        assert snow.heated_thermal_factor(resistance, 10.0 * (number + 1)) == pytest.approx(ct)
    assert snow.heated_thermal_factor(resistance, 35.0) == pytest.approx((row[2] + row[3]) / 2)
    assert snow.heated_thermal_factor(resistance, 5.0) == pytest.approx(row[0])
    assert snow.heated_thermal_factor(resistance, 90.0) == pytest.approx(row[-1])
    if resistance < 50:
        assert snow.heated_thermal_factor(resistance + 5, 40.0) == pytest.approx(
            (row[3] + HEATED[resistance + 10][3]) / 2
        )
    assert snow.heated_thermal_factor(12, 40.0) == pytest.approx(HEATED[20][3])
    assert snow.heated_thermal_factor(50.1, 40.0) == 1.2
    assert snow.heated_thermal_factor(None, 40.0) == 1.2


@pytest.mark.parametrize("resistance", [20, 25, 30, 40, 50])
def test_heated_table_falls_with_snow_and_rises_with_resistance(resistance: float) -> None:
    factors = [snow.heated_thermal_factor(resistance, ground) for ground in range(5, 90, 5)]
    assert factors == sorted(factors, reverse=True)
    assert snow.heated_thermal_factor(resistance + 5, 40) >= snow.heated_thermal_factor(resistance, 40)
    assert 1.0 <= min(factors) <= max(factors) <= 1.2


def codes_of(found: Asce7Loads) -> dict[str, str]:
    return {remark.code: remark.text for remark in found.remarks}


def codes(**changes: object) -> set[str]:
    return set(codes_of(loads(**changes)))  # type: ignore[arg-type]


def test_higher_roofs_are_asked_for_until_one_is_stated() -> None:
    assert "snow_higher_roof" in codes()
    stated = {"side": "ridge", "height": "8 ft", "upwind_length": "60 ft", "slides_here": False}
    assert "snow_higher_roof" not in codes(of=building(higher_roofs=[stated]))


def test_the_drift_behind_a_wide_gables_ridge_is_said_with_its_size() -> None:
    wide = building(width="110 ft")
    far, near = (codes_of(loads(of=wide, modules=field(rows=2, at=(60.0, y)))) for y in (10.0, 40.0))
    assert "snow_unbalanced" not in far  # a note about no module is not shown
    assert near["snow_unbalanced"].startswith("unbalanced snow (§7.6.1) adds 12.3 psf (")
    assert " over 22.89 ft" in near["snow_unbalanced"]
    assert near["snow_unbalanced"].endswith("on 12 of 12 modules")
    assert "snow_unbalanced" not in codes(of=building(slope="2 deg"))


def test_the_drift_lies_behind_the_ridge_only() -> None:
    """W 55 ft, 1:12, pg 25: 12.3 psf over 22.9 ft (by hand); modules and bare roof alike."""
    wide = building(width="110 ft")
    top = wide.slope_length / FOOT
    found = loads(of=wide, modules=field(rows=8, at=(60.0, top - 30.0)))
    drifted = [on_module(found, "S unbalanced", n) - on_module(found, "S", n) for n in range(0, 48, 6)]
    reach = 22.89 / 0.99655  # along the slope
    expected = [12.3 if 30.0 - (row * 3.05 + 3.0) < reach else 0.0 for row in range(8)]
    assert drifted == pytest.approx([value * PSF for value in expected], abs=0.05 * PSF)
    assert 0.0 in expected
    assert 12.3 in expected
    assert on_roof(found, "S unbalanced", top - 2, top - 1) == pytest.approx(
        on_roof(found, "S") + 12.3 * PSF, abs=0.05 * PSF
    )
    assert on_roof(found, "S unbalanced", 1, 2) == pytest.approx(on_roof(found, "S"))

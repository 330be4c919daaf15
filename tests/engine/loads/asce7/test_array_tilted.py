"""Tilted rows, ASCE 7 §29.4.3: the nominal curves at their break points, factors, zones, limits one by one."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from standards_fields import Plan, building, field, job, loads, site

from engine.loads.asce7 import array_tilted
from engine.mounting.layout import Attitude
from engine.units import FOOT

ROW = Attitude(10.0, 0.5 * FOOT, 1.0 * FOOT, 3.0 * FOOT, 6.0 * FOOT)

PRINTED = {
    5: ((1.5, 0.35, 0.10), (2.0, 0.45, 0.15), (2.3, 0.50, 0.15)),
    15: ((2.0, 0.56, 0.30), (2.9, 0.65, 0.40), (3.5, 0.80, 0.50)),
}
"""Fig. 29.4-7, seen once: tilt, then zones 1, 2, 3 at An 1, 500, 5000."""


def nominal(tilt: float, zone: int, area: float) -> float:
    return float(array_tilted.nominal_coefficient(tilt, np.array([zone]), np.array([area]))[0])


@pytest.mark.parametrize("tilt", PRINTED)
@pytest.mark.parametrize("zone", [0, 1, 2])
def test_nominal_curves(tilt: int, zone: int) -> None:
    first, middle, last = PRINTED[tilt][zone]
    for beyond in [2.5, 5.0] if tilt == 5 else [15.0, 35.0]:
        assert nominal(beyond, zone, 0.3) == nominal(beyond, zone, 1) == pytest.approx(first)
        assert nominal(beyond, zone, 500**0.5) == pytest.approx((first + middle) / 2)
        assert nominal(beyond, zone, 500) == pytest.approx(middle)
        assert nominal(beyond, zone, (500 * 5000) ** 0.5) == pytest.approx((middle + last) / 2)
        assert nominal(beyond, zone, 5000) == nominal(beyond, zone, 9000) == pytest.approx(last)


def test_linear_in_tilt() -> None:
    assert nominal(10, 2, 1) == pytest.approx((2.3 + 3.5) / 2)
    assert nominal(7.5, 0, 500) == pytest.approx(0.75 * 0.35 + 0.25 * 0.56)


@given(st.floats(2.1, 35), st.floats(0.1, 8000), st.floats(1, 4), st.integers(0, 2))
@settings(max_examples=80, deadline=None)
def test_smaller_with_area_larger_with_tilt_and_zone(tilt: float, area: float, times: float, zone: int) -> None:
    here = nominal(tilt, zone, area)
    assert nominal(tilt, zone, area * times) <= here + 1e-12
    assert nominal(min(tilt * times, 35), zone, area) >= here - 1e-12
    assert nominal(tilt, min(zone + 1, 2), area) >= here - 1e-12


def test_factors() -> None:
    """γp 0.9 without a parapet, 1.2 from hpt = 0.3h; γc 0.8 to 3.33 ft, 1.0 at 6.67 ft."""
    assert array_tilted.parapet_factor(0, 20) == pytest.approx(0.9)
    assert array_tilted.parapet_factor(3, 20) == pytest.approx(1.05)
    assert array_tilted.parapet_factor(6, 20) == array_tilted.parapet_factor(9, 20) == pytest.approx(1.2)
    assert array_tilted.chord_factor(1) == array_tilted.chord_factor(10 / 3) == pytest.approx(0.8)
    assert array_tilted.chord_factor(5) == pytest.approx(0.9)


def test_normalized_area() -> None:
    """Lb = min(0.4 √(h WL), h, Ws): 0.4 √(20 x 200) = 25.3, h 20, so 20 ft; An = 1000 A/400. Below 15 ft, 15 ft counts."""
    assert array_tilted.normalizing_length(building()) == pytest.approx(20.0)
    assert array_tilted.normalizing_length(building(length="60 ft", width="30 ft")) == pytest.approx(
        0.4 * (20 * 60) ** 0.5
    )
    assert array_tilted.normalizing_length(building(mean_roof_height="40 ft", width="10 ft")) == pytest.approx(10.0)
    areas = np.array([10.0])
    assert array_tilted.normalized_area(20.0, areas)[0] == pytest.approx(25.0)
    assert array_tilted.normalized_area(10.0, areas)[0] == pytest.approx(1000 * 10 / 225)


@pytest.mark.parametrize(
    ("at", "zone"),
    [((39.9, 39.9), 2), ((40.1, 39.9), 1), ((39.9, 45.0), 1), ((40.1, 45.0), 0), ((155.0, 5.0), 2), ((100.0, 5.0), 1)],
)
def test_zones_by_points(at: tuple[float, float], zone: int) -> None:
    """Strips of 2h = 40 ft at every edge, their crossings the corners; a flat plan of 200 by 120 ft."""
    flat = building(slope="0 deg", roof_shape="flat")
    assert array_tilted.zones(flat, field(rows=1, columns=1, at=at)).tolist() == [zone]


def said(of: dict[str, object] | None = None, changes: dict[str, object] | None = None, **plan: object) -> list[str]:
    modules = field(attitude=replace(ROW, **changes or {}), **plan)  # type: ignore[arg-type]
    return [limit.sentence for limit in array_tilted.limits(building(**of or {}), modules)]


def test_within_all_limits() -> None:
    assert said() == []
    assert said({"slope": "7 deg"}, {"tilt": 35.0, "low": 2 * FOOT, "high": 4 * FOOT, "chord": 6.7 * FOOT}) == []


@pytest.mark.parametrize(
    ("of", "changes", "sentence"),
    [
        ({"slope": "6:12"}, {}, "the roof's slope is 26.57 deg, the limit is 7.00 deg"),
        ({}, {"tilt": 36.0}, "the modules' tilt is 36.00 deg, the limit is 35.00 deg"),
        (
            {},
            {"chord": 7.0 * FOOT},
            "the modules' size up the row is 7.00 ft (2.134 m), the limit is 6.70 ft (2.042 m)",
        ),
        (
            {},
            {"low": 2.5 * FOOT},
            "the low edge's height above the roof is 2.50 ft (0.762 m), the limit is 2.00 ft (0.610 m)",
        ),
        (
            {},
            {"high": 4.5 * FOOT},
            "the high edge's height above the roof is 4.50 ft (1.372 m), the limit is 4.00 ft (1.219 m)",
        ),
    ],
)
def test_limits(of: dict[str, object], changes: dict[str, object], sentence: str) -> None:
    assert said(of, changes) == [sentence]


def test_gap_and_distance_from_edges() -> None:
    """max(2 (h2 - hpt), 4 ft) from the roof's edge."""
    assert said(gap=(0.01, 0.5)) == ["the gap between modules is 0.12 in (3 mm), the minimum is 0.25 in (6 mm)"]
    assert said(at=(3.9, 30.0)) == [
        "the array is 3.90 ft (1.189 m) from the edge of the roof, the minimum is 4.00 ft (1.219 m)"
    ]
    assert said(at=(4.1, 30.0)) == []
    assert said(changes={"high": 3 * FOOT}, at=(5.9, 30.0)) != []
    assert said({"parapet_height": "1 ft"}, {"high": 3 * FOOT}, at=(5.9, 30.0)) == []


def test_a_ridge_is_no_edge_of_a_low_slope_roof() -> None:
    top = building().slope_length / FOOT
    assert said(at=(60.0, top - 12.15 - 0.1)) == []


def test_outside_the_clause_there_is_no_wind() -> None:
    steep = loads(of=building(slope="4:12"), modules=field(attitude=ROW))
    assert [limit.clause for limit in steep.outside] == ["ASCE 7 §29.4.3"]
    with pytest.raises(ValueError, match="outside ASCE 7 §29"):
        steep.wind("W up", np.array([0]), np.array([1.0]))


def test_the_scenarios_own_coefficient_needs_no_clause() -> None:
    """p = ± qh C on any roof, the same for every module and area; only the floor stays."""
    stated = replace(ROW, net_coefficient=1.3)
    found = loads(of=building(slope="4:12"), modules=field(attitude=stated))
    modules, areas = np.arange(3), np.array([0.1, 1.0, 30.0])
    assert found.outside == ()
    assert "own_coefficient" in {remark.code for remark in found.remarks}
    up, down = found.wind("W up", modules, areas), found.wind("W down", modules, areas)
    assert up / 47.880259 == pytest.approx(np.full(3, -1.3 * found.net_pressure.qh), rel=1e-7)
    assert down.tolist() == (-up).tolist()


def test_an_edge_counts_for_uplift_alone() -> None:
    """GCrn = γp γc γE (GCrn)nom by hand, a field large enough to have a middle: 0.9, γc of the chord, 1.5 or 1."""
    wind = array_tilted.TiltedWind.on(site(), job(), field(Plan(rows=12, columns=9), attitude=ROW))
    modules, areas = np.arange(108), np.full(108, 30.0)
    assert set(wind.exposed.tolist()) == {True, False}
    chord = max(0.6 + 0.06 * ROW.chord / FOOT, 0.8)
    an = 1000 * 30.0 / max(wind.length, 15) ** 2
    plain = np.array([0.9 * chord * nominal(ROW.tilt, zone, an) for zone in wind.zone.tolist()])
    assert wind.coefficient("W down", modules, areas) == pytest.approx(plain)
    assert wind.coefficient("W up", modules, areas) == pytest.approx(-plain * np.where(wind.exposed, 1.5, 1.0))

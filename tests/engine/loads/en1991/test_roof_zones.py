"""Zones F to J on the plan, and the worst coefficient of what a part touches."""

from __future__ import annotations

import numpy as np
import pytest

from engine.loads.en1991.cladding import DOWN, UP, Cladding
from engine.loads.en1991.roof_zones import EAVE, HIGH, SlopeZones
from engine.mounting.layout import Rectangles
from engine.project.building import Building
from support import assert_told
from support.european import Winds, building

ROOFS = {
    "flat": building("flat", 0.0, 30.0, 20.0, 6.0),
    "flat with a parapet": building("flat", 2.0, 30.0, 20.0, 6.0, parapet_height="0.4 m"),
    "low gable": building("gable", 4.9, 30.0, 20.0, 6.0),
    "gable": building("gable", 20.0, 30.0, 20.0, 8.0),
    "high and short": building("gable", 12.0, 8.0, 6.0, 15.0),
    "one slope": building("monoslope", 12.0, 30.0, 20.0, 8.0),
}


def place(left: float, low: float, right: float, high: float) -> Rectangles:
    return Rectangles(*(np.array([each]) for each in (left, low, right, high)))


def cpe(of: Building, case: str, at: Rectangles, area: float) -> float:
    cladding = Cladding(SlopeZones.of(of))
    touched = cladding.zones.touched(at)
    return float(cladding.external(case, touched, np.array([area]))[0])


@pytest.mark.parametrize("name", ROOFS)
def test_every_place_of_the_slope_has_a_zone_in_every_wind(name: str) -> None:
    """Points all over the slope, its edges too: at least one zone with suction in each of the winds that has any."""
    zones = SlopeZones.of(ROOFS[name])
    x = np.linspace(0.0, zones.building.length, 41)
    y = np.linspace(0.0, zones.building.slope_length, 41)
    left, low = (np.ravel(each) for each in np.meshgrid(x, y))
    touched = zones.touched(Rectangles(left, low, left, low))
    suction = np.array([zone.coefficient.pair[1] <= 0 for zone in zones.zones])
    for wind in {zone.wind for zone in zones.zones}:
        of_wind = np.array([zone.wind == wind for zone in zones.zones])
        assert touched[:, of_wind & suction].any(axis=1).all(), wind


def test_widths_that_the_calculation_prints() -> None:
    """A published student report: 18.4 x 7.6 m, h 6.813 m: F 3.407 x 1.363 m in wind on the long side."""
    widths = SlopeZones.of(building("gable", 20.0, 18.4, 7.6, 6.813)).regions().widths
    assert_told(widths)
    assert [step.result.value for step in widths[1:3]] == pytest.approx([1.363, 3.407], abs=5.1e-4)


@pytest.mark.parametrize("name", ROOFS)
def test_regions_cover_the_slope_once(name: str) -> None:
    roof = ROOFS[name]
    regions = SlopeZones.of(roof).regions()
    at = regions.places
    area = ((at.right - at.left) * (at.high - at.low)).sum()
    assert area == pytest.approx(roof.length * roof.slope_length, rel=1e-3)
    assert regions.names[int(regions.zone.max())] in ("F", "Fup", "G")


@pytest.mark.parametrize("name", [name for name in ROOFS if "slope" not in name and name != "high and short"])
def test_the_image_of_a_place_has_the_same_coefficient(name: str) -> None:
    roof = ROOFS[name]
    for left, low, wide, high in ((0.0, 0.0, 1.0, 1.2), (3.0, 2.0, 2.0, 1.0), (7.1, 5.0, 1.7, 1.1)):
        image = roof.length - left - wide
        for case in (UP, DOWN):
            one = cpe(roof, case, place(left, low, left + wide, low + high), 3.0)
            assert one == pytest.approx(cpe(roof, case, place(image, low, image + wide, low + high), 3.0)), case


def test_a_corner_of_a_flat_roof_by_hand() -> None:
    """e = min(30, 12) and min(20, 12): F -2.5 to 1 m², -1.8 from 10 m²; at sqrt(10) m² the mean of both."""
    roof = ROOFS["flat"]
    for area, by_hand in ((0.5, -2.5), (1.0, -2.5), (np.sqrt(10), -2.15), (10.0, -1.8), (50.0, -1.8)):
        assert cpe(roof, UP, place(0.2, 0.2, 0.8, 0.8), float(area)) == pytest.approx(by_hand)
    assert cpe(roof, UP, place(14.0, 9.0, 15.0, 10.0), 20.0) == pytest.approx(-0.2)  # beyond e/2 = 6 m of every edge
    assert cpe(roof, DOWN, place(14.0, 9.0, 15.0, 10.0), 20.0) == pytest.approx(0.2)


def test_the_worst_of_all_zones_touched_counts() -> None:
    """A module that just reaches G has all of G, whichever wind."""
    roof = ROOFS["flat"]
    depth = 1.2  # e/10
    assert cpe(roof, UP, place(12.0, depth - 0.01, 14.0, 3.0), 20.0) == pytest.approx(-1.2)
    assert cpe(roof, UP, place(12.0, depth, 14.0, 3.0), 20.0) == pytest.approx(-0.7)


def test_slopes_up_to_45_deg_and_less_than_5() -> None:
    """Less than 5 deg is flat: no J. At 45 deg nothing lifts the windward slope, and 0.7 presses it."""
    assert "J" not in SlopeZones.of(ROOFS["low gable"]).names
    steep = Winds(building("gable", 45.0, 30.0, 20.0, 14.0))
    assert steep.pair("F", EAVE) == (0.0, 0.0)
    assert steep.pair("F", EAVE, down=True) == (0.7, 0.7)
    assert steep.pair("J", HIGH) == (-0.3, -0.3)


def test_zones_of_a_high_and_short_roof_are_clipped() -> None:
    """8 x 6 m, 15 m high: along the ridge e is 6 m, so H ends at 3 m; across it e is 8 m, and J is 0.8 m wide."""
    winds = Winds(ROOFS["high and short"])
    assert all(0 <= end <= 8.0 for zone in SlopeZones.of(winds.of).zones for end in zone.x)
    assert all(0 <= end <= 3.0 + 1e-9 for zone in SlopeZones.of(winds.of).zones for end in zone.y)
    assert winds.zones("J", HIGH)[0].y == pytest.approx((2.2, 3.0))


@pytest.mark.parametrize("name", ROOFS)
@pytest.mark.parametrize("case", [UP, DOWN])
def test_the_steps_can_be_evaluated_again(name: str, case: str) -> None:
    cladding = Cladding(SlopeZones.of(ROOFS[name]))
    for at in (place(0.1, 0.1, 1.0, 1.0), place(4.0, 2.5, 5.0, 3.0)):
        steps: list = []
        net = cladding.net(case, at, np.array([2.0]), steps.append)
        assert_told(steps)
        assert steps[-1].result.value == pytest.approx(float(net[0]))

"""Zone maps by points: ASCE 7-16 and 7-22, Figs. 30.3-2A to 2D and 30.3-5A, from public sources."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engine.loads.asce7.gcp_figures import gcp_figure
from engine.loads.asce7.roof_zones import strip_width, width_steps, zones
from engine.mounting.layout import Rectangles
from engine.project.building import Building
from engine.units import FOOT
from support import assert_told


def building(**changes: object) -> Building:
    plain = {"length": "100 ft", "width": "60 ft", "mean_roof_height": "20 ft", "slope": "0 deg", "roof_shape": "flat"}
    return Building.model_validate(plain | changes)


def zone_at(place: tuple[float, float], of: Building, edition: str = "ASCE 7-16") -> str:
    told = gcp_figure(edition, of.roof_shape, of.slope)
    assert told
    names = told.zone_names
    x, y = (np.array([value * FOOT]) for value in place)
    return names[int(zones(edition, of, Rectangles(x, y, x, y), names)[0])]


@pytest.mark.parametrize(
    ("place", "zone"),
    [((1, 1), "3"), ((3, 11), "3"), ((5, 5), "2"), ((3, 13), "2"), ((50, 3), "2"), ((13, 13), "1"), ((23.9, 30), "1"), ((24.1, 30), "1'"),
     ((50, 30), "1'"), ((99, 59), "3"), ((97, 49), "3"), ((50, 58), "2")],
)  # fmt: skip
def test_low_slope_zones_by_points(place: tuple[float, float], zone: str) -> None:
    """Plan 100 x 60 ft, h 20 ft: points by hand, and their mirror images."""
    assert zone_at(place, building()) == zone


def test_widths_that_the_calculation_prints() -> None:
    """The borders of the points above, h 20 ft: corner arms 4 ft, strip 12 ft, zone 1' from 24 ft; a gable's strip a."""
    low = list(width_steps("ASCE 7-16", building()))
    assert [step.result.value for step in low] == pytest.approx([4, 12, 24])
    gable = building(roof_shape="gable", slope="15 deg")
    (strip,) = width_steps("ASCE 7-16", gable)
    assert strip.result.value == pytest.approx(strip_width(gable) / FOOT) == pytest.approx(6)
    assert_told([*low, strip])


def test_strip_width() -> None:
    """a = the least of 10 % of the least width and 0.4 h, not below 4 % or 3 ft."""
    assert strip_width(building()) / FOOT == pytest.approx(6.0)
    assert strip_width(building(mean_roof_height="10 ft")) / FOOT == pytest.approx(4.0)
    assert strip_width(building(width="20 ft")) / FOOT == pytest.approx(3.0)
    assert strip_width(building(length="400 ft", width="300 ft", mean_roof_height="10 ft")) / FOOT == pytest.approx(
        12.0
    )


@pytest.mark.parametrize(
    ("edition", "slope", "expected"),
    [
        (
            "ASCE 7-16",
            "6:12",
            {"eave": "2e", "rake": "2n", "ridge": "2r", "eave corner": "3e", "ridge corner": "3r", "middle": "1"},
        ),
        (
            "ASCE 7-22",
            "4:12",
            {"eave": "1", "rake": "2", "ridge": "2", "eave corner": "2", "ridge corner": "3", "middle": "1"},
        ),
        (
            "ASCE 7-22",
            "27 deg",
            {"eave": "1", "rake": "2", "ridge": "2", "eave corner": "2", "ridge corner": "3", "middle": "1"},
        ),
        (
            "ASCE 7-22",
            "27.5 deg",
            {"eave": "1", "rake": "2", "ridge": "1", "eave corner": "3", "ridge corner": "2", "middle": "1"},
        ),
        (
            "ASCE 7-22",
            "9:12",
            {"eave": "1", "rake": "2", "ridge": "1", "eave corner": "3", "ridge corner": "2", "middle": "1"},
        ),
    ],
)
def test_gable_zones_by_points(edition: str, slope: str, expected: dict[str, str]) -> None:
    of = building(roof_shape="gable", slope=slope)
    top = of.slope_length / FOOT
    places = {
        "eave": (50, 1),
        "rake": (1, top / 2),
        "ridge": (50, top - 1),
        "eave corner": (1, 1),
        "ridge corner": (1, top - 1),
        "middle": (50, top / 2),
    }
    assert {name: zone_at(place, of, edition) for name, place in places.items()} == expected


def test_monoslope_zones_by_points() -> None:
    """Fig. 30.3-5A: low corners 3, high corners 3', high strip and rakes 2', low strip 2."""
    of = building(roof_shape="monoslope", slope="5 deg")
    top = of.slope_length / FOOT
    places = {(1, 1): "3", (1, top - 1): "3'", (50, top - 1): "2'", (50, 1): "2", (1, 30): "2'", (50, 30): "1"}
    assert {place: zone_at(place, of) for place in places} == places


@given(
    st.floats(0, 100),
    st.floats(0, 60),
    st.sampled_from(["flat", "gable", "monoslope"]),
    st.sampled_from(["2 deg", "6:12"]),
)
@settings(max_examples=200, deadline=None)
def test_mirror_the_roof_mirror_the_zones(x: float, y: float, shape: str, slope: str) -> None:
    of = (
        building(roof_shape=shape, slope="2 deg" if shape == "flat" else slope)
        if (shape, slope) != ("monoslope", "6:12")
        else building(roof_shape=shape, slope="20 deg")
    )
    y = min(y, of.slope_length / FOOT)
    assert zone_at((x, y), of) == zone_at((100 - x, y), of)

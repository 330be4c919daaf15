"""Where zones end, each border looked at from both sides, ASCE 7 Figs. 30.3-2B to 2D, 30.3-5A and 5B.

Plan 100 x 60 ft, h 20 ft: a = min(6, 8) = 6 ft. Distances are horizontal, from the eave or its
opposite edge, and from the left rake.
"""

from __future__ import annotations

import math

import numpy as np
import pytest
from standards_fields import building

from engine.loads.asce7.gcp_figures import gcp_figure
from engine.loads.asce7.roof_zones import zones
from engine.mounting.layout import Rectangles
from engine.project.building import Building
from engine.units import FOOT

PLAN = {"length": "100 ft", "width": "60 ft"}


def zone_of(edition: str, of: Building, x: tuple[float, float], y: tuple[float, float]) -> str:
    """The zone of a rectangle, from and to in plan feet."""
    found = gcp_figure(edition, of.roof_shape, of.slope)
    assert found
    up = 1 / math.cos(math.radians(of.slope))
    left, right, low, high = (np.array([value * FOOT]) for value in (*x, y[0] * up, y[1] * up))
    return found.zone_names[int(zones(edition, of, Rectangles(left, low, right, high), found.zone_names)[0])]


def at(edition: str, of: Building, x: float, y: float) -> str:
    return zone_of(edition, of, (x, x), (y, y))


@pytest.mark.parametrize(
    ("x", "y", "to_10", "to_30"),
    [
        (50, 5.9, "2", "2"),
        (50, 6.1, "1", "1"),
        (5.9, 30, "2", "2"),
        (6.1, 30, "1", "1"),
        (11.9, 11.9, "3", "3"),
        (12.1, 11.9, "1", "1"),
        (11.9, 12.1, "1", "1"),
        (12.1, 5.9, "2", "2"),
        (50, 47.9, "1", "1"),
        (50, 48.1, "2'", "2"),
        (23.9, 48.1, "3'", "3"),
        (24.1, 48.1, "2'", "2"),
        (23.9, 47.9, "1", "1"),
        (76.1, 59, "3'", "3"),
    ],
)
@pytest.mark.parametrize("edition", ["ASCE 7-16", "ASCE 7-22"])
def test_monoslope(edition: str, x: float, y: float, to_10: str, to_30: str) -> None:
    """5A: low corners 2a x 2a, high strip 2a with corners 4a long, strips a elsewhere; 5B the same outlines (from memory)."""
    assert at(edition, building(roof_shape="monoslope", slope="8 deg", **PLAN), x, y) == to_10
    assert at(edition, building(roof_shape="monoslope", slope="20 deg", **PLAN), x, y) == to_30


def test_on_a_narrow_monoslope_both_corners_at_once_count_as_the_high_one() -> None:
    """Width 10 ft, a = 3 ft: 6 ft from either edge overlap; what touches 2' and 3 touches 3' too."""
    narrow = building(roof_shape="monoslope", slope="8 deg", length="100 ft", width="10 ft")
    assert zone_of("ASCE 7-16", narrow, (5, 5), (5, 5)) == "3'"


@pytest.mark.parametrize(
    ("edition", "slope", "expected"),
    [
        ("ASCE 7-16", "15 deg", ("2e", "1", "2n", "1", "1", "2r", "3e", "3r")),
        ("ASCE 7-16", "25 deg", ("2e", "1", "2n", "1", "1", "2r", "3e", "3r")),
        ("ASCE 7-16", "35 deg", ("2e", "1", "2n", "1", "1", "2r", "3e", "3r")),
        ("ASCE 7-22", "15 deg", ("1", "1", "2", "1", "1", "2", "2", "3")),
        ("ASCE 7-22", "25 deg", ("1", "1", "2", "1", "1", "2", "2", "3")),
        ("ASCE 7-22", "35 deg", ("1", "1", "2", "1", "1", "1", "3", "2")),
    ],
)
def test_gable(edition: str, slope: str, expected: tuple[str, ...]) -> None:
    """Strips of a = 6 ft at eave, rake and ridge (30 ft from the eave), their crossings, both sides of each border."""
    of = building(slope=slope, **PLAN)
    places = [(50, 5.9), (50, 6.1), (5.9, 15), (6.1, 15), (50, 23.9), (50, 24.1), (5.9, 5.9), (94.1, 24.1)]
    assert tuple(at(edition, of, x, y) for x, y in places) == expected


@pytest.mark.parametrize("slope", ["8 deg", "25 deg", "40 deg"])
@pytest.mark.parametrize(
    ("x", "y", "expected"),
    [
        (50, 5.9, "3"),
        (50, 6.1, "1"),
        (50, 23.9, "1"),
        (50, 24.1, "2"),
        (20 + 8.4, 20, "2"),
        (20 + 8.6, 20, "1"),
        (80 - 8.4, 20, "2"),
        (80 - 8.6, 20, "1"),
        (6.5, 5.9, "3"),
        (14.5, 6.1, "2"),
    ],
)
def test_hip(slope: str, x: float, y: float, expected: str) -> None:
    """a = 6 ft: the eave strip, the ridge's, and beside hips (x = y in plan) a at right angles, 6 x 1.414 = 8.49 ft along x."""
    assert at("ASCE 7-22", building(roof_shape="hip", slope=slope, **PLAN), x, y) == expected


@pytest.mark.parametrize("edition", ["ASCE 7-16", "ASCE 7-22"])
def test_a_module_over_a_border_takes_the_worse_zone(edition: str) -> None:
    of = building(slope="15 deg", **PLAN)
    inner, outer = zone_of(edition, of, (7, 13), (10, 13)), zone_of(edition, of, (5.5, 11.5), (10, 13))
    assert (inner, outer) == (("1", "2n") if edition == "ASCE 7-16" else ("1", "2"))


def test_low_slopes_have_no_ridge_zone_and_end_at_the_far_eave() -> None:
    """θ 5 deg: at the ridge of the 60 ft plan the nearest eave is 30 ft away, beyond 1.2h = 24 ft."""
    of = building(slope="5 deg", **PLAN)
    assert at("ASCE 7-16", of, 50, 29.9) == "1'"
    assert at("ASCE 7-16", building(slope="5 deg", roof_shape="flat", **PLAN), 50, 59) == "2"


def test_figures_change_where_they_say() -> None:
    """Fig. 2A to 7 deg (3 deg on single slopes), 2B to 20, 2C to 27, 2D to 45; 5A to 10, 5B to 30; nothing beyond."""
    clauses = {}
    for shape in ("flat", "gable", "monoslope"):
        for slope in (3, 3.1, 7, 7.1, 10, 10.1, 20, 20.1, 27, 27.1, 30, 30.1, 45):
            found = gcp_figure("ASCE 7-22", shape, slope)
            clauses[shape, slope] = found.reference.clause[-2:] if found else ""
    assert [clauses["gable", slope] for slope in (7, 7.1, 20, 20.1, 27, 27.1, 45)] == [
        "2A",
        "2B",
        "2B",
        "2C",
        "2C",
        "2D",
        "2D",
    ]
    assert [clauses["monoslope", slope] for slope in (3, 3.1, 10, 10.1, 30, 30.1)] == ["2A", "5A", "5A", "5B", "5B", ""]
    assert [clauses["flat", slope] for slope in (3, 7, 7.1)] == ["2A", "2A", ""]

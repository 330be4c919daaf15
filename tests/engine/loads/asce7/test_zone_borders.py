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
from engine.loads.asce7.roof_zones import Edges, monoslope_to_10, monoslope_to_30, touched_zones, zones
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
        (5.9, 30, "2'", "2"),
        (6.1, 30, "2'", "1"),
        (12.1, 30, "1", "1"),
        (11.9, 11.9, "3", "1"),
        (5.9, 5.9, "3", "2"),
        (12.1, 11.9, "1", "1"),
        (11.9, 12.1, "2'", "1"),
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
    """5A: low corners 2a x 2a are 3, rakes 2a wide 2', high strip 2a 2' with corners 4a long 3', low strip a 2.

    5B: high strip 2a is 2 with corners 4a long 3; low strip and rakes a wide are 2; no 3 at the low corners. From
    copies of the code adapted from ASCE 7-22, and for 5A an open-source implementation of the figure too.
    """
    assert at(edition, building(roof_shape="monoslope", slope="8 deg", **PLAN), x, y) == to_10
    assert at(edition, building(roof_shape="monoslope", slope="20 deg", **PLAN), x, y) == to_30


A = 2 * FOOT
CHECK_POINTS = {
    "5A": {(8, 2): "3'", (8.01, 2): "2'", (20, 4.01): "1", (4, 16.01): "3", (4.01, 17): "1", (20, 18): "2", (4, 10): "2'", (4.01, 10): "1"},
    "5B": {(8, 2): "3", (8.01, 2): "2", (20, 17.99): "1", (2, 10): "2", (2.01, 10): "1"},
}  # fmt: skip


@pytest.mark.parametrize(
    ("figure", "place", "zone"),
    [(figure, *check) for figure, checks in CHECK_POINTS.items() for check in checks.items()],
)
def test_monoslope_by_check_points(figure: str, place: tuple[float, float], zone: str) -> None:
    """Plan 40 ft along the eave x 20 ft, a 2 ft, x from a rake, y from the high edge; borders belong to the outer zone."""
    outward = 1e-6  # a point on a border is moved toward the edge of the roof
    x = np.array([(place[0] - outward) * FOOT])
    y = np.array([(place[1] + (outward if place[1] > 10 else -outward)) * FOOT])
    eave, rake = 20 * FOOT - y, np.minimum(x, 40 * FOOT - x)
    at_point = Edges(eave, y, rake, ridge=np.full(1, np.inf), hip=np.full(1, np.inf), upper=eave)
    touched = (monoslope_to_10 if figure == "5A" else monoslope_to_30)(A, at_point)
    order = ("1", "2", "2'", "3", "3'") if figure == "5A" else ("1", "2", "3")
    assert next((name for name in reversed(order) if name in touched and touched[name][0]), "1") == zone


@pytest.mark.parametrize(
    ("area", "gcp"),
    [(10, -1.8), (20, -1.8 + 0.6 * math.log10(2)), (25.1, -1.56), (50, -1.6 + 0.1 * math.log10(5)), (100, -1.5)],
)
@pytest.mark.parametrize("edition", ["ASCE 7-16", "ASCE 7-22"])
def test_a_part_in_zones_3_and_2_prime_has_the_larger_suction(edition: str, area: float, gcp: float) -> None:
    """Curves of 3 (-1.8 to -1.2) and 2' (-1.6 to -1.5) cross at 25.1 ft²: by hand at each area, never the smaller."""
    of = building(roof_shape="monoslope", slope="8 deg", **PLAN)
    figure = gcp_figure(edition, "monoslope", 8.0)
    assert figure
    left, right, low, high = (np.array([value * FOOT]) for value in (1.0, 4.0, 9.0, 16.0))
    touched = touched_zones(edition, of, Rectangles(left, low, right, high), figure.zone_names)
    assert {name for name, hit in zip(figure.zone_names, touched[0], strict=True) if hit} >= {"3", "2'"}
    assert float(figure.gcp("W up", touched, np.array([float(area)]))[0]) == pytest.approx(gcp, abs=1e-3)


def test_a_part_inside_the_low_corner_is_in_zone_3_alone() -> None:
    """100 ft² within 12 x 12 ft of the low corner: -1.2, not the -1.5 of the rake above it."""
    of = building(roof_shape="monoslope", slope="8 deg", **PLAN)
    figure = gcp_figure("ASCE 7-22", "monoslope", 8.0)
    assert figure
    left, right, low, high = (np.array([value * FOOT]) for value in (1.0, 11.0, 1.0, 11.0))
    touched = touched_zones("ASCE 7-22", of, Rectangles(left, low, right, high), figure.zone_names)
    assert float(figure.gcp("W up", touched, np.array([100.0]))[0]) == pytest.approx(-1.2)


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

"""How each method holds its modules, measured by hand from the scenarios' lengths."""

from __future__ import annotations

import numpy as np
import pytest

from engine.mounting.holding import Holding, find_holding
from engine.mounting.interface import Refusal
from engine.project.module import RatingBySupport
from support import context_of


def held(method: str, name: str = "kestrel_yard", spacing: float = 2, **changes: object) -> Holding:
    context = context_of(name, method, **changes)
    layout = context.uniform_layout(spacing)
    assert not isinstance(layout, Refusal)
    return find_holding(context.field, layout)


def test_rails_along_the_eave_hold_the_long_sides_of_portrait_modules() -> None:
    """The middle of a clamp zone of 250 mm to 500 mm is 375 mm from the corner; two rails with two clamps each."""
    holding = held("rail")
    assert (holding.side, holding.length, holding.rails) == ("long", pytest.approx(1.722), "across")
    np.testing.assert_allclose(holding.nearest, 0.375)
    np.testing.assert_allclose(holding.overhang, 0.375)
    assert set(holding.points) == {4}


def test_only_the_outermost_of_three_rails_count_for_the_overhang() -> None:
    holding = held("rail", methods__rail__rails_per_row=3, methods__rail__rail_place="toward eave")
    np.testing.assert_allclose(holding.nearest, 0.25)
    np.testing.assert_allclose(holding.overhang, 0.5)
    assert set(holding.points) == {6}


def test_rails_up_the_slope_hold_the_long_sides_of_landscape_modules() -> None:
    """Each rail lies over a rib, 12 in apart, in the zone of 150 mm to 500 mm from a corner."""
    up = {"methods__rail__runs": "up the slope", "module__clamp_zone": ["150 mm", "500 mm"]}
    holding = held("rail", "wren_workshop", **up)
    assert (holding.side, holding.length, holding.rails) == ("long", pytest.approx(1.722), "across")
    assert holding.within((0.15, 0.5)).all()
    assert not holding.within((0.25, 0.5)).all()
    assert set(holding.points) == {4}


def test_a_rack_holds_short_sides_at_their_corners() -> None:
    """Its two beams lie over the feet, which stand under the long edges: 1134 mm of short side, clamped at the ends."""
    holding = held("tilted_rack")
    assert (holding.side, holding.length, holding.rails) == ("short", pytest.approx(1.134), "across")
    np.testing.assert_allclose(holding.overhang, 0, atol=1e-9)
    assert set(holding.points) == {4}


def test_modules_on_seams_overhang_their_last_seam() -> None:
    """Second column: 40 ft + 1.7347 m is 13.9267 m from the rake; seams 23 and 24 at 0.6096 m: 704 mm and 409 mm."""
    holding = held("direct")
    assert (holding.side, holding.length, holding.rails) == ("long", pytest.approx(1.722), None)
    columns = holding.overhang[:24]
    assert columns[1] == pytest.approx(24 * 0.6096 - 13.9267, abs=1e-6)
    assert columns.max() == pytest.approx(0.7078, abs=1e-4)
    assert holding.nearest[1] == pytest.approx(13.9267 + 1.722 - 25 * 0.6096, abs=1e-6)
    assert set(holding.points) == {4}


@pytest.mark.parametrize(
    ("row", "fits"),
    [
        ({}, True),
        ({"side": "short"}, False),
        ({"hold": "bolt"}, False),
        ({"hold": "line"}, False),
        ({"rails": "across"}, True),
        ({"rails": "along"}, False),
        ({"points": 4}, True),
        ({"points": 5}, False),
        ({"zone": ["375 mm", "500 mm"]}, True),
        ({"zone": ["250 mm", "374 mm"]}, False),
    ],
)
def test_a_row_applies_only_if_all_of_it_holds(row: dict[str, object], fits: bool) -> None:
    """Two rails across the long sides, 375 mm from the corners: four clamps a module."""
    rating = {"test": "2400 Pa"}
    stated = RatingBySupport.model_validate({"side": "long", "up": rating, "down": rating, **row})
    assert held("rail").rated_by(stated).all() == fits
    assert held("rail").rated_by(stated).any() == fits


def test_a_row_for_four_points_does_not_rate_two_points() -> None:
    """Physics: rows for four points do not rate two or three. No method here has fewer than four: made up by hand."""
    ends = np.array([0.3, 0.3, 0.3])
    holding = Holding("long", 1.722, None, ends, ends, np.array([2, 3, 4]))
    rating = {"test": "2400 Pa"}
    row = RatingBySupport.model_validate({"side": "long", "points": 4, "up": rating, "down": rating})
    assert holding.rated_by(row).tolist() == [False, False, True]


def test_a_row_that_names_rails_does_not_rate_modules_without_rails() -> None:
    rating = {"test": "2400 Pa"}
    for rails in ("across", "along"):
        row = RatingBySupport.model_validate({"side": "long", "rails": rails, "up": rating, "down": rating})
        assert not held("direct").rated_by(row).any()

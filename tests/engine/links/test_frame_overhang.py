"""The part of a module's frame beyond its last support: lengths by hand, limits by judgement, no source."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest

from engine.comparison.compare import Column, compare
from engine.links import LINKS
from engine.links.frame_overhang import longest_overhang
from engine.links.trail import CalculationTrail
from engine.load_path.transfer import member_areas
from support import assert_told, scenario_of
from support.columns import demands

SIDE = 1.722
"""Long side of the module in the default scenario [m]."""


def column(method: str = "direct", name: str = "kestrel_yard", **changes: object) -> Column:
    """One method; the default scenario without the strength that it states for its frames."""
    (found,) = compare(scenario_of(name, **({"hardware__frame_moment": None} | changes)), (method,)).columns
    return found


def by_support(*rows: dict[str, Any]) -> dict[str, object]:
    rating = {"side": "long", "up": {"test": "2400 Pa"}, "down": {"test": "5400 Pa"}}
    return {"module__rating_up": None, "module__rating_down": None, "module__ratings": [rating | row for row in rows]}


def frame_open(of: Column) -> list[tuple[str, str]]:
    assert of.design
    entries = of.design.unchecked.still_open
    return [(entry.direction, entry.reason) for entry in entries if entry.link == "module_frame"]


@pytest.mark.parametrize(
    ("pressure", "longest"),
    [(1000, 0.545), (600, 0.574), (1600, 0.4305), (2500, 0.3444), (0, 0.574)],
)
def test_the_longest_overhang_by_the_makers_test(pressure: float, longest: float) -> None:
    """1722 mm, 1600 Pa, zone to L/4 = 430.5 mm: 430.5 √(1600/p), at most L/3 = 574 mm, by hand."""
    found = longest_overhang(SIDE / 4, SIDE, np.array([1600.0]), np.array([float(pressure)]))
    assert found[0] == pytest.approx(longest, abs=5e-4)


def test_an_overhang_of_708_mm_fails_at_any_pressure() -> None:
    pressure = np.linspace(0, 5000, 501)
    assert (longest_overhang(SIDE / 4, SIDE, np.full(501, 1600.0), pressure) < 0.708).all()


def test_two_columns_that_overhang_by_704_mm_are_over() -> None:
    """Default scenario: 704 mm and 708 mm, 41 % of the long side. At most 752 Pa of 1600 Pa: the third of the side,
    574 mm, is less than 500 mm √(1600/752) = 729 mm. Before, the frame was merely not checked."""
    found = column()
    check = found.checks["member"]
    assert found.status == "over"
    assert (check.link, check.measure) == ("module_frame", "overhang")
    assert check.demand == pytest.approx(0.7078, abs=1e-4)
    assert check.resistance == pytest.approx(SIDE / 3)
    assert check.utilisation == pytest.approx(0.7078 / 0.574, abs=1e-3)
    assert check.place.name == "overhang, module in row 1, column 15"
    overhang = demands(found).holding.overhang
    assert (overhang > 0.7).sum() == 2 * 6
    (over,) = [flag.text for flag in found.flags if flag.code == "over"]
    assert "overhang 27.87 in (708 mm), allowable 22.60 in (574 mm)" in over


def test_beyond_the_makers_zone_the_frame_is_not_checked_until_the_maker_writes_a_letter() -> None:
    """Plover Terrace: overhangs to 506 mm, clamp zone 250 mm to 500 mm: no more than a third of the side."""
    found = column(name="plover_terrace")
    outside = (~demands(found).holding.within((0.25, 0.5))).sum()
    reason = f"{outside} of 96 modules held outside the maker's zone"
    assert found.status == "incomplete"
    assert frame_open(found) == [("up", reason), ("down", reason)]
    assert found.checks["member"].utilisation == pytest.approx(0.506 / 0.574, abs=1e-3)


def test_a_support_nearer_to_the_corner_than_the_zone_is_outside_it() -> None:
    """The lower end of the zone alone puts all modules outside; the overhangs are as they were."""
    found = column(name="plover_terrace", module__clamp_zone=["520 mm", "861 mm"])
    assert frame_open(found)[0] == ("up", "96 of 96 modules held outside the maker's zone")


def test_inside_the_makers_zone_the_frame_needs_no_check_and_no_consent() -> None:
    """Wren Workshop: every overhang is longer than 100 mm and shorter than 600 mm."""
    found = column(name="wren_workshop", module__clamp_zone=["100 mm", "600 mm"])
    check = found.checks["member"]
    assert check.utilisation is None
    assert check.note.startswith("needs no check: every module is held inside the maker's zone")
    assert not frame_open(found)
    assert not [flag for flag in found.flags if flag.code == "edge_consent"]


def test_inside_a_zone_that_reaches_farther_than_a_third_of_the_side_the_makers_word_counts() -> None:
    """Zone to 750 mm: the 704 mm and 708 mm are inside, and were tested. Nothing is left to check."""
    found = column(**by_support({"zone": ["100 mm", "750 mm"]}))
    assert found.checks["member"].utilisation is None
    assert not frame_open(found)
    assert found.status != "over"


def test_rated_at_any_place_the_frame_may_overhang_a_quarter_of_its_side() -> None:
    """No zone: 708 mm over 430.5 mm; the row rates the module, so that nothing is unchecked."""
    found = column(**by_support({}))
    assert found.checks["member"].utilisation == pytest.approx(0.7078 / 0.4305, abs=1e-3)
    assert not frame_open(found)


def test_of_rows_that_do_not_reach_as_far_the_one_that_allows_the_longest_overhang_counts() -> None:
    """Wren Workshop: of the zones to 300 mm and to 400 mm the second allows more. The row for short sides and the one for
    eight points do not count."""
    rows = ({"zone": ["0 mm", "300 mm"]}, {"zone": ["0 mm", "400 mm"]}, {"side": "short"}, {"points": 8})
    found = column(name="wren_workshop", **by_support(*rows))
    used, check = demands(found), found.checks["member"]
    rating = np.where(used.module_pressure < 0, 1600.0, 3600.0)
    limit = np.minimum(0.4 * np.sqrt(rating / np.abs(used.module_pressure)), SIDE / 3)
    beyond = used.holding.overhang > 0.4 + 1e-6
    assert check.utilisation == pytest.approx((used.holding.overhang[:, None] / limit)[beyond].max())
    assert len(frame_open(found)) == 2


def test_where_no_row_is_for_this_way_of_support_a_quarter_of_the_side_is_the_limit() -> None:
    found = column(**by_support({"side": "short"}))
    assert found.checks["member"].resistance == pytest.approx(SIDE / 4)
    assert frame_open(found)[0] == ("up", "144 of 144 modules held outside the maker's zone")


def test_rails_and_racks_have_no_new_check() -> None:
    for method, member in (("rail", "rail"), ("tilted_rack", "rack")):
        found = column(method)
        assert found.checks["member"].link == member
        assert found.checks["module"].link == "module"
        assert not frame_open(found)
        assert not any("maker's zone" in check.note for check in found.checks.values())


def test_a_third_rail_in_the_middle_leaves_the_frame_proven_by_the_two_outer_ones() -> None:
    assert not frame_open(column("rail", methods__rail__rails_per_row=3, methods__rail__rail_place="toward eave"))


def test_sides_that_hang_too_far_beyond_the_rails_are_over() -> None:
    """Rails 780 mm from the corners in a zone that the scenario states so, a row of ratings that ends at 430 mm: 574 mm."""
    rails = {"module__clamp_zone": ["700 mm", "860 mm"], **by_support({"zone": ["100 mm", "430 mm"]})}
    found = column("rail", **rails)
    check = found.checks["module"]
    assert check.link == "module_frame"
    assert check.utilisation == pytest.approx(0.78 / 0.574)
    assert len(frame_open(found)) == 2
    assert found.checks["member"].link == "rail"


def test_with_the_frames_strength_stated_its_bending_is_the_check() -> None:
    """Over the last support w a²/2 with w = p b/2. 1103.6 Pa in D + S, 1.134 m, a 703.7 mm: 154.9 N m; the slope's pull
    along the roof turns the module a little more."""
    found = column(hardware__frame_moment="1000 lb ft")
    check, used = found.checks["member"], demands(found)
    assert check.dimension == "moment"
    assert not frame_open(found)
    snow = [combination.name for combination in used.combinations].index("D + S")
    lines, group = next(
        (lines, group)
        for lines, group in zip(used.layout.lines, used.members, strict=True)
        if used.layout.supports(lines)[0] - lines.start > 0.7
    )
    overhang = used.layout.supports(lines)[0] - lines.start
    pressure = used.module_pressure[lines.module[0, 0], snow]
    by_hand = pressure * 1.134 / 2 * overhang**2 / 2
    assert -group.strong[0, 0, snow] == pytest.approx(by_hand, rel=0.015)
    assert by_hand == pytest.approx(154.9, abs=0.1)


def test_the_wind_on_an_overhang_acts_at_its_own_area() -> None:
    """0.6D + 0.6W up: 704 mm by 567 mm is less area than the module has, and more pressure."""
    found = column(hardware__frame_moment="1000 lb ft")
    used = demands(found)
    number = [combination.name for combination in used.combinations].index("0.6D + 0.6W up")
    lines, group = next(
        (lines, group)
        for lines, group in zip(used.layout.lines, used.members, strict=True)
        if used.layout.supports(lines)[0] - lines.start > 0.7
    )
    overhang, module = used.layout.supports(lines)[0] - lines.start, lines.module[0, :1]
    area = member_areas(used.layout, lines)[1]
    assert area == pytest.approx(overhang * lines.width)
    force = used.forces_on_members.combined(module, np.array([0]), np.array([area]))[0][0, number]
    by_hand = force / used.field.area * 1.134 / 2 * overhang**2 / 2
    assert group.strong[0, 0, number] == pytest.approx(-by_hand, rel=0.005)
    assert -by_hand > 1.2 * -used.module_pressure[module[0], number] * 1.134 / 2 * overhang**2 / 2


@pytest.mark.parametrize(
    "changes",
    [{}, by_support({"zone": ["100 mm", "430 mm"]}), by_support({}), by_support({"side": "short"})],
    ids=["any support", "a row beyond its zone", "a row without a zone", "no row"],
)
def test_an_overhang_is_explained_to_its_own_figure(changes: dict[str, object]) -> None:
    found = column(**changes)
    link = next(link for link in LINKS if link.key == "member")
    steps = link.explain(CalculationTrail(demands(found)), found.checks["member"])
    assert_told(steps)
    assert steps[-1].result.value == pytest.approx(found.checks["member"].utilisation)
    (limit,) = [step for step in steps if step.symbol == "am"]
    assert limit.reference.document == "loadpath"
    assert ("sqrt" in limit.equation) == ("zone" in str(changes) or not changes)


def test_an_overhang_beyond_rails_is_explained_too() -> None:
    rails = {"module__clamp_zone": ["700 mm", "860 mm"], **by_support({"zone": ["100 mm", "430 mm"]})}
    found = column("rail", **rails)
    link = next(link for link in LINKS if link.key == "module")
    steps = link.explain(CalculationTrail(demands(found)), found.checks["module"])
    assert_told(steps)
    assert steps[-1].result.value == pytest.approx(0.78 / 0.574)

"""A module against the maker's rating for the way it is held; all pressures against ratings by hand."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest

from engine.comparison.compare import Column, compare
from engine.comparison.permit_checklist import permit_checklist
from engine.design.remedies import layout_may_help
from engine.links import LINKS
from engine.links.module import rated_modules
from engine.links.trail import CalculationTrail
from support import assert_told, scenario_of
from support.columns import demands


def row(up: float, down: float = 5400, side: str = "long", **more: object) -> dict[str, Any]:
    """A row of the maker's table, by test loads in Pa."""
    return {"side": side, "up": {"test": f"{up} Pa"}, "down": {"test": f"{down} Pa"}, **more}


def column(method: str, rows: list[dict[str, Any]], **changes: object) -> Column:
    by_support = {"module__rating_up": None, "module__rating_down": None, "module__ratings": rows}
    (found,) = compare(scenario_of(**by_support, **changes), (method,)).columns
    return found


def open_entries(of: Column, link: str) -> list[tuple[str, str, str]]:
    assert of.design
    entries = of.design.unchecked.still_open
    return [(entry.direction, entry.reason, entry.owner) for entry in entries if entry.link == link]


def consent(of: Column) -> list[str]:
    return [flag.text for flag in of.flags if flag.code == "edge_consent"]


OUTSIDE = [(direction, "outside the maker's ratings", "module maker") for direction in ("up", "down")]


def test_of_several_rows_that_apply_each_module_has_the_one_with_the_smallest_utilisation() -> None:
    """Rails at 375 mm: the row for short sides and the one for 0 to 300 mm do not apply. Of the two others one row must
    serve both ways: 3600 up with 2400 down, or 2400 up with 5400 down, each over 1.5."""
    rows = [row(9000, 9000, "short"), row(9000, 9000, zone=["0 mm", "300 mm"]), row(3600, 2400), row(2400, 5400)]
    found = column("rail", rows)
    pressure = demands(found).module_pressure
    up, down = np.maximum(-pressure, 0).max(axis=1), np.maximum(pressure, 0).max(axis=1)
    by_row = [np.maximum(up / 2400, down / 1600), np.maximum(up / 1600, down / 3600)]
    assert found.checks["module"].utilisation == pytest.approx(np.minimum(*by_row).max())
    assert set(rated_modules(demands(found)).best) <= {2, 3}
    assert not open_entries(found, "module")
    assert not consent(found)


@pytest.mark.parametrize(
    ("method", "rows"),
    [
        ("rail", [row(5400, side="short")]),
        ("rail", [row(5400, points=6)]),
        ("rail", [row(5400, rails="along")]),
        ("rail", [row(5400, zone=["0 mm", "374 mm"])]),
        ("tilted_rack", [row(5400, side="long")]),
        ("direct", [row(5400, points=6)]),
        ("direct", [row(5400, hold="bolt")]),
        ("direct", [row(5400, rails="across")]),
    ],
)
def test_a_module_that_no_row_rates_is_outside_the_makers_ratings_and_never_holds(
    method: str, rows: list[dict[str, Any]]
) -> None:
    found = column(method, rows)
    assert open_entries(found, "module") == OUTSIDE
    assert found.checks["module"].utilisation is None
    assert found.status != "holds"
    assert len(consent(found)) == 1


def test_the_rack_has_the_rating_of_short_sides() -> None:
    """1600 Pa test over 1.5 against uplift; the row for long sides would allow more."""
    found = column("tilted_rack", [row(5400), row(1600, 2400, "short")])
    pressure = demands(found).module_pressure
    used = np.maximum(-pressure * 1.5 / 1600, pressure * 1.5 / 2400).max()
    assert found.checks["module"].utilisation == pytest.approx(used)
    assert not open_entries(found, "module")
    assert not consent(found)


def test_modules_that_a_row_rates_are_checked_beside_others_that_none_rates() -> None:
    """Columns held from 250 mm to 650 mm are rated, those at 659 mm, 704 mm and nearer than 250 mm are not."""
    found = column("direct", [row(2400, zone=["250 mm", "650 mm"])])
    rated = demands(found).holding.within((0.25, 0.65))
    pressure = demands(found).module_pressure[rated]
    assert 0 < rated.sum() < len(rated)
    used = np.maximum(-pressure / 1600, pressure / 3600).max()
    assert found.checks["module"].utilisation == pytest.approx(used)
    assert open_entries(found, "module") == OUTSIDE
    assert consent(found)[0].startswith(f"{(~rated).sum()} of 144 modules are held outside the maker's ratings")


def test_a_third_rail_needs_no_consent_where_a_row_rates_the_two_outer_ones() -> None:
    """For any support the flag stays: the third rail lies outside the clamp zone."""
    third = {"methods__rail__rails_per_row": 3}
    assert not consent(column("rail", [row(2400, zone=["250 mm", "500 mm"])], **third))
    (for_any_support,) = compare(scenario_of(**third), ("rail",)).columns
    assert consent(for_any_support)[0].startswith("Some rails hold modules outside the clamp zone")


def test_a_plan_reviewer_reads_that_the_ratings_cover_how_modules_are_held() -> None:
    by_support = {"module__rating_up": None, "module__rating_down": None, "module__ratings": [row(2400)]}
    items = permit_checklist(compare(scenario_of(**by_support), ("rail",)))
    (item,) = [item for item in items if item.requirement.startswith("The module maker's consent")]
    assert item.statement == "not needed: modules are held as the maker's ratings say"


def test_the_letter_that_is_needed_says_how_the_modules_are_held() -> None:
    found = column("direct", [row(5400, points=6)])
    assert found.design
    (document,) = {entry.document for entry in found.design.unchecked.still_open if entry.link == "module"}
    assert document.startswith("letter that rates modules clamped at 4 points of their long sides, ")
    assert "27.87 in (708 mm) from a corner" in document


def test_another_layout_may_help_a_module_only_where_ratings_depend_on_its_support() -> None:
    link = next(link for link in LINKS if link.key == "module")
    weak = {"module__rating_up": {"design": "300 Pa"}}
    (stated,) = compare(scenario_of(**weak), ("rail",)).columns
    assert not link.depends_on_layout(demands(stated).job)
    assert stated.candidate
    assert stated.design
    assert stated.design.roof_alone
    assert not layout_may_help(stated.candidate, stated.design.roof_alone)
    assert link.depends_on_layout(demands(column("rail", [row(450)])).job)


def test_a_third_rail_is_tried_where_the_maker_rates_six_points_higher() -> None:
    """900 Pa test over 1.5 is less than the uplift, and clips of 900 lb hold it; six points are rated 2400 Pa."""
    rows = [row(900), row(2400, points=6)]
    found = column("rail", rows, roof__fastening__uplift={"allowable": "900 lb"})
    assert found.checks["module"].ratio < 1
    assert found.design
    assert set(demands(found).holding.points) == {6}


def test_the_row_is_named_where_the_utilisation_is_explained() -> None:
    found = column("rail", [row(3600, zone=["250 mm", "500 mm"])])
    link = next(link for link in LINKS if link.key == "module")
    steps = link.explain(CalculationTrail(demands(found)), found.checks["module"])
    assert_told(steps)
    (allowable,) = [step for step in steps if step.symbol == "Ra"]
    assert (
        "module rating for long side, clamp, 9.84 in (250 mm) to 19.69 in (500 mm) from a corner" in allowable.meaning
    )
    assert steps[-1].result.value == pytest.approx(found.checks["module"].utilisation)

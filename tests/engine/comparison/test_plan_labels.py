"""Labels on a roof plan: names of zones never across modules, numbers with room between them."""

from __future__ import annotations

import numpy as np
import pytest

from engine.comparison.compare import compare
from engine.comparison.plan_labels import numbered, row_numbers, zone_labels
from engine.comparison.roof_plan import Plan, plan
from engine.units import FOOT
from support import DRAWN, scenario_of


def plans(name: str, **changes: object) -> list[Plan]:
    return [plan(column.design) for column in compare(scenario_of(name, **changes)).columns if column.design]


@pytest.mark.parametrize("name", DRAWN)
def test_no_name_of_a_zone_lies_across_a_module(name: str) -> None:
    letter = 0.5
    for each in plans(name):
        labels, at = zone_labels(each, letter), each.modules
        assert {label.name for label in labels} == set(np.array(each.roof_zones.names)[np.unique(each.roof_zones.zone)])
        for label in labels:
            half = 0.4 * letter * len(label.name), 0.5 * letter
            touched = (at.left < label.x + half[0]) & (at.right > label.x - half[0])
            touched &= (at.low < label.y + half[1]) & (at.high > label.y - half[1])
            assert not touched.any(), label
            inside = (0 < label.x < each.length) and (0 < label.y < each.depth)
            assert inside == (label.points_at is None)


def test_a_zone_hidden_by_modules_is_named_beyond_the_rake_with_a_line_to_it() -> None:
    """A field of modules over the whole middle of the roof leaves zone 1 of Sparrow Lane no room for its name."""
    drawn = plans("sparrow_lane", array__origin=["1 ft", "1 ft"], array__rows=4, array__columns=8)[-1]
    beyond = [label for label in zone_labels(drawn, 0.15) if label.name == "1"]
    assert len(beyond) == 1
    assert beyond[0].x > drawn.length
    at, zones = drawn.roof_zones.places, drawn.roof_zones
    x, y = beyond[0].points_at or (0.0, 0.0)
    holds = (at.left <= x) & (x <= at.right) & (at.low <= y) & (y <= at.high)
    assert {zones.names[zone] for zone in zones.zone[holds]} == {"1"}


def test_ribs_are_numbered_with_room_between() -> None:
    """Ribs every 2 ft: at 7 ft a number every fifth, 10 ft apart, after the first; at 11 ft the fifth is too near."""
    ribs = 2 * FOOT * np.arange(21)
    assert (numbered(ribs, 1.5 * FOOT) + 1).tolist() == list(range(1, 22))
    assert (numbered(ribs, 7 * FOOT) + 1).tolist() == [1, 5, 10, 15, 20]
    assert (numbered(ribs, 8.5 * FOOT) + 1).tolist() == [1, 10, 15, 20]
    assert numbered(ribs[:1], 1.0).tolist() == [0]


@pytest.mark.parametrize("name", DRAWN)
def test_the_numbers_of_rows_are_those_of_the_schedule(name: str) -> None:
    for each in plans(name):
        rows = list(row_numbers(each, 0.0))
        assert len(rows) == each.attachments.row.max()
        for number, row in enumerate(rows, 1):
            own = np.flatnonzero(each.attachments.row == number) + 1
            assert (row.first, row.last) == (own[0], own[-1])
            assert row.left <= each.attachments.x[own[0] - 1] <= each.attachments.x[own[-1] - 1] <= row.right

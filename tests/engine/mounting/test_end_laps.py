"""End laps and expansion steps: the panels move against each other there, so that nothing may tie them together."""

from __future__ import annotations

import pytest

from engine.common.errors import InputError
from engine.comparison.compare import Column, compare
from engine.comparison.figures import value_of
from engine.units import FOOT
from support import scenario_of

METHODS = ("rail", "tilted_rack", "direct")


def column(method: str, **changes: object) -> Column:
    return compare(scenario_of(**changes), (method,)).columns[0]


@pytest.mark.parametrize("method", METHODS)
@pytest.mark.parametrize("lap", ["25 ft", "30 ft"])
def test_no_module_bridges_one(method: str, lap: str) -> None:
    """What crosses the line, with the gap in which neighbours share clamps, is left out; every other module stays."""
    whole, found = column(method), column(method, roof__end_laps=[lap])
    assert whole.design
    assert found.design
    at, y = found.design.field.outlines, float(lap.split(maxsplit=1)[0]) * FOOT
    assert ((at.high < y) | (at.low > y)).all()
    before = whole.design.field.outlines
    crossing = ((before.low - 0.0127 < y) & (before.high + 0.0127 > y)).sum()
    assert found.design.field.bridging == crossing
    assert value_of(found, "modules") == 144 - crossing
    assert any(flag.code == "modules_at_end_laps" for flag in found.flags) == bool(crossing)
    assert crossing or method == "tilted_rack"  # a lap may lie in the aisle between its rows


@pytest.mark.parametrize("method", METHODS)
def test_no_attachment_and_no_rail_lies_across_one(method: str) -> None:
    found = column(method, roof__end_laps=["25 ft"])
    assert found.design
    assert abs(found.design.layout.attachments.y - 25 * FOOT).min() > 0.0127 / 2


def test_rails_up_the_slope_end_at_one() -> None:
    up = {"methods__rail__runs": "up the slope", "module__clamp_zone": ["150 mm", "500 mm"]}
    (found,) = compare(scenario_of("wren_workshop", roof__end_laps=["12 ft"], **up), ("rail",)).columns
    assert found.design
    for lines in found.design.layout.lines:
        assert lines.end < 12 * FOOT or lines.start > 12 * FOOT


def test_a_lap_away_from_the_array_changes_no_layout() -> None:
    found, whole = column("direct", roof__end_laps=["10 ft", "53 ft"]), column("direct")
    assert value_of(found, "attachments") == value_of(whole, "attachments")
    assert not any(flag.code == "modules_at_end_laps" for flag in found.flags)
    assert any(flag.code == "end_laps" for flag in found.flags)


@pytest.mark.parametrize(
    ("laps", "sentence"),
    [
        (["30 ft", "20 ft"], "each length must be larger than the one before it"),
        (30, "write a length or a list of lengths"),
        (["x"], "with its unit"),
    ],
)
def test_a_wrong_list_is_refused(laps: object, sentence: str) -> None:
    with pytest.raises(InputError) as refused:
        scenario_of(roof__end_laps=laps)
    assert sentence in str(refused.value.problems[0])

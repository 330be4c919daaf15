"""Rails along the eave: positions in the clamp zones, share of a third rail, and remedies."""

from __future__ import annotations

import numpy as np
import pytest

from engine.comparison.compare import Column, compare
from engine.comparison.figures import value_of
from engine.mounting.influence import shares_of_lines
from engine.mounting.interface import Refusal
from engine.mounting.rail import Rail
from support import scenario_of

ZONES = {"module__length": "2 m", "module__clamp_zone": ["300 mm", "500 mm"]}


def rails(**changes: object) -> Column:
    return compare(scenario_of(**ZONES | {"methods__rail__spacing": "2 ribs"} | changes), ("rail",)).columns[0]


def test_rows_of_portrait_modules_keep_the_gap_both_ways() -> None:
    """Modules of 2 m by 1 m with 30 mm between; as many columns as fit the width of 24 in landscape.

    By hand: 24 x 2.03 / 1.03 = 47.
    """
    job = scenario_of(**ZONES, module__width="1 m", array__gap="30 mm", building__length="300 ft", array__rows=3).job
    field = Rail().place_modules(job)
    assert not isinstance(field, Refusal)
    left, low = (np.unique(side.round(9)) for side in (field.outlines.left, field.outlines.low))
    assert len(left) == 47
    np.testing.assert_allclose(np.diff(left), 1.03)
    np.testing.assert_allclose(np.diff(low), 2.03)
    np.testing.assert_allclose(field.outlines.right - field.outlines.left, 1.0)
    np.testing.assert_allclose(field.outlines.high - field.outlines.low, 2.0)
    assert field.modules == 72
    assert field.attitude.tilt == 0.0


@pytest.mark.parametrize(
    ("place", "expected"),
    [
        ("middle", [0.4, 1.6]),
        ("outer", [0.3, 1.7]),
        ("inner", [0.5, 1.5]),
        ("toward eave", [0.3, 1.5]),
        ("toward ridge", [0.5, 1.7]),
    ],
)
def test_rails_lie_in_the_clamp_zones(place: str, expected: list[float]) -> None:
    """Zones of 0.3 to 0.5 m from either short edge of a module of 2 m."""
    design = rails(methods__rail__rail_place=place).design
    assert design
    for line in design.layout.lines:
        row = design.field.outlines.low[line.module[0, 0]]
        assert np.unique(np.round(line.across - row, 9))[:2] == pytest.approx(expected)


def test_a_third_rail_lies_at_the_middle_and_carries_most() -> None:
    """Of three supports under an even load the middle one carries most.

    Spans of 1 m with overhangs of 0.4 m, by the three-moment equation.
    """
    design = rails(module__clamp_zone=["300 mm", "500 mm"], methods__rail__rails_per_row=3).design
    assert design
    assert {len(line) % 3 for line in design.layout.lines} == {0}
    line = design.layout.lines[0]
    low = design.field.outlines.low[line.module[0, 0]]
    assert (line.across - low)[:3] == pytest.approx([0.4, 1.0, 1.6])
    # per unit of load a metre: M over an outer rail = -c²/2; two even spans a: 4 a M + 2 a M(outer) = -a³/2
    over_end = -(0.4**2) / 2
    over_middle = -(0.6**2) / 8 - over_end / 2
    middle = 2 * (0.6 / 2 + (over_end - over_middle) / 0.6)
    assert line.share[1::3] * 2 == pytest.approx(np.full((len(line) // 3,), middle / 2))


def test_along_slope_load_turns_a_module_about_its_middle() -> None:
    """Three lines, unevenly placed: a couple at the middle equals two opposite forces very close together."""
    lines, arm, height = np.array([0.2, 0.9, 1.8]), 1e-5, 0.07
    _, couple = shares_of_lines(lines, 0.0, 2.0, height)
    above, below = (
        shares_of_lines(lines, 1.0 + side * arm / 2 - 1e-9, 1.0 + side * arm / 2 + 1e-9, height)[0] for side in (1, -1)
    )
    assert couple == pytest.approx(-height * (above - below) / arm, abs=1e-5)


def test_remedies_of_rails_in_groups() -> None:
    """The same rails staggered, moved in their zones, or both; then with a third. Up the slope rails are not moved."""

    def tried(rail: Rail) -> list[set[tuple[str, str, int]]]:
        return [{(each.lines, each.rail_place, each.rails_per_row) for each in group} for group in rail.remedies()]

    with_a_third = {("in line", "middle", 3), ("staggered", "middle", 3)}
    places = ("middle", "toward eave", "toward ridge")
    same_rails = {(lines, place, 2) for lines in ("in line", "staggered") for place in places}
    assert tried(Rail()) == [same_rails - {("in line", "middle", 2)}, with_a_third]
    assert tried(Rail(runs="up the slope")) == [{("staggered", "middle", 2)}, with_a_third]
    assert ("in line", "middle", 3) not in tried(Rail(rails_per_row=3))[1]


def test_a_rail_that_holds_at_no_span_is_attached_at_every_rib() -> None:
    weak = {"hardware__rail__moment_strong": "1 lb ft", "hardware__rail__moment_weak": "1 lb ft"}
    column = rails(**weak, methods__rail__spacing="rail span")
    assert value_of(column, "rail_span_limit_m") is None
    assert value_of(column, "spacing") == "every seam"

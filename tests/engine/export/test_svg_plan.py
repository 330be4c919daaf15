"""The drawn roof plan shows the rafters where their place is known."""

from __future__ import annotations

import datetime

from engine.comparison.compare import compare
from engine.comparison.roof_plan import plan
from engine.export.stamp import Stamp
from engine.export.svg_plan import plan_svg
from support import scenario_of


def drawn(name: str) -> str:
    comparison = compare(scenario_of(name), ("rail",))
    (column,) = comparison.columns
    assert column.design
    return plan_svg(comparison, column, plan(column.design), Stamp(datetime.date(2026, 3, 4)))


def test_rafters_are_drawn_where_they_are_known() -> None:
    """44 ft with rafters at 22.5 + 24 k in: 22 of them."""
    house, other = drawn("swallow_cottage"), drawn("sparrow_lane")
    assert "Dotted upright lines: rafters" in " ".join(house.split())
    assert "rafters" not in other
    supports = len(scenario_of("swallow_cottage").job.roof.supports(scenario_of("swallow_cottage").job.building))
    assert house.count('class="support"') == supports + 22

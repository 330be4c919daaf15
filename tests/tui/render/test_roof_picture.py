"""The roof from above: names stand apart."""

from __future__ import annotations

import re

import pytest

from engine.comparison.compare import compare
from engine.comparison.roof_plan import plan
from support import scenario_of
from tui.render import roof_picture


@pytest.mark.parametrize("width", [78, 120, 160])
def test_a_zone_is_named_once_in_a_row(width: int) -> None:
    """Wren Workshop's eave has two narrow parts of zone 2e beside the wide one."""
    (column,) = compare(scenario_of("wren_workshop"), ("direct",)).columns
    assert column.design
    rows = roof_picture.draw(plan(column.design), roof_picture.Marks(), "us", width, 24).plain.split("\n")
    for zone in ("2r", "2e"):
        assert [len(named) for row in rows if (named := re.findall(rf"\b{zone}\b", row))] == [1], zone
    assert any("zone 2e" in row for row in rows)

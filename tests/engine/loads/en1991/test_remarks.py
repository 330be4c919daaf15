"""Remarks on loads by EN 1991."""

from __future__ import annotations

import pytest

from engine.comparison.compare import compare
from support import scenario_of


def flags(**changes: object) -> dict[str, str]:
    (column,) = compare(scenario_of("dunlin_hall", **changes), ("direct",)).columns
    return {flag.code: flag.text for flag in column.flags}


def test_the_height_that_counts_is_said() -> None:
    """Half of the rise of 15 m at 6 deg, 0.788 m, above the mean height of 7.5 m."""
    assert "8.288 m (27.19 ft)" in flags()["height"]


@pytest.mark.parametrize(("slope", "said"), [("3.9 deg", False), ("4.2 deg", True), ("5 deg", False)])
def test_a_slope_of_nearly_five_degrees_is_said(slope: str, said: bool) -> None:
    assert ("nearly_five" in flags(building__slope=slope, site__cp_net="cautious fallback")) == said


def test_snow_that_is_not_computed_is_said_where_there_is_snow() -> None:
    assert "snow_drift" in flags()
    assert "snow_drift" not in flags(site__ground_snow="0 kPa")


def test_the_national_annex_is_to_be_checked() -> None:
    assert "national annex" in flags()["national"]

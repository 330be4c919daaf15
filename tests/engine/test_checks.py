"""Links one by one: what is asked, put beside a stated strength by hand."""

from __future__ import annotations

import numpy as np
import pytest

from engine.checks.check import Check
from engine.comparison import compare
from engine.demands import Demands
from engine.units import POUND_FORCE
from support import scenario_of


def link(name: str, method: str = "direct", **changes: object) -> tuple[Check, Demands]:
    """A link's check, and the demands it is held against."""
    (column,) = compare(scenario_of(**changes), (method,)).columns
    assert column.design
    assert column.design.attempt
    return next(check for check in column.links if check.link == name), column.design.attempt.demands


def test_a_fastening_is_pushed_down_against_its_stated_bearing() -> None:
    check, demands = link("roof_fastening", roof__fastening__bearing={"allowable": "50 lb"})
    assert check.place.name.endswith("pushed down")
    assert check.demand == pytest.approx(np.max(demands.fastening))
    assert check.utilisation == pytest.approx(np.max(demands.fastening) / (50 * POUND_FORCE))
    assert "pushing down" not in check.note


def test_without_a_stated_bearing_it_says_so() -> None:
    check, _ = link("roof_fastening")
    assert "pushing down not checked: no bearing strength is stated" in check.note

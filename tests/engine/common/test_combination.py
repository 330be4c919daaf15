"""What a strength known only by its allowable may carry, where a standard divides strengths itself and where it does not."""

from __future__ import annotations

import pytest

from engine.common.combination import Combination


def test_an_allowable_stands_as_it_is_or_is_divided_by_the_standards_factor() -> None:
    assert Combination("D", {"D": 1.0}).of_allowable(350.0) == 350.0
    assert Combination("D", {"D": 1.0}, partial_factor=1.25).of_allowable(350.0) == pytest.approx(280.0)
    assert Combination("D", {"D": 1.0}).duration == "permanent"

"""American Wood Council, solved example of lag screw withdrawal: 1/2 in, G 0.55, 2.1875 in of thread: 437 lb/in, 955 lb.

And two anchors for a #10 wood screw from the same clause: 135 lb/in (G 0.50), 95.5 lb/in (G 0.42).
"""

from __future__ import annotations

import pytest

from engine.combination import Combination
from engine.strength import strength
from engine.strength.wood_screws import WoodScrews, lag_withdrawal, wood_screw_withdrawal
from engine.units import POUND_FORCE


def test_lag_example() -> None:
    """They multiply the rounded 437 lb/in."""
    assert lag_withdrawal(0.55, 0.5) == pytest.approx(437, abs=0.5)
    assert 437 * 2.1875 == pytest.approx(955, abs=1)


def test_number_ten() -> None:
    assert wood_screw_withdrawal(0.50, 0.190) == pytest.approx(135, abs=0.5)
    assert wood_screw_withdrawal(0.42, 0.190) == pytest.approx(95.5, abs=0.05)


def test_duration_follows_the_combination() -> None:
    """CD 1.6 for wind, 1.15 for snow, 0.9 for permanent load, NDS Table 2.3.2."""
    screws = WoodScrews(wood_screws=2, size="#10", thread="1 in", specific_gravity=0.42)
    for duration, factor in (("wind", 1.6), ("snow", 1.15), ("permanent", 0.9)):
        answer = strength((screws,)).resistance(Combination("any", {}, duration)) / POUND_FORCE
        assert answer == pytest.approx(2 * 95.5 * factor, rel=1e-3)

"""Printed: American Wood Council, solved example of lag screw withdrawal: 1/2 in, G 0.55, 2.1875 in of thread: 437 lb/in, 955 lb.

And two anchors for a #10 wood screw from the same chapter of the NDS: 135 lb/in (G 0.50), 95.5 lb/in (G 0.42).
"""

from __future__ import annotations

import pytest

from engine.strength.wood_screws import WoodScrews, lag_withdrawal, wood_screw_withdrawal
from engine.units import POUND_FORCE
from support.published import verified


def test_lag_example() -> None:
    """The source multiplies the rounded 437 lb/in.

    Tolerance half a unit of it over the thread, and half a pound of the product.
    """
    assert verified("lag 1/2 in, G 0.55", 437, lag_withdrawal(0.55, 0.5), "lb/in") == pytest.approx(437, abs=0.5)
    (mode,) = WoodScrews(lag=1, size="1/2 in", thread="2.1875 in", specific_gravity=0.55).modes()
    assert verified("2.1875 in of it", 955, mode.nominal / POUND_FORCE, "lb") == pytest.approx(
        955, abs=0.5 * 2.1875 + 0.5
    )
    assert mode.safety_factor == 1.0


def test_number_ten() -> None:
    assert verified("#10 wood screw, G 0.50", 135, wood_screw_withdrawal(0.50, 0.190), "lb/in") == pytest.approx(
        135, abs=0.5
    )
    assert verified("#10 wood screw, G 0.42", 95.5, wood_screw_withdrawal(0.42, 0.190), "lb/in") == pytest.approx(
        95.5, abs=0.05
    )

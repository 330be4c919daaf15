"""Printed: A published table of allowable pull-out of screws from steel, from an evaluation report: AISI S100 J4.4.1, Fu 45 ksi, Ω 3.0, in pounds.

Printed to the pound, so half a pound either way.
"""

from __future__ import annotations

import pytest

from engine.common.combination import Combination
from engine.strength import strength
from engine.strength.steel_screws import SteelScrews
from engine.units import POUND_FORCE
from support.published import verified

THICKNESSES = (0.018, 0.024, 0.030, 0.036, 0.048, 0.060, 0.075, 0.105)
TABLE = {"#10": (44, 58, 73, 87, 116, 145, 182, 254), "#12": (50, 66, 83, 99, 132, 165, 207, 289)}


@pytest.mark.parametrize(
    ("size", "thickness", "printed"),
    [
        (size, thickness, printed)
        for size, row in TABLE.items()
        for thickness, printed in zip(THICKNESSES, row, strict=True)
    ],
)
def test_every_entry(size: str, thickness: float, printed: int) -> None:
    screw = SteelScrews(screws=1, size=size, into=f"{thickness} in", tensile_strength="45 ksi", edition="to 2016")
    allowed = strength((screw,)).resistance(Combination("wind", {}, "wind"))
    assert verified(f"{size} screw in {thickness} in", printed, allowed / POUND_FORCE, "lb") == pytest.approx(
        printed, abs=0.5
    )

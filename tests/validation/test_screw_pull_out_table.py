"""A published table of pull-out allowables (an evaluation report), AISI S100, Fu 45 ksi, Ω 3.0, in pounds."""

from __future__ import annotations

import pytest

from engine.strength.steel_screws import DIAMETER, OLD, pull_out

THICKNESSES = (0.018, 0.024, 0.030, 0.036, 0.048, 0.060, 0.075, 0.105)
TABLE = {"#10": (44, 58, 73, 87, 116, 145, 182, 254), "#12": (50, 66, 83, 99, 132, 165, 207, 289)}


@pytest.mark.parametrize("size", TABLE)
def test_every_entry_within_a_pound(size: str) -> None:
    for thickness, printed in zip(THICKNESSES, TABLE[size], strict=True):
        ours = pull_out(thickness, DIAMETER[size], 45.0, OLD) / 3.0 * 1000
        assert ours == pytest.approx(printed, abs=1.0), thickness

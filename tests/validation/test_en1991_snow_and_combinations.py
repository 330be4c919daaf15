"""Printed: Steel Buildings in Europe, examples of snow and of combinations by EN 1991-1-3 and EN 1990.

The figures were copied from the published examples by way of a summary of them; no standard was read in print.
"""

from __future__ import annotations

import numpy as np
import pytest

from engine.loads.en1991.combinations import combinations
from engine.loads.en1991.national import NationalValues
from engine.loads.en1991.snow import shape_coefficient, snow_on_slopes
from support.european import site
from support.published import verified


def test_snow_on_a_duopitch_roof() -> None:
    """Printed: Steel Buildings in Europe, single-storey buildings, example page 48: sk 0.65, slope 8.5 deg."""
    ours = np.array(snow_on_slopes(site(ground_snow="0.65 kPa"), 8.5)) / 1000
    printed = np.array([[0.52, 0.52], [0.26, 0.52], [0.52, 0.26]])
    assert verified("s of (i), (ii), (iii)", printed, ours, "kN/m2") == pytest.approx(printed, abs=5e-4)


def test_shape_coefficient_of_a_steep_roof() -> None:
    """Library: desssign, mu1 at 45 deg where snow slides off: 0.4.

    Another public program has 0.5 (60 - a)/30 and its test confirms 0.25: that is wrong.
    """
    ours = shape_coefficient(45.0, sliding_prevented=False)
    assert verified("mu1", 0.4, ours) == pytest.approx(0.4)


def test_combinations() -> None:
    """Printed: Steel Buildings in Europe, multi-storey buildings, example page 14: snow or wind leading."""
    found = [each.factors for each in combinations(NationalValues.of(site(altitude="200 m")), ("S",))]
    for what, printed in (
        ("snow leading", {"D": 1.35, "S": 1.5, "W down": 0.9}),
        ("wind leading", {"D": 1.35, "S": 0.75, "W down": 1.5}),
    ):
        ours = next(each for each in found if dict(each) == pytest.approx(printed))
        assert verified(what, list(printed.values()), [ours[case] for case in printed]) == pytest.approx(
            list(printed.values())
        )

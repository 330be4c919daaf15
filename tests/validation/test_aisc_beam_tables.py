"""Printed: AISC, Steel Construction Manual, Tables 3-22c and 3-23, continuous beams on equal spans.

Reactions x wL, moments x wL²; or x P and PL, a point load at midspan. Printed to three decimals
(moments of four and five spans to four), so half a unit of the last digit is allowed.
"""

from __future__ import annotations

import numpy as np
import pytest

from engine.statics.continuous_beam import UnitForces, solve_beams
from support.published import verified

UNIFORM = {
    2: ([0.375, 1.25, 0.375], [-0.125]),
    3: ([0.400, 1.10, 1.10, 0.400], [-0.100, -0.100]),
    4: ([0.393, 1.143, 0.929, 1.143, 0.393], [-0.1071, -0.0714, -0.1071]),
    5: ([0.395, 1.132, 0.974, 0.974, 1.132, 0.395], [-0.1053, -0.0789, -0.0789, -0.1053]),
}
MIDSPAN = {
    2: ([0.3125, 1.375, 0.3125], -0.1875),
    3: ([0.35, 1.15, 1.15, 0.35], -0.150),
    5: ([0.342, 1.197, 0.961, 0.961, 1.197, 0.342], -0.158),
}


@pytest.mark.parametrize("spans", UNIFORM)
def test_uniform_load(spans: int) -> None:
    supports = np.arange(spans + 1.0)[None]
    answer = solve_beams(supports, UnitForces(np.zeros((1, 1)), np.full((1, 1), float(spans))))
    reactions, moments = UNIFORM[spans]
    for number, (printed, ours) in enumerate(zip(reactions, answer.reactions[0, :, 0] * spans, strict=True), 1):
        assert verified(f"{spans} spans, uniform load, reaction {number}", printed, ours, "wL") == pytest.approx(
            printed, abs=5.1e-4
        )
    for number, (printed, ours) in enumerate(
        zip(moments, answer.moments(supports)[0, 1:-1, 0] * spans, strict=True), 2
    ):
        assert verified(
            f"{spans} spans, uniform load, moment over support {number}", printed, ours, "wL²"
        ) == pytest.approx(printed, abs=5.1e-5)


@pytest.mark.parametrize("spans", MIDSPAN)
def test_a_point_load_at_every_midspan(spans: int) -> None:
    supports, middles = np.arange(spans + 1.0)[None], np.arange(spans)[None] + 0.5
    answer = solve_beams(supports, UnitForces(middles, middles))
    reactions, first = MIDSPAN[spans]
    for number, (printed, ours) in enumerate(zip(reactions, answer.reactions[0].sum(axis=1), strict=True), 1):
        assert verified(f"{spans} spans, P in every span, reaction {number}", printed, ours, "P") == pytest.approx(
            printed, abs=5.1e-4
        )
    ours = answer.moments(supports)[0, 1].sum()
    assert verified(f"{spans} spans, P in every span, moment over support 2", first, ours, "PL") == pytest.approx(
        first, abs=5.1e-4
    )


def test_one_point_load_at_the_middle_of_three_spans() -> None:
    supports, middle = np.arange(4.0)[None], np.array([[1.5]])
    answer = solve_beams(supports, UnitForces(middle, middle))
    for number, (printed, ours) in enumerate(
        zip([-0.075, 0.575, 0.575, -0.075], answer.reactions[0, :, 0], strict=True), 1
    ):
        assert verified(f"3 spans, P in the middle one, reaction {number}", printed, ours, "P") == pytest.approx(
            printed, abs=5e-4
        )
    assert verified(
        "3 spans, P in the middle one, moment under it", 0.175, answer.moments(middle)[0, 0, 0], "PL"
    ) == pytest.approx(0.175, abs=5e-4)


@pytest.mark.parametrize(("away", "part"), [(0.0, 1.0), (0.25, 0.879), (0.5, 0.599)])
def test_the_nearest_support_carries_more_than_half(away: float, part: float) -> None:
    """By hand: A point load on an interior span of five, influence coefficients calculated from the three-moment equation."""
    supports, place = np.arange(6.0)[None], np.array([[2.0 + away]])
    answer = solve_beams(supports, UnitForces(place, place))
    assert verified(f"support {away:g} L away", part, answer.reactions[0, 2, 0], "P") == pytest.approx(part, abs=5e-4)


def test_deflection_of_a_simple_span() -> None:
    """5wL⁴/384EI and PL³/48EI, AISC Manual Table 3-23, cases 1 and 7."""
    supports = np.array([[0.0, 2.0]])
    uniform = solve_beams(supports, UnitForces(np.zeros((1, 1)), np.full((1, 1), 2.0)))
    point = solve_beams(supports, UnitForces(np.ones((1, 1)), np.ones((1, 1))))
    assert verified(
        "1 span, uniform load, deflection", 5 / 384, uniform.deflections_ei[0, 0, 0] / (0.5 * 2**4), "wL⁴/EI"
    ) == pytest.approx(5 / 384)
    assert verified(
        "1 span, P at midspan, deflection", 1 / 48, point.deflections_ei[0, 0, 0] / 2**3, "PL³/EI"
    ) == pytest.approx(1 / 48)

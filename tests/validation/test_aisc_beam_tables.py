"""Continuous beams on equal spans, against the printed coefficients.

AISC, Steel Construction Manual, Tables 3-22c and 3-23 (reactions x wL, moments x wL²; point load
P at midspan of every span). Printed to three decimals (moments of four and five spans to four),
so half a unit of the last digit is allowed.
"""

from __future__ import annotations

import numpy as np
import pytest

from engine.beam import Spread, respond

UNIFORM = {
    2: ([0.375, 1.25, 0.375], [0, -0.125, 0]),
    3: ([0.400, 1.10, 1.10, 0.400], [0, -0.100, -0.100, 0]),
    4: ([0.393, 1.143, 0.929, 1.143, 0.393], [0, -0.1071, -0.0714, -0.1071, 0]),
    5: ([0.395, 1.132, 0.974, 0.974, 1.132, 0.395], [0, -0.1053, -0.0789, -0.0789, -0.1053, 0]),
}
MIDSPAN = {
    2: ([0.3125, 1.375, 0.3125], -0.1875),
    3: ([0.35, 1.15, 1.15, 0.35], -0.150),
    5: ([0.342, 1.197, 0.961, 0.961, 1.197, 0.342], -0.158),
}


@pytest.mark.parametrize("spans", UNIFORM)
def test_uniform_load(spans: int) -> None:
    supports = np.arange(spans + 1.0)[None]
    answer = respond(supports, Spread(np.zeros((1, 1)), np.full((1, 1), float(spans))), supports)
    reactions, moments = UNIFORM[spans]
    np.testing.assert_allclose(answer.reactions[0, :, 0] * spans, reactions, atol=5.1e-4)
    np.testing.assert_allclose(answer.moments[0, :, 0] * spans, moments, atol=5.1e-5)


@pytest.mark.parametrize("spans", MIDSPAN)
def test_a_point_load_at_every_midspan(spans: int) -> None:
    supports, middles = np.arange(spans + 1.0)[None], np.arange(spans)[None] + 0.5
    answer = respond(supports, Spread(middles, middles), supports)
    reactions, first = MIDSPAN[spans]
    np.testing.assert_allclose(answer.reactions[0].sum(axis=1), reactions, atol=5.1e-4)
    assert answer.moments[0, 1].sum() == pytest.approx(first, abs=5.1e-4)


def test_one_point_load_at_the_middle_of_three_spans() -> None:
    supports, middle = np.arange(4.0)[None], np.array([[1.5]])
    answer = respond(supports, Spread(middle, middle), middle)
    np.testing.assert_allclose(answer.reactions[0, :, 0], [-0.075, 0.575, 0.575, -0.075], atol=5e-4)
    assert answer.moments[0, 0, 0] == pytest.approx(0.175, abs=5e-4)


@pytest.mark.parametrize(("away", "part"), [(0.0, 1.0), (0.25, 0.879), (0.5, 0.599)])
def test_the_nearest_support_takes_more_than_half(away: float, part: float) -> None:
    """An interior span of five: the printed coefficients of influence lines, by calculation in the plan of record."""
    supports, place = np.arange(6.0)[None], np.array([[2.0 + away]])
    answer = respond(supports, Spread(place, place), supports)
    assert answer.reactions[0, 2, 0] == pytest.approx(part, abs=5e-4)


def test_deflection_of_a_simple_span() -> None:
    """5wL⁴/384EI and PL³/48EI, AISC Manual Table 3-23, cases 1 and 7."""
    supports = np.array([[0.0, 2.0]])
    uniform = respond(supports, Spread(np.zeros((1, 1)), np.full((1, 1), 2.0)), supports)
    point = respond(supports, Spread(np.ones((1, 1)), np.ones((1, 1))), supports)
    assert uniform.sags[0, 0, 0] == pytest.approx(5 * 0.5 * 2**4 / 384)
    assert point.sags[0, 0, 0] == pytest.approx(2**3 / 48)

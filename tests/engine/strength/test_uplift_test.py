"""The roof's uplift test: what it gives, how its factor is found, which roofs it refuses."""

from __future__ import annotations

import math

import pytest
from capacities import UPLIFT, pounds, read, refusal
from hypothesis import given, settings
from hypothesis import strategies as st

from engine.strength import strength
from engine.strength.test_statistics import SMALLEST_FACTOR, safety_factor
from engine.units import FOOT, INCH


def test_the_default_scenario() -> None:
    """By hand: 70 psf x 2 ft x 5 ft / 2 = 350 lb."""
    assert pounds(UPLIFT) == pytest.approx(350, rel=1e-12)


def test_three_tests_set_their_own_factor() -> None:
    """By hand, K2.1 with β 2.5, Mm 1.10, VF 0.05, CP 5.7, VP 0.065: root 0.2840, φ 0.8219, Ω 1.947; 700 lb / Ω = 359.6 lb."""
    root = math.sqrt(0.1**2 + 0.05**2 + 5.7 * 0.065**2 + 0.21**2)
    phi = 1.52 * 1.10 * math.exp(-2.5 * root)
    assert (root, phi, 1.6 / phi) == pytest.approx((0.2840, 0.8219, 1.947), abs=5e-4)
    assert pounds(UPLIFT | {"tests": 3}) == pytest.approx(359.6, abs=0.05)


@pytest.mark.parametrize(
    ("stated", "omega"),
    [({}, 2.0), ({"tests": 2}, 2.0), ({"safety_factor": 1.8}, 1.8), ({"safety_factor": 2.5, "tests": 9}, 2.5)],
)
def test_factor(stated: dict[str, object], omega: float) -> None:
    assert strength(read(UPLIFT | stated)).modes[0].safety_factor == omega


def test_the_least_factor() -> None:
    """max(1.67, K2.1): tests so good that φ is 0.97 still count 1.67; with φ 0.80 the tests decide, 2.0."""
    assert safety_factor(0.97, SMALLEST_FACTOR) == 1.67
    assert safety_factor(0.80, SMALLEST_FACTOR) == pytest.approx(2.0)


def test_wider_roofs_are_refused_and_closer_ones_gain_nothing() -> None:
    (test,) = read(UPLIFT)
    assert test.why_not_applicable(24 * INCH, 5 * FOOT) is None
    assert test.why_not_applicable(12 * INCH, 2 * FOOT) is None
    assert test.why_not_applicable(25 * INCH, 5 * FOOT) == (
        "the roof's rib spacing is 2.08 ft (0.635 m), the tested one 2.00 ft (0.610 m): give a test with at least the roof's spacing"
    )
    assert "fastening spacing" in (test.why_not_applicable(24 * INCH, 5.1 * FOOT) or "")


def test_spacings_are_compared_to_the_millimetre() -> None:
    (test,) = read(UPLIFT)
    assert test.why_not_applicable(0.610, 1.525) is None
    assert test.why_not_applicable(0.611, 1.524)


def test_point_loads_are_said_to_be_an_assumption() -> None:
    (way,) = read(UPLIFT)
    assert strength((way,)).cautions == (
        "the roof uplift test had uniform pressure; its use for point loads is an assumption: "
        "ask the roof maker for a test with the load of an attachment",
    )
    assert strength((way,)).cautions[0] in way.description()


def test_the_spacings_of_the_test_must_be_given() -> None:
    assert "required" in refusal({"tested_pressure": "70 psf"})
    assert refusal(UPLIFT | {"tests": 2, "scatter": 0.1}) == "'scatter' given; it needs 'tests' too, at least 3"


@given(st.floats(0.0, 0.3), st.floats(1.0, 2.0))
@settings(max_examples=30, deadline=None)
def test_more_scatter_never_more(scatter: float, times: float) -> None:
    calm, wild = (pounds(UPLIFT | {"tests": 3, "scatter": value}) for value in (scatter, scatter * times))
    assert wild <= calm * (1 + 1e-12)


@given(st.integers(3, 200))
@settings(max_examples=30, deadline=None)
def test_more_tests_of_the_same_scatter_never_less(tests: int) -> None:
    fewer, more = (pounds(UPLIFT | {"tests": number, "scatter": 0.15}) for number in (tests, tests + 1))
    assert more >= fewer * (1 - 1e-12)

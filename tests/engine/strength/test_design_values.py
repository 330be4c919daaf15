"""Characteristic values, tests by EN 1990 annex D, design resistances, and allowables with a factor."""

from __future__ import annotations

from math import sqrt

import pytest
from capacities import WIND, read, refusal

from engine.common.combination import Combination
from engine.strength import ModuleRating, strength

FACTORED = Combination("factored", {}, "wind", 1.25)


def newtons(written: object, own: bool = True) -> float:
    return strength(read(written)).resistance(FACTORED if own else WIND)


def test_a_design_resistance_is_not_divided_again() -> None:
    assert newtons({"design": "2.4 kN"}) == pytest.approx(2400)


def test_a_characteristic_value_has_the_standards_factor_or_its_own() -> None:
    """By hand: 3 kN / 1.25 and 3 kN / 1.33."""
    assert newtons({"characteristic": "3 kN"}) == pytest.approx(2400)
    assert newtons({"characteristic": "3 kN", "gamma_m": 1.33}) == pytest.approx(2255.6, abs=0.05)


def test_an_allowable_with_its_factor_is_both() -> None:
    written = {"allowable": "2 kN", "as_design_factor": 1.5}
    assert newtons(written) == pytest.approx(3000)
    assert newtons(written, own=False) == pytest.approx(2000)


def test_a_module_rating_keeps_the_factor_of_its_test() -> None:
    """IEC 61215: test over 1.5, whatever the partial factor of connections (judgement, safe)."""
    assert ModuleRating.model_validate({"test": "2400 Pa"}).mode().resistance(FACTORED) == pytest.approx(1600)


@pytest.mark.parametrize(
    ("tests", "kn"),
    [([10, 11, 12], 3.37), ([10, 10.5, 11, 11.5], 2.63), ([10, 10.2, 10.4, 10.6, 10.8, 11, 11.2], 2.18)],
)
def test_characteristic_value_of_tests(tests: list[float], kn: float) -> None:
    """EN 1990 table D1: m - kn s; seven tests count as six (safe)."""
    mean = sum(tests) / len(tests)
    deviation = sqrt(sum((each - mean) ** 2 for each in tests) / (len(tests) - 1))
    written = {"characteristic_tests": [f"{each} kN" for each in tests], "gamma_m": 1.0}
    assert newtons(written) == pytest.approx(1000 * (mean - kn * deviation), rel=1e-12)


@pytest.mark.parametrize(
    ("written", "words"),
    [
        ({"characteristic_tests": ["3 kN", "3 kN"]}, "2 tests given; at least three are needed"),
        (
            {"characteristic_tests": ["1 kN", "3 kN", "5 kN"]},
            "the tests scatter by 67%, which leaves no characteristic value",
        ),
        ({"characteristic_tests": "3 kN"}, "'3 kN' given; at least three"),
        ({"characteristic": "3 kN", "gamma_m": 0.9}, "allowed is 1 to 5"),
        ({"design": "3 kN", "gamma_m": 1.1}, "not permitted"),
        ({"allowable": "3 kN", "as_design_factor": 4}, "allowed is 0.1 to 3"),
    ],
)
def test_refusals(written: object, words: str) -> None:
    assert words in refusal(written)

"""The six ways: what they give, what they refuse, and how they must move."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from pydantic import BaseModel, ValidationError

from engine.combination import Combination
from engine.reference import Step
from engine.strength import Capacity, seam_objection, strength
from engine.units import POUND_FORCE

WIND = Combination("wind", {}, "wind")
FACTORED = Combination("factored", {}, "wind", 1.25)

WAYS: dict[str, dict[str, object]] = {
    "stated": {"allowable": "600 lb"},
    "tested": {"tested": "1500 lb", "safety_factor": 2.5},
    "uplift test": {"tested_pressure": "70 psf", "tested_rib_spacing": "24 in", "tested_fastening_spacing": "5 ft"},
    "three uplift tests": {"tested_pressure": "70 psf", "tested_rib_spacing": "24 in", "tested_fastening_spacing": "5 ft", "tests": 3},
    "screws": {"screws": 2, "size": "#12", "into": "16 ga", "tensile_strength": "65 ksi", "sheet": "24 ga", "washer": "0.5 in"},
    "wood": {"wood_screws": 2, "size": "#10", "thread": "15/32 in", "specific_gravity": 0.42},
    "pulls": {"pull_tests": ["520 lb", "610 lb", "575 lb"], "connection": "other"},
}


class Holder(BaseModel):
    capacity: Capacity


def read(written: object) -> tuple:
    return Holder.model_validate({"capacity": written}).capacity


def pounds(written: object, combination: Combination = WIND) -> float:
    return strength(read(written)).resistance(combination) / POUND_FORCE


def refusal(written: object) -> str:
    with pytest.raises(ValidationError) as refused:
        read(written)
    return " ".join(error["msg"] for error in refused.value.errors())


def test_what_the_simple_ways_give() -> None:
    """By hand: 600; 1500/2.5; 70 psf x 2 ft x 5 ft / 2."""
    assert pounds(WAYS["stated"]) == pytest.approx(600)
    assert pounds(WAYS["tested"]) == pytest.approx(600)
    assert pounds(WAYS["uplift test"]) == pytest.approx(350)


def test_three_tests_set_their_own_factor() -> None:
    """K2.1 with β 2.5, Mm 1.10, VF 0.05, CP 5.7 and VP 0.065, worked by hand: root 0.2858, φ 0.8185, Ω 1.955."""
    root = math.sqrt(0.1**2 + 0.05**2 + 5.7 * 0.065**2 + 0.21**2)
    omega = 1.6 / (1.52 * 1.10 * math.exp(-2.5 * root))
    assert pounds(WAYS["three uplift tests"]) == pytest.approx(700 / max(1.67, omega))


def test_wider_roofs_are_refused_and_closer_ones_gain_nothing() -> None:
    (test,) = read(WAYS["uplift test"])
    assert test.refuses(24 * 0.0254, 5 * 0.3048) is None
    assert test.refuses(12 * 0.0254, 2 * 0.3048) is None
    assert "rib spacing" in (test.refuses(25 * 0.0254, 5 * 0.3048) or "")
    assert "fastening spacing" in (test.refuses(24 * 0.0254, 5.1 * 0.3048) or "")


def test_the_lowest_mode_governs_and_is_named() -> None:
    capacity = read([WAYS["stated"], {"allowable": "410 lb"}, WAYS["tested"]])
    assert strength(capacity).resistance(WIND) / POUND_FORCE == pytest.approx(410)
    # by hand, a screw: pull-out 0.85 x 0.0568 x 0.216 x 65 / 3.0 = 226 lb, pull-over 0.90 x 0.0227 x 0.5 x 65 / 2.9 = 229 lb
    assert strength(read(WAYS["screws"])).governing(WIND).name == "pull-out"
    assert pounds(WAYS["screws"]) == pytest.approx(2 * 226, abs=1)


def test_a_partial_factor_takes_the_place_of_the_safety_factor() -> None:
    assert pounds(WAYS["tested"], FACTORED) == pytest.approx(1500 / 1.25)


@pytest.mark.parametrize("name", WAYS)
def test_steps_can_be_evaluated_again(name: str) -> None:
    """Every recorded equation, from its own recorded values."""
    names = {"log": math.log10, "exp": math.exp, "sqrt": math.sqrt, "min": min, "max": max}
    steps: list[Step] = [step for mode in strength(read(WAYS[name])).modes for step in mode.steps]
    assert steps
    for step in steps:
        if step.equation:
            values = {symbol: term.value for symbol, term in step.terms.items()}
            assert eval(step.equation, {"__builtins__": {}}, names | values) == pytest.approx(step.result.value, rel=1e-9)


@pytest.mark.parametrize(
    ("written", "words"),
    [
        ({}, "exactly one way"),
        ({"allowable": "600 lb", "tested": "900 lb"}, "exactly one way"),
        ({"allowable": 600}, "write a force"),
        ({"tested": "900 lb"}, "required"),
        ({"tested": "900 lb", "safety_factor": 0.5}, "allowed is 1 to 20"),
        ({"pull_tests": ["500 lb", "510 lb"], "connection": "other"}, "at least three"),
        ({"pull_tests": ["500 lb", "510 lb", "900 lb"], "connection": "other"}, "three more are needed"),
        ({"screws": 2, "size": "#11", "into": "16 ga", "tensile_strength": "65 ksi"}, "'#12'"),
        ({"screws": 2, "size": "#12", "into": "17 ga", "tensile_strength": "65 ksi"}, "16 ga"),
        ({"screws": 2, "size": "#12", "into": "16 ga", "tensile_strength": "65 ksi", "sheet": "24 ga"}, "go together"),
        ({"wood_screws": 2, "lag": 1, "size": "#10", "thread": "1 in", "specific_gravity": 0.42}, "exactly one of"),
        ({"lag": 1, "size": "#10", "thread": "1 in", "specific_gravity": 0.42}, "1/2 in"),
        ("600 lb", "exactly one way"),
        (600, "exactly one way"),
    ],
)
def test_what_cannot_be_known_says_what_would_do(written: object, words: str) -> None:
    assert words in refusal(written) or words in refusal(written).lower()


def test_screws_alone_do_not_hold_a_seam() -> None:
    assert seam_objection(read(WAYS["screws"]))
    assert seam_objection(read(WAYS["wood"]))
    assert seam_objection(read(WAYS["pulls"] | {"connection": "screw"}))
    assert seam_objection(read([WAYS["screws"], WAYS["stated"]])) is None
    assert seam_objection(read(WAYS["pulls"])) is None


def test_thin_hard_sheet_says_so() -> None:
    """29 ga Grade 80: outside the range of the equation's tests."""
    thin = {
        "screws": 1,
        "size": "#12",
        "into": "16 ga",
        "tensile_strength": "65 ksi",
        "sheet": "29 ga",
        "sheet_tensile_strength": "82 ksi",
        "washer": "0.5 in",
    }
    assert any("outside" in caution for caution in strength(read(thin)).cautions)


@given(st.floats(0.02, 0.2), st.floats(1.0, 2.0))
@settings(max_examples=60, deadline=None)
def test_thicker_never_weaker(thickness: float, times: float) -> None:
    screws = {"screws": 1, "size": "#12", "tensile_strength": "50 ksi"}
    thin, thick = (pounds(screws | {"into": f"{value:.6f} in"}) for value in (thickness, thickness * times))
    assert thick >= thin - 1e-9


@given(st.integers(1, 20))
@settings(max_examples=20, deadline=None)
def test_twice_the_screws_hold_twice(count: int) -> None:
    for way, key in (("screws", "screws"), ("wood", "wood_screws")):
        once, twice = (pounds(WAYS[way] | {key: number}) for number in (count, 2 * count))
        assert twice == pytest.approx(2 * once)


@given(st.floats(0.0, 0.3), st.floats(1.0, 2.0))
@settings(max_examples=60, deadline=None)
def test_more_scatter_never_more(scatter: float, times: float) -> None:
    calm, wild = (pounds(WAYS["three uplift tests"] | {"scatter": min(value, 1.0)}) for value in (scatter, scatter * times))
    assert wild <= calm + 1e-9


def test_one_more_mode_never_more() -> None:
    for name, way in WAYS.items():
        assert pounds([way, {"allowable": "450 lb"}]) == pytest.approx(min(pounds(way), 450)), name

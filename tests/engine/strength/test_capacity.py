"""The six ways together: which one a table is written in, the lowest mode, the steps, and what screws alone are no answer to."""

from __future__ import annotations

import pytest
from capacities import (
    BASES,
    LAG,
    PULLS,
    STATED,
    STEEL,
    TESTED,
    UPLIFT,
    WIND,
    WOOD,
    Holder,
    mode_pounds,
    pounds,
    read,
    refusal,
    shear_pounds,
)
from pydantic import ValidationError

from engine.common.combination import Combination
from engine.strength import FailureMode, seam_problem, shear_problem, shear_strength, strength
from engine.strength.capacity import BASES as KNOWN_BASES
from engine.strength.capacity import tag_of
from engine.strength.module_rating import ModuleRating
from engine.strength.stated_allowable import StatedAllowable
from engine.units import POUND_FORCE
from support import assert_told

FACTORED = Combination("factored", {}, "wind", 1.25)


def test_what_the_simple_ways_give() -> None:
    """By hand: 600; 1500/2.5."""
    assert pounds(STATED) == pytest.approx(600)
    assert pounds(TESTED) == pytest.approx(600)


def test_the_lowest_mode_governs_and_is_named() -> None:
    capacity = read([STATED, {"allowable": "410 lb"}, TESTED])
    assert strength(capacity).resistance(WIND) / POUND_FORCE == pytest.approx(410)
    assert strength(read([STATED, STEEL])).governing(WIND).name == "pull-out"


@pytest.mark.parametrize("name", BASES)
def test_one_more_mode_never_more(name: str) -> None:
    assert pounds([BASES[name], {"allowable": "450 lb"}]) == pytest.approx(min(pounds(BASES[name]), 450))


def test_a_module_is_rated_by_its_test_or_by_its_design_load() -> None:
    """IEC 61215: the test is with 1.5 times the design load, so 2400 Pa of test and 1600 Pa of design say the same."""
    test, design = (
        ModuleRating.model_validate(written).mode() for written in ({"test": "2400 Pa"}, {"design": "1600 Pa"})
    )
    assert test.resistance(WIND) == pytest.approx(1600)
    assert design.resistance(WIND) == pytest.approx(1600)


def test_a_partial_factor_takes_the_place_of_the_safety_factor() -> None:
    assert pounds(TESTED, FACTORED) == pytest.approx(1500 / 1.25)


def _modes(name: str) -> list[FailureMode]:
    capacity = read(BASES[name])
    return [*strength(capacity).modes, *shear_strength(capacity).modes]


@pytest.mark.parametrize("name", BASES)
def test_steps_can_be_evaluated_again(name: str) -> None:
    """Every recorded equation from its own recorded values; the last gives the mode's nominal strength or its safety factor."""
    for mode in _modes(name):
        assert mode.steps
        assert_told(mode.steps)
        found = {step.symbol: step.result for step in mode.steps}
        assert found["Rn"].unit == "lb"
        assert found["Rn"].value * POUND_FORCE == pytest.approx(mode.nominal, rel=1e-12)
        if "Omega" in found:
            assert found["Omega"].value == pytest.approx(mode.safety_factor, rel=1e-12)


@pytest.mark.parametrize("name", BASES)
def test_steps_hang_together(name: str) -> None:
    """Where a step uses an earlier one's symbol, it uses its value."""
    for mode in _modes(name):
        known: dict[str, float] = {}
        for step in mode.steps:
            for symbol, term in step.terms.items():
                assert term.value == pytest.approx(known.get(symbol, term.value), rel=1e-12), (step.symbol, symbol)
            known[step.symbol] = step.result.value


@pytest.mark.parametrize("combination", [WIND, FACTORED, Combination("0.6D", {}, "permanent")])
@pytest.mark.parametrize("name", BASES)
def test_the_answer_is_a_step_too(name: str, combination: Combination) -> None:
    for mode in _modes(name):
        resistance_step = mode.resistance_step(combination)
        assert_told([resistance_step])
        assert resistance_step.result.value * POUND_FORCE == pytest.approx(mode.resistance(combination), rel=1e-12)


@pytest.mark.parametrize("name", BASES)
def test_every_way_says_in_one_sentence_how_it_knows(name: str) -> None:
    for way in read(BASES[name]):
        assert way.description()
        assert "\n" not in way.description()


ALL_KEYS = (
    *("allowable", "tested", "tested_pressure", "screws", "wood_screws", "lag", "pull_tests"),
    *("design", "characteristic", "characteristic_tests"),
)
EVERY_WAY = " or ".join(f"{{ {key} = … }}" for key in ALL_KEYS)


@pytest.mark.parametrize(
    ("written", "sentence"),
    [
        ({}, f"an empty table given; write the strength in exactly one of these ways: {EVERY_WAY}"),
        ({"strong": True}, f"'strong' given; write the strength in exactly one of these ways: {EVERY_WAY}"),
        ("600 lb", f"'600 lb' given; write the strength in exactly one of these ways: {EVERY_WAY}"),
        (600, f"600 given; write the strength in exactly one of these ways: {EVERY_WAY}"),
        (
            {"alowable": "600 lb"},
            "'alowable' given; write the strength in exactly one of these ways: { allowable = … }",
        ),
        (
            {"allowable": "600 lb", "tested": "900 lb"},
            "'allowable', 'tested' given; write the strength in exactly one of these ways: { allowable = … } or { tested = … }",
        ),
        ([], "an empty list given; write the strength in at least one way"),
    ],
)
def test_a_table_in_no_way_or_in_two_says_which_would_do(written: object, sentence: str) -> None:
    assert refusal(written) == sentence


@pytest.mark.parametrize(
    ("written", "words"),
    [
        ({"allowable": 600}, "write a force"),
        (TESTED | {"safety_factor": None}, "None given; write a number"),
        ({"tested": "900 lb"}, "required"),
        ({"tested": "900 lb", "safety_factor": 0.5}, "allowed is 1 to 20"),
        (STATED | {"safety_factor": 2.0}, "not permitted"),
    ],
)
def test_a_table_in_one_way_is_held_to_it(written: object, words: str) -> None:
    assert words in refusal(written)


def test_every_problem_of_a_list_has_its_place() -> None:
    with pytest.raises(ValidationError) as refused:
        Holder.model_validate({"capacity": [STATED, {"tested": "9 lb"}, {"odd": 1}]})
    tags = {tag_of(basis) for basis in KNOWN_BASES}
    paths = [tuple(part for part in error["loc"] if part not in tags) for error in refused.value.errors()]
    assert paths == [("capacity", 1, "safety_factor"), ("capacity", 2)]
    titles = {basis.title for basis in KNOWN_BASES}
    assert titles == {
        *("stated", "tested", "uplift test", "screws in steel", "screws in wood", "pull tests"),
        *("design resistance", "characteristic value", "characteristic value of tests"),
    }
    assert not tags & {field for basis in KNOWN_BASES for field in basis.model_fields}


def test_a_way_already_made_passes() -> None:
    way = StatedAllowable.model_validate(STATED)
    assert read(way) == (way,)
    assert read([way, TESTED])[0] is way
    assert read(read([STATED, TESTED])) == read([STATED, TESTED])


def test_screws_alone_do_not_hold_a_seam() -> None:
    for alone in (STEEL, WOOD, LAG, PULLS | {"connection": "screw"}, [STEEL, WOOD]):
        assert "screws alone given" in (seam_problem(read(alone)) or "")
    for known in (STATED, TESTED, UPLIFT, PULLS):
        assert seam_problem(read(known)) is None
        assert seam_problem(read([STEEL, known])) is None


def test_what_says_nothing_about_load_along_the_roof_is_named() -> None:
    for silent in (UPLIFT, WOOD, LAG):
        assert "an allowable or a test in that direction" in (shear_problem(read(silent)) or "")
    without_sheet = {key: value for key, value in STEEL.items() if key not in ("sheet", "washer")}
    assert shear_problem(read(without_sheet)) == (
        "screws in steel given, which does not cover load along the roof; give the 'sheet' under the head, with its 'washer'"
    )
    for known in (STATED, TESTED, STEEL, PULLS, [STEEL, STATED]):
        assert shear_problem(read(known)) is None
    assert shear_pounds(STATED) == pytest.approx(600)


def test_cautions_are_said_once() -> None:
    twice = strength(read([UPLIFT, UPLIFT])).cautions
    assert len(twice) == 1
    assert set(mode_pounds([UPLIFT, PULLS])) == {"roof uplift test", "field pull tests"}


@pytest.mark.parametrize("written", [TESTED, UPLIFT])
@pytest.mark.parametrize(("factor", "said"), [(1.0, True), (1.66, True), (1.67, False), (2.0, False)])
def test_a_small_safety_factor_on_a_test_is_said(written: dict[str, object], factor: float, said: bool) -> None:
    """AISI S100 has no safety factor below 1.67 for a test: max(1.67, K2.1)."""
    cautions = strength(read(written | {"safety_factor": factor})).cautions
    sentence = (
        f"safety factor {factor:g} on a test is below 1.67, the smallest of AISI S100: use that of the test report"
    )
    assert (sentence in cautions) == said

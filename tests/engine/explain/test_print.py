"""Recorded steps as plain text."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest

from engine.common.calculation import SCENARIO, STATICS, CalculationStep, Confidence, Reference, Term
from engine.comparison.compare import CAUTIONS, compare
from engine.explain.find import explain_attachment
from engine.explain.print import explained, printed, sources_to_text, step_lines, to_text
from engine.units import System
from support import scenario_of

CLAUSE = Reference("A standard", "2020", "§1.2", Confidence.MEMORY)


def test_a_step_by_its_lines() -> None:
    step = CalculationStep(
        "F", "force on one point", Term(1234.4, "lb"), "p * A", {"p": Term(61.72, "psf"), "A": Term(20, "ft2")}, CLAUSE
    )
    assert step_lines(step) == [
        "F = 1,234 lb             force on one point",
        "    = p * A",
        "    with p = 61.72 psf, A = 20 ft2",
        "    A standard 2020 §1.2 (from memory, to be checked against the printed document)",
    ]


def test_a_value_taken_as_it_stands_has_no_equation_and_a_plain_source_is_said_once() -> None:
    assert step_lines(CalculationStep("n", "screws", Term(2), "", {}, SCENARIO)) == [
        "n = 2                    screws",
        "    the scenario (stated in the scenario)",
    ]


def test_steps_are_shown_in_si_alone_but_printed_formulas_with_numbers_in_their_own_units() -> None:
    """100 lb x 2 ft by hand: 0.4448 kN x 0.6096 m = 0.2712 kN m."""
    terms = {"m": Term(2, "ft"), "N": Term(100, "lb")}
    step = CalculationStep("M", "moment", Term(200, "lb ft"), "m * N", terms, STATICS)
    assert step_lines(step, "si") == [
        "M = 0.2712 kN m          moment",
        "    = m * N",
        "    with m = 0.6096 m, N = 0.4448 kN",
        "    statics",
    ]
    assert step_lines(replace(step, reference=CLAUSE), "si")[2] == "    with m = 0.6096 m, N = 0.4448 kN"
    bound = replace(step, reference=CLAUSE, equation="1 * m * N")
    assert step_lines(bound, "si")[2] == "    with m = 2 ft [0.610 m], N = 100 lb [0.44 kN]"


def test_no_pound_and_no_foot_in_the_calculation_of_a_european_job() -> None:
    told = explained(compare(scenario_of("dunlin_hall")))
    steps = [line for line in told.splitlines() if line.startswith("    with") or re.match(r"\w+ = ", line)]
    assert len(steps) > 20
    assert not [line for line in steps if re.search(r"\d (lb|psf|ft2|lb ft|in)\b", re.sub(r"\(.*?\)", "", line))]


@pytest.mark.parametrize(
    ("term", "system", "words"),
    [
        (Term(0.012341, "in"), "us", "0.01234 in"),
        (Term(999.6, "lb"), "us", "999.6 lb"),
        (Term(1000, "lb"), "us", "1,000 lb"),
        (Term(10, "ft"), "si", "10 ft [3.048 m]"),
        (Term(1.5), "si", "1.5"),
    ],
)
def test_four_figures_and_whole_numbers_in_full(term: Term, system: System, words: str) -> None:
    assert printed(term, system) == words


def test_every_method_then_what_to_check_first_then_the_cautions() -> None:
    told = explained(compare(scenario_of("sparrow_lane")), 0).splitlines()
    assert max(map(len, told[: told.index("To be checked first, against the printed documents:")])) == 92
    assert tuple(told[-len(CAUTIONS) :]) == tuple(CAUTIONS)
    headings = [above for above, line in zip(told, told[1:], strict=False) if line and set(line) == {"="}]
    assert len(headings) == 3


def test_where_nothing_is_doubtful_it_says_so() -> None:
    assert sources_to_text(()).splitlines()[1] == "  nothing"


@pytest.mark.parametrize("width", [60, 79])
def test_a_chain_keeps_to_its_system_and_width(width: int) -> None:
    comparison = compare(scenario_of("sparrow_lane"), ("direct",))
    explanation = explain_attachment(comparison.columns[0])
    for system in ("us", "si"):
        lines = to_text(explanation, system, width).splitlines()  # type: ignore[arg-type]
        assert max(map(len, lines)) <= width
        assert any(line.startswith("qh = ") and ("psf" if system == "us" else "kPa") in line for line in lines)
        for step in explanation.steps:
            assert step_lines(step, system, width)[0] in lines  # type: ignore[arg-type]

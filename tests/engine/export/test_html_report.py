"""The report: every printed equation holds between the printed values, within what their rounding allows."""

from __future__ import annotations

import datetime
import html
import math
import re
from functools import cache

import pytest

from engine.common.calculation import CalculationStep, Term
from engine.comparison.compare import compare
from engine.export.html_report import report
from engine.export.stamp import Stamp
from engine.units import System
from support import evaluated, scenario_of

EVERY = ("dunlin_hall", "finch_shed", "heron_depot", "kestrel_yard", "plover_terrace", "sparrow_lane", "wren_workshop")
STEP = re.compile(r'<div class="step">(.*?)</div></div>\n</div>', re.S)
RESULT = re.compile(r'<div class="result">(.*?)</div>', re.S)
EQUATION = re.compile(r'<code class="equation">= (.*?)</code>', re.S)
VALUES = re.compile(r"<span>(.*?)</span>", re.S)
PRINTED = re.compile(r"(\w+) = (-?[\d,.]+(?:e[+-]?\d+)?)(.*)", re.S)


@cache
def written(name: str, system: System = "us") -> str:
    return report(compare(scenario_of(name)), Stamp(datetime.date(2026, 3, 4), system))


def printed(words: str) -> tuple[str, Term, float]:
    """A name, its value, and half a unit of its fourth figure, or of its last whole one: what the printing rounds away."""
    found = PRINTED.fullmatch(html.unescape(words))
    assert found, words
    name, digits, _ = found.groups()
    value = float(digits.replace(",", ""))
    return (
        name,
        Term(value),
        0.5 if abs(value) >= 1000 else 0.5 * 10.0 ** (math.floor(math.log10(abs(value))) - 3) if value else 0.0,
    )


def steps(page: str) -> list[tuple[CalculationStep, float, dict[str, float]]]:
    """Every step that has an equation, with the rounding of its result and of its terms."""
    found = []
    for block in STEP.findall(page):
        equation = EQUATION.search(block)
        if equation:
            symbol, result, half = printed(RESULT.search(block)[1])  # type: ignore[index]
            terms = [printed(value) for value in VALUES.findall(block)]
            step = CalculationStep(
                symbol, "", result, html.unescape(equation[1]), {name: term for name, term, _ in terms}, None
            )  # type: ignore[arg-type]
            found.append((step, half, {name: rounding for name, _, rounding in terms}))
    return found


def allowed(step: CalculationStep, half: float, rounding: dict[str, float]) -> float:
    """How far the result may be off: each term moved by half its last digit either way, and the result's own rounding."""
    here, total = evaluated(step), half
    for name, term in step.terms.items():
        moved = [
            CalculationStep(
                step.symbol,
                "",
                step.result,
                step.equation,
                {**step.terms, name: Term(term.value + sign * rounding[name])},
                step.reference,
            )
            for sign in (-1, 1)
        ]
        total += max(abs(evaluated(each) - here) for each in moved)
    return total * 1.01 + 1e-12


@pytest.mark.parametrize("name", EVERY)
def test_every_printed_equation_holds_between_printed_values(name: str) -> None:
    found = steps(written(name))
    assert len(found) > 20
    for step, half, rounding in found:
        assert abs(evaluated(step) - step.result.value) <= allowed(step, half, rounding), (
            step.symbol,
            step.equation,
            step.terms,
        )


def test_a_wrong_figure_would_be_found() -> None:
    page = written("kestrel_yard")
    broken = re.sub(r'(<div class="result">qh = )[\d.]+', r"\g<1>15.9", page)
    assert broken != page
    wrong = [
        step.symbol
        for step, half, rounding in steps(broken)
        if abs(evaluated(step) - step.result.value) > allowed(step, half, rounding)
    ]
    assert "qh" in wrong


def test_each_link_ends_at_the_comparisons_figure() -> None:
    comparison = compare(scenario_of("kestrel_yard"))
    page = written("kestrel_yard")
    for column in comparison.columns:
        for check in column.checks.values():
            if check.utilisation is not None:
                assert f"<h3>{column.title}: {check.title}</h3>" in page
                assert f"{check.utilisation:.4g}" in page


def test_nothing_is_fetched() -> None:
    page = written("sparrow_lane")
    assert not re.search(r"""(?:src|href)\s*=\s*["'](?!#)""", page)
    assert "url(" not in page
    assert "@import" not in page


def test_what_is_owed_is_ticked_where_the_scenario_states_it() -> None:
    papers = {"adopted_code": "IBC 2021, as adopted by the county", "roof_test": "report 17, an invented laboratory"}
    stated = report(compare(scenario_of("sparrow_lane", papers=papers)), Stamp(datetime.date(2026, 3, 4)))
    assert written("sparrow_lane").count("☐") == 7
    assert stated.count("☐") == 5
    assert "☑ Test report for this panel, this clip and this wood deck: report 17, an invented laboratory" in stated
    setback = report(
        compare(scenario_of("sparrow_lane", array__setbacks={"ridge": "18 in"})), Stamp(datetime.date(2026, 3, 4))
    )
    assert "☑ Access and setbacks for the fire service: 1.50 ft (0.457 m) from the ridge" in setback


def test_what_is_outside_says_by_how_much() -> None:
    page = written("sparrow_lane")
    assert "26.57 deg" in page
    assert "<b>OUTSIDE SCOPE: nothing is checked</b>" in page


def test_a_european_job_lists_what_is_not_covered_and_is_printed_on_a4() -> None:
    page = written("dunlin_hall", "si")
    standard = scenario_of("dunlin_hall").standard
    assert standard.not_covered
    assert all(html.escape(subject) in page for subject in standard.not_covered)
    assert "size: A4;" in page
    assert "size: letter;" in written("kestrel_yard")

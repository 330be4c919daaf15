"""The calculation as a page: every printed equation holds between the printed values, within what their rounding allows."""

from __future__ import annotations

import datetime
import html
import math
import random
import re
from functools import cache

import pytest

from engine.common.calculation import CalculationStep, Term
from engine.comparison.compare import compare
from engine.export.calculation import calculation
from engine.export.document_files import to_html
from engine.export.stamp import Stamp
from engine.studies.ways_out import NOTHING_HELPS, WaysOut, ways_out
from engine.units import System
from support import SCENARIOS, evaluated, scenario_of

EVERY = tuple(sorted(path.stem for path in SCENARIOS.glob("*.toml")))
STEP = re.compile(r'<div class="step">(.*?)</div></div>\n</div>', re.S)
RESULT = re.compile(r'<div class="result">(.*?)(?: <span class="quiet">.*?)?</div>', re.S)
EQUATION = re.compile(r'<code class="equation">= (.*?)</code>', re.S)
VALUES = re.compile(r"<span>(.*?)</span>", re.S)
PRINTED = re.compile(r"(\w+) = (-?[\d,.\u00a0]+(?:e[+-]?\d+)?)(.*)", re.S)


def page_of(system: System = "us", name: str = "sparrow_lane", **changes: object) -> str:
    return to_html(calculation(compare(scenario_of(name, **changes)), Stamp(datetime.date(2026, 3, 4), system)))


@cache
def written(name: str, system: System = "us") -> str:
    return page_of(system, name)


def printed(words: str) -> tuple[str, Term, float]:
    """A name, its value, and half a unit of its fourth figure, or of its last whole one: what the printing rounds away."""
    found = PRINTED.fullmatch(html.unescape(words))
    assert found, words
    name, digits, _ = found.groups()
    value = float(re.sub("[,\u00a0]", "", digits))
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


@pytest.mark.parametrize(
    ("name", "system"), [*((name, "us") for name in EVERY), ("dunlin_hall", "si"), ("kestrel_yard", "si")]
)
def test_every_printed_equation_holds_between_printed_values(name: str, system: System) -> None:
    found = steps(written(name, system))
    assert len(found) > 20
    for step, half, rounding in found:
        assert abs(evaluated(step) - step.result.value) <= allowed(step, half, rounding), (
            step.symbol,
            step.equation,
            step.terms,
        )


@pytest.mark.parametrize("name", EVERY)
def test_five_figures_at_random_are_found_again_within_one_percent(name: str) -> None:
    """Four digits are enough for all but sums whose parts cancel to less than a tenth of the largest."""
    found = [step for step, _, _ in steps(written(name)) if not _cancels(step)]
    for step in random.Random(name).sample(found, 5):
        assert evaluated(step) == pytest.approx(step.result.value, rel=0.01), (step.symbol, step.equation, step.terms)


def _cancels(step: CalculationStep) -> bool:
    return "+" in step.equation and abs(step.result.value) < 0.1 * max(abs(term.value) for term in step.terms.values())


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
                assert re.search(
                    rf"<td>{column.title}</td><td>[^<]*</td><td class=\"number\">{check.utilisation:.3f}</td>", page
                )


def test_nothing_is_fetched() -> None:
    page = written("sparrow_lane")
    assert not re.search(r"""(?:src|href)\s*=\s*["'](?!#)""", page)
    assert "url(" not in page
    assert "@import" not in page


def test_what_is_owed_is_ticked_where_the_scenario_states_it() -> None:
    papers = {"adopted_code": "IBC 2021, as adopted by the county", "roof_test": "report 17, an invented laboratory"}
    stated = page_of(papers=papers)
    assert written("sparrow_lane").count("☐") == 7
    assert stated.count("☐") == 5
    ticked = "<td>☑</td><td>{}</td>"
    report = "Test report for this panel, this clip and this wood deck: report 17, an invented laboratory"
    assert ticked.format(report) in stated
    setback = page_of(array__setbacks={"ridge": "18 in"})
    assert ticked.format("Access and setbacks for the fire service: 1.50 ft (0.457 m) from the ridge") in setback


def test_what_is_outside_says_by_how_much() -> None:
    page = written("sparrow_lane")
    assert "26.57 deg" in page
    assert "<td>OUTSIDE SCOPE</td>" in page


def test_the_ways_out_of_a_method_that_is_over_stand_beside_the_answer() -> None:
    """Each in words, with what comes of it; where none was found the calculation says so."""
    comparison = compare(scenario_of("sparrow_lane", array__rows=1, methods__rail__spacing="rail span"), ("rail",))
    (found,) = ways_out(comparison, kinds=("closer",))
    stamp = Stamp(datetime.date(2026, 3, 4))
    (way,) = found.ways
    page = to_html(calculation(comparison, stamp, (found,)))
    assert "Ways out: rails" in page
    assert f"Attach it more closely: {way.design.spacing_label}: {way.result(found.column, 'us')}." in page
    assert NOTHING_HELPS in to_html(calculation(comparison, stamp, (WaysOut(found.column, ()),)))
    assert "Ways out" not in to_html(calculation(comparison, stamp))


def test_a_european_job_lists_what_is_not_covered_and_is_printed_on_a4() -> None:
    page = written("dunlin_hall", "si")
    standard = scenario_of("dunlin_hall").standard
    assert standard.not_covered
    assert all(html.escape(subject) in page for subject in standard.not_covered)
    assert "size: A4;" in page
    assert "size: letter;" in written("kestrel_yard")

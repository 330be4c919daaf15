"""A figure's change since an earlier one, in a sign and a word."""

from __future__ import annotations

import pytest

from engine.comparison.compare import compare
from engine.comparison.figure import Value, change_text
from engine.comparison.figures import figure_named, table_figures
from support import WEAKER_ROOF, scenario_of

SPANS = ("rail_span_limit_m", "roof_span_limit_m")


@pytest.mark.parametrize(
    ("now", "before", "dimension", "words"),
    [
        (1.06, 0.96, "ratio", "+0.10 more"),
        (0.9601, 0.9602, "ratio", "nearly the same"),
        (544, 544, "count", "same"),
        (336, 1444, "count", "−1,108 less"),
        (4448.2216152605, 0.0, "force", "+1,000 lb more"),
        ("OVER", "HOLDS", "", "was HOLDS"),
        (None, 2.4384, "length", "was 8.00 ft"),
        (2.4384, None, "length", "was –"),
        (0.5, "not checked", "ratio", "was not checked"),
        (None, None, "length", "same"),
    ],
)
def test_changes_are_told_in_words(now: Value, before: Value, dimension: str, words: str) -> None:
    assert change_text(now, before, dimension, "us") == words


def test_a_row_tells_its_cell_and_its_change() -> None:
    """A stronger clip lets rails hold: what was over is told against what it was; with nothing before it, a column is new."""
    before = compare(scenario_of(methods__rail__spacing="4 ribs"), ("rail",)).columns[0]
    after = compare(scenario_of(methods__rail__spacing="2 ribs"), ("rail",)).columns[0]
    row = figure_named("attachments")
    assert (row.cell(before, "us"), row.cell(after, "us")) == ("160", "288")
    assert row.change(after, before, "us") == "+128 more"
    assert row.change(before, after, "us") == "−128 less"
    assert row.change(after, None, "us") == "new"


def test_the_first_row_is_the_verdict() -> None:
    comparison = compare(scenario_of("sparrow_lane"))
    first, *_ = table_figures()
    assert first.label(comparison.scenario.job) == "verdict"
    cells = [first.cell(column, "us") for column in comparison.columns]
    assert cells == ["HOLDS 0.99, close", "OUTSIDE SCOPE", "INCOMPLETE 0.90"]


def test_what_it_was_is_told_in_the_units_asked_for() -> None:
    assert change_text(None, 2.4384, "length", "si") == "was 2.438 m"
    assert change_text(2.0, 1.0, "length", "si") == "+1.000 m more"


def test_a_roof_that_holds_at_no_spacing_is_told_from_a_method_without_spans() -> None:
    """Its rails hold to 8 ft, weaker clips at no even spacing; modules on seams have no such figure."""
    compared = compare(scenario_of(**WEAKER_ROOF), ("rail", "direct"))
    cells = {key: [figure_named(key).cell(column, "us") for column in compared.columns] for key in SPANS}
    assert cells["rail_span_limit_m"] == ["8.00 ft", "–"]
    assert cells["roof_span_limit_m"] == ["none", "–"]

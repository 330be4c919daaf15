"""Minimum by rule of practice: four attachments a module, shared with its neighbours (common practice, no source)."""

from __future__ import annotations

import pytest

from engine.comparison.compare import compare
from engine.comparison.figures import value_of
from support import scenario_of

CALM = {"site__wind_speed": "80 mph", "site__ground_snow": "5 psf", "roof__collateral_allowance": "12 psf"}
"""Little wind and snow; what drifts at the tilted rows is allowed for."""


def test_150_modules_with_three_methods() -> None:
    """Never fewer than 300 plus the edges, whichever the method.

    Rails: 6 x 25 in landscape are as wide as 38 in portrait: rows of 38, 38, 38, 36 in runs of at most 10;
    rack: 6 rows of 25 in runs of at most 7; direct: 25 columns.
    """
    columns = {column.id: column for column in compare(scenario_of(array__columns=25, **CALM)).columns}
    runs = {"rail": 4 * 4, "tilted_rack": 6 * 4, "direct": 25}
    for name, column in columns.items():
        assert value_of(column, "modules") == 150
        assert value_of(column, "runs") == runs[name]
        assert value_of(column, "attachments_minimum") == 2 * (150 + runs[name]) > 300
        assert value_of(column, "attachments") is not None
        assert value_of(column, "attachments") >= value_of(column, "attachments_minimum")
        assert column.status == "holds"
    assert value_of(columns["direct"], "attachments") == value_of(columns["direct"], "attachments_minimum")


@pytest.mark.parametrize("spacing", ["4 ribs", "rail span"])
def test_a_fixed_spacing_below_the_minimum_is_flagged(spacing: str) -> None:
    (rail,) = compare(scenario_of(methods__rail__spacing=spacing), ("rail",)).columns
    assert value_of(rail, "attachments") is not None
    assert value_of(rail, "attachments_minimum") is not None
    assert value_of(rail, "attachments") < value_of(rail, "attachments_minimum")
    assert "below_count_rule" in {flag.code for flag in rail.flags}


def test_single_attachments_fill_a_uniform_pattern_up_to_the_minimum() -> None:
    (rail,) = compare(scenario_of(**CALM), ("rail",)).columns
    assert value_of(rail, "attachments") == value_of(rail, "attachments_minimum") == 320
    assert rail.design
    assert rail.design.layout.added_attachments == 32
    assert value_of(rail, "spacing") == "every 2nd seam + 32"


def test_too_few_ribs_for_the_minimum_are_refused() -> None:
    """Ribs four feet apart under modules 45 in wide: two rails cannot have two attachments a module."""
    (rail,) = compare(
        scenario_of(roof__rib_spacing="48 in", roof__fastening__uplift={"allowable": "900 lb"}), ("rail",)
    ).columns
    assert rail.status == "refused"
    assert "minimum by rule of practice" in rail.flags[0].text
    (three,) = compare(
        scenario_of(
            roof__rib_spacing="48 in", methods__rail__rails_per_row=3, roof__fastening__uplift={"allowable": "2000 lb"}
        ),
        ("rail",),
    ).columns
    assert value_of(three, "attachments")


def test_keep_clear_areas_remove_modules_and_divide_runs() -> None:
    hatch = [{"at": ["80 ft", "20 ft"], "size": ["3 ft", "3 ft"], "name": "hatch"}]
    columns = {column.id: column for column in compare(scenario_of(array__keep_clear=hatch, **CALM)).columns}
    # 36 portrait modules a row less one still make four runs of at most ten; a column of six with a hole makes two runs
    for name, least_runs in (("rail", 16), ("direct", 25)):
        column = columns[name]
        assert value_of(column, "modules") is not None
        assert value_of(column, "modules") < 144
        assert value_of(column, "runs") is not None
        assert value_of(column, "runs") >= least_runs
        assert {"modules_lost", "unequal_arrays"} & {flag.code for flag in column.flags}


def test_an_array_that_does_not_fit_is_refused_with_its_reach() -> None:
    columns = {column.id: column for column in compare(scenario_of(array__rows=9)).columns}
    rack = columns["tilted_rack"]
    assert (rack.status, rack.title) == ("refused", "tilted rack")
    # by hand: 15.5 ft + 8 pitches of 5.44 ft + 3.66 ft
    assert "reaches 62.6" in rack.flags[0].text
    assert "the roof ends at 55.19 ft (16.822 m)" in rack.flags[0].text
    assert columns["direct"].status != "refused"


def test_outside_the_standards_scope_a_fixed_spacing_is_kept() -> None:
    """Sparrow Lane's roof is too steep for racks by the standard: nothing is checked, and no attachments are added."""
    (fixed,) = compare(scenario_of("sparrow_lane", methods__tilted_rack__spacing="6 ribs"), ("tilted_rack",)).columns
    (fewest,) = compare(scenario_of("sparrow_lane"), ("tilted_rack",)).columns
    assert fixed.status == fewest.status == "outside scope"
    assert value_of(fixed, "attachments") is not None
    assert value_of(fixed, "attachments_minimum") is not None
    assert value_of(fixed, "attachments") < value_of(fixed, "attachments_minimum") == value_of(fewest, "attachments")
    assert "below_count_rule" in {flag.code for flag in fixed.flags}

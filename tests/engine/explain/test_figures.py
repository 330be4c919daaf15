"""Every figure of every comparison has a story that begins with that very figure and can be evaluated again from what it shows."""

from __future__ import annotations

import pytest

from engine.comparison.compare import compare
from engine.comparison.figure import no_steps
from engine.comparison.figures import figure_named, table_figures
from engine.explain.find import explain_figure
from engine.units import System, number, text
from support import WEAKER_ROOF, assert_told, scenario_of

NAMES = ("dunlin_hall", "kestrel_yard", "heron_depot", "sparrow_lane", "finch_shed", "plover_terrace", "wren_workshop")


@pytest.mark.parametrize("system", ["us", "si"])
@pytest.mark.parametrize("name", NAMES)
def test_every_figure_tells_its_story(name: str, system: System) -> None:
    comparison = compare(scenario_of(name))
    for column in comparison.columns:
        for row in table_figures():
            told, value = explain_figure(comparison, column, row, system), row.table_value(column)
            if value is None or value in ("REFUSED", "OUTSIDE SCOPE"):
                continue
            if value in ("not checked", "shown by others", "needs no check", "only reported"):
                assert value in told.heading
                assert len(told.heading) > 100, told.heading  # the reason, and who can close it
                continue
            assert told.steps, f"{column.id} {row.label(comparison.scenario.job)} {told.heading}"
            assert_told(told.steps, of=row.key)
            if not isinstance(value, str) and row.key not in ("rail_span_limit_m", "roof_span_limit_m"):
                assert told.steps[0].result.value == pytest.approx(number(value, row.dimension, system), rel=1e-9), (
                    row.key
                )
            assert (
                text(told.steps[0].result.value, "ratio", system) in row.cell(column, system)
                or row.key != "weakest_link"
            )


def test_every_figure_in_a_table_has_an_explanation() -> None:
    assert all(figure.explain is not no_steps for figure in table_figures())


def test_the_clip_is_told_back_to_the_wind_speed() -> None:
    comparison = compare(scenario_of("kestrel_yard"))
    clip = next(row for row in table_figures() if row.key == "roof_fastening")
    symbols = [step.symbol for step in explain_figure(comparison, comparison.columns[0], clip, "us").steps]
    assert symbols[:2] == ["used", "u_clip"]
    assert symbols.index("R") < symbols.index("N") < symbols.index("qh")


def test_what_is_not_there_says_why() -> None:
    comparison = compare(scenario_of("sparrow_lane"))
    refused = next(column for column in comparison.columns if column.id == "tilted_rack")
    told = explain_figure(comparison, refused, table_figures()[0], "us")
    assert not told.steps
    assert "26.57 deg" in told.heading


def test_closer_spacings_that_fail_are_named_below_the_roofs_limit() -> None:
    """Finch Shed: its roof holds at every 3rd and 4th rib, and fails at every one and every 2nd."""
    comparison = compare(scenario_of("finch_shed"), ("rail",))
    told = explain_figure(comparison, comparison.columns[0], figure_named("roof_span_limit_m"), "us")
    assert told.steps[0].meaning.endswith("Closer spacings that fail: 0.75 ft to 1.50 ft")
    assert told.steps[0].result.value == pytest.approx(0.75)
    rail = explain_figure(comparison, comparison.columns[0], figure_named("rail_span_limit_m"), "us")
    assert not any("Closer spacings" in step.meaning for step in rail.steps)


def test_overspan_by_load_is_told_from_the_clips_load() -> None:
    """Rails on a weaker roof, at 8 ft: 635 lb (`test_hand_calculation`) on a clip of 350 lb."""
    comparison = compare(scenario_of(**WEAKER_ROOF), ("rail",))
    (told,) = explain_figure(comparison, comparison.columns[0], figure_named("overspan"), "us").steps
    assert "load over allowable of the clip at the rail's own span of 8.00 ft" in told.meaning
    assert told.terms["demand"].value == pytest.approx(635, abs=1)
    assert told.terms["resistance"].value == pytest.approx(350)

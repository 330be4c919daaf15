"""The comparison as text: the figures of the columns, no line wider than the terminal, no figure cut off."""

from __future__ import annotations

import datetime

import pytest

from engine.comparison.compare import Comparison, compare
from engine.comparison.figures import table_figures
from engine.export.flag_sections import flag_sections
from engine.export.stamp import Stamp
from engine.units import text
from support import scenario_of
from tui.cli.print_comparison import comparison_text

STAMP = Stamp(datetime.date(2026, 3, 4))


@pytest.fixture(scope="module")
def comparison() -> Comparison:
    return compare(scenario_of())


@pytest.mark.parametrize("system", ["us", "si"])
def test_what_it_is_of_and_under_which_wind_and_snow(system: str) -> None:
    comparison = compare(scenario_of(), ("direct",))
    written = comparison_text(comparison, Stamp(STAMP.date, system), 80)  # type: ignore[arg-type]
    lines = written.splitlines()
    assert lines[0] == "Kestrel Yard cold store (invented)"
    joined = " ".join(written.split())
    for name, value, dimension in comparison.site:
        assert f"{name} {text(value, dimension, system)}" in joined  # type: ignore[arg-type]
    assert max(map(len, lines)) <= 80
    assert "Preliminary" in written
    assert "2026-03-04" in written


@pytest.mark.parametrize("width", [200, 100, 80, 60, 40])
def test_every_figure_is_whole_at_every_width(comparison: Comparison, width: int) -> None:
    lines = comparison_text(comparison, STAMP, width).splitlines()
    assert max(map(len, lines)) <= width
    written = " ".join(" ".join(lines).split())
    for row in table_figures():
        for column in comparison.columns:
            if row.dimension:
                assert row.cell(column, "us") in written, (row.label(comparison.scenario.job), column.id)


def test_a_terminal_too_narrow_for_a_column_still_gets_every_figure(comparison: Comparison) -> None:
    written = comparison_text(comparison, STAMP, 10)
    for row in table_figures():
        for column in comparison.columns:
            if row.dimension:
                assert row.cell(column, "us") in written


def test_each_methods_flags_follow_its_name_and_shared_ones_are_said_once(comparison: Comparison) -> None:
    written = " ".join(comparison_text(comparison, STAMP, 100).split())
    sections = flag_sections(comparison)
    assert [title for title, _ in sections[:3]] == [column.title for column in comparison.columns]
    after_table = written.index("USD per watt")
    starts = [written.index(f" {title}: ", after_table) for title, _ in sections]
    for (_, flags), start, end in zip(sections, starts, [*starts[1:], len(written)], strict=True):
        for flag in flags:
            assert " ".join(flag.text.split()) in written[start:end]
    *_, (_, shared) = sections
    for column in comparison.columns:
        own = dict(sections)[column.title]
        assert {flag.text for flag in (*own, *shared)} == {flag.text for flag in column.flags}
    for flag in shared:
        assert written.count(" ".join(flag.text.split())) == 1


def test_flags_of_a_single_method_are_its_own() -> None:
    comparison = compare(scenario_of(), ("direct",))
    assert flag_sections(comparison) == ((comparison.columns[0].title, comparison.columns[0].flags),)


def test_where_there_is_nothing_to_flag_it_says_so() -> None:
    comparison = compare(scenario_of(), ("direct",))
    comparison.columns[0].__dict__["flags"] = ()
    assert "   nothing to flag" in comparison_text(comparison, STAMP, 100).splitlines()


def test_in_an_ordinary_terminal_three_methods_are_side_by_side(comparison: Comparison) -> None:
    assert any(
        all(column.title in line for column in comparison.columns)
        for line in comparison_text(comparison, STAMP, 80).splitlines()
    )

"""The tables that leave: ids, types and figures, as a notebook sees them."""

from __future__ import annotations

import subprocess
import sys

import pytest

from engine.comparison.compare import Comparison, compare
from engine.comparison.figures import value_of
from engine.export import table as tables
from engine.export.headings import decimals, headings, shown
from engine.studies.spacing import study
from engine.units import POUND_FORCE
from support import scenario_of


@pytest.fixture(scope="module")
def comparison() -> Comparison:
    return compare(scenario_of("sparrow_lane"))


def test_column_ids_are_stable_and_end_in_their_unit(comparison: Comparison) -> None:
    methods = ["rail", "tilted_rack", "direct"]
    assert list(tables.comparison_table(comparison)) == ["group", "figure", "unit", *methods]
    assert list(tables.links_table(comparison)) == [
        *("method", *tables.LINK_COLUMNS),
        "from_rake_ft",
        "from_eave_ft",
        "note",
    ]
    assert list(tables.links_table(comparison, "si"))[-3:] == ["from_rake_m", "from_eave_m", "note"]
    assert list(tables.schedule_table(comparison))[:6] == [
        "method",
        "number",
        "row",
        "rib",
        "from_rake_ft",
        "from_rake_m",
    ]
    assert list(tables.inputs_table(comparison)) == ["input", "as_written", "value", "unit", "from", "meaning"]
    assert list(tables.flags_table(comparison)) == ["method", "severity", "code", "text"]


def test_the_figures_are_the_comparisons(comparison: Comparison) -> None:
    rail = comparison.columns[0]
    figures = tables.comparison_table(comparison)
    uplift = value_of(rail, "point_load_up_n")
    assert isinstance(uplift, float)
    assert uplift / POUND_FORCE in figures["rail"].tolist()
    assert value_of(rail, "attachments") in figures["rail"].tolist()
    assert len(tables.schedule_table(comparison)) == sum(
        value_of(column, "attachments") or 0 for column in comparison.columns
    )
    links = tables.links_table(comparison)
    expected = [check.utilisation for column in comparison.columns for check in column.checks.values()]
    assert links["utilisation"].isna().tolist() == [value is None for value in expected]
    assert links["utilisation"].dropna().tolist() == [value for value in expected if value is not None]
    assert len(tables.flags_table(comparison)) == sum(len(column.flags) for column in comparison.columns)


def test_a_study_has_a_row_a_spacing_and_component(comparison: Comparison) -> None:
    studies = study(comparison.scenario)
    table = tables.studies_table(studies, "si")
    assert len(table) == sum(len(row.checks) for each in studies for row in each.rows)
    assert table["longest_span_m"].tolist() == [row.span for each in studies for row in each.rows for _ in row.checks]


def test_counts_and_unknown_values_keep_their_types(comparison: Comparison) -> None:
    figures = tables.comparison_table(comparison).set_index("figure")
    assert type(figures.loc["attachments", "rail"]) is int
    assert type(figures.loc["modules", "tilted_rack"]) is int
    schedule = tables.schedule_table(comparison)
    assert {type(number) for number in schedule["number"]} == {int}
    assert schedule.loc[schedule["method"] == "tilted rack", "uplift_lb"].isna().all()
    assert schedule["uplift_lb"].max() > 100


def test_a_refused_method_has_no_attachments() -> None:
    refused = compare(scenario_of("plover_terrace"), ("tilted_rack",))
    assert tables.schedule_table(refused).empty
    assert tables.links_table(refused).empty


def test_headings_are_in_the_words_of_the_roof_and_its_currency(comparison: Comparison) -> None:
    assert headings(tables.comparison_table(comparison), comparison)[3:] == [each.title for each in comparison.columns]
    assert "seam" in headings(tables.schedule_table(comparison), comparison)


@pytest.mark.parametrize(
    ("column", "cell", "written"),
    [
        ("from_rake_m", 1234.5678, "1,234.568"),
        ("utilisation", 1.016, "1.02"),
        ("quantity", 1600, "1,600"),
        ("quantity", 2.5, "2.5"),
        ("note", None, ""),
        ("utilisation", float("nan"), ""),
        ("where", "seam 25", "seam 25"),
    ],
)
def test_cells_as_people_read_them(comparison: Comparison, column: str, cell: tables.Cell, written: str) -> None:
    assert shown(cell, decimals(column, comparison), "us") == written
    assert shown(cell, decimals(column, comparison), "si") == written.replace(",", "\u00a0")


def test_counts_beside_empty_cells_stay_integers() -> None:
    table = tables.table_of(
        [{"count": 320, "part": "rails", "length": 1}, {"part": "total", "length": 2.5}], ("count", "part", "length")
    )
    assert table["count"].tolist() == [320, None]
    assert table["length"].dtype.kind == "f"


def test_pandas_is_loaded_only_where_a_table_leaves() -> None:
    code = "import sys; from tui.cli.main import main\nmain(['compare', 'sparrow_lane'])\nprint({'textual', 'pandas'} & set(sys.modules))"
    answer = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert answer.stdout.splitlines()[-1] == "set()"

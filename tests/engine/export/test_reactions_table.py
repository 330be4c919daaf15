"""The reactions as they leave: one table a method in CSV and workbook, with units and levels, in both systems."""

from __future__ import annotations

import datetime
import io

import openpyxl
import pandas as pd
import pytest

from engine.comparison.compare import Comparison, compare
from engine.comparison.reactions import NORMAL, reactions
from engine.export.bundle import bundle
from engine.export.headings import headings
from engine.export.reactions_table import SIGNS, method_reactions_table, reactions_table
from engine.export.stamp import Stamp
from engine.units import FOOT, POUND_FORCE
from support import scenario_of

DAY = datetime.date(2026, 3, 4)


@pytest.fixture(scope="module")
def comparison() -> Comparison:
    return compare(scenario_of("finch_shed"))


def test_one_row_an_attachment_and_two_a_purlin(comparison: Comparison) -> None:
    column = comparison.column("direct")
    assert column
    assert column.candidate
    table, demands = method_reactions_table(comparison, column), column.candidate.demands
    assert list(table)[:8] == ["item", "number", "rib", "from_rake_ft", "to_ft", "from_eave_ft", "purlin", "unit"]
    assert {"D_service_reaction", "D_along_slope_service_reaction", "W_up_strength_reaction"} < set(table)
    attachments, lines = table[table["item"] == "attachment"], table[table["item"] != "attachment"]
    assert len(attachments) == len(demands.layout.attachments)
    assert len(lines) == 2 * len(demands.roof.fastening_y)
    assert set(attachments["unit"]) == {"lb"}
    assert set(lines["unit"]) == {"lb/ft"}
    told = reactions(demands)
    assert attachments["W_up_strength_reaction"].tolist() == pytest.approx(
        told.attachments["W up", NORMAL] / POUND_FORCE
    )
    assert told.purlins
    plf = told.purlins.from_attachments["S"] / POUND_FORCE * FOOT
    assert lines["S_service_reaction"].tolist()[: len(plf)] == pytest.approx(plf)


def test_metric_units_have_their_own_columns_and_numbers(comparison: Comparison) -> None:
    column = comparison.column("direct")
    assert column
    us, si = (method_reactions_table(comparison, column, system) for system in ("us", "si"))
    assert "from_rake_m" in si
    assert set(si["unit"]) == {"kN", "kN/m"}
    kilonewtons = [value * POUND_FORCE / 1000 for value in us["D_service_reaction"][:20]]
    assert si["D_service_reaction"].tolist()[:20] == pytest.approx(kilonewtons)


def test_files_of_every_method_that_was_checked(comparison: Comparison) -> None:
    """Finch Shed's rack is outside the standard's scope: it is counted and priced, and has no reactions."""
    made = {file.name: file for file in bundle(comparison, Stamp(DAY))}
    assert [name for name in made if name.startswith("reactions")] == ["reactions_rail.csv", "reactions_direct.csv"]
    column = comparison.column("rail")
    assert column
    written = str(made["reactions_rail.csv"].make())
    read = pd.read_csv(io.StringIO(written), comment="#")
    expected = method_reactions_table(comparison, column)
    assert read["D_service_reaction"].tolist() == pytest.approx(expected["D_service_reaction"].tolist(), nan_ok=True)
    assert f"\n# signs: {SIGNS}\n" in written
    book = openpyxl.load_workbook(io.BytesIO(made["comparison.xlsx"].make()))  # type: ignore[arg-type]
    assert book["reactions"].max_row == len(reactions_table(comparison)) + 1
    assert [cell.value for cell in book["reactions"][1]][:4] == ["method", "item", "number", "rib"]
    one = openpyxl.load_workbook(io.BytesIO(made["attachments_rail.xlsx"].make()))  # type: ignore[arg-type]
    assert one.sheetnames == ["attachments", "reactions", "about"]
    rack = openpyxl.load_workbook(io.BytesIO(made["attachments_tilted_rack.xlsx"].make()))  # type: ignore[arg-type]
    assert rack.sheetnames == ["attachments", "about"]


def test_headings_name_case_and_level(comparison: Comparison) -> None:
    table = reactions_table(comparison)
    read = dict(zip(table.columns, headings(table, comparison), strict=True))
    assert read["W_up_strength_reaction"] == "W up strength reaction"
    assert read["from_rake_ft"] == "from rake [ft]"


def test_a_refused_method_has_no_reactions() -> None:
    assert reactions_table(compare(scenario_of("plover_terrace"), ("tilted_rack",))).empty

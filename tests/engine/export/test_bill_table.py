"""The estimator's tables: subtotals and totals against JSON, read from the files with pandas and openpyxl."""

from __future__ import annotations

import datetime
import io
import json
import tomllib
from functools import cache

import openpyxl
import pandas as pd
import pypdf
import pytest

from engine.comparison.building_comparison import compare_slopes
from engine.comparison.compare import Comparison, compare
from engine.comparison.figures import value_of
from engine.export.bill_table import (
    bill_table,
    building_bill_table,
    cut_list_table,
    cutting_table,
    differences_table,
    parts_only,
)
from engine.export.bundle import bundle
from engine.export.csv import building_bill_csv
from engine.export.headings import headings
from engine.export.stamp import Stamp
from engine.loads import STANDARDS
from engine.mounting import METHODS
from engine.scenario.read import read_scenario, read_slopes
from engine.scenario.shelf import Shelf
from engine.units import FOOT, POUND
from support import scenario_of, tables_of

DAY = datetime.date(2026, 3, 4)


@cache
def comparison(name: str = "kestrel_yard", spares: float = 0) -> Comparison:
    return compare(scenario_of(name, hardware__spares=spares))


def made(name: str, spares: float = 0, system: str = "us") -> bytes:
    files = {file.name: file for file in bundle(comparison(spares=spares), Stamp(DAY, system))}  # type: ignore[arg-type]
    content = files[name].make()
    return content if isinstance(content, bytes) else content.encode()


@pytest.mark.parametrize("spares", [0, 3])
@pytest.mark.parametrize("system", ["us", "si"])
def test_the_csv_adds_up_to_the_json(spares: float, system: str) -> None:
    """Parts, subtotals and total are three levels of the same money; mass and hours are those of JSON too."""
    frame = pd.read_csv(io.BytesIO(made("bill.csv", spares, system)), comment="#")
    answer = json.loads(made("comparison.json", spares))
    for method in answer["methods"]:
        own = frame[frame["method"] == method["title"]]
        for level in ("part", "subtotal", "total"):
            rows = own[own["level"] == level]
            assert rows["total_price"].sum() == pytest.approx(method["total_cost"])
            assert rows["price"].sum() == pytest.approx(method["hardware_cost"])
            assert rows["labour_h"].sum() == pytest.approx(method["labour_hours"])
            mass = rows["mass_lb"] * POUND if system == "us" else rows["mass_kg"]
            assert mass.sum() == pytest.approx(method["mass_kg"])
        parts = own[own["level"] == "part"].set_index("part_id")
        for item in method["bill"]:
            row = parts.loc[item["part"]]
            assert (row["part"], row["quantity"], row["unit"]) == (item["name"], item["quantity"], item["unit"])
            assert (row["spares"], row["to_order"]) == (item["spares"], item["quantity"] + item["spares"])
            assert row["to_order"] * row["unit_price"] == pytest.approx(row["price"]) == pytest.approx(item["price"])
            if item["stock_length_m"]:
                length = FOOT if system == "us" else 1.0
                unit = "ft" if system == "us" else "m"
                assert row[f"stock_length_{unit}"] * length == pytest.approx(item["stock_length_m"])
                assert row[f"offcut_{unit}"] * length == pytest.approx(item["offcut_m"])


def test_the_workbook_is_the_csv_and_counts_are_integers() -> None:
    book = openpyxl.load_workbook(io.BytesIO(made("bill.xlsx", 3)))
    assert book.sheetnames == ["bill", "cut list", "cutting", "differences", "about"]
    table = bill_table(comparison(spares=3))
    first, *rows = book["bill"].iter_rows(values_only=True)
    assert list(first) == headings(table, comparison(spares=3))
    frame = pd.read_csv(io.BytesIO(made("bill.csv", 3)), comment="#")
    for name in ("to_order", "price", "total_price"):
        place = list(table.columns).index(name)
        cells = [row[place] for row in rows]
        assert [float("nan") if cell is None else cell for cell in cells] == pytest.approx(
            frame[name].tolist(), nan_ok=True
        )
    for name in ("quantity", "spares", "to_order"):
        place = list(table.columns).index(name)
        assert {type(row[place]) for row in rows} == {int, type(None)}
    assert ',"attachments",,320,"pieces",10,330,' in made("bill.csv", 3).decode()


def test_subtotals_and_totals_are_bold() -> None:
    page = openpyxl.load_workbook(io.BytesIO(made("bill.xlsx")))["bill"]
    for row in page.iter_rows(min_row=2):
        filled = [cell for cell in row if cell.value is not None]
        assert {cell.font.b for cell in filled} == {row[1].value != "part"}


def test_the_cut_list_and_the_cutting_plan_by_hand() -> None:
    """32 rails of 10.3076 m; 64 whole lengths and 16 that give two pieces of 1.7732 m; rest 4.2672 - 3.5464 = 0.7208."""
    cut_list = cut_list_table(comparison(), "si").set_index("part_id")
    assert cut_list.loc["rail", "bars"] == 32
    assert cut_list.loc["rail", "length_m"] == pytest.approx(10.3076)
    assert cut_list.loc["rail", "total_length_m"] == pytest.approx(329.8432)
    plan = cutting_table(comparison(), "si")
    rails = plan[plan["part_id"] == "rail"]
    assert rails["stock_lengths"].tolist() == [64, 16]
    assert rails["pieces"].tolist() == ["4\u00a0267", "2 x 1\u00a0773"]
    assert rails["rest_m"].tolist() == pytest.approx([0, 0.7208])
    assert (rails["stock_lengths"] * rails["rest_m"]).sum() == pytest.approx(80 * 4.2672 - 329.8432)
    assert cutting_table(comparison()).loc[1, "pieces"] == "2 x 5' 9 3/4\""


def test_differences_are_from_the_cheapest_method_that_holds() -> None:
    """All three hold here, and modules on seams cost least."""
    table = differences_table(comparison())
    total = table[table["level"] == "total"].iloc[0]
    costs = {column.id: value_of(column, "total_cost") for column in comparison().columns}
    cheapest = min(costs, key=lambda id_: costs[id_] or 0)
    assert cheapest == "direct"
    for id_, cost in costs.items():
        assert total[f"{id_}_total_price"] == pytest.approx(cost)
        assert total[f"{id_}_difference"] == pytest.approx(cost - costs[cheapest])
        for level in ("part", "subtotal"):
            assert table.loc[table["level"] == level, f"{id_}_difference"].sum() == pytest.approx(
                cost - costs[cheapest]
            )
    rails = table.set_index("part").loc["rails"]
    assert (rails["rail_to_order"], rails["direct_total_price"]) == (80, 0)
    parts = table[table["level"] == "part"]["part"].tolist()
    assert len(set(parts)) == len(parts)


def test_a_refused_method_has_no_bill() -> None:
    refused = compare(scenario_of("plover_terrace"), ("tilted_rack",))
    assert bill_table(refused).empty
    assert cut_list_table(refused).empty
    assert cutting_table(refused).empty
    assert differences_table(refused).empty


def test_the_report_shows_parts_alone() -> None:
    table = parts_only(bill_table(comparison()))
    assert list(table) == [
        "method",
        "part",
        "part_number",
        "quantity",
        "unit",
        "mass_lb",
        "unit_price",
        "price",
        "labour_h",
    ]
    assert headings(table, comparison())[5:] == ["mass [lb]", "unit price [USD]", "price [USD]", "labour [h]"]
    assert "total" not in table["part"].tolist()


def test_the_bill_of_a_building_is_the_sum_of_its_slopes() -> None:
    """Against the building's own totals; Lapwing Hall has three arrays on two slopes."""
    building = compare_slopes(read_slopes(tables_of("lapwing_hall"), METHODS, STANDARDS))
    frame = pd.read_csv(io.StringIO(building_bill_csv(building, Stamp(DAY))), comment="#")
    assert frame["slope"].unique().tolist() == ["south", "north", "all slopes"]
    for total in building.totals:
        own = frame[frame["method"] == total.title]
        for level in ("part", "subtotal", "total"):
            rows = own[own["level"] == level].groupby("slope")[["total_price", "price", "labour_h", "quantity"]].sum()
            assert rows.loc["all slopes", "total_price"] == pytest.approx(total.total("total_cost"))
            assert rows.loc["all slopes"].tolist() == pytest.approx((rows.loc["south"] + rows.loc["north"]).tolist())
        attachments = own[(own["slope"] == "all slopes") & (own["part_id"] == "attachment")]
        assert attachments["quantity"].tolist() == [total.total("attachments")]
        modules = own[(own["slope"] == "all slopes") & (own["part_id"] == "module")]
        assert modules["quantity"].tolist() == [total.total("modules")] == [408]
    assert "# title: Lapwing Hall (invented)\n" in building_bill_csv(building, Stamp(DAY))


def test_a_method_refused_on_a_slope_has_no_bill_of_the_building() -> None:
    tables = tables_of("lapwing_hall")
    tables["slopes"][1]["roof"]["rib_spacing"] = "48 in"  # wider than a module's edge can cross twice
    tables["slopes"][1]["roof"]["fastening"] = {"uplift": {"allowable": "500 lb"}}
    building = compare_slopes(read_slopes(tables, METHODS, STANDARDS))
    refused = [total.title for total in building.totals if any(column.design is None for column in total.columns)]
    assert "modules on seams" in refused
    assert len(refused) < 3
    table = building_bill_table(building)
    whole = table[table["slope"] == "all slopes"]
    assert set(whole["method"]) == {"rails", "tilted rack", "modules on seams"} - set(refused)
    assert set(table[table["slope"] == "south"]["method"]) == {"rails", "tilted rack", "modules on seams"}


SHELF = """
format = 1
[rails.mine]
part_number = "R-14"
[hardware.numbers]
parts.attachment.part_number = "SC-02"
parts.splice.part_number = "=SP"
"""


@cache
def numbered() -> dict[str, bytes]:
    """Rails whose numbers, and those of attachments and splices, come from a shelf; clamps have none."""
    written = tables_of("kestrel_yard")
    written["hardware"] |= {"from": "numbers", "rail": {"from": "mine"}}
    scenario = read_scenario(written, METHODS, STANDARDS, "", (Shelf("mine.toml", tomllib.loads(SHELF)),))
    chosen = bundle(compare(scenario, ("rail",)), Stamp(DAY), ("estimator", "installer", "data"))
    wanted = ("bill.csv", "bill.xlsx", "data_bill.csv", "comparison.json", "installer_rail.pdf")
    made = {file.name: file.make() for file in chosen if file.name in wanted}
    return {name: content if isinstance(content, bytes) else content.encode() for name, content in made.items()}


def test_your_own_part_numbers_are_in_every_bill() -> None:
    """A number that begins as a formula does stays text."""
    for name, splice in (("bill.csv", "'=SP"), ("data_bill.csv", "'=SP")):
        frame = pd.read_csv(io.BytesIO(numbered()[name]), comment="#")
        own = frame[frame["part_number"].notna()]
        found = dict(zip(own.get("part_id", own["part"]), own["part_number"], strict=True))
        assert found == {"attachment": "SC-02", "rail": "R-14", "splice": splice}
    book = openpyxl.load_workbook(io.BytesIO(numbered()["bill.xlsx"]))
    for name in ("bill", "cut list", "cutting"):
        heading, *rows = book[name].values
        column = heading.index("part number")
        assert "R-14" in {row[column] for row in rows}
    bill = json.loads(numbered()["comparison.json"])["methods"][0]["bill"]
    numbers = {line["part"]: line["part_number"] for line in bill}
    assert numbers == {"attachment": "SC-02", "rail": "R-14", "splice": "=SP", "middle_clamp": None, "end_clamp": None}


def test_your_own_part_numbers_are_on_the_installers_sheet() -> None:
    pages = pypdf.PdfReader(io.BytesIO(numbered()["installer_rail.pdf"])).pages
    words = " ".join(" ".join(page.extract_text() for page in pages).split())
    for said in ("Cut list: rails (R-14)", "Splices: rails (R-14)", "attachments (SC-02)", "splices (=SP)"):
        assert said in words
    assert "middle clamps 256" in words

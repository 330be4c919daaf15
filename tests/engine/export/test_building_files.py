"""Files about all slopes of a building, read back independently: sums of the slopes, one plan, one calculation."""

from __future__ import annotations

import datetime
import io
import json
import re
from functools import cache
from xml.etree import ElementTree

import ezdxf
import numpy as np
import openpyxl
import pandas as pd
import pypdf
import pytest
from ezdxf.tools.text import plain_text
from jsonschema import Draft202012Validator

from engine.comparison.building_comparison import BuildingComparison, compare_file, compare_slopes
from engine.comparison.figures import value_of
from engine.export.building_bundle import building_bundle
from engine.export.building_report import building_answer
from engine.export.document_files import to_pdf
from engine.export.stamp import Stamp
from engine.loads import STANDARDS
from engine.mounting import METHODS
from engine.scenario.read import read_slopes
from engine.units import FOOT, INCH, number
from support import tables_of
from support.pdf_lines import straight_lines

DAY = datetime.date(2026, 3, 4)
SLOPES = ("south", "north")


@cache
def building() -> BuildingComparison:
    """Lapwing Hall: rails are over on the south slope and hold on the north one, modules on seams hold on both."""
    return compare_slopes(read_slopes(tables_of("lapwing_hall"), METHODS, STANDARDS), ("rail", "direct"))


@cache
def files() -> dict[str, bytes]:
    ways = dict.fromkeys(building().names, tuple)  # searching them takes half a minute, and is tested elsewhere
    made = {file.name: file.make() for file in building_bundle(building(), Stamp(DAY), (), ways)}
    return {name: content if isinstance(content, bytes) else content.encode() for name, content in made.items()}


def frame(name: str) -> pd.DataFrame:
    return pd.read_csv(io.BytesIO(files()[name]), comment="#")


def words_of(name: str) -> str:
    return " ".join(" ".join(page.extract_text() for page in pages(name)).split())


def pages(name: str) -> list[pypdf.PageObject]:
    return list(pypdf.PdfReader(io.BytesIO(files()[name])).pages)


def test_totals_are_the_sums_of_the_slopes_in_csv_workbook_and_json() -> None:
    """408 modules; by hand 844 + 418 attachments of rails, 560 + 436 on seams, 560 + 418 in the best mix."""
    table = frame("totals.csv")
    assert table["slope"].tolist() == [*SLOPES, "all slopes"] * 3
    for method, counts in {
        "rails": (844, 418),
        "modules on seams": (560, 436),
        "best of each slope": (560, 418),
    }.items():
        own = table[table["method"] == method].set_index("slope")
        assert own["attachments"].tolist() == [*counts, sum(counts)]
        assert own["modules"].tolist() == [224, 184, 408]
        for column in ("total_cost", "labour_hours", "mass_lb"):
            assert own.loc["all slopes", column] == pytest.approx(own.loc[list(SLOPES), column].sum(), rel=1e-6)
        assert own.loc["all slopes", "utilisation"] == own.loc[list(SLOPES), "utilisation"].max()
    assert table[table["slope"] == "all slopes"]["verdict"].tolist() == ["over", "holds", "holds"]
    rows = list(openpyxl.load_workbook(io.BytesIO(files()["totals.xlsx"]))["totals"].values)
    assert [row[:2] for row in rows[1:]] == list(zip(table["method"], table["slope"], strict=True))
    record = json.loads(files()["comparison.json"])
    for method in record["methods"]:
        total = table[(table["method"] == method["title"]) & (table["slope"] == "all slopes")].iloc[0]
        assert total["attachments"] == method["attachments"]
        assert total["mass_lb"] == pytest.approx(number(method["mass_kg"], "mass", "us"))
        assert total["total_cost"] == pytest.approx(method["total_cost"])
    assert record["best_mix"]["methods"] == {"south": "direct", "north": "rail"}
    schema = json.loads(files()["comparison.schema.json"])
    Draft202012Validator.check_schema(schema)
    assert [(error.json_path, error.message) for error in Draft202012Validator(schema).iter_errors(record)] == []
    assert [len(slope["methods"][0]["attachment_schedule"]) for slope in record["slopes"]] == [844, 418]


def test_every_attachment_of_every_slope_is_in_one_schedule() -> None:
    table = frame("attachments.csv")
    counts = table.groupby(["method", "slope"], sort=False).size()
    for slope in building().slopes:
        for column in slope.columns:
            assert counts[column.title, slope.scenario.slope] == value_of(column, "attachments")
    assert set(table.columns) >= {"from_rake_ft", "from_eave_m", "uplift_lb", "utilisation"}


def test_the_plan_has_every_slope_on_one_sheet_to_one_scale() -> None:
    """By hand: 200 ft of eave and slopes of 62 ft / cos(atan(1/12)) = 62.21 ft, at 1 in = 25 ft."""
    (page,) = pages("plan_best_mix.pdf")
    words = " ".join(page.extract_text().split())
    for said in ("slope south, modules on seams: HOLDS", "slope north, rails: HOLDS", "2 slopes", "scale 1 in = 25 ft"):
        assert said in words
    assert sorted(float(side) for side in page.mediabox[2:]) == [792, 1224]
    lines = straight_lines(pypdf.PdfReader(io.BytesIO(files()["plan_best_mix.pdf"])))
    across = np.abs(lines[:, 2] - lines[:, 0])[np.isclose(lines[:, 1], lines[:, 3])]
    up = np.abs(lines[:, 3] - lines[:, 1])[np.isclose(lines[:, 0], lines[:, 2])]
    scale = 25 * FOOT / INCH
    depth = 62 * np.hypot(1, 1 / 12)
    for drawn, feet in ((across, 200), (up, depth)):
        assert np.count_nonzero(np.abs(drawn - feet * FOOT / scale / INCH * 72) < 0.02) >= 2, "the whole, on each slope"
    picture = ElementTree.fromstring(files()["plan_rail.svg"])
    assert len(list(picture.iter("{http://www.w3.org/2000/svg}circle"))) >= 844 + 418


def test_the_drawing_has_every_slope_true_to_scale_above_one_another() -> None:
    """Read and audited by ezdxf: two roofs of 200 ft, a block for each attachment with its slope, both on the sheet."""
    found = ezdxf.read(io.StringIO(files()["plan_best_mix.dxf"].decode()))
    audit = found.audit()
    assert (audit.errors, audit.fixes) == ([], [])
    roofs = found.modelspace().query('LWPOLYLINE[layer=="roof"]')
    corners = [np.array([point[:2] for point in roof.get_points()]) for roof in roofs]  # type: ignore[attr-defined]
    for roof in corners:
        np.testing.assert_allclose(np.ptp(roof, axis=0), [200, 62 * np.hypot(1, 1 / 12)], rtol=1e-9)
    assert corners[0].min(axis=0)[1] > corners[1].max(axis=0)[1], "the first slope is above the second"
    ribs = [each.get_attrib_text("RIB") for each in found.modelspace().query("INSERT") if each.attribs]  # type: ignore[attr-defined]
    assert [sum(rib.startswith(f"slope {name}, seam ") for rib in ribs) for name in SLOPES] == [560, 418]
    written = [plain_text(text.dxf.text) for text in found.paperspace("Plan").query("TEXT")]
    assert "scale 1 in = 30 ft" in written
    assert any(words.startswith("slope south, modules on seams: HOLDS") for words in written)


def test_the_answer_is_one_page_with_totals_each_slope_and_the_plan() -> None:
    assert len(pages("answer.pdf")) == 1
    words = words_of("answer.pdf")
    for said in (
        building().answer,
        "Slope south",
        "Slope north",
        "best of each slope",
        "978",
        "left rake",
        "Preliminary",
    ):
        assert said in words


def test_the_calculation_has_totals_parts_attachments_plans_and_each_slope() -> None:
    words = words_of("report.pdf")
    for said in (
        "1 Whole building", "2 Parts to order", "3 Attachments", "4 Plans of all slopes",
        "5 Slope south: answer", "10 Slope south: components", "19 Slope north: components",
    ):  # fmt: skip
        assert said in words
    assert re.search(r"attachments 844 418 1,262", words)
    assert re.search(r"total, USD [\d,.]+ [\d,.]+ [\d,.]+", words)
    alone = sum(words.count(f"Slope {name}: wind") for name in SLOPES)
    assert alone == 4, "each in its place and in the contents"


def test_a_step_that_both_slopes_share_is_printed_once() -> None:
    """The velocity pressure is that of the site."""
    assert files()["report.html"].decode().count("velocity pressure at mean roof height") == 1


@pytest.mark.parametrize(
    ("reader", "own"),
    [
        ("reviewer", {"report.pdf", "plan_rail.pdf", "plan_best_mix.svg", "totals.xlsx"}),
        ("installer", {"attachments.csv", "plan_direct.pdf"}),
        ("estimator", {"bill.csv", "totals.csv", "totals.xlsx"}),
        ("data", {"comparison.json", "totals.csv", "bill.csv", "attachments.csv"}),
    ],
)
def test_each_reader_gets_theirs(reader: str, own: set[str]) -> None:
    chosen = building_bundle(building(), Stamp(DAY), (reader,), {})
    assert {file.name for file in chosen} >= own | {"README.txt", "answer.pdf"}
    listed = str(chosen[0].make())
    assert all(f"  {file.name} " in listed for file in chosen[1:])
    assert "south/: " in listed


def test_bytes_repeat() -> None:
    again = {file.name: file.make() for file in building_bundle(building(), Stamp(DAY), ("drafter",), {})}
    for name, content in again.items():
        if name != "README.txt":
            assert (content if isinstance(content, bytes) else content.encode()) == files()[name]


def test_alternatives_are_ranked_for_all_slopes_together() -> None:
    """Half the rows everywhere: fewer modules; the totals of each are those of its slopes, better verdicts first."""
    written = tables_of("lapwing_hall")
    for array in written["arrays"]:
        array |= {"rows": 2, "columns": 4, "aisles": [], "keep_clear": []}
    written["alternatives"] = [{"name": "calm", "set": {"site.wind_speed": "95 mph"}}]
    found = compare_file(read_slopes(written, METHODS, STANDARDS), ("rail", "direct"))
    assert isinstance(found, BuildingComparison)
    ways = len(found.ways_to_hold)
    assert [each.rank for each in found.ranking] == list(range(1, len(found.ranking) + 1))
    assert len(found.ranking) >= 2 * len(found.totals)
    assert sum(each.alternative == "as stated" for each in found.ranking) == ways
    calm = next(each for each in found.ranking if (each.alternative, each.total.title) == ("calm", "rails"))
    own = [slope.alternatives[0].comparison.columns[0] for slope in found.slopes]
    assert calm.total.total("attachments") == sum(value_of(column, "attachments") for column in own)  # type: ignore[misc]
    ranks = [each.total.rank for each in found.ranking]
    assert ranks == sorted(ranks)
    words = " ".join(
        pypdf.PdfReader(io.BytesIO(to_pdf(building_answer(found, Stamp(DAY))))).pages[0].extract_text().split()
    )
    assert "calm: site.wind_speed = 95 mph" in words
    assert f"1 {found.ranking[0].alternative} {found.ranking[0].total.title} HOLDS" in words

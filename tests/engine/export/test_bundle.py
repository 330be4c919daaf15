"""Everything that leaves: same figures in every form, the same bytes every time, and nothing a title could break."""

from __future__ import annotations

import csv
import datetime
import io
import json
import os
import re
import subprocess
import sys
from functools import cache
from html.parser import HTMLParser
from pathlib import Path
from xml.etree import ElementTree

import ezdxf
import numpy as np
import openpyxl
import pandas as pd
import pypdf
import pytest
from ezdxf.tools.text import plain_text

from engine.comparison.compare import CAUTIONS, Comparison, compare
from engine.comparison.figures import value_of
from engine.comparison.figures.verdict import verdict_line
from engine.export.bundle import bundle
from engine.export.calculation import calculation
from engine.export.csv import DIGITS
from engine.export.document_files import to_html
from engine.export.headings import headings
from engine.export.stamp import Stamp, harmless
from engine.units import FOOT, number
from support import WEAKER_ROOF, scenario_of

DAY = datetime.date(2026, 3, 4)
HOSTILE = "=1+1 \"'</title><script>alert(1)</script> & {{ 7*7 }} %%d ^J \\U+2300 \\P 🦊 שלום " + "x" * 10_000


@cache
def comparison(name: str, title: str = "Plain job") -> Comparison:
    return compare(scenario_of(name, title=title))


@cache
def files(name: str, title: str = "Plain job", system: str = "us") -> dict[str, bytes]:
    made = {file.name: file.make() for file in bundle(comparison(name, title), Stamp(DAY, system))}  # type: ignore[arg-type]
    return {name: content if isinstance(content, bytes) else content.encode() for name, content in made.items()}


def sheet(content: bytes, name: str) -> list[list[object]]:
    return [list(row) for row in openpyxl.load_workbook(io.BytesIO(content))[name].iter_rows(values_only=True)]


def frame_of(content: bytes | str) -> pd.DataFrame:
    """A CSV file as the first line of it says it is read."""
    text = content if isinstance(content, str) else content.decode()
    assert "pandas.read_csv(file, comment='#')" in text.splitlines()[0]
    return pd.read_csv(io.StringIO(text), comment="#")


def test_same_input_day_and_version_give_the_same_bytes() -> None:
    again = {
        file.name: file.make() for file in bundle(compare(scenario_of("sparrow_lane", title="Plain job")), Stamp(DAY))
    }
    assert {
        name: content if isinstance(content, bytes) else content.encode() for name, content in again.items()
    } == files("sparrow_lane")


def test_another_process_makes_the_same_bytes(tmp_path: Path) -> None:
    """With other seeds for the order of sets, which is where bytes may differ from run to run."""
    command = [
        sys.executable,
        "-m",
        "tui.cli.main",
        "export",
        "--method",
        "rail",
        "--date",
        "2026-03-04",
        "sparrow_lane",
    ]
    for seed in ("1", "4"):
        run = subprocess.run(
            [*command, str(tmp_path / seed)],
            env=os.environ | {"PYTHONHASHSEED": seed},
            capture_output=True,
            check=False,
        )
        assert run.returncode == 0
    for path in (tmp_path / "1").iterdir():
        assert path.read_bytes() == (tmp_path / "4" / path.name).read_bytes(), path.name


def test_everything_says_what_it_is_of() -> None:
    for name, content in files("sparrow_lane").items():
        if name.endswith(".schema.json"):
            continue  # it is of every comparison alike
        if name.endswith(".xlsx"):
            words = " ".join(str(cell) for row in sheet(content, "about") for cell in row)
        elif name.endswith(".dxf"):
            sheet_ = ezdxf.read(io.StringIO(content.decode())).paperspace("Plan")
            words = " ".join(plain_text(text.dxf.text) for text in sheet_.query("TEXT"))
        elif name.endswith(".pdf"):
            words = pypdf.PdfReader(io.BytesIO(content)).pages[0].extract_text()
        else:
            words = content.decode().replace("&#39;", "'")
        for said in (
            "Plain job",
            "ASCE 7-16",
            "loadpath 0.1",
            DAY.isoformat(),
            "SI" if name.endswith(".json") else "US customary",
        ):
            assert said in words, (name, said)
        for caution in CAUTIONS:
            assert caution in " ".join(words.split()), (name, caution)


def test_each_method_that_was_laid_out_has_its_files() -> None:
    assert {name for name in files("plover_terrace") if "tilted_rack" in name} == set(), "a refused method has no plan"
    assert len([name for name in files("sparrow_lane") if "tilted_rack" in name]) == 7, "one outside the scope has"


@pytest.mark.parametrize("system", ["us", "si"])
def test_the_workbook_equals_the_json(system: str) -> None:
    answer = json.loads(files("sparrow_lane")["comparison.json"])
    book = files("sparrow_lane", system=system)["comparison.xlsx"]
    rows = {
        row[1]: dict(zip(("rail", "tilted_rack", "direct"), row[3:], strict=True))
        for row in sheet(book, "comparison")[1:]
    }
    for method in answer["methods"]:
        own = {label: row[method["method"]] for label, row in rows.items()}
        assert own["attachments"] == method["attachments"]
        assert own["mass"] == pytest.approx(number(method["mass_kg"], "mass", system))  # type: ignore[arg-type]
        assert own["total, USD"] == pytest.approx(method["total_cost"])
        if method["status"] != "outside scope":
            assert own["largest uplift"] == pytest.approx(number(method["point_load_up_n"], "force", system))  # type: ignore[arg-type]
            assert own["clip"] == pytest.approx(method["fastening_utilisation"])
    used = [link["utilisation"] for method in answer["methods"] for link in method["links"]]
    assert [row[5] for row in sheet(book, "links")[1:]] == pytest.approx(used, nan_ok=True)
    prices = [item["price"] for method in answer["methods"] for item in method["bill"]]
    headings_of_bill, *lines = sheet(book, "bill")
    price = headings_of_bill.index("price [USD]")
    assert sum(row[price] or 0 for row in lines if row[1] == "part") == pytest.approx(sum(prices))  # type: ignore[misc]


def test_a_workbook_has_a_sheet_a_subject_with_headings_in_sight() -> None:
    book = openpyxl.load_workbook(io.BytesIO(files("sparrow_lane")["comparison.xlsx"]))
    assert book.sheetnames == ["comparison", "links", "bill", "attachments", "reactions", "inputs", "flags", "about"]
    for page in book:
        assert page.freeze_panes in ("B2", "C2")
        assert all(isinstance(cell.value, str) for cell in page[1])
    stated = {row[0]: row for row in sheet(files("sparrow_lane")["comparison.xlsx"], "inputs")}
    assert stated["site.wind_speed"][1:4] == ["110 mph", 110, "mph"]
    assert stated["hardware.parts.screw.mass"][1] == "0.02 lb"
    assert stated["hardware.parts.screw.mass"][4] == "default"


def test_a_workbook_shows_as_many_digits_as_the_screen() -> None:
    page = openpyxl.load_workbook(io.BytesIO(files("sparrow_lane")["attachments_rail.xlsx"]))["attachments"]
    shown = {
        str(page.cell(1, column).value): page.cell(2, column).number_format for column in range(1, page.max_column + 1)
    }
    assert shown["number"] == shown["wind zone"] == "General"
    assert shown["uplift [lb]"] == "#,##0"
    assert shown["from rake [ft]"] == shown["utilisation"] == "#,##0.00"
    assert shown["from rake [m]"] == "#,##0.000"


def test_counts_are_integers_in_every_form() -> None:
    """Beside measures, text and empty cells, in the workbook and in CSV read back by pandas."""
    page = openpyxl.load_workbook(io.BytesIO(files("sparrow_lane")["comparison.xlsx"]))["comparison"]
    attachments = next(row for row in page.iter_rows() if row[1].value == "attachments")
    assert [cell.number_format for cell in attachments[3:]] == ["#,##0"] * 3
    assert all(isinstance(cell.value, int) for cell in attachments[3:])
    for name in ("rail", "tilted_rack", "direct"):
        frame = frame_of(files("sparrow_lane")[f"attachments_{name}.csv"])
        assert {column: frame[column].dtype.kind for column in ("number", "row", "rib")} == dict.fromkeys(
            ("number", "row", "rib"), "i"
        )
    frame = frame_of(files("sparrow_lane")["comparison.csv"])
    assert frame.loc[frame["figure"] == "attachments", "rail"].iloc[0] == "34"


def test_counts_in_the_workbook_have_no_decimals_ratios_and_money_two() -> None:
    """Each row of the comparison by its kind; forces and masses as on screen."""
    page = openpyxl.load_workbook(io.BytesIO(files("sparrow_lane")["comparison.xlsx"]))["comparison"]
    formats = {row[1].value: row[3].number_format for row in page.iter_rows() if isinstance(row[3].value, float | int)}
    whole, two = "#,##0", "#,##0.00"
    assert {label: formats[label] for label in ("attachments", "modules", "roof penetrations")} == dict.fromkeys(
        ("attachments", "modules", "roof penetrations"), whole
    )
    assert {formats[label] for label in ("largest uplift", "mass")} == {whole}
    assert {formats[label] for label in ("attachments per module", "clip", "total, USD", "rail span limit")} == {two}
    links = openpyxl.load_workbook(io.BytesIO(files("sparrow_lane")["comparison.xlsx"]))["links"]
    heading = [cell.value for cell in links[1]]
    units, demands = heading.index("unit"), heading.index("demand")
    assert {
        row[units].value: row[demands].number_format for row in links.iter_rows(min_row=2) if row[demands].value
    } == {
        "psf": "#,##0.0",
        "lb": whole,
        "lb ft": whole,
        "in": two,
    }


def test_a_method_that_is_refused_is_in_every_form() -> None:
    made = files("plover_terrace")
    refused = next(
        method for method in json.loads(made["comparison.json"])["methods"] if method["method"] == "tilted_rack"
    )
    assert refused["status"] == "refused"
    assert refused["attachments"] is None
    assert refused["bill"] == []
    assert "REFUSED" in made["comparison.csv"].decode()


def test_a_link_that_is_over_is_called_so_in_the_calculation() -> None:
    """Rails on every seam of a weaker roof: the clip alone is over, at 370 of 350 lb (`test_hand_calculation`)."""
    weaker = compare(scenario_of(**WEAKER_ROOF, methods__rail__spacing="1 ribs"))
    page = to_html(calculation(weaker, Stamp(DAY)))
    (over,) = re.findall(r'<tr class="marked"><td>rails</td><td>[^<]*</td><td class="number">[\d.]+, over</td>', page)
    assert "load 370 of 350 lb" in over
    assert "1.059, over" in over


@pytest.mark.parametrize("method", ["rail", "direct"])
def test_the_schedule_in_both_forms(method: str) -> None:
    """CSV through pandas and the workbook through openpyxl: the layout's own places and loads."""
    column = next(column for column in comparison("sparrow_lane").columns if column.id == method)
    design = column.design
    assert design is not None
    assert design.candidate is not None
    frame = frame_of(files("sparrow_lane")[f"attachments_{method}.csv"])
    attachments, demands = design.layout.attachments, design.candidate.demands
    rounded = {"rtol": 0.5 * 10 ** (1 - DIGITS)}
    np.testing.assert_allclose(frame["from_rake_ft"], attachments.x / FOOT, **rounded)
    np.testing.assert_allclose(frame["from_eave_m"], attachments.y, **rounded)
    np.testing.assert_allclose(frame["uplift_kN"], -demands.attachment_normal.min(axis=1).clip(max=0) / 1000, **rounded)
    at_attachments = [
        check.ratio
        for check in column.checks.values()
        if check.link in ("clamp", "attachment", "rib", "roof_fastening")
    ]
    assert frame["utilisation"].max() == pytest.approx(max(at_attachments))
    assert frame["number"].tolist() == list(range(1, len(attachments) + 1))
    rows = sheet(files("sparrow_lane")[f"attachments_{method}.xlsx"], "attachments")
    assert rows[0] == headings(frame, comparison("sparrow_lane"))
    np.testing.assert_allclose([row[13] for row in rows[1:]], frame["utilisation"], **rounded)  # type: ignore[arg-type]


def test_outside_the_scope_nothing_is_claimed() -> None:
    frame = frame_of(files("sparrow_lane")["attachments_tilted_rack.csv"])
    assert frame["uplift_lb"].isna().all()
    assert set(frame["verdict"]) == {"not checked"}
    assert set(frame["method_verdict"]) == {"outside scope"}
    assert frame[["method_controlling_component", "method_utilisation", "roof_alone_utilisation"]].isna().all(axis=None)
    for name in ("plan_tilted_rack.svg", "plan_tilted_rack.dxf"):
        drawn = files("sparrow_lane")[name].decode()
        assert "OUTSIDE SCOPE: nothing is checked" in drawn, name
        assert "not checked" in drawn.replace("nothing is checked", ""), name
        assert "hold there" not in drawn, name


OVER = {
    "panel anchorage": {"roof__fixed_point__in_plane": {"allowable": "40 lb"}},
    "roof alone": {
        **{"array__rows": 1, "array__columns": 3, "array__origin": ["90 ft", "20 ft"]},
        "roof__fastening__uplift": {"allowable": "280 lb"},
    },
}
"""Kestrel Yard's modules on seams; three in the middle of the roof: over, though no attachment is, nor a link beside one."""


@pytest.mark.parametrize("over", OVER)
def test_a_schedule_and_a_plan_say_what_the_whole_method_comes_to(over: str) -> None:
    """Where the fixed point alone is over, or the roof before any array, every attachment holds and the method does not."""
    found = compare(scenario_of(**OVER[over]), ("direct",))
    (column,) = found.columns
    assert (column.status, column.controlling is not None) == ("over", True)
    made = {file.name: file.make() for file in bundle(found, Stamp(DAY))}
    frame = frame_of(made["attachments_direct.csv"])
    assert set(frame["verdict"]) == {"holds"}
    assert set(frame["method_verdict"]) == {"over"}
    assert set(frame["method_controlling_component"]) == {column.controlling.title}
    assert frame["method_utilisation"].tolist() == pytest.approx([column.controlling.utilisation] * len(frame))
    assert frame["roof_alone_utilisation"].tolist() == pytest.approx(
        [value_of(column, "bare_roof_utilisation")] * len(frame)
    )
    said = verdict_line(column)
    assert re.match(rf"OVER \d\.\d\d(, close)?: {over}\. ", said), said
    book = bytes(made["attachments_direct.xlsx"])
    assert ["verdict", said] in sheet(book, "about")
    assert sheet(book, "attachments")[0] == headings(frame, found)
    assert f"verdict: {said}" in str(made["attachments_direct.csv"])
    for name in ("plan_direct.svg", "plan_direct.dxf"):
        assert said.split(". ")[0] in str(made[name]), name
        assert "attachment, module clamp, seam bending and clip hold there" in str(made[name]), name


@pytest.mark.parametrize(
    ("words", "written"),
    [
        ("=1+1", "'=1+1"),
        ("+1", "'+1"),
        ("-1", "'-1"),
        ("@a", "'@a"),
        ("\ta", "'\ta"),
        ("a=1", "a=1"),
        ("", ""),
        ("1-2", "1-2"),
    ],
)
def test_no_spreadsheet_takes_words_for_a_formula(words: str, written: str) -> None:
    assert harmless(words) == written


def test_a_link_that_is_not_checked_is_not_said_to_hold() -> None:
    rows = sheet(files("sparrow_lane")["comparison.xlsx"], "links")
    verdict, used = rows[0].index("verdict"), rows[0].index("utilisation")
    assert {row[verdict] for row in rows[1:] if row[used] is None} <= {
        "not checked",
        "shown by others",
        "only reported",
    }
    assert {row[verdict] for row in rows[1:] if row[used] is not None} == {"holds"}


def test_the_drawing_leaves_the_librarys_options_as_they_were() -> None:
    files("sparrow_lane")
    assert ezdxf.options.write_fixed_meta_data_for_testing is False


class Tags(HTMLParser):
    """Collects what a browser would take for markup."""

    def __init__(self) -> None:
        super().__init__()
        self.seen: set[str] = set()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.seen.add(tag)


def test_a_hostile_title_harms_nothing() -> None:
    plain, hostile = files("sparrow_lane"), files("sparrow_lane", HOSTILE)
    assert set(plain) == set(hostile)
    for name, content in hostile.items():
        if name.endswith(".xlsx"):
            assert sheet(content, "about")[1] == ["title", HOSTILE]
            book = openpyxl.load_workbook(io.BytesIO(content))
            assert not any(cell.data_type == "f" for page in book for row in page.iter_rows() for cell in row)
        elif name.endswith(".csv"):
            cells = [cell for row in csv.reader(io.StringIO(content.decode())) for cell in row]
            assert not any(
                cell[:1] in ("=", "+", "@") or (cell[:1] == "-" and not cell[1:2].isdigit()) for cell in cells
            )
            assert any(HOSTILE in cell for cell in cells)
        elif name.endswith(".html"):
            before, after = Tags(), Tags()
            before.feed(plain[name].decode())
            after.feed(content.decode())
            assert before.seen == after.seen
            assert "script" not in after.seen
            assert "{{ 7*7 }}" in content.decode()
        elif name.endswith(".svg"):
            assert {part.tag for part in ElementTree.fromstring(content).iter()} == {
                part.tag for part in ElementTree.fromstring(plain[name]).iter()
            }
        elif name.endswith(".schema.json"):
            assert content == plain[name]
        elif name.endswith(".json"):
            assert json.loads(content)["title"] == HOSTILE
        elif name.endswith(".md"):
            assert "<script>" not in content.decode()
        elif name.endswith(".dxf"):
            document = ezdxf.read(io.StringIO(content.decode()))
            assert not document.audit().errors
            shown = [plain_text(text.dxf.text) for text in document.paperspace("Plan").query("TEXT")]  # codes decoded
            assert any(text.replace(" ", "")[:30] == HOSTILE.replace(" ", "")[:30] for text in shown)


READ_BY = {
    "reviewer": {
        "report.html",
        "plan_rail.pdf",
        "pull_tests_rail.pdf",
        "comparison.xlsx",
        "plan_rail.svg",
        "reactions_rail.csv",
    },
    "installer": {
        f"{name}.{form}" for name in ("survey", "installer_rail", "pull_tests_rail") for form in ("html", "pdf")
    }
    | {"plan_rail.svg", "plan_rail.pdf"},
    "estimator": {"bill.csv", "bill.xlsx"},
    "drafter": {"plan_rail.svg", "plan_rail.pdf", "plan_rail.dxf"},
    "data": {"comparison.json", "comparison.csv", "attachments_rail.csv", "bill.csv"},
}


@pytest.mark.parametrize("reader", READ_BY)
def test_each_reader_gets_theirs_and_a_readme_of_them(reader: str) -> None:
    every = bundle(comparison("sparrow_lane"), Stamp(DAY))
    own = bundle(comparison("sparrow_lane"), Stamp(DAY), (reader,))
    assert {file.name for file in own} >= READ_BY[reader]
    assert {file.name for file in own} == {file.name for file in every if reader in file.readers}
    assert all(file.readers and file.purpose for file in every)
    listed = str(own[0].make())
    assert own[0].name == "README.txt"
    assert all(f"  {file.name} " in listed for file in own[1:])
    assert listed.count("--for") == 1


def test_the_readme_lists_every_file_for_each_of_its_readers() -> None:
    every = bundle(comparison("sparrow_lane"), Stamp(DAY))
    listed = files("sparrow_lane")["README.txt"].decode()
    for file in every[1:]:
        assert listed.count(f"  {file.name} ") == len(file.readers), file.name
    assert all(len(line) <= 100 for line in listed.splitlines())


def test_two_readers_get_the_files_of_both() -> None:
    names = {file.name for file in bundle(comparison("sparrow_lane"), Stamp(DAY), ("drafter", "estimator"))}
    assert names >= READ_BY["drafter"] | READ_BY["estimator"]
    assert "report.html" not in names


UNITS_OF = {"us": "ft|in|lb|psf|mph|lb ft|lb/ft", "si": "m|mm|kN|kPa|m/s|kN m|kN/m|kg"}


@pytest.mark.parametrize("name", ["sparrow_lane", "plover_terrace", "kestrel_yard"])
@pytest.mark.parametrize(("system", "other"), [("us", "si"), ("si", "us")])
def test_the_units_that_are_chosen_hold_in_every_text(name: str, system: str, other: str) -> None:
    """The other system's may follow in brackets, or be followed by them, for review: never alone."""
    for file in ("comparison.html", "comparison.csv", "comparison.md", "bill.csv", "README.txt"):
        words = re.sub(r"<style>.*?</style>|<[^>]*>", " ", files(name, system=system)[file].decode(), flags=re.DOTALL)
        in_brackets = re.sub(rf"\([\d.,]+ (?:{UNITS_OF['si']})\)", "", words)
        alone = re.sub(rf"[\d.,]+ (?:{UNITS_OF['us']}) \([\d.,]+ [a-zA-Z/ ]+\)", "", words)
        text = in_brackets if other == "si" else alone
        assert re.findall(rf"\d (?:{UNITS_OF[other]})\b(?! (?:all|place))", text) == [], file

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
from engine.comparison.roof_plan import plan
from engine.export.bundle import bundle
from engine.export.calculation import calculation
from engine.export.document_files import to_html
from engine.export.headings import headings
from engine.export.stamp import Stamp, harmless
from engine.export.svg_plan import MAX_HEIGHT
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
        if name.endswith(".xlsx"):
            words = " ".join(str(cell) for row in sheet(content, "about") for cell in row)
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
    assert len([name for name in files("sparrow_lane") if "tilted_rack" in name]) == 4, "one outside the scope has"


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
    assert sum(row[6] or 0 for row in sheet(book, "bill")[1:]) == pytest.approx(sum(prices))  # type: ignore[misc]


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
        frame = pd.read_csv(io.BytesIO(files("sparrow_lane")[f"attachments_{name}.csv"]))
        assert {column: frame[column].dtype.kind for column in ("number", "row", "rib")} == dict.fromkeys(
            ("number", "row", "rib"), "i"
        )
    frame = pd.read_csv(io.BytesIO(files("sparrow_lane")["comparison.csv"]))
    assert frame.loc[frame["figure"] == "attachments", "rail"].iloc[0] == "34"


def test_the_schedule_of_a_tiny_array_still_says_what_it_is_of() -> None:
    """Fewer attachments than statements about them: the last row takes those that are left."""
    tiny = compare(scenario_of("sparrow_lane", array__rows=1, array__columns=1), ("direct",))
    written = str({file.name: file.make() for file in bundle(tiny, Stamp(DAY))}["attachments_direct.csv"])
    frame = pd.read_csv(io.StringIO(written))
    assert len(frame) == value_of(tiny.columns[0], "attachments") < 10
    assert all(caution in frame["about"].iloc[-1] for caution in CAUTIONS)
    assert frame["number"].dtype.kind == "i"


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
    frame = pd.read_csv(io.BytesIO(files("sparrow_lane")[f"attachments_{method}.csv"]))
    attachments, demands = design.layout.attachments, design.candidate.demands
    np.testing.assert_allclose(frame["from_rake_ft"], attachments.x / FOOT)
    np.testing.assert_allclose(frame["from_eave_m"], attachments.y)
    np.testing.assert_allclose(frame["uplift_kN"], -demands.attachment_normal.min(axis=1).clip(max=0) / 1000)
    at_attachments = [
        check.ratio
        for check in column.checks.values()
        if check.link in ("clamp", "attachment", "rib", "roof_fastening")
    ]
    assert frame["utilisation"].max() == pytest.approx(max(at_attachments))
    assert frame["number"].tolist() == list(range(1, len(attachments) + 1))
    rows = sheet(files("sparrow_lane")[f"attachments_{method}.xlsx"], "attachments")
    assert rows[0] == headings(frame.drop(columns="about"), comparison("sparrow_lane"))
    np.testing.assert_allclose([row[13] for row in rows[1:]], frame["utilisation"])  # type: ignore[arg-type]


def test_outside_the_scope_nothing_is_claimed() -> None:
    frame = pd.read_csv(io.BytesIO(files("sparrow_lane")["attachments_tilted_rack.csv"]))
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
    frame = pd.read_csv(io.StringIO(str(made["attachments_direct.csv"])))
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
    assert sheet(book, "attachments")[0] == headings(frame.drop(columns="about"), found)
    assert f"verdict: {said}" in str(made["attachments_direct.csv"])
    for name in ("plan_direct.svg", "plan_direct.dxf"):
        assert said.split(". ")[0] in str(made[name]), name
        assert "attachment, module clamp, seam bending and clip hold there" in " ".join(
            re.sub("<[^>]*>", "", str(made[name])).split()
        ), name


@pytest.mark.parametrize(("system", "code", "metres"), [("us", 2, FOOT), ("si", 6, 1.0)])
def test_the_drawing_passes_its_librarys_auditor_and_is_true_to_scale(system: str, code: int, metres: float) -> None:
    document = ezdxf.read(io.StringIO(files("sparrow_lane", system=system)["plan_rail.dxf"].decode()))
    audit = document.audit()
    assert (audit.errors, audit.fixes) == ([], [])
    assert document.units == code
    design = comparison("sparrow_lane").columns[0].design
    assert design is not None
    drawn = plan(design)
    space = document.modelspace()
    roof = next(iter(space.query('LWPOLYLINE[layer=="roof"]')))
    corners = np.array([point[:2] for point in roof.get_points()]) * metres  # type: ignore[attr-defined]
    np.testing.assert_allclose(corners.max(axis=0), [drawn.length, drawn.depth])
    assert len(space.query('LWPOLYLINE[layer=="modules"]')) == design.field.modules
    circles = (
        np.array([tuple(circle.dxf.center)[:2] for circle in space.query('CIRCLE[layer=="attachments"]')]) * metres
    )
    np.testing.assert_allclose(circles, np.column_stack([design.layout.attachments.x, design.layout.attachments.y]))
    measured = sum(dimension.get_measurement() for dimension in space.query("DIMENSION")) * metres  # type: ignore[attr-defined]
    assert measured == pytest.approx(drawn.length + drawn.depth)


def test_what_is_over_is_crossed_in_the_drawing() -> None:
    over = compare(scenario_of("sparrow_lane", roof__fastening__uplift={"allowable": "60 lb"}), ("rail",))
    drawn = {file.name: file.make() for file in bundle(over, Stamp(DAY))}["plan_rail.dxf"]
    space = ezdxf.read(io.StringIO(str(drawn))).modelspace()
    design = over.columns[0].design
    assert design is not None
    verdicts = plan(design).attachments.verdicts
    strokes = space.query('LINE[layer=="attachments"]')
    assert len(strokes) == 2 * list(verdicts).count("over") > 0
    for rising, falling in zip(strokes[::2], strokes[1::2], strict=True):
        (x, y, _), (size, height, _) = rising.dxf.start, rising.dxf.end - rising.dxf.start
        assert size == pytest.approx(height)
        assert size > 0
        assert tuple(falling.dxf.start) == pytest.approx((x, y + size, 0))
        assert tuple(falling.dxf.end) == pytest.approx((x + size, y, 0))


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


def test_the_plan_is_drawn_to_scale_and_every_point_is_there() -> None:
    design = comparison("sparrow_lane").columns[0].design
    assert design is not None
    picture = ElementTree.fromstring(files("sparrow_lane")["plan_rail.svg"])
    circles = list(picture.iter("{http://www.w3.org/2000/svg}circle"))
    assert len(circles) == len(design.layout.attachments)
    across = np.array([float(circle.attrib["cx"]) for circle in circles])
    scale = np.ptp(across) / np.ptp(design.layout.attachments.x)
    up = np.array([float(circle.attrib["cy"]) for circle in circles])
    np.testing.assert_allclose(np.ptp(up), np.ptp(design.layout.attachments.y) * scale, atol=0.02)


def test_a_deep_roof_is_drawn_no_taller_than_a_page() -> None:
    deep = compare(
        scenario_of(building__length="24 ft", array__origin=["4 ft", "10 ft"], array__columns=2), ("direct",)
    )
    picture = ElementTree.fromstring(
        str({file.name: file.make() for file in bundle(deep, Stamp(DAY))}["plan_direct.svg"])
    )
    up = [float(circle.attrib["cy"]) for circle in picture.iter("{http://www.w3.org/2000/svg}circle")]
    assert 0 < max(up) - min(up) < MAX_HEIGHT


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
        elif name.endswith(".json"):
            assert json.loads(content)["title"] == HOSTILE
        elif name.endswith(".md"):
            assert "<script>" not in content.decode()
        elif name.endswith(".dxf"):
            document = ezdxf.read(io.StringIO(content.decode()))
            assert not document.audit().errors
            notes = [text.dxf.text for text in document.modelspace().query('TEXT[layer=="notes"]')]
            title = plain_text(notes[0]).removeprefix("title: ")  # as drawn, codes of the format decoded
            assert title.replace(" ", "")[:80] == HOSTILE.replace(" ", "")[:80]

"""Sheets to print, opened by an HTML parser: figures equal to JSON, dimensions by hand, room for what is not known."""

from __future__ import annotations

import datetime
import json
import re
from functools import cache

import numpy as np
import pytest

from engine.comparison.compare import CAUTIONS, Comparison, compare
from engine.export.bundle import bundle
from engine.export.sheet import BOX, Tape, listed
from engine.export.stamp import Stamp
from engine.units import parse
from support import WEAKER_ROOF, scenario_of
from support.html_tables import Rows, tables_of_page, text_of_page

DAY = datetime.date(2026, 3, 4)
METHODS = ("rail", "tilted_rack", "direct")


@cache
def comparison(name: str) -> Comparison:
    return compare(scenario_of(name))


@cache
def files(name: str, system: str = "us") -> dict[str, str]:
    made = bundle(comparison(name), Stamp(DAY, system), ("installer",))  # type: ignore[arg-type]
    sheets = ("installer_", "survey", "pull_tests_")
    return {
        file.name: str(file.make()) for file in made if file.name.startswith(sheets) and file.name.endswith(".html")
    }


@cache
def answer(name: str) -> dict[str, dict[str, object]]:
    (file,) = (file for file in bundle(comparison(name), Stamp(DAY)) if file.name == "comparison.json")
    return {method["method"]: method for method in json.loads(str(file.make()))["methods"]}


def attachment_rows(tables: dict[str, Rows]) -> list[tuple[Rows, list[str]]]:
    """Each table of attachments with its headings."""
    return [(rows[1:], rows[0]) for title, rows in tables.items() if title.startswith("Attachments, line")]


@pytest.mark.parametrize("method", METHODS)
def test_every_attachment_is_on_the_sheet_once_at_its_place(method: str) -> None:
    """Both dimensions of every attachment, in feet and inches and in millimetres, against the layout."""
    design = comparison("kestrel_yard").column(method).design  # type: ignore[union-attr]
    assert design
    at, seen = design.layout.attachments, set()
    for rows, headings in attachment_rows(tables_of_page(files("kestrel_yard")[f"installer_{method}.html"])):
        for seam, feet, millimetres, *cells, count in rows[:-1]:
            numbers = [int(cell.removeprefix(BOX)) for cell in cells if cell]
            here, _, every = count.partition(" of ")
            assert len(numbers) == int(here)
            assert int(every or here) == np.count_nonzero(at.rib == int(seam) - 1)
            for cell, heading in zip(cells, headings[3:-1], strict=True):
                if not cell:
                    continue
                number = int(cell.removeprefix(BOX)) - 1
                seen.add(number)
                _, high, high_mm = heading.split("\n")
                assert int(seam) == at.rib[number] + 1
                for shown, mm, exact in ((feet, millimetres, at.x[number]), (high, high_mm, at.y[number])):
                    assert abs(parse(shown, "length") - exact) <= 0.0254 / 16 + 1e-9
                    assert abs(float(mm.replace(",", "")) / 1000 - exact) <= 0.0005 + 1e-9
        assert int(rows[-1][-1].split(" of ")[0]) == sum(int(row[-1].split(" of ")[0]) for row in rows[:-1])
    assert seen == set(range(len(at)))
    assert len(at) == answer("kestrel_yard")[method]["attachments"]


def test_dimensions_of_the_default_scenario_by_hand() -> None:
    """Seam 37 is 36 x 24 in = 72 ft from the rake; line 3 is 4724.4 + 1734.7 + 375 = 6834.1 mm = 22 ft 5.06 in up."""
    tables = tables_of_page(files("kestrel_yard")["installer_rail.html"])
    ((rows, headings),) = attachment_rows(tables)
    assert headings[5] == "line 3\n22' 5\"\n6,834"
    seam = next(row for row in rows if row[0] == "37")
    assert seam[1:3] == ["72' 0\"", "21,946"]
    assert tables["Chalk lines"][3] == ["3", "22' 5\"", "6,834", "40", "81 to 120", BOX]
    assert tables["Chalk lines"][-1][3] == "320"
    assert tables["Module blocks"][1][:6] == ["1", "9", "40' 0\"", "12,192", "73' 9 3/4\"", "22,500"]


def test_the_cut_list_of_the_default_scenario_by_hand_and_equal_to_the_bill() -> None:
    """32 rails of 10,307.6 mm; 80 lengths of 14 ft; 64 splices: 16 lengths give two short pieces each."""
    tables = tables_of_page(files("kestrel_yard")["installer_rail.html"])
    rows = tables["Cut list: rails"][1:]
    assert sum(int(row[1]) for row in rows) == 32
    assert {tuple(row[5:7]) for row in rows} == {("33' 9 3/4\"", "10,308")}
    assert rows[0][7:9] == ["5' 9 3/4\" + 2 x 14' 0\"", "1,773 + 2 x 4,267"]
    stock = tables["Cutting from stock: rails"][1:]
    assert [row[:3] for row in stock] == [["64", "14' 0\"", "4,267"], ["16", "2 x 5' 9 3/4\"", "2 x 1,773"]]
    line = next(item for item in answer("kestrel_yard")["rail"]["bill"] if item["part"] == "rail")  # type: ignore[attr-defined]
    assert line["quantity"] == sum(int(row[0]) for row in stock) == 80
    text = text_of_page(files("kestrel_yard")["installer_rail.html"])
    total = re.search(r"32 bars, .*? \(([\d,]+) mm\) in all", text)
    assert total
    assert float(total[1].replace(",", "")) == pytest.approx(sum(line["lengths_m"]) * 1000, abs=0.5)
    assert sum(line["lengths_m"]) == pytest.approx(32 * 10.3076)
    offcut = re.search(r"offcut .*? \(([\d,]+) mm\) in all", text)
    assert offcut
    assert float(offcut[1].replace(",", "")) == pytest.approx(line["offcut_m"] * 1000, abs=0.5)
    splices = next(item["quantity"] for item in answer("kestrel_yard")["rail"]["bill"] if item["part"] == "splice")  # type: ignore[attr-defined]
    assert sum(int(row[1]) for row in tables["Splices: rails"][1:]) == splices == 64
    assert "not the best possible plan" in text


def test_torque_is_left_to_the_maker() -> None:
    """Every small part of the bill has its number and an empty field; loadpath states no torque."""
    for method in METHODS:
        rows = tables_of_page(files("kestrel_yard")[f"installer_{method}.html"])["Torque and recheck"]
        assert rows[0][2:] == [
            "torque (maker's value)",
            "tool",
            "set: date, initials",
            "recheck after (maker's value)",
            "rechecked: date, initials",
        ]
        billed = {item["name"]: item for item in answer("kestrel_yard")[method]["bill"]}  # type: ignore[attr-defined]
        for name, pieces, *blank in rows[1:]:
            assert int(pieces.replace(",", "")) == billed[name]["quantity"]
            assert blank == [""] * 5
        assert len(rows) - 1 == sum(item["stock_length_m"] is None for item in billed.values())


def test_a_method_that_does_not_hold_is_not_for_building() -> None:
    weaker = compare(scenario_of(**WEAKER_ROOF), ("rail",))
    made = {file.name: file for file in bundle(weaker, Stamp(DAY), ("installer",))}
    assert "NOT FOR BUILDING. The verdict is OVER." in text_of_page(str(made["installer_rail.html"].make()))
    assert "NOT FOR BUILDING" not in files("kestrel_yard")["installer_rail.html"]


def test_a_roof_that_is_not_surveyed_is_named_on_the_sheet() -> None:
    unknown = compare(scenario_of(roof__first_rib=None), ("direct",))
    made = {file.name: file for file in bundle(unknown, Stamp(DAY), ("installer",))}
    text = text_of_page(str(made["installer_direct.html"].make()))
    assert "The seams are not surveyed: they are at the worst place that was tried." in text
    assert "The fastenings are not surveyed" not in text
    assert "not surveyed" not in files("kestrel_yard")["installer_direct.html"]


def test_the_survey_has_the_scenarios_values_and_room_for_the_roofs() -> None:
    tables = tables_of_page(files("kestrel_yard")["survey.html"])
    rows = {row[2]: row for own in tables.values() for row in own[1:] if own[0][:3] == ["what", "how", "input"]}
    assert rows["roof.rib_spacing"][3:] == ["24 in = 2' 0\" (610 mm)", "", BOX]
    assert rows["roof.support_spacing"][3] == "5 ft = 5' 0\" (1,524 mm)"
    assert rows["building.parapet_height"][3] == '0 ft = 0" (0 mm), default'
    assert rows["roof.first_bay"][3] == "not set"
    # 220 ft / 24 in = 110 spacings: 111 seams. 1 ft from the eave every 5 ft up to 6 in from the ridge of a slope of
    # 55 ft / cos(atan(1/12)) = 55.19 ft: (54.69 - 1) / 5 = 10.7: 11 rows, and one more 3.69 ft on
    assert [row[1] for row in tables["Counts to check"][1:]] == ["111", "12"]


def test_the_pull_test_plan_names_places_of_the_layout() -> None:
    design = comparison("kestrel_yard").columns[0].design
    assert design
    tables = tables_of_page(files("kestrel_yard")["pull_tests_rail.html"])
    assert set(tables) == {"Load to reach", "Series: mid-bay", "Series: near a purlin", "Line of the scenario"}
    at = design.layout.attachments
    for number, seam, _, rake, _, eave, load, failed in tables["Series: mid-bay"][1:]:
        index = int(number) - 1
        assert int(seam) == at.rib[index] + 1
        assert float(rake.replace(",", "")) == pytest.approx(at.x[index] * 1000, abs=0.5)
        assert float(eave.replace(",", "")) == pytest.approx(at.y[index] * 1000, abs=0.5)
        assert (load, failed) == ("", "")
    # 210.5 lb needed, over phi: Omega 3.196 for three pulls, 2.917 for six (test_pull_test_plan): rounded up
    assert [row[:1] + row[2:] for row in tables["Load to reach"][1:]] == [["3", "673", "3.00"], ["6", "614", "2.74"]]


def test_sheets_show_both_systems_whatever_units_are_chosen() -> None:
    us, si = files("kestrel_yard"), files("kestrel_yard", "si")
    assert us.keys() == si.keys()
    for name in us:
        assert tables_of_page(us[name]) == tables_of_page(si[name])
        assert "US customary (ft, in, lb, psf) and SI (m, mm, kN, kPa)" in text_of_page(us[name])
        assert all(caution in text_of_page(us[name]) for caution in CAUTIONS)


def test_a_method_that_was_not_checked_has_no_pull_tests_and_a_refused_one_no_sheet() -> None:
    assert "installer_tilted_rack.html" in files("sparrow_lane")
    assert "pull_tests_tilted_rack.html" not in files("sparrow_lane")
    assert "installer_tilted_rack.html" not in files("plover_terrace")
    assert "survey.html" in files("plover_terrace")


def test_numbers_in_a_list() -> None:
    assert listed([21, 22, 24, 25, 26, 30]) == "21, 22, 24 to 26, 30"
    assert listed([7]) == "7"
    assert listed([]) == ""


def test_pieces_in_a_row() -> None:
    tape = Tape("us")
    assert tape.pieces([4.2672, 4.2672, 1.7732]) == ("2 x 14' 0\" + 5' 9 3/4\"", "2 x 4,267 + 1,773")
    assert tape.pieces(np.array([3.048]).tolist()) == ("10' 0\"", "3,048")
    assert Tape("si").pieces([4.2672, 4.2672, 1.7732]) == ("2 x 4\u00a0267 + 1\u00a0773",)


def test_the_survey_shows_how_lengths_are_written() -> None:
    """Both examples are one length: 42 x 304.8 + 3.125 x 25.4 = 12,881 mm."""
    written = re.search(r"Write (.*?) or (.*?)\.", text_of_page(files("kestrel_yard")["survey.html"]))
    assert written
    lengths = [parse(each, "length") for each in written.groups()]
    assert lengths == pytest.approx([12.881, 12.881], abs=5e-4)


@pytest.mark.parametrize("name", ["installer_rail.html", "survey.html", "pull_tests_rail.html"])
def test_sheets_of_a_job_in_si_are_in_millimetres_alone(name: str) -> None:
    """A tape there has no inches."""
    text = text_of_page(files("dunlin_hall", "si")[name])
    assert "[mm]" in text or " mm" in text
    assert not re.search(r"\bft\b|\d\" |\d' \d|\blb\b|\d,\d{3}", text)

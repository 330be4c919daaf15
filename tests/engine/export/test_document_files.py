"""Answer and calculation as PDF, opened by an independent reader: the page's words, JSON's figures, the same bytes."""

from __future__ import annotations

import datetime
import io
import json
import re
from functools import cache

import pypdf
import pytest

from engine.comparison.alternatives import with_alternatives
from engine.comparison.compare import Comparison, compare
from engine.comparison.record import comparison_record
from engine.export.answer_page import answer_page
from engine.export.calculation import calculation
from engine.export.document import Blanks, Bullets, Document, Drawing, Grid, Heading, Steps, Words
from engine.export.document_files import to_html, to_pdf
from engine.export.installer_sheet import installer_sheet
from engine.export.json import to_json
from engine.export.pull_test_sheet import pull_test_sheet
from engine.export.sheet import BOX, sheet_document
from engine.export.stamp import ScenarioFile, Stamp
from engine.export.survey_sheet import survey_sheet
from engine.units import System
from support import SCENARIOS, scenario_of

BUNDLED = sorted(path.stem for path in SCENARIOS.glob("*.toml"))
DAY = datetime.date(2026, 3, 4)


@cache
def comparison(name: str) -> Comparison:
    return compare(scenario_of(name))


@cache
def document(name: str, system: System = "us") -> Document:
    return calculation(comparison(name), Stamp(DAY, system))


@cache
def reader(name: str, system: System = "us") -> pypdf.PdfReader:
    return read(to_pdf(document(name, system)))


def read(content: bytes) -> pypdf.PdfReader:
    return pypdf.PdfReader(io.BytesIO(content))


def squeezed(words: str) -> str:
    """Words without spaces and line ends, which are the printer's."""
    return re.sub(r"[\s\u200b\u00ad]", "", words)


def words_of(document: Document) -> list[str]:
    """Every text of a document that is one piece on paper."""
    found = [document.subtitle, *(words for _, words in document.facts), *document.cautions]
    for block in document.blocks:
        match block:
            case Heading(text=text) | Words(text=text):
                found.append(text)
            case Bullets(items=items) | Blanks(labels=items):
                found += items
            case Grid(headings=headings, rows=rows):
                found += [*headings, *(cell for row in rows for cell in row)]
            case Steps(lines=lines):
                for line in lines:
                    found += [f"{line.symbol} = {line.result}", line.meaning, line.equation, *line.values, line.source]
    return found


def printed(pages: pypdf.PdfReader, document: Document) -> str:
    """All pages as one text, without the line at their foot."""
    foot = rf"{re.escape(squeezed(document.foot))}(page\d+of\d+)?"
    return "".join(re.sub(foot, "", squeezed(page.extract_text())) for page in pages.pages)


@pytest.mark.parametrize(
    ("name", "system"), [("kestrel_yard", "us"), ("kestrel_yard", "si"), ("dunlin_hall", "si"), ("dunlin_hall", "us")]
)
def test_the_pdf_says_what_the_page_says(name: str, system: System) -> None:
    on_paper = printed(reader(name, system), document(name, system))
    missing = [words for words in words_of(document(name, system)) if squeezed(words) not in on_paper]
    assert missing == []


@pytest.mark.parametrize("name", ["kestrel_yard", "dunlin_hall"])
def test_the_utilisations_on_paper_are_those_of_the_json(name: str) -> None:
    on_paper = printed(reader(name), document(name))
    record = json.loads(to_json(comparison_record(comparison(name)), Stamp(DAY)))
    found = 0
    for method in record["methods"]:
        for link in method["links"]:
            if link["utilisation"] is not None:
                over = ",over" if link["utilisation"] > 1 else ""
                assert (
                    squeezed(f"{link['utilisation']:.3f}{over}{link['combination']}{link['where']['name']}") in on_paper
                )
                found += 1
    assert found > 12


@pytest.mark.parametrize("system", ["us", "si"])
@pytest.mark.parametrize("method", ["rail", "tilted_rack", "direct"])
def test_sheets_on_paper_say_what_their_pages_say(method: str, system: System) -> None:
    """Every word and every figure in both unit systems, each box to tick, and the numbers of the pages."""
    for whole in sheets_of(method, system):
        pages = read(to_pdf(whole))
        on_paper = printed(pages, whole)
        assert [words for words in words_of(whole) if squeezed(words) not in on_paper] == []
        cells = [cell for block in whole.blocks if isinstance(block, Grid) for row in block.rows for cell in row]
        assert on_paper.count(BOX) == sum(cell.count(BOX) for cell in cells)
        for number, page in enumerate(pages.pages, 1):
            assert f"page {number} of {len(pages.pages)}" in page.extract_text()
        size = [round(float(side)) for side in pages.pages[0].mediabox[2:]]
        assert size == {"us": [612, 792], "si": [595, 842]}[system]


def sheets_of(method: str, system: System) -> list[Document]:
    """Survey, installer's sheet and pull-test plan of the default scenario."""
    whole = comparison("kestrel_yard")
    column = whole.column(method)
    assert column
    assert column.design
    assert column.candidate
    made = (
        survey_sheet(whole),
        installer_sheet(whole, column, column.design),
        pull_test_sheet(column, column.design, column.candidate),
    )
    return [sheet_document(each, whole, Stamp(DAY, system)) for each in made]


def test_the_default_has_at_most_fifteen_pages_numbered_with_contents() -> None:
    pages = reader("kestrel_yard").pages
    assert len(pages) <= 15
    for number, page in enumerate(pages, 1):
        assert f"page {number} of {len(pages)}" in page.extract_text()
    headings = [each.text for each in document("kestrel_yard").headings]
    contents = " ".join(pages[0].extract_text().split())
    for heading in headings:
        listed = re.search(rf"{re.escape(heading)}(?: ?\.)+ (\d+)", contents)
        assert listed, heading
        assert squeezed(heading) in squeezed(pages[int(listed[1]) - 1].extract_text()), heading


def test_fonts_are_embedded_and_nobody_elses() -> None:
    names = set()
    for page in reader("kestrel_yard").pages:
        for font in page["/Resources"].get_object().get("/Font", {}).values():
            descendant = font.get_object()["/DescendantFonts"][0].get_object()
            assert {"/FontFile2", "/FontFile3"} & set(descendant["/FontDescriptor"].get_object())
            names.add(re.sub(r"^/\w+\+|-.*$", "", font.get_object()["/BaseFont"]))
    assert names == {"LibertinusSerif", "DejaVuSansMono"}


def test_bytes_repeat_and_only_the_date_of_the_stamp_is_inside() -> None:
    again = calculation(compare(scenario_of("kestrel_yard")), Stamp(DAY))
    assert to_pdf(again) == to_pdf(document("kestrel_yard"))
    found = reader("kestrel_yard")
    assert found.metadata["/CreationDate"].startswith("D:20260304")
    assert found.metadata["/Title"] == "Kestrel Yard cold store (invented)"
    later = read(to_pdf(calculation(comparison("kestrel_yard"), Stamp(datetime.date(2026, 3, 5)))))
    assert later.trailer["/ID"] != found.trailer["/ID"]


@pytest.mark.parametrize("name", BUNDLED)
def test_the_answer_is_one_page(name: str) -> None:
    for system in ("us", "si"):
        (page,) = read(to_pdf(answer_page(comparison(name), Stamp(DAY, system)))).pages  # type: ignore[arg-type]
        found = squeezed(page.extract_text())
        for column in comparison(name).columns:
            assert squeezed(column.title) in found
        for caution in comparison(name).cautions:
            assert squeezed(caution) in found
        assert "Notcheckedhere" in found


def test_preparer_revision_and_file_are_on_the_first_page() -> None:
    scenario = scenario_of(report={"preparer": "R. Kestrel, invented office", "revision": "B", "date": "2026-03-01"})
    file = ScenarioFile.of_text("kestrel.toml", "title = 1\n", ("site.exposure = C",))
    first = read(to_pdf(calculation(compare(scenario, ("direct",)), Stamp(DAY, file=file)))).pages[0].extract_text()
    # SHA-256 by coreutils: printf 'title = 1\n' | sha256sum
    digest = "3c422d1d1df9109c3a64bb8bbe97a5b610d4b3fe0a792d81f8166424db2618eb"
    for words in ("R. Kestrel, invented office", "B of 2026-03-01", "kestrel.toml", digest, "site.exposure = C"):
        assert squeezed(words) in squeezed(first)


def test_a_file_name_in_no_encoding_leaves_with_a_mark() -> None:
    file = ScenarioFile.of_text("r\udce9sum\udce9.toml", "title = 1\n", ("title=\udcff",))
    assert (file.name, file.changes) == ("r?sum?.toml", ("title=?",))


def test_text_of_the_scenario_never_becomes_markup() -> None:
    title = "#panic() *x* $y$ <b>&amp;</b> `z` \\ @w " + "x" * 300
    job = compare(scenario_of(title=title, report={"preparer": "#sys.inputs <i>"}), ("rail",))
    made = answer_page(job, Stamp(DAY))
    (page,) = read(to_pdf(made)).pages
    found = squeezed(page.extract_text())
    assert squeezed("#panic() *x* $y$ <b>&amp;</b> `z` \\ @w xxx") in found
    assert "#sys.inputs<i>" in found
    assert "&lt;b&gt;&amp;amp;" in to_html(made)


def test_a_drawing_stands_in_both_forms() -> None:
    drawings = [block for block in document("dunlin_hall").blocks if isinstance(block, Drawing)]
    assert len(drawings) == 3
    page = to_html(document("dunlin_hall"))
    assert all(drawing.svg in page for drawing in drawings)
    last = squeezed(reader("dunlin_hall").pages[-1].extract_text())
    assert "ridge" in last
    assert "eave" in last


ALTERNATIVES = [
    {"name": "rails by their own span", "set": {"methods.rail.spacing": "rail span"}},
    *({"name": f"module of {mass} kg", "set": {"module.mass": f"{mass} kg"}} for mass in range(20, 24)),
]


def test_alternatives_are_ranked_in_the_calculation_and_the_best_on_the_one_page() -> None:
    """Every row of the ranking of JSON, in its order; on the page of the answer the first five."""
    few = {"array__rows": 2, "array__columns": 4}
    whole = with_alternatives(compare(scenario_of("kestrel_yard", **few, alternatives=ALTERNATIVES), ("rail",)))
    ranking = json.loads(to_json(comparison_record(whole), Stamp(DAY)))["ranking"]
    assert len(ranking) == 6
    report, answer = calculation(whole, Stamp(DAY)), answer_page(whole, Stamp(DAY))
    on_paper, pages = printed(read(to_pdf(report)), report), read(to_pdf(answer)).pages
    (page,) = pages
    for text, count in ((on_paper, 6), (squeezed(page.extract_text()), 5)):
        rows = [f"{each['rank']}{squeezed(each['alternative'])}rails" for each in ranking]
        places = [text.find(row) for row in rows[:count]]
        assert -1 not in places
        assert places == sorted(places)
        assert "railsbytheirownspan:methods.rail.spacing=railspan" in text or count == 5
        assert all(row not in text for row in rows[count:])

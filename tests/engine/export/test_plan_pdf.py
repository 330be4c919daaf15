"""The roof plan as PDF, its paths and words read by pypdf: one sheet, vectors only, to the scale it names."""

from __future__ import annotations

import datetime
import io
import re
from functools import cache

import numpy as np
import pypdf
import pytest

from engine.comparison.compare import Comparison, compare
from engine.comparison.roof_plan import Plan, plan
from engine.export.document_files import drawing_to_pdf
from engine.export.drawing_scale import PAPERS, POINT
from engine.export.plan_sheet import sheet_of_slope
from engine.export.stamp import Stamp
from engine.export.svg_plan import plan_drawing
from engine.units import FOOT, INCH, System
from support import DRAWN, scenario_of
from support.pdf_lines import straight_lines

DAY = datetime.date(2026, 3, 4)


@cache
def comparison(name: str) -> Comparison:
    return compare(scenario_of(name), ("direct",))


def plan_of(name: str) -> Plan:
    design = comparison(name).columns[0].design
    assert design
    return plan(design)


def pdf_of(name: str, system: System = "us") -> bytes:
    found, stamp = comparison(name), Stamp(DAY, system)
    drawing = plan_drawing(sheet_of_slope(found, found.columns[0], plan_of(name), stamp), stamp)
    return drawing_to_pdf(drawing, PAPERS[system], DAY)


@pytest.mark.parametrize("name", DRAWN)
@pytest.mark.parametrize("system", ["us", "si"])
def test_it_is_one_sheet_of_the_usual_paper_to_the_scale_it_names(name: str, system: System) -> None:
    """The roof's length and depth, as its dimensions draw them, are among the lines at the named scale."""
    reader = pypdf.PdfReader(io.BytesIO(pdf_of(name, system)))
    (page,) = reader.pages
    sides = sorted(float(side) for side in page.mediabox[2:])
    paper = PAPERS[system]
    assert sides == pytest.approx(sorted((paper.width / POINT, paper.height / POINT)), abs=0.01)
    words = " ".join(page.extract_text().split())
    named = re.search(r"scale 1 ?in = (\d+) ft on" if system == "us" else r"scale 1:(\d+) on", words)
    assert named
    ratio = int(named[1]) * (FOOT / INCH if system == "us" else 1)
    lines, roof = straight_lines(reader), plan_of(name)
    across = np.abs(lines[:, 2] - lines[:, 0])[np.isclose(lines[:, 1], lines[:, 3])]
    up = np.abs(lines[:, 3] - lines[:, 1])[np.isclose(lines[:, 0], lines[:, 2])]
    for drawn, metres in ((across, roof.length), (up, roof.depth)):
        on_paper = metres / ratio / POINT
        assert np.abs(drawn - on_paper).min() < 0.02, "a hundredth of a point is the last digit of a coordinate"


def test_it_holds_no_pictures_and_its_own_fonts() -> None:
    """By hand: 24 modules of 1722 mm with 23 gaps of 0.5 in are 41.620 m, or 136.55 ft."""
    (page,) = pypdf.PdfReader(io.BytesIO(pdf_of("kestrel_yard"))).pages
    assert list(page.images) == []
    words = " ".join(page.extract_text().split())
    for said in ("ridge", "left rake", "HOLDS", "Preliminary", "220.00 ft", "136.55 ft"):
        assert said in words
    fonts = page["/Resources"].get_object()["/Font"].values()
    embedded = [font.get_object()["/DescendantFonts"][0].get_object()["/FontDescriptor"] for font in fonts]
    assert all("/FontFile3" in each.get_object() for each in embedded)


def test_bytes_repeat() -> None:
    assert pdf_of("kestrel_yard") == pdf_of("kestrel_yard")

"""The printed roof plan, read by an XML parser: to scale, legible at its size, everything of the layout in it."""

from __future__ import annotations

import datetime
import re
from functools import cache
from xml.etree import ElementTree

import numpy as np
import pytest

from engine.comparison.compare import Comparison, compare
from engine.comparison.roof_plan import Plan, plan
from engine.export.drawing_scale import EDGE, FEET_AN_INCH, PAPERS, POINT
from engine.export.plan_sheet import sheet_of_slope
from engine.export.stamp import Stamp
from engine.export.svg_plan import STYLES, plan_drawing
from engine.units import FOOT, INCH
from support import DRAWN, scenario_of

SVG = "{http://www.w3.org/2000/svg}"
STAMP = Stamp(datetime.date(2026, 3, 4))


@cache
def comparison(name: str, method: str = "rail") -> Comparison:
    return compare(scenario_of(name), (method,))


def plan_of(found: Comparison) -> Plan:
    design = found.columns[0].design
    assert design
    return plan(design)


def drawn(found: Comparison, stamp: Stamp = STAMP) -> ElementTree.Element:
    return ElementTree.fromstring(
        plan_drawing(sheet_of_slope(found, found.columns[0], plan_of(found), stamp), stamp).written()
    )


def texts(picture: ElementTree.Element) -> list[str]:
    return [element.text or "" for element in picture.iter(f"{SVG}text")]


def of_style(picture: ElementTree.Element, tag: str, style: str) -> list[ElementTree.Element]:
    return [element for element in picture.iter(f"{SVG}{tag}") if element.get("class") == style]


def test_a_rafter_is_drawn_where_it_is_known() -> None:
    """44 ft with rafters at 22.5 + 24 k in: 22 of them; the legend has one line for them and one for fastening lines."""
    house, other = drawn(comparison("swallow_cottage")), drawn(comparison("sparrow_lane"))
    assert "upright: rafter" in texts(house)
    assert "upright: rafter" not in texts(other)
    supports = len(plan_of(comparison("swallow_cottage")).supports)
    assert len(of_style(house, "line", "support")) == supports + 22 + 2


@pytest.mark.parametrize("name", DRAWN)
@pytest.mark.parametrize("method", ["rail", "direct"])
def test_it_is_to_the_scale_it_names_and_fits_its_paper(name: str, method: str) -> None:
    found = comparison(name, method)
    picture, expected = drawn(found), plan_of(found)
    (said,) = [re.search(r"scale 1 in = (\d+) ft", text) for text in texts(picture) if "printed at full size" in text]
    assert said
    assert int(said[1]) in FEET_AN_INCH
    circles = list(picture.iter(f"{SVG}circle"))
    across, up = (np.array([float(each.attrib[axis]) for each in circles]) for axis in ("cx", "cy"))
    in_legend = 1 + ("over" in expected.attachments.verdicts) * bool(expected.attachments.is_checked)
    pointers = len(circles) - len(expected.attachments) - in_legend
    assert 0 <= pointers <= 2, "zones with their names beyond the rake"
    metres = int(said[1]) * FOOT / INCH * POINT
    count = len(expected.attachments)
    np.testing.assert_allclose(np.ptp(across[:count]) * metres, np.ptp(expected.attachments.x), atol=0.02 * metres)
    np.testing.assert_allclose(np.ptp(up[:count]) * metres, np.ptp(expected.attachments.y), atol=0.02 * metres)
    paper = PAPERS["us"]
    room = sorted(((paper.width - 2 * EDGE) / POINT, (paper.height - 2 * EDGE) / POINT))
    size = sorted(float(str(picture.get(side)).removesuffix("pt")) for side in ("width", "height"))
    assert all(np.array(size) <= np.array(room) + 1e-6)


def test_no_letters_are_smaller_than_8_points_on_the_sheet() -> None:
    sizes = [float(size) for rule in STYLES.values() for size in re.findall(r"font-size: ([\d.]+)px", rule)]
    assert min(sizes) >= 8
    picture = drawn(comparison("kestrel_yard"))
    _, _, width, height = str(picture.get("viewBox")).split()
    assert (picture.get("width"), picture.get("height")) == (f"{width}pt", f"{height}pt"), "a unit is a point"


def test_rails_clamps_and_numbers_are_there() -> None:
    """Kestrel Yard by hand: 4 rows of 36 modules, two rails each in four runs of nine: 32 rails, 10 clamps on each."""
    picture = drawn(comparison("kestrel_yard"))
    assert len(of_style(picture, "line", "member")) == 32 + 1
    assert len(of_style(picture, "rect", "clamp")) == 320 + 1
    said = texts(picture)
    assert {"eave", "ridge", "left rake", "1", "5", "110", "12", "320", "1'", "2", "3"} <= set(said)
    assert said.count("110") == 2, "the last seam that is numbered, at eave and ridge"


def test_racks_have_two_beams_a_row_and_their_frames() -> None:
    """Six rows of 24 in four runs of six: 24 racks of two beams; a frame joins each pair of the 336 feet."""
    found = comparison("kestrel_yard", "tilted_rack")
    picture = drawn(found)
    assert len(of_style(picture, "line", "member")) == 48 + 1
    assert len(of_style(picture, "line", "frame")) == len(plan_of(found).attachments) / 2 + 1


def test_modules_on_seams_have_no_members() -> None:
    picture = drawn(comparison("kestrel_yard", "direct"))
    assert of_style(picture, "line", "member") == of_style(picture, "rect", "clamp") == []


@pytest.mark.parametrize(
    ("stamp", "length", "array"),
    [
        (STAMP, "220.00 ft", "135.40 ft"),
        (Stamp(STAMP.date, feet_and_inches=True), "220' 0\"", "135' 4 3/4\""),
        (Stamp(STAMP.date, "si"), "67.056 m", "41.269 m"),
        (Stamp(STAMP.date, "si", feet_and_inches=True), "67.056 m", "41.269 m"),
    ],
)
def test_dimensions_are_in_the_units_set(stamp: Stamp, length: str, array: str) -> None:
    """By hand: 36 modules of 1134 mm with 35 gaps of 0.5 in are 41.2685 m, or 135 ft 4.75 in."""
    said = texts(drawn(comparison("kestrel_yard"), stamp))
    assert {length, array} <= set(said)
    assert not any(re.search(r"\d,\d", text) for text in said), "no decimal commas"


@pytest.mark.parametrize(("faces", "tip"), [("180 deg", (0, -1)), ("90 deg", (1, 0)), ("0 deg", (0, 1))])
def test_north_is_where_the_eave_does_not_face(faces: str, tip: tuple[float, float]) -> None:
    """The eave is at the foot of the sheet: facing south, north is up; facing east, north is to the right."""
    picture = drawn(compare(scenario_of("sparrow_lane", building__eave_faces=faces), ("direct",)))
    (arrow,) = picture.iter(f"{SVG}polyline")
    tail, head = (np.array([float(part) for part in point.split(",")]) for point in arrow.attrib["points"].split()[:2])
    np.testing.assert_allclose((head - tail) / np.hypot(*(head - tail)), tip, atol=1e-3)
    assert "N" in texts(picture)
    assert not list(drawn(comparison("sparrow_lane")).iter(f"{SVG}polyline")), "none where it is not stated"


def test_a_deep_roof_is_drawn_no_taller_than_its_paper() -> None:
    deep = compare(
        scenario_of(building__length="24 ft", array__origin=["4 ft", "10 ft"], array__columns=2), ("direct",)
    )
    height = float(str(drawn(deep).get("height")).removesuffix("pt"))
    assert height <= (PAPERS["us"].width - 2 * EDGE) / POINT

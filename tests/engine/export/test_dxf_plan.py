"""The DXF plan, read, audited and rendered by ezdxf: true to scale, complete, in blocks, layers and a sheet."""

from __future__ import annotations

import datetime
import io
import re
from functools import cache
from xml.etree import ElementTree

import ezdxf
import numpy as np
import pytest
from ezdxf import bbox
from ezdxf.addons.drawing import Frontend, RenderContext
from ezdxf.addons.drawing.layout import Margins, Page, Units
from ezdxf.addons.drawing.svg import SVGBackend
from ezdxf.document import Drawing
from ezdxf.layouts import BaseLayout
from ezdxf.tools.text import plain_text

from engine.comparison.compare import Comparison, compare
from engine.comparison.roof_plan import Plan, plan
from engine.export import dxf_sheet
from engine.export.drawing_scale import PAPERS, POINT
from engine.export.dxf_parts import ATTRIBUTES, CLAMP, HOLDS, LAYERS, OVER, UNCHECKED, without_codes
from engine.export.dxf_plan import plan_dxf
from engine.export.plan_sheet import sheet_of_slope
from engine.export.stamp import Stamp
from engine.units import FOOT, INCH, POUND_FORCE
from support import DRAWN, scenario_of

DAY = datetime.date(2026, 3, 4)
SYSTEMS = [("us", 2, FOOT, INCH), ("si", 6, 1.0, 0.001)]


@cache
def comparison(name: str) -> Comparison:
    return compare(scenario_of(name))


def plan_of(found: Comparison, method: str) -> Plan:
    column = found.column(method)
    assert column
    assert column.design
    return plan(column.design)


def drawn(found: Comparison, method: str, stamp: Stamp) -> Drawing:
    column = found.column(method)
    assert column
    return ezdxf.read(io.StringIO(plan_dxf(sheet_of_slope(found, column, plan_of(found, method), stamp), stamp)))


@cache
def document(name: str, method: str = "rail", system: str = "us") -> Drawing:
    return drawn(comparison(name), method, Stamp(DAY, system))  # type: ignore[arg-type]


def texts(space: BaseLayout, layer: str = "*") -> list[str]:
    chosen = "TEXT" if layer == "*" else f'TEXT[layer=="{layer}"]'
    return [plain_text(text.dxf.text) for text in space.query(chosen)]


def picture(found: Drawing, space: BaseLayout) -> ElementTree.Element:
    """The drawing as a general viewer shows it."""
    backend = SVGBackend()
    Frontend(RenderContext(found), backend).draw_layout(space)
    return ElementTree.fromstring(backend.get_string(Page(420, 297, Units.mm, Margins.all(5))))


@pytest.mark.parametrize("name", DRAWN)
@pytest.mark.parametrize("method", ["rail", "tilted_rack", "direct"])
def test_the_library_finds_nothing_to_repair(name: str, method: str) -> None:
    column = comparison(name).column(method)
    if column is None or column.design is None:
        pytest.skip("refused")
    audit = document(name, method).audit()
    assert (audit.errors, audit.fixes) == ([], [])


@pytest.mark.parametrize("name", DRAWN[:5])
def test_model_and_sheet_are_rendered(name: str) -> None:
    """Every layer that has something on it is drawn, letters too, and none of it outside the paper."""
    found = document(name)
    for space in (found.modelspace(), found.paperspace("Plan")):
        paths = list(picture(found, space).iter("{http://www.w3.org/2000/svg}path"))
        assert len(paths) > len(space.query("LINE TEXT")) / 10
        assert sum(len(path.get("d") or "") for path in paths) > 20_000
    paper, unit = PAPERS["us"], INCH
    drawn_on = bbox.extents(entity for entity in found.paperspace("Plan") if entity.dxftype() != "VIEWPORT")
    assert drawn_on.extmin.x >= 0
    assert drawn_on.extmin.y >= 0
    assert (drawn_on.extmax.x, drawn_on.extmax.y) < (paper.width / unit, paper.height / unit)
    assert drawn_on.extmax.y < paper.height / unit


@pytest.mark.parametrize(("system", "code", "metres", "_paper"), SYSTEMS)
def test_it_is_true_to_scale(system: str, code: int, metres: float, _paper: float) -> None:
    found, expected = document("sparrow_lane", system=system), plan_of(comparison("sparrow_lane"), "rail")
    assert found.units == code
    space = found.modelspace()
    (roof,) = space.query('LWPOLYLINE[layer=="roof"]')
    corners = np.array([point[:2] for point in roof.get_points()]) * metres  # type: ignore[attr-defined]
    np.testing.assert_allclose(corners.max(axis=0), [expected.length, expected.depth])
    assert len(space.query('LWPOLYLINE[layer=="modules"]')) == len(expected.modules)
    assert len(space.query('LINE[layer=="ribs"]')) == len(expected.ribs)
    assert len(space.query('LINE[layer=="members"]')) == len(expected.hardware.members)
    clamps = np.array([tuple(each.dxf.insert)[:2] for each in space.query(f'INSERT[name=="{CLAMP}"]')]) * metres
    np.testing.assert_allclose(clamps, np.column_stack([expected.hardware.clamp_x, expected.hardware.clamp_y]))
    measured = sum(dimension.get_measurement() for dimension in space.query("DIMENSION")) * metres  # type: ignore[attr-defined]
    assert measured == pytest.approx(2 * (expected.length + expected.depth)), "a chain and the whole, each way"


@pytest.mark.parametrize(("system", "force"), [("us", POUND_FORCE), ("si", 1000.0)])
def test_an_attachment_is_a_block_with_its_figures(system: str, force: float) -> None:
    found, expected = (
        document("kestrel_yard", "direct", system),
        plan_of(comparison("kestrel_yard"), "direct").attachments,
    )
    metres = {code[0]: code[2] for code in SYSTEMS}[system]
    blocks = found.modelspace().query('INSERT[layer=="attachments"]')
    assert len(blocks) == len(expected)
    assert expected.up is not None
    assert expected.utilisation is not None
    for index, block in enumerate(blocks):
        values = {each.dxf.tag: each.dxf.text for each in block.attribs}  # type: ignore[attr-defined]
        assert tuple(values) == ATTRIBUTES
        assert values["NUMBER"] == str(index + 1)
        assert values["RIB"] == f"seam {expected.rib[index]}"
        assert float(values["UPLIFT"].split()[0]) == pytest.approx(
            expected.up[index] / force, abs=0.5 if force < 1000 else 0.005
        )
        assert float(values["UTILISATION"]) == pytest.approx(expected.utilisation[index], abs=0.005)
        assert [each.is_invisible for each in block.attribs] == [False, True, True, True]  # type: ignore[attr-defined]
        place = np.array(tuple(block.dxf.insert)[:2]) * metres
        np.testing.assert_allclose(place, [expected.x[index], expected.y[index]], atol=1e-9)


def test_what_is_over_has_a_block_with_a_cross() -> None:
    over = compare(scenario_of("sparrow_lane", roof__fastening__uplift={"allowable": "60 lb"}), ("rail",))
    found, verdicts = drawn(over, "rail", Stamp(DAY)), plan_of(over, "rail").attachments.verdicts
    names = [block.dxf.name for block in found.modelspace().query('INSERT[layer=="attachments"]')]
    assert names == [{"holds": HOLDS, "over": OVER}[verdict] for verdict in verdicts]
    assert OVER in names
    assert len(found.blocks[OVER].query("LINE")) == 2
    assert len(found.blocks[HOLDS].query("LINE")) == 0


def test_what_is_not_checked_has_a_block_of_its_own() -> None:
    blocks = document("sparrow_lane", "tilted_rack").modelspace().query('INSERT[layer=="attachments"]')
    assert {block.dxf.name for block in blocks} == {UNCHECKED}
    assert {each.dxf.text for block in blocks for each in block.attribs if each.dxf.tag == "UPLIFT"} == {"–"}  # type: ignore[attr-defined]


@pytest.mark.parametrize(
    ("stamp", "length", "array"),
    [
        (Stamp(DAY), "220.00", "135.40"),
        (Stamp(DAY, "si"), "67.056", "41.269"),
        (Stamp(DAY, feet_and_inches=True), "220' 0\"", "135' 4 3/4\""),
    ],
)
def test_dimensions_have_points_or_feet_and_inches(stamp: Stamp, length: str, array: str) -> None:
    """By hand: 36 modules of 1134 mm with 35 gaps of 0.5 in are 41.2685 m, or 135 ft 4.75 in."""
    found = drawn(comparison("kestrel_yard"), "rail", stamp)
    shown = []
    for dimension in found.modelspace().query("DIMENSION"):
        block = found.blocks[dimension.dxf.geometry]
        shown += [
            plain_text(text.dxf.text if text.dxftype() == "TEXT" else text.text) for text in block.query("TEXT MTEXT")
        ]  # type: ignore[attr-defined]
    assert {length, array} <= set(shown)
    assert not any("," in text for text in shown)
    assert all(style.dxf.get("dimdsep", 46) == ord(".") for style in found.dimstyles if style.dxf.name == "PLAIN")


def test_layers_have_meanings_and_lineweights() -> None:
    found = document("kestrel_yard")
    for name, layer in LAYERS.items():
        entry = found.layers.get(name)
        assert (entry.dxf.lineweight, entry.description) == (layer.lineweight, layer.meaning)
    used = {entity.dxf.layer for space in (found.modelspace(), found.paperspace("Plan")) for entity in space}
    used -= {"0", "VIEWPORTS"}  # of the library: its main view
    assert used <= set(LAYERS)
    assert used >= set(LAYERS) - {"keep-clear", "frames", "attachment-numbers"}


@pytest.mark.parametrize("name", DRAWN)
@pytest.mark.parametrize(("system", "_code", "metres", "paper"), SYSTEMS)
def test_the_sheet_shows_the_model_to_its_scale(
    name: str, system: str, _code: int, metres: float, paper: float
) -> None:
    found, roof = document(name, "direct", system), plan_of(comparison(name), "direct")
    sheet = found.paperspace("Plan")
    (view,) = sheet.query('VIEWPORT[layer=="viewport"]')
    ratio = view.dxf.view_height * metres / (view.dxf.height * paper)
    (words,) = [text for text in texts(sheet) if text.startswith("scale ")]
    stated = re.fullmatch(r"scale 1 in = (\d+) ft", words) or re.fullmatch(r"scale 1:(\d+)", words)
    assert stated
    assert ratio == pytest.approx(int(stated[1]) * (FOOT / INCH if system == "us" else 1))
    centre, size = (
        np.array(tuple(view.dxf.view_center_point)[:2]) * metres,
        np.array([view.dxf.width, view.dxf.height]) * paper,
    )
    low, high = centre - size * ratio / 2, centre + size * ratio / 2
    assert (low < 0).all()
    assert (high > [roof.length, roof.depth]).all()


@pytest.mark.parametrize(("system", "_code", "metres", "paper"), SYSTEMS)
def test_letters_are_legible_at_the_printed_size(system: str, _code: int, metres: float, paper: float) -> None:
    """Capital letters of an 8 pt sans-serif font are at least 0.70 x 8 pt = 2.0 mm high (Arial: 0.716 em, its maker's)."""
    found = document("heron_depot", system=system)
    smallest = 0.70 * 8 * POINT
    assert min(text.dxf.height for text in found.paperspace("Plan").query("TEXT")) * paper >= smallest
    (view,) = found.paperspace("Plan").query('VIEWPORT[layer=="viewport"]')
    on_paper = view.dxf.height * paper / view.dxf.view_height
    assert min(text.dxf.height for text in found.modelspace().query("TEXT")) * on_paper >= smallest


def test_names_numbers_and_the_title_block() -> None:
    found = document("kestrel_yard")
    model, sheet = texts(found.modelspace()), " ".join(texts(found.paperspace("Plan")))
    assert {"eave", "ridge", "left rake", "1", "110", "12", "320", "1'", "3"} <= set(model)
    for words in ("Kestrel Yard cold store (invented)", "Roof plan, rails", "HOLDS 0.94", "ASCE 7-16", "2026-03-04"):
        assert words in sheet
    for words in ("prepared by", "checked by", "revision", "loadpath 0.1", "ANSI B"):
        assert words in sheet


def test_every_caution_is_on_the_sheet_and_in_the_properties() -> None:
    unproven = compare(scenario_of("dunlin_hall", site__cp_net="cautious fallback"), ("direct",))
    for system in ("us", "si"):
        found = drawn(unproven, "direct", Stamp(DAY, system))  # type: ignore[arg-type]
        sheet = " ".join(texts(found.paperspace("Plan")))
        assert all(caution in sheet for caution in unproven.cautions)
        stated = [words for name, words in found.header.custom_vars if name == "caution"]
        assert stated == list(unproven.cautions)


def test_a_north_arrow_is_on_the_sheet_where_the_eaves_direction_is_stated() -> None:
    facing = compare(scenario_of("sparrow_lane", building__eave_faces="180 deg"), ("direct",))
    assert "N" in texts(drawn(facing, "direct", Stamp(DAY)).paperspace("Plan"))
    assert "N" not in texts(document("sparrow_lane").paperspace("Plan"))


FOREIGN = "100%%c ^J \\U+2300 {\\fA;x} %%%d"


@pytest.mark.parametrize("words", [FOREIGN, "%%u", "^a^ b", "%%%%", "plain"])
def test_foreign_text_is_shown_as_it_is_given(words: str) -> None:
    """Decoded by the library as a viewer does it: no code has become a sign, only spaces have come in."""
    assert plain_text(without_codes(words)).replace(" ", "") == words.replace(" ", "")


def test_a_name_of_codes_harms_nothing() -> None:
    area = {"at": ["20 ft", "8 ft"], "size": ["2 ft", "3 ft"], "name": FOREIGN}
    hostile = compare(scenario_of("sparrow_lane", title=FOREIGN, array__keep_clear=[area]), ("rail",))
    found = drawn(hostile, "rail", Stamp(DAY))
    assert not found.audit().errors
    for space, layer in ((found.modelspace(), "keep-clear"), (found.paperspace("Plan"), "sheet")):
        assert FOREIGN.replace(" ", "") in [text.replace(" ", "") for text in texts(space, layer)]


def test_the_sheet_has_room_for_long_titles() -> None:
    long = compare(scenario_of("sparrow_lane", title="A title " * 500), ("direct",))
    sheet = drawn(long, "direct", Stamp(DAY)).paperspace("Plan")
    (title,) = [text for text in sheet.query("TEXT") if text.dxf.text.startswith("A title")]
    assert len(title.dxf.text) * title.dxf.height * INCH * dxf_sheet.LETTER_WIDTH <= dxf_sheet.TITLE_WIDTH

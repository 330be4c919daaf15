"""The tiles: nothing overflows its frame, figures are the formatter's, and pictures are to one scale."""

from __future__ import annotations

from functools import cache

import numpy as np
import pytest

from engine.comparison.compare import Comparison, compare
from engine.comparison.figures import figure_named
from engine.comparison.figures.verdict import verdict_word
from engine.project.hardware import Parts
from engine.studies.spacing import elevation
from support import scenario_of
from tui.render import tile, tile_elevation
from tui.render.canvas import ACROSS, DOWN
from tui.render.styles import PLACEHOLDER

SCENARIOS = ["kestrel_yard", "finch_shed", "plover_terrace", "wren_workshop"]
"""Every method checked; one outside the standard; one refused; one over."""

SIZES = [(70, 6), (80, 6), (100, 11), (140, 15), (141, 16), (200, 18)]


@cache
def compared(scenario: str) -> Comparison:
    return compare(scenario_of(scenario))


def lines(answer: Comparison, width: int, height: int, focused: str = "") -> list[str]:
    tiles = tile.tiles(answer, "us", width, height, "123")
    return [line.plain for line in tile.side_by_side(tiles, height, focused)]


@pytest.mark.parametrize("scenario", SCENARIOS)
@pytest.mark.parametrize(("width", "height"), SIZES)
def test_tiles_fill_their_room_and_no_more(scenario: str, width: int, height: int) -> None:
    for focused, side in (("", "│"), ("rail", "┃")):
        drawn = lines(compared(scenario), width, height, focused)
        assert [len(line) for line in drawn] == [width] * height
        assert {line[0] for line in drawn[1:-1]} == {side}
        assert {line[-1] for line in drawn[1:-1]} == {"│"}


@pytest.mark.parametrize("scenario", SCENARIOS)
@pytest.mark.parametrize(("width", "height"), SIZES)
def test_every_tile_says_name_verdict_attachments_minimum_and_price(scenario: str, width: int, height: int) -> None:
    answer = compared(scenario)
    for each, column in zip(tile.tiles(answer, "us", width, height, "123"), answer.columns, strict=True):
        text = " ".join([each.title, each.verdict.plain, *(line.plain for line in each.lines)])
        assert column.title in text
        assert verdict_word(column).partition("," if width == 70 else ".")[0] in text
        if column.candidate is None:
            assert column.flags[0].text.split()[0] in text
            continue
        assert f"{figure_named('total_cost').cell(column, 'us')} USD {PLACEHOLDER}" in text
        assert figure_named("attachments_minimum").cell(column, "us") in text
        is_large = any("  attachments" in line.plain for line in each.lines)
        assert is_large or f"{figure_named('attachments').cell(column, 'us')} attachments" in text or width == 70
        assert column.decisive is not None
        assert f" {column.decisive.ratio:.2f}" in text


def test_a_narrow_tile_says_that_a_method_holds_only_if_set_out_exactly() -> None:
    """Lapwing Hall's racks on the south slope: at 80 columns the verdict itself has no room."""
    answer = compared("lapwing_hall")
    (rack,) = [column for column in answer.columns if column.id == "tilted_rack"]
    assert verdict_word(rack).endswith("not within tolerance")
    for width in (80, 100):
        assert any("if exact" in line for line in lines(answer, width, 6)), width
    assert any("not within tolerance" in line for line in lines(answer, 200, 6))


def test_stated_prices_carry_no_mark() -> None:
    """Every price of the parts is a little off the invented one."""
    parts = {name: {"price": getattr(Parts(), name).price + 0.01} for name in Parts.model_fields}
    bars = {"hardware__rail": {"price": 52.01}, "hardware__rack_beam": {"price": 52.01}}
    for drawn in lines(compare(scenario_of("kestrel_yard", hardware__parts=parts, **bars)), 140, 11):
        assert PLACEHOLDER not in drawn


@pytest.mark.parametrize(
    ("scenario", "runs"), [("kestrel_yard", "along the eave"), ("swallow_cottage", "up the slope")]
)
def test_elevations_have_one_scale_for_all_methods(scenario: str, runs: str) -> None:
    answer, width, height = compare(scenario_of(scenario, methods__rail={"runs": runs})), 44, 9
    assert answer.columns[0].design is not None
    assert answer.columns[0].design.layout.member.runs_up_slope == (runs == "up the slope")
    scale = tile_elevation.common_scale(answer, width)
    largest = max(column.candidate.demands.attachment_up.max() for column in answer.columns if column.candidate)
    assert scale.uplift == largest
    for column in answer.columns:
        if column.candidate is None:
            continue
        seen = elevation(column.candidate.layout, column.candidate.demands.attachment_up)
        drawn = [line.plain for line in tile_elevation.draw(column, scale, width, height)]
        assert [len(line) for line in drawn] == [width] * height
        places = np.flatnonzero([letter in "○●✖" for letter in drawn[-1]])
        gaps = np.diff(np.round(seen.at * scale.across))
        assert len(places) >= 2
        assert any(  # the attachments in view are a part of the row, as far apart as on the roof, within a cell
            np.abs(np.diff(places) - gaps[first : first + len(places) - 1]).max(initial=0) <= 1
            for first in range(len(gaps) - len(places) + 2)
        )
        top = next(number for number, line in enumerate(drawn) if "▆" in line)
        dots = _highest_arrow(drawn[:top])
        assert dots == pytest.approx(max(seen.force) / scale.uplift * top * DOWN, abs=1.0)


def _highest_arrow(rows: list[str]) -> int:
    """Height of the highest column of braille dots [dots]."""
    lit = np.zeros((len(rows) * DOWN, len(rows[0]) * ACROSS), dtype=bool)
    bits = [(0, 0), (1, 0), (2, 0), (0, 1), (1, 1), (2, 1), (3, 0), (3, 1)]  # Unicode, chapter 21.1: dots 1 to 8
    for y, row in enumerate(rows):
        for x, letter in enumerate(row):
            for bit, (down, across) in enumerate(bits):
                if letter != " " and (ord(letter) - 0x2800) >> bit & 1:
                    lit[y * DOWN + down, x * ACROSS + across] = True
    return int(lit.sum(axis=0).max())

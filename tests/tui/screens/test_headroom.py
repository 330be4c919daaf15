"""Headroom: its rows, the way to each of them by key and pointer, and from there to the calculation and the input."""

from __future__ import annotations

import threading
from typing import Any

import pytest

from engine.comparison.compare import compare
from engine.studies.headroom import headroom
from engine.studies.sensitivity import sensitivity
from engine.units import text
from support import scenario_of
from support.opened_app import opened, painted, seen, settled
from tui.model.state import COMPUTING
from tui.render import headroom as drawing
from tui.screens import headroom as headroom_screen
from tui.screens.headroom import HeadroomScreen
from tui.screens.main import Main
from tui.screens.why import WhyScreen

NAME = "sparrow_lane"


@pytest.fixture(scope="module")
def found() -> drawing.Found:
    comparison = compare(scenario_of(NAME))
    return drawing.Found(comparison, headroom(comparison), sensitivity(comparison))


@pytest.mark.parametrize("size", [(70, 20), (80, 24), (140, 45), (200, 55)])
def test_every_line_fits_and_every_row_in_focus_is_in_sight(found: drawing.Found, size: tuple[int, int]) -> None:
    for column in found.comparison.columns:
        rows = drawing.draw(found, column, 0, "us", *size).rows
        for number in range(len(rows)):
            sheet = drawing.draw(found, column, number, "us", *size)
            lines = sheet.content.plain.splitlines()
            assert max(map(len, lines)) <= size[0]
            assert len(lines) <= size[1]
            (line,) = (n for n, at in enumerate(sheet.at) if number in at)
            assert sheet.row_at(0 if sheet.at[line][0] == number else size[0] - 1, line) == number
            assert lines[line].count("▸") == 1


def test_its_figures_are_those_of_the_study(found: drawing.Found) -> None:
    column = found.comparison.columns[0]
    drawn = drawing.draw(found, column, 0, "us", 140, 45).content.plain
    for margin in found.margins[0].reaches:
        assert margin.at is None or text(margin.at, margin.input.dimension, "us") in drawn
    for check in column.checks.values():
        assert check.utilisation is None or f"{check.utilisation:.2f}" in drawn


@pytest.mark.app
async def test_margins_are_shown_before_the_effects_of_inputs_are_computed(monkeypatch: pytest.MonkeyPatch) -> None:
    is_asked, goes_on = threading.Event(), threading.Event()

    def slow(*arguments: Any) -> Any:
        is_asked.set()
        goes_on.wait(20)
        return sensitivity(*arguments)

    monkeypatch.setattr(headroom_screen, "sensitivity", slow)
    async with opened(NAME, (140, 45)) as (app, pilot):
        await pilot.press("h")
        while not is_asked.is_set():
            await pilot.pause(0.02)
        await pilot.pause()
        await pilot.pause()
        first = seen(app)
        assert "how far wind and snow may go" in first
        assert "being computed" in first
        assert COMPUTING in painted(app)
        goes_on.set()
        await settled(pilot)
        assert "being computed" not in seen(app)
        assert "attachments" in seen(app)
        assert COMPUTING not in painted(app)


@pytest.mark.app
async def test_keys_and_pointer_go_from_row_to_row_and_on_to_calculation_and_input() -> None:
    async with opened(NAME, (80, 24), "h") as (app, pilot):
        assert isinstance(app.screen, HeadroomScreen)
        await pilot.press("down", "down")
        line = next(n for n, words in enumerate(painted(app).split("\n")) if words.lstrip().startswith("▸"))
        await pilot.click(offset=(5, line + 1))
        moved = next(words for words in seen(app).split("\n") if words.startswith("▸"))
        assert moved.startswith("▸ module clamp")
        await pilot.click(offset=(5, line + 1))
        await settled(pilot)
        assert isinstance(app.screen, WhyScreen)
        assert "module clamp" in seen(app, "#text")
        await pilot.press("escape", "up", "up", "up", "g")
        await settled(pilot)
        assert isinstance(app.screen, Main)
        assert "wind speed" in painted(app)

"""Nothing that is typed into an open field becomes a command."""

from __future__ import annotations

import pytest
from textual import events
from textual.pilot import Pilot

from support.opened_app import SIZES, opened, settled
from tui.app.app import LoadpathApp
from tui.screens.export import Export
from tui.widgets.inputs import InputsPane
from tui.widgets.notes import NotesPane

pytestmark = pytest.mark.app

WIND, SNOW = ("site", "wind_speed"), ("site", "ground_snow")
OPEN_WIND = ["slash", *"wind sp", "enter", "enter"]
COMMAND_LETTERS = "expq z.,S?"
"""Export, lesson, roof plan, quit, undo, save, help: none of them may happen."""


def pane(app: LoadpathApp) -> InputsPane:
    return app.main.query_one(InputsPane)


async def press(pilot: Pilot[None], *keys: str) -> None:
    named = {" ": "space", ",": "comma", ".": "full_stop", "?": "question_mark"}
    await pilot.press(*(named.get(key, key) for key in keys))
    await settled(pilot)


@pytest.mark.parametrize("size", SIZES)
async def test_tab_accepts_the_field_and_opens_the_next(size: tuple[int, int]) -> None:
    async with opened("sparrow_lane", size, "i", *["down"] * 6) as (app, pilot):
        await press(pilot, "home", *["down"] * 5, "enter")
        fields = [line.field.path for line in pane(app).form.lines if line.field and line.can_be_selected]
        first = pane(app).current_field
        assert first is not None
        await press(pilot, "tab")
        second = pane(app).current_field
        assert second is not None
        assert fields.index(second.path) == fields.index(first.path) + 1
        assert pane(app).editor.has_focus
        assert pane(app).editor.value == second.editable
        await press(pilot, "shift+tab")
        assert pane(app).current_field == first
        assert app.document.inputs.changes == {}


async def test_tab_in_the_middle_of_a_word_never_runs_a_command() -> None:
    async with opened("sparrow_lane", (80, 24), *OPEN_WIND) as (app, pilot):
        await press(pilot, *"95 mph", "tab", *COMMAND_LETTERS)
        assert app.screen is app.main
        assert app.document.inputs.changes[WIND] == "95 mph"
        assert pane(app).editor.value == COMMAND_LETTERS
        await press(pilot, "escape")
        assert app.document.inputs.changes == {WIND: "95 mph"}


async def test_each_field_that_tab_accepts_is_one_step_of_undo() -> None:
    async with opened("sparrow_lane", (80, 24), "slash", *"site", "enter", "enter") as (app, pilot):
        first = app.document.inputs
        await press(pilot, *"ASCE 7-22", "tab", *"III", "tab", *"97 mph", "enter")
        assert len(app.document.inputs.changes) == 3
        await press(pilot, "z", "z", "z")
        assert app.document.inputs == first


async def test_tab_goes_on_from_the_last_field_to_the_first() -> None:
    async with opened("sparrow_lane", (80, 24), "i", "home", "down", "enter", "shift+tab") as (app, pilot):
        assert pane(app).form.field_after(1) is None
        await press(pilot, "tab", *"Sparrow")
        assert app.document.inputs.changes == {("title",): "Sparrow"}


async def test_tab_in_the_search_opens_what_was_found() -> None:
    async with opened("sparrow_lane", (80, 24), "slash", *"wind sp") as (app, pilot):
        await press(pilot, "tab", *"95 mph", "enter")
        assert app.document.inputs.changes == {WIND: "95 mph"}
        assert app.screen is app.main


async def test_a_click_elsewhere_accepts_and_closes_the_field() -> None:
    async with opened("sparrow_lane", (140, 45), *OPEN_WIND, *"95 mph") as (app, pilot):
        await pilot.click(NotesPane)
        await settled(pilot)
        assert not pane(app).is_open
        assert not pane(app).editor.display
        assert app.document.inputs.changes == {WIND: "95 mph"}


async def test_a_field_stays_open_while_the_terminal_is_out_of_focus() -> None:
    """One looks up a value in another window, comes back, and types on."""
    async with opened("sparrow_lane", (80, 24), *OPEN_WIND, *"9") as (app, pilot):
        app.post_message(events.AppBlur())
        await settled(pilot)
        assert pane(app).is_open
        await press(pilot, *"5 mph")  # some terminals report no focus before the keys
        assert app.document.inputs.changes == {WIND: "95 mph"}
        app.post_message(events.AppBlur())
        app.post_message(events.AppFocus())
        await press(pilot, *" se", "enter")
        assert app.document.inputs.changes == {WIND: "95 mph se"}
        assert not isinstance(app.screen, Export)


async def test_a_dialog_above_an_open_field_accepts_it() -> None:
    async with opened("sparrow_lane", (80, 24), *OPEN_WIND, *"95 mph") as (app, pilot):
        await press(pilot, "ctrl+p", *"undo", "enter")
        assert not pane(app).is_open
        assert app.document.inputs.changes == {}
        await press(pilot, "y")
        assert app.document.inputs.changes == {WIND: "95 mph"}

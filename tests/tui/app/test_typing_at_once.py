"""Keys that come all at once, as from a paste or a fast typist: each one finds what the one before it opened."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path

import pytest
from textual.events import Event, Key, Paste
from textual.pilot import Pilot
from textual.widgets import Input

from support.opened_app import SIZES, opened
from tui.app.app import LoadpathApp
from tui.screens.export import Export
from tui.screens.main import Main
from tui.screens.save import Save
from tui.widgets.inputs import InputsPane

pytestmark = pytest.mark.app


NAMED = {" ": "space", "/": "slash", "?": "question_mark"}


async def at_once(app: LoadpathApp, pilot: Pilot[None], keys: Iterable[str]) -> None:
    """Every key is sent before the first one is handled."""
    await sent(app, pilot, [Key(NAMED.get(key, key), key if len(key) == 1 else None) for key in keys])


async def sent(app: LoadpathApp, pilot: Pilot[None], events: Iterable[Event]) -> None:
    for event in events:
        app.post_message(event)
    await pilot.pause()
    while any(not worker.is_finished for worker in app.workers):
        await pilot.pause()
    await pilot.pause()


@pytest.mark.parametrize("size", SIZES)
async def test_what_follows_an_enter_is_typed_into_the_input(size: tuple[int, int]) -> None:
    """The letters of "mph" and "sq" are commands elsewhere: next method, roof plan, headroom, save, quit."""
    async with opened("sparrow_lane", size) as (app, pilot):
        await at_once(app, pilot, ["/", *"wind sp", "enter", "enter", *"87 mph sq", *["backspace"] * 3, "enter"])
        assert app.state.inputs.changes == {("site", "wind_speed"): "87 mph"}
        assert app.state.method == ""
        assert app.screen is app.main
        assert not app.main.query_one(InputsPane).is_open


async def test_keys_after_the_enter_that_keeps_are_commands_again() -> None:
    async with opened("sparrow_lane", (80, 24)) as (app, pilot):
        await at_once(app, pilot, ["/", *"wind sp", "enter", "enter", *"87 mph", "enter", "z", "u", "m"])
        assert app.state.inputs.changes == {}
        assert app.state.system == "si"
        assert app.state.method == "tilted_rack"


async def test_an_escape_takes_back_all_that_was_typed_before_it_and_nothing_after() -> None:
    async with opened("sparrow_lane", (80, 24)) as (app, pilot):
        await at_once(
            app, pilot, ["/", *"wind sp", "enter", "enter", *"87 mph", "escape", "u", "enter", *"90 mph", "enter"]
        )
        assert app.state.inputs.changes == {("site", "wind_speed"): "90 mph"}
        assert app.state.system == "si"


async def test_two_inputs_are_changed_in_one_go() -> None:
    async with opened("sparrow_lane", (80, 24)) as (app, pilot):
        one = ["/", *"wind sp", "enter", "enter", *"95 mph", "enter"]
        other = ["/", *"ground sn", "enter", "enter", *"12 psf", "enter"]
        await at_once(app, pilot, [*one, "escape", *other])
        assert app.state.inputs.changes == {("site", "wind_speed"): "95 mph", ("site", "ground_snow"): "12 psf"}


async def test_a_dialog_takes_what_is_typed_right_after_the_key_that_opens_it(tmp_path: Path) -> None:
    """End, then every letter of a path: none of them is lost before the field is there."""
    async with opened("sparrow_lane", (80, 24)) as (app, pilot):
        await at_once(app, pilot, ["S", "end", *"_two"])
        assert isinstance(app.screen, Save)
        assert app.screen.query_one(Input).value == "sparrow_lane.toml_two"
        await at_once(app, pilot, ["escape", "e", "end", *"_mine"])
        assert isinstance(app.screen, Export)
        assert app.screen.query_one(Input).value == "sparrow_lane_export_mine"
        await at_once(
            app,
            pilot,
            ["escape", "S", "home", *["delete"] * len("sparrow_lane.toml"), *str(tmp_path / "mine.toml"), "enter", "u"],
        )
        assert isinstance(app.screen, Main)
        assert (tmp_path / "mine.toml").exists()
        assert app.state.system == "si"


async def test_screens_open_and_close_at_once() -> None:
    async with opened("sparrow_lane", (80, 24)) as (app, pilot):
        await at_once(
            app,
            pilot,
            [
                "p",
                "right",
                "w",
                "escape",
                "escape",
                "l",
                "right",
                "escape",
                "n",
                "escape",
                "?",
                "escape",
                "down",
                "enter",
            ],
        )
        assert len(app.screen_stack) == 3
        assert app.state.method == "tilted_rack"
        await at_once(app, pilot, ["escape"])
        assert app.screen is app.main


async def test_a_paste_lands_in_the_input_and_is_never_a_command() -> None:
    async with opened("sparrow_lane", (80, 24)) as (app, pilot):
        await sent(app, pilot, [Paste("zqum")])
        assert app.screen is app.main
        assert app.state.system == "us"
        await sent(
            app, pilot, [Key("slash", "/"), Paste("wind sp"), Key("enter", None), Key("enter", None), Paste("87 mph\n")]
        )
        assert app.main.query_one(InputsPane).editor.value == "87 mph"
        assert app.state.inputs.changes == {("site", "wind_speed"): "87 mph"}


async def test_lines_pasted_into_a_field_of_one_line_are_joined() -> None:
    async with opened("sparrow_lane", (80, 24)) as (app, pilot):
        await at_once(app, pilot, ["/", *"title", "enter", "enter"])
        await sent(app, pilot, [Paste("Sparrow Lane\nhouse\r\nof ours\n"), Key("enter", None)])
        assert app.state.inputs.changes == {("title",): "Sparrow Lane house of ours"}

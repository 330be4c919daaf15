"""The start page and what it begins; what undo says; the tiles alone."""

from __future__ import annotations

from pathlib import Path

import pytest
from textual.widgets import OptionList, Static

from support.opened_app import SIZES, opened, seen, settled
from tui.app.app import LoadpathApp
from tui.model.inputs import Inputs
from tui.model.new_job import new_job
from tui.screens.lesson import LessonScreen
from tui.screens.main import Main
from tui.screens.open import Open
from tui.screens.save import Save
from tui.screens.start import Start
from tui.screens.tour import STEPS, Tour
from tui.storage import paths, user_state
from tui.widgets.comparison import ComparisonPane
from tui.widgets.inputs import InputsPane
from tui.widgets.tiles import Tiles

pytestmark = pytest.mark.app


def starting() -> LoadpathApp:
    path = paths.bundled()[0]
    return LoadpathApp(Inputs(path, path.read_text(encoding="utf-8")), starts=True)


async def test_escape_looks_at_the_example() -> None:
    app = starting()
    async with app.run_test(size=(80, 24)) as pilot:
        await settled(pilot)
        assert isinstance(app.screen, Start)
        await pilot.press("escape")
        await settled(pilot)
        assert isinstance(app.screen, Main)
        assert app.state.comparison is not None


async def test_a_file_a_recent_file_and_a_lesson_are_opened_from_the_start_page(tmp_path: Path) -> None:
    mine = tmp_path / "mine.toml"
    mine.write_text(paths.read_text(paths.named("sparrow_lane")), encoding="utf-8")
    user_state.add_recent(mine)
    app = starting()
    async with app.run_test(size=(80, 24)) as pilot:
        await settled(pilot)
        await pilot.press("down", "down", "down", "enter")
        assert isinstance(app.screen, Open)
        await pilot.press("escape", "f2")
        assert isinstance(app.screen, Start)
        await pilot.press("down", "down", "down", "down", "down", "enter")
        await settled(pilot)
        assert app.document.inputs.path == mine
        await pilot.press("f2")
        app.screen.query_one(OptionList).highlighted = app.screen.query_one(OptionList).option_count - 1
        await pilot.press("enter")
        await settled(pilot)
        assert isinstance(app.screen, LessonScreen)


async def test_a_recent_file_that_is_broken_is_named() -> None:
    app = starting()
    async with app.run_test(size=(80, 24)) as pilot:
        await settled(pilot)
        app.files._open_recent(Path("no_such_file.toml"))
        await settled(pilot)
        assert "no_such_file.toml" in " ".join(str(note.message) for note in app._notifications)


async def test_the_tour_has_five_steps_and_a_click_goes_on() -> None:
    app = starting()
    async with app.run_test(size=(80, 24)) as pilot:
        await settled(pilot)
        await pilot.press("down", "down", "down", "down", "enter")
        assert isinstance(app.screen, Tour)
        for number in range(1, len(STEPS) + 1):
            assert str(app.screen.query_one(".title", Static).render()).startswith(f"{number} of 5")
            if number == 2:
                await pilot.click(".dialog")
            else:
                await pilot.press("enter")
        assert isinstance(app.screen, Main)


@pytest.mark.parametrize("size", SIZES)
async def test_a_new_job_asks_for_what_it_needs_and_shows_no_figure(size: tuple[int, int]) -> None:
    app = starting()
    async with app.run_test(size=size) as pilot:
        await settled(pilot)
        await pilot.press("enter")
        await settled(pilot)
        pane = app.main.query_one(InputsPane)
        assert pane.current_field is not None
        assert pane.current_field.path == ("site", "wind_speed")
        assert pane.is_open
        assert app.state.comparison is None
        assert "26 inputs are still to be given" in seen(app, "#problems")
        await pilot.press(*"115", "enter", "s")
        assert isinstance(app.screen, Save)


def test_a_new_job_takes_no_name_that_a_file_has(tmp_path: Path) -> None:
    (tmp_path / "my_roof.toml").write_text("", encoding="utf-8")
    assert new_job(tmp_path).path == tmp_path / "my_roof_2.toml"


async def test_undo_says_what_it_undid_and_goes_there() -> None:
    async with opened("sparrow_lane", (80, 24), "slash", *"wind sp", "enter", "enter", *"95", "enter") as (app, pilot):
        await pilot.press("escape", "i", "home", "z")
        await settled(pilot)
        assert "Undone: basic wind speed: 95 mph → 110 mph" in [str(note.message) for note in app._notifications]
        field = app.main.query_one(InputsPane).form.selected
        assert field is not None
        assert field.path == ("site", "wind_speed")
        await pilot.press("y")
        assert "Redone: basic wind speed: 110 mph → 95 mph" in [str(note.message) for note in app._notifications]


@pytest.mark.parametrize("size", SIZES)
async def test_the_tiles_alone_have_large_figures(size: tuple[int, int]) -> None:
    async with opened("sparrow_lane", size, "g") as (app, pilot):
        assert not app.main.query_one(ComparisonPane).display
        assert app.main.query_one(Tiles).size.height >= 17
        assert app.main.focused is app.main.query_one(Tiles)
        await pilot.press("g")
        await settled(pilot)
        assert app.main.query_one(ComparisonPane).size.height > 5

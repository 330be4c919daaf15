"""Every screen and dialog, resized to almost nothing, to far too flat or narrow, and back to what it was."""

from __future__ import annotations

import importlib
import inspect
import pkgutil

import pytest
from textual.pilot import Pilot
from textual.screen import ModalScreen, Screen

import tui.screens
from support.opened_app import opened, painted, settled
from tui.app.app import LoadpathApp
from tui.model.lesson_run import LessonProgress, open_lesson
from tui.screens.ask import Ask
from tui.screens.computing import ComputedView, Computing
from tui.screens.lesson import LessonScreen
from tui.screens.main import Main
from tui.screens.view import View
from tui.storage.paths import bundled_lessons

SIZES = [(1, 1), (3, 9), (1, 40), (200, 2), (20, 5)]
SCREENS = {
    "i": "Main",
    "p": "RoofPlan",
    "p d": "Draw",
    "l": "LoadPath",
    "b": "BillScreen",
    "n": "SpacingStudyScreen",
    "o": "WaysOutScreen",
    "w": "WhyScreen",
    "v": "PlacementScreen",
    "h": "HeadroomScreen",
    "A": "TextPage",
    "question_mark": "Help",
    "f2": "Start",
    "f3": "Tour",
    "f4": "Quick",
    "ctrl+o": "Open",
    "S": "Save",
    "e": "Export",
    "ctrl+p": "CommandPalette",
}
"""Keys and the screen they open; the screen stays open."""


def all_screens() -> set[str]:
    """Names of the classes of screens that there are, whose common parents show nothing themselves."""
    modules = [
        importlib.import_module(f"tui.screens.{each.name}") for each in pkgutil.iter_modules(tui.screens.__path__)
    ]
    classes = {each for module in modules for _, each in inspect.getmembers(module, inspect.isclass)}
    return {
        each.__name__
        for each in classes - {Screen, ModalScreen, View, Computing, ComputedView}
        if issubclass(each, Screen)
    }


def test_no_screen_is_missing_here() -> None:
    assert all_screens() == {*SCREENS.values(), "Ask", "LessonScreen"} - {"CommandPalette"}


def rows(app: LoadpathApp) -> list[str]:
    """What the topmost screen paints, without the scroll bar at its right."""
    return [row[:-2] for row in painted(app).split("\n")]


async def assert_takes_any_size(app: LoadpathApp, pilot: Pilot[None]) -> None:
    """At every size the app runs and the same screen is open, and back at its own it is painted as before."""
    screen, own, before = app.screen, app.size, rows(app)
    for size in [*SIZES, own]:
        await pilot.resize_terminal(*size)
        await pilot.pause()
        assert (app.size, app.screen, app.return_code) == (size, screen, None)
    await settled(pilot)
    assert rows(app) == before


async def test_every_screen_takes_any_size() -> None:
    async with opened("sparrow_lane", (80, 24)) as (app, pilot):
        for keys, screen in SCREENS.items():
            await pilot.press(*keys.split())
            await settled(pilot)
            assert type(app.screen).__name__ == screen
            await assert_takes_any_size(app, pilot)
            while not isinstance(app.screen, Main):
                await pilot.press("escape")
                await pilot.pause()
        app.push_screen(Ask("Discard?", {"yes": "yes"}))
        await settled(pilot)
        await assert_takes_any_size(app, pilot)


async def test_a_lesson_takes_any_size() -> None:
    progress = LessonProgress(open_lesson(bundled_lessons()[0]))
    app = LoadpathApp(progress.inputs, lesson=progress)
    async with app.run_test(size=(80, 24)) as pilot:
        await settled(pilot)
        assert isinstance(app.screen, LessonScreen)
        await assert_takes_any_size(app, pilot)


@pytest.mark.parametrize("scenario", ["plover_terrace", "heron_depot"])
async def test_the_comparison_of_refused_methods_takes_any_size(scenario: str) -> None:
    async with opened(scenario, (140, 45)) as (app, pilot):
        await assert_takes_any_size(app, pilot)

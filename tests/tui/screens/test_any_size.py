"""Every screen and dialog, resized to almost nothing, to far too flat or narrow, and back."""

from __future__ import annotations

import pytest

from support.opened_app import opened, settled
from tui.screens.main import Main

SIZES = [(1, 1), (3, 9), (1, 40), (200, 2), (20, 5), (80, 24)]
SCREENS = {
    "i": "Main",
    "p": "RoofPlan",
    "l": "LoadPath",
    "b": "BillScreen",
    "n": "SpacingStudyScreen",
    "o": "WaysOutScreen",
    "w": "TextPage",
    "question_mark": "Help",
    "ctrl+o": "Open",
    "S": "Save",
    "e": "Export",
    "ctrl+p": "CommandPalette",
}
"""A key and the screen it opens; the screen stays open."""


async def test_every_screen_takes_any_size() -> None:
    async with opened("sparrow_lane", (80, 24)) as (app, pilot):
        for key, screen in SCREENS.items():
            await pilot.press(key)
            await settled(pilot)
            assert type(app.screen).__name__ == screen
            for size in SIZES:
                await pilot.resize_terminal(*size)
                await pilot.pause()
                assert (app.size, type(app.screen).__name__, app.return_code) == (size, screen, None)
            while not isinstance(app.screen, Main):
                await pilot.press("escape")
                await pilot.pause()


@pytest.mark.parametrize("scenario", ["plover_terrace", "heron_depot"])
async def test_the_comparison_of_refused_methods_takes_any_size(scenario: str) -> None:
    async with opened(scenario, (140, 45)) as (app, pilot):
        for size in SIZES:
            await pilot.resize_terminal(*size)
            await pilot.pause()
            assert app.return_code is None

"""Every screen as a picture at both sizes. After a change that was meant: `.venv/bin/pytest tests/tui/test_snapshots.py --snapshot-update`."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from textual.pilot import Pilot
from textual.widgets import Input

from support import SCENARIOS
from tui.app.app import LoadpathApp
from tui.model.inputs import Inputs
from tui.model.lesson_run import LessonProgress, open_lesson, path_of

pytestmark = pytest.mark.app


SIZES = [(80, 24), (140, 45)]
SCREENS: dict[str, tuple[str, ...]] = {
    "compare": (),
    "tiles": ("2",),
    "inputs": ("i",),
    "roof_plan": ("p",),
    "load_path": ("l",),
    "spacing_study": ("n",),
    "bill": ("b",),
    "why": ("w",),
}
SMALL: dict[str, tuple[str, ...]] = {
    "wrong": ("slash", *"wind sp", "enter", "enter", *"fast"),
    "headroom": ("h",),
    "ways_out": ("o",),
    "help": ("question_mark",),
    "open": ("ctrl+o",),
    "save": ("S",),
    "export": ("e",),
    "ask": ("slash", *"wind sp", "enter", "enter", *"95 mph", "enter", "q"),
}
"""On the smallest scenario: what is behind dialogs matters little, and headroom is soon found."""

LESSON: dict[str, tuple[str, ...]] = {
    "lesson_asks": (),
    "lesson_answers": ("enter",),
}
"""At the first step of the first lesson."""


@pytest.mark.parametrize("size", SIZES, ids=lambda size: f"{size[0]}x{size[1]}")
@pytest.mark.parametrize("name", SCREENS | SMALL | LESSON)
def test_every_screen_looks_as_it_did(name: str, size: tuple[int, int], snap_compare: Callable[..., bool]) -> None:
    async def turned_to(pilot: Pilot[None]) -> None:
        pilot.app.animation_level = "none"
        await pilot.app.workers.wait_for_complete()
        await pilot.pause()
        await pilot.press(*(SCREENS | SMALL | LESSON)[name])
        await pilot.pause()
        await pilot.app.workers.wait_for_complete()
        for field in pilot.app.screen.query(Input):
            field.cursor_blink = False
        await pilot.pause()

    assert snap_compare(lesson() if name in LESSON else open_app(name), terminal_size=size, run_before=turned_to)


def open_app(name: str) -> LoadpathApp:
    path = SCENARIOS / ("sparrow_lane.toml" if name in SMALL else "kestrel_yard.toml")
    return LoadpathApp(Inputs(path, path.read_text(encoding="utf-8")))


def lesson() -> LoadpathApp:
    progress = LessonProgress(open_lesson(path_of("how_often")))
    return LoadpathApp(progress.inputs, lesson=progress)

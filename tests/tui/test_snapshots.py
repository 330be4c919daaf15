"""Every screen as a picture at both sizes. After a change that was meant: `.venv/bin/pytest tests/tui/test_snapshots.py --snapshot-update`."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from textual.pilot import Pilot
from textual.widgets import Input

from support import SCENARIOS
from tui.app import Bench
from tui.session import Session

SIZES = [(80, 24), (140, 45)]
SCREENS: dict[str, tuple[str, ...]] = {
    "compare": (),
    "inputs": ("i",),
    "roof_plan": ("p",),
    "load_path": ("l",),
    "span_study": ("n",),
    "bill": ("b",),
    "why": ("w",),
}
DIALOGS: dict[str, tuple[str, ...]] = {
    "help": ("question_mark",),
    "open": ("o",),
    "save": ("S",),
    "export": ("e",),
    "ask": ("slash", *"wind sp", "enter", "enter", *"95 mph", "enter", "q"),
}
"""On the smallest scenario: what is behind them matters little."""


@pytest.mark.parametrize("size", SIZES, ids=lambda size: f"{size[0]}x{size[1]}")
@pytest.mark.parametrize("name", SCREENS | DIALOGS)
def test_every_screen_looks_as_it_did(name: str, size: tuple[int, int], snap_compare: Callable[..., bool]) -> None:
    async def turned_to(pilot: Pilot[None]) -> None:
        pilot.app.animation_level = "none"
        await pilot.app.workers.wait_for_complete()
        await pilot.pause()
        await pilot.press(*(SCREENS | DIALOGS)[name])
        await pilot.pause()
        await pilot.app.workers.wait_for_complete()
        for field in pilot.app.screen.query(Input):
            field.cursor_blink = False
        await pilot.pause()

    path = SCENARIOS / ("sparrow_lane.toml" if name in DIALOGS else "kestrel_yard.toml")
    assert snap_compare(Bench(Session(path, path.read_text(encoding="utf-8"))), terminal_size=size, run_before=turned_to)

"""Every screen as a picture at both sizes. After a change that was meant: `.venv/bin/pytest tests/tui/test_snapshots.py --snapshot-update`."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from textual.pilot import Pilot

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
    "help": ("question_mark",),
    "open": ("o",),
}


@pytest.mark.parametrize("size", SIZES, ids=lambda size: f"{size[0]}x{size[1]}")
@pytest.mark.parametrize("name", SCREENS)
def test_every_screen_looks_as_it_did(name: str, size: tuple[int, int], snap_compare: Callable[..., bool]) -> None:
    async def turned_to(pilot: Pilot[None]) -> None:
        pilot.app.animation_level = "none"
        await pilot.app.workers.wait_for_complete()
        await pilot.pause()
        await pilot.press(*SCREENS[name])
        await pilot.pause()
        await pilot.app.workers.wait_for_complete()
        await pilot.pause()

    path = SCENARIOS / "kestrel_yard.toml"
    assert snap_compare(Bench(Session(path, path.read_text(encoding="utf-8"))), terminal_size=size, run_before=turned_to)

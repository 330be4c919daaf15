"""Export every screen of the app to SVG beside this file: `.venv/bin/python .docs/screenshots.py`."""

from __future__ import annotations

import asyncio
import tempfile
from functools import partial
from pathlib import Path

from tui.app.app import LoadpathApp
from tui.model.inputs import Inputs
from tui.storage import atomic_write, paths, user_state

HERE = Path(__file__).parent
SIZE = (120, 40)
SCREENS: dict[str, tuple[str, ...]] = {
    "inputs": ("slash", *"wind sp", "enter", "enter", *"115 mph"),
    "why": (*["down"] * 6, "enter"),
    "roof_plan": ("p",),
    "load_path": ("l",),
    "spacing_study": ("n",),
    "bill": ("b",),
}
"""The keys that lead to each screen, on the default scenario."""

COMPARISONS: dict[str, tuple[tuple[int, int], tuple[str, ...]]] = {
    "compare_80x24": ((80, 24), ()),
    "compare": ((140, 45), ()),
    "compare_200x55": ((200, 55), ()),
    "compare_light": ((140, 45), ("t",)),
}
"""Sizes and keys of more pictures of the comparison."""


async def picture(size: tuple[int, int], keys: tuple[str, ...]) -> str:
    """What a screen of that size looks like once these keys were pressed."""
    path = paths.bundled()[0]
    app = LoadpathApp(Inputs(path, paths.read_text(path)))
    async with app.run_test(size=size) as pilot:
        await app.workers.wait_for_complete()
        for key in keys:
            await pilot.press({" ": "space"}.get(key, key))
        await pilot.pause()
        await app.workers.wait_for_complete()
        await pilot.pause()
        return app.export_screenshot()


def main() -> None:
    """Write all of them."""
    pictures = {name: (SIZE, keys) for name, keys in SCREENS.items()} | COMPARISONS
    for name, (size, keys) in pictures.items():
        with tempfile.TemporaryDirectory() as folder:
            user_state.folder = partial(Path, folder)
            atomic_write.write_text(HERE / f"{name}.svg", asyncio.run(picture(size, keys)), overwrite=True)


if __name__ == "__main__":
    main()

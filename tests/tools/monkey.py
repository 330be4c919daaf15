"""Random keys, clicks and sizes for the app, from a seed; an error ends it with the keys that led there.

.venv/bin/python tests/tools/monkey.py [SECONDS] [SEED]
"""

from __future__ import annotations

import asyncio
import os
import random
import sys
import tempfile
import time
from pathlib import Path

from textual.pilot import Pilot

from tui.app.app import LoadpathApp
from tui.model.commands import COMMANDS
from tui.model.inputs import Inputs
from tui.screens.view import View
from tui.storage import user_state

SCENARIOS = [
    Path(__file__).parents[2] / "scenarios" / f"{name}.toml"
    for name in ("kestrel_yard", "sparrow_lane", "wren_workshop")
]
MOVES = [
    "up",
    "down",
    "left",
    "right",
    "pageup",
    "pagedown",
    "home",
    "end",
    "tab",
    "enter",
    "enter",
    "escape",
    "escape",
    "backspace",
    "space",
]
COMMANDED = [
    command for commands in (COMMANDS, *(view.OWN_COMMANDS for view in View.__subclasses__())) for command in commands
]
KEYS = sorted({key for command in COMMANDED if command.id != "quit" for key in command.keys})
"""Every key of every screen but those that end a round early; the palette knows them too."""

LETTERS = ["space" if letter == " " else letter for letter in "0123456789.,:'*[]{}=-ftin mphs"]
KEYS_A_ROUND = 150
SIZES = [(80, 24), (140, 45), (40, 12), (80, 10)]


async def round_of(chance: random.Random, path: Path, keys: list[str]) -> None:
    """One app, until the keys are used up or the app was left."""
    app = LoadpathApp(Inputs(path, path.read_text(encoding="utf-8")))
    async with app.run_test(size=chance.choice(SIZES)) as pilot:
        for _ in range(KEYS_A_ROUND):
            await step(chance, pilot, keys)
            if app.return_code is not None:
                return


async def step(chance: random.Random, pilot: Pilot[None], keys: list[str]) -> None:
    """A key; now and then a click, or another size of the terminal."""
    what = chance.random()
    if what < 0.04:
        size = chance.choice([*SIZES, (chance.randint(1, 200), chance.randint(1, 60))])
        keys.append(f"size:{size}")
        await pilot.resize_terminal(*size)
    elif what < 0.12:
        place = chance.randrange(pilot.app.size.width), chance.randrange(pilot.app.size.height)
        keys.append(f"click:{place}")
        await pilot.click(offset=place)
    else:
        keys.append(chance.choice(MOVES if chance.random() < 0.5 else KEYS + LETTERS))
        await pilot.press(keys[-1])


def main() -> None:
    """Go on until the time is over."""
    seconds, seed = (int(given) for given in (sys.argv[1:] + ["600", "1"][len(sys.argv) - 1 :])[:2])
    end, pressed = time.monotonic() + seconds, 0
    with tempfile.TemporaryDirectory() as folder:
        os.chdir(folder)
        user_state.folder = lambda: Path(folder) / "kept"
        while time.monotonic() < end:
            keys: list[str] = []
            path = SCENARIOS[seed % len(SCENARIOS)]
            try:
                asyncio.run(round_of(random.Random(seed), path, keys))
            except BaseException:
                print(f"seed {seed}, {path.name}, after: {' '.join(keys)}", file=sys.stderr)
                raise
            seed, pressed = seed + 1, pressed + len(keys)
    print(f"{pressed} keys without an error; next seed {seed}")


if __name__ == "__main__":
    main()

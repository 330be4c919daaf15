"""Paint every screen in three sizes, dark, light and without colours.

`.venv/bin/python .docs/contact_sheets.py [FOLDER]` writes one sheet for each size and look, as the terminal shows them
cell by cell, to `screens/` beside this file; with FOLDER each screen in a picture of its own too. Needs Pillow, which
the tests install, and the DejaVu fonts.
"""

from __future__ import annotations

import asyncio
import os
import sys
import tempfile
from functools import partial
from itertools import product
from pathlib import Path

from PIL import Image, ImageDraw, ImageFont
from rich.style import Style
from textual.pilot import Pilot
from textual.widgets import Input
from textual.worker import WorkerCancelled

from engine.studies import placement
from tui.app.app import LoadpathApp
from tui.model.inputs import Inputs
from tui.model.lesson_run import LessonProgress, open_lesson, path_of
from tui.screens.main import Main
from tui.storage import paths, user_state

HERE = Path(__file__).parent
SCENARIO = "wren_workshop"
SIZES = [(80, 24), (140, 45), (200, 55)]
FONT = "/usr/share/fonts/truetype/dejavu/DejaVuSansMono{}.ttf"
TEXT_SIZE, CELL, GAP = 13, (8, 16), 12
COLUMNS = {80: 5, 140: 4, 200: 4}
"""Screens beside one another on a sheet."""

FEW_PLACES = (4, 3)
"""Places along the eave and up the slope: enough to see the map, and soon computed."""

SCREENS: dict[str, tuple[str, ...]] = {
    "compare": ("c",),
    "tiles": ("c", "1"),
    "figures": ("c", "x"),
    "large": ("g",),
    "inputs": ("i",),
    "open field": ("slash", *"wind", "enter", "enter"),
    "draw": ("d",),
    "draw aisle": ("d", "a"),
    "draw refused": ("d", *["up"] * 5),
    "plan": ("p",),
    "load path": ("l",),
    "study": ("n",),
    "bill": ("b",),
    "why": ("1", "w"),
    "ways out": ("o",),
    "placement": ("v", "right"),
    "headroom": ("h",),
    "help": ("question_mark",),
    "start": ("f2",),
    "tour": ("f3",),
    "open": ("ctrl+o",),
    "save": ("S",),
    "export": ("e",),
    "palette": ("ctrl+p",),
    "quick": ("f4",),
}
"""The keys that lead to each screen from the comparison."""

QUESTION = ("24", "24", "5", "1:12", "24", "105", "b", "25")
"""What is typed into the fields of a quick question, from the number of modules on."""

MORE: dict[str, dict[str, tuple[str, ...]]] = {
    "lapwing_hall": {"slope": ("c",), "building": ("B",)},
    "how_often": {"lesson": (), "lesson answer": ("enter",)},
}
"""The same of a building of several slopes, and of a lesson."""

BRAILLE = ((0, 0), (0, 1), (0, 2), (1, 0), (1, 1), (1, 2), (0, 3), (1, 3))
"""Column and row of the dot of each bit."""

Colour = tuple[int, ...]


def painted(app: LoadpathApp) -> Image.Image:
    """The cells of the topmost screen."""
    (wide, high), (width, height) = CELL, app.size
    picture = Image.new("RGB", (width * wide, height * high))
    draw = ImageDraw.Draw(picture)
    fonts = [ImageFont.truetype(FONT.format(weight), TEXT_SIZE) for weight in ("", "-Bold")]
    for row, strip in enumerate(app.screen._compositor.render_strips()):
        column = 0
        for text, style, _ in strip:
            ink, ground = colours(style or Style())
            for letter in text:
                box = (column * wide, row * high, (column + 1) * wide - 1, (row + 1) * high - 1)
                draw.rectangle(box, fill=ground)
                paint_letter(draw, letter, box, ink, fonts[bool(style and style.bold)])
                column += 1
    return picture


def colours(style: Style) -> tuple[Colour, Colour]:
    """Colour of the letters and behind them."""
    ink = tuple(style.color.get_truecolor()) if style.color else (220, 220, 220)
    ground = tuple(style.bgcolor.get_truecolor(foreground=False)) if style.bgcolor else (0, 0, 0)
    return (ground, ink) if style.reverse else (ink, ground)


def paint_letter(
    draw: ImageDraw.ImageDraw, letter: str, box: tuple[int, int, int, int], ink: Colour, font: ImageFont.FreeTypeFont
) -> None:
    """A letter; blocks and dots fill their cell, as terminals draw them."""
    left, top, _, bottom = box
    code = ord(letter)
    if 0x2800 <= code < 0x2900:
        for bit, (across, down) in enumerate(BRAILLE):
            if (code - 0x2800) >> bit & 1:
                x, y = left + 1 + across * CELL[0] // 2, top + 1 + down * CELL[1] // 4
                draw.rectangle((x, y, x + 2, y + 2), fill=ink)
    elif 0x2588 <= code <= 0x258F:
        draw.rectangle((left, top, left + max(0, CELL[0] * (0x2590 - code) // 8 - 1), bottom), fill=ink)
    elif letter.strip():
        draw.text((left, top), letter, font=font, fill=ink)


async def settled(pilot: Pilot[None]) -> None:
    """Everything is computed and painted."""
    for _ in range(3):
        await pilot.pause()
        try:
            await pilot.app.workers.wait_for_complete()
        except WorkerCancelled:
            continue
    await pilot.pause()


def app_of(name: str) -> LoadpathApp:
    """The app on a bundled scenario, or a lesson."""
    path = next((path for path in paths.bundled() if path.stem == name), None)
    if path:
        return LoadpathApp(Inputs(path, paths.read_text(path)))
    progress = LessonProgress(open_lesson(path_of(name)))
    return LoadpathApp(progress.inputs, lesson=progress)


async def walk(
    name: str, screens: dict[str, tuple[str, ...]], size: tuple[int, int], look: str
) -> dict[str, Image.Image]:
    """Screen → picture, of an app of its own: groups that are folded stay folded."""
    app, found = app_of(name), dict[str, Image.Image]()
    async with app.run_test(size=size) as pilot:
        app.animation_level = "none"
        await settled(pilot)
        if "quick" in screens:
            await ask(app, pilot)
        app.theme = user_state.LIGHT if look == "light" else user_state.DARK
        for screen, keys in screens.items():
            await pilot.press(*keys)
            await settled(pilot)
            found[screen] = painted(app)
            await back(app, pilot, screen)
    return found


async def ask(app: LoadpathApp, pilot: Pilot[None]) -> None:
    """Type a quick question; the page keeps it for the next time."""
    await pilot.press("f4")
    for field, typed in zip(app.screen.query(Input), QUESTION, strict=False):
        field.value = typed
    await settled(pilot)
    await pilot.press("escape")


async def back(app: LoadpathApp, pilot: Pilot[None], name: str) -> None:
    """Back to the comparison as it was."""
    if name == "large":
        await pilot.press("g")
    if name == "figures":
        await pilot.press("x")
    if name.startswith("lesson"):
        return
    while not isinstance(app.screen, Main):
        await pilot.press("escape")
        await pilot.pause()
    await pilot.press("escape", "escape", "c")


def sheet(pictures: dict[str, Image.Image], columns: int) -> Image.Image:
    """All pictures beside and below one another."""
    width, height = next(iter(pictures.values())).size
    rows = -(-len(pictures) // columns)
    whole = Image.new("RGB", (columns * (width + GAP), rows * (height + GAP)), "#808080")
    for number, picture in enumerate(pictures.values()):
        whole.paste(picture, (number % columns * (width + GAP), number // columns * (height + GAP)))
    return whole.quantize(64)


def main() -> None:
    """Paint all of them; without colours needs an app of its own, as the terminal says so at its start."""
    (HERE / "screens").mkdir(exist_ok=True)
    placement.ALONG, placement.UP = FEW_PLACES
    for looks in (("dark", "light"), ("no_color",)):
        if looks == ("no_color",):
            os.environ["NO_COLOR"] = "1"
        for size in SIZES:
            with tempfile.TemporaryDirectory() as folder:
                user_state.folder = partial(Path, folder)
                found = {look: dict[str, Image.Image]() for look in looks}
                for (name, screens), look in product([(SCENARIO, SCREENS), *MORE.items()], looks):
                    found[look] |= asyncio.run(walk(name, screens, size, look))
            for look, pictures in found.items():
                name = f"{size[0]}x{size[1]}_{look}"
                sheet(pictures, COLUMNS[size[0]]).save(HERE / "screens" / f"{name}.png", optimize=True)
                for screen, picture in pictures.items() if len(sys.argv) > 1 else ():
                    picture.save(Path(sys.argv[1]) / f"{name}_{screen.replace(' ', '_')}.png")


if __name__ == "__main__":
    main()

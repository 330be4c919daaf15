"""Contrast of what is painted, with the formulas of the Web Content Accessibility Guidelines 2.2.

Source, from memory: relative luminance and contrast ratio as in its definitions; 4.5 to 1 for text (1.4.3), 3 to 1 for
graphics (1.4.11).
"""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from rich.color import Color, ColorSystem
from rich.style import Style

from engine.studies import placement
from support.opened_app import opened, settled
from tui.app.app import LoadpathApp
from tui.storage import user_state
from tui.storage.user_state import DARK, LIGHT, DisplaySettings

pytestmark = pytest.mark.app

MIN_TEXT, MIN_GRAPHICS = 4.5, 3.0
SCREENS: dict[str, tuple[str, ...]] = {
    "compare": ("x",),
    "tiles": ("2",),
    "inputs": ("i",),
    "open field": ("i", "enter"),
    "roof plan": ("p",),
    "load path": ("l",),
    "spacing study": ("n",),
    "bill": ("b",),
    "why": ("w",),
    "ways out": ("o",),
    "placement map": ("v", "right"),
    "headroom": ("h",),
    "draw": ("d",),
    "draw an aisle": ("d", "a"),
    "draw an area": ("d", "o", "right"),
    "draw what does not fit": ("d", *["up"] * 9),
    "quick": ("f4", *"24"),
    "start": ("f2",),
    "tour": ("f3",),
    "help": ("question_mark",),
    "open": ("ctrl+o",),
    "save": ("S",),
    "export": ("e",),
    "older figures": ("slash", *"wind sp", "enter", "enter", *"fast"),
}
FAINT = "─━│┃╭╮╰╯┏┓┗┛┴├┤╶╴╸╺╹╻▔▁▎▊▕▏"
"""Letters that draw lines."""


def luminance(colour: Color) -> float:
    linear = [
        part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4
        for part in (value / 255 for value in colour.get_truecolor())
    ]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(one: Color, other: Color) -> float:
    low, high = sorted((luminance(one), luminance(other)))
    return (high + 0.05) / (low + 0.05)


def is_graphic(letter: str) -> bool:
    """Lines, blocks and dots of pictures."""
    return letter in FAINT or 0x2500 <= ord(letter) <= 0x25FF or 0x2800 <= ord(letter) <= 0x28FF


def painted(app: LoadpathApp) -> Iterator[tuple[str, Color, Color]]:
    """Letter, its colour and the colour behind it, of every cell that is not blank."""
    for text, style, _ in (segment for strip in app.screen._compositor.render_strips() for segment in strip):
        ink, ground = (style or Style()).color, (style or Style()).bgcolor
        if style and style.reverse:
            ink, ground = ground, ink
        for letter in text:
            if letter.strip():
                assert ink is not None
                assert ground is not None
                yield letter, ink, ground


def too_faint(app: LoadpathApp) -> dict[str, float]:
    """What is painted with too little contrast: the letters of each pair of colours, and its contrast."""
    found: dict[tuple[str, str, bool], set[str]] = {}
    ratios: dict[tuple[str, str, bool], float] = {}
    for letter, ink, ground in painted(app):
        pair = (ink.name, ground.name, is_graphic(letter))
        ratios.setdefault(pair, contrast(ink, ground))
        if ratios[pair] < (MIN_GRAPHICS if pair[2] else MIN_TEXT):
            found.setdefault(pair, set()).add(letter)
    return {f"{''.join(sorted(letters))} {pair[:2]}": ratios[pair] for pair, letters in found.items()}


def test_the_formula_knows_the_ends_of_its_scale() -> None:
    black, white, grey = (Color.parse(name) for name in ("#000000", "#ffffff", "#767676"))
    assert contrast(black, white) == pytest.approx(21.0)
    assert contrast(grey, white) == pytest.approx(4.54, abs=0.005)  # the lightest grey that passes on white, by repute


@pytest.mark.parametrize("theme", [DARK, LIGHT])
@pytest.mark.parametrize("name", SCREENS)
async def test_everything_painted_has_contrast(name: str, theme: str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(placement, "ALONG", 2)
    monkeypatch.setattr(placement, "UP", 1)
    user_state.save_display_settings(DisplaySettings(theme=theme))
    async with opened("sparrow_lane", (140, 45), *SCREENS[name]) as (app, pilot):
        assert app.theme == theme
        await settled(pilot)
        assert too_faint(app) == {}


@pytest.mark.parametrize("theme", [DARK, LIGHT])
async def test_without_colours_too(theme: str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("NO_COLOR", "1")
    user_state.save_display_settings(DisplaySettings(theme=theme))
    async with opened("wren_workshop", (140, 45), "1") as (app, _):
        assert (
            len({colour for _, *pair in painted(app) for colour in pair if len(set(colour.get_truecolor())) > 1}) == 0
        )
        assert too_faint(app) == {}


@pytest.mark.parametrize("theme", [DARK, LIGHT])
async def test_in_sixteen_colours_no_letter_vanishes(theme: str) -> None:
    """The terminal's own sixteen colours differ; the nearest ones must at least not be the same."""
    user_state.save_display_settings(DisplaySettings(theme=theme))
    async with opened("sparrow_lane", (140, 45), "x") as (app, _):
        pairs = {(ink.name, ground.name): letter for letter, ink, ground in painted(app)}
        same = {
            pair: letter
            for pair, letter in pairs.items()
            if len({Color.parse(name).downgrade(ColorSystem.STANDARD).number for name in pair}) == 1
        }
        assert same == {}

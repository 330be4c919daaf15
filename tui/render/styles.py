"""Styles and lines that screens share. User text is never markup."""

from __future__ import annotations

import textwrap
from collections.abc import Sequence

from textual.content import Content

from engine.comparison.compare import Comparison
from engine.comparison.flags import Flag
from engine.units import System, in_one

MUTED = "$text-muted"
STATUS_STYLE = {
    "holds": "$text-success",
    "incomplete": "$text-warning",
    "strength unknown": "$text-warning",
    "over": "$text-error",
    "refused": "$text-error",
    "outside scope": "$text-warning",
}
SEVERITY_STYLE = {"warning": "$text-error", "caution": "$text-warning", "note": MUTED}
SIGNS = {"warning": "!! ", "caution": " ! ", "note": " · "}
BEST, PLACEHOLDER = "▲", "◇"
"""Marks beside a figure: the best of its row; one that rests on placeholders."""

MIN_WIDTH = 20
"""Minimum width of sentences [cells]."""


def fitted(words: str, width: int) -> str:
    """Words that fit the room there is; a sign stands for what is cut off."""
    return words if len(words) <= width else f"{words[: max(0, width - 1)]}…"


def wrapped(words: str, width: int, style: str = "", *, sign: str = "") -> list[Content]:
    """A sentence in lines, with a sign before the first."""
    lines = textwrap.wrap(words, max(MIN_WIDTH, width), initial_indent=sign, subsequent_indent=" " * len(sign))
    return [Content.styled(line, style) for line in lines]


def cautions(comparison: Comparison, width: int) -> list[Content]:
    """The cautions of every result."""
    return [line for caution in comparison.cautions for line in wrapped(caution, width, MUTED)]


def flags(found: Sequence[Flag], width: int, system: System) -> list[Content]:
    """Flags, each with a sign as well as a colour."""
    lines = [
        wrapped(in_one(flag.text, system), width - 1, SEVERITY_STYLE[flag.severity], sign=SIGNS[flag.severity])
        for flag in found
    ]
    return [line for of_flag in lines for line in of_flag] or [Content.styled("   no remarks", MUTED)]

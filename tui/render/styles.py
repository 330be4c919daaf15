"""Words in colour: what screens share. User text is never markup."""

from __future__ import annotations

import textwrap

from textual.content import Content

from engine.comparison.compare import Column, Comparison

MUTED = "$foreground 75%"
STATUS_STYLE = {
    "holds": "$text-success",
    "over": "$text-error",
    "refused": "$text-error",
    "outside scope": "$text-warning",
}
SEVERITY_STYLE = {"warning": "$text-error", "caution": "$text-warning", "note": MUTED}
SIGNS = {"warning": "!! ", "caution": " ! ", "note": " · "}
NARROWEST = 20
"""Sentences are not set narrower than this."""


def wrapped(words: str, width: int, style: str = "", *, sign: str = "") -> list[Content]:
    """A sentence in lines; a sign stands before the first."""
    lines = textwrap.wrap(words, max(NARROWEST, width), initial_indent=sign, subsequent_indent=" " * len(sign))
    return [Content.styled(line, style) for line in lines]


def cautions(comparison: Comparison, width: int) -> list[Content]:
    """What every result carries."""
    return [line for caution in comparison.cautions for line in wrapped(caution, width, MUTED)]


def flags(column: Column, width: int) -> list[Content]:
    """A method's flags, each with a sign as well as a colour."""
    found = [
        wrapped(flag.text, width - 1, SEVERITY_STYLE[flag.severity], sign=SIGNS[flag.severity]) for flag in column.flags
    ]
    return [line for lines in found for line in lines] or [Content.styled("   nothing to flag", MUTED)]

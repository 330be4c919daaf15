"""Progress of what is computed: what is done, how much remains, and how to stop it."""

from __future__ import annotations

import re

from textual.content import Content

from tui.model.state import COMPUTING
from tui.render.styles import MUTED

_COUNTED = re.compile(r"(\d+) of (\d+): (.*)", re.DOTALL)
LENGTH = 20
"""Length of the bar [cells]."""


def progress(message: str, stop: str = "esc stops") -> Content:
    """A message of a long computation, with a bar where it says which part of how many it is about."""
    counted = _COUNTED.fullmatch(message)
    hint = Content.styled(f"   {stop}", MUTED)
    if counted is None:
        return Content(f"{COMPUTING} {message}") + hint
    number, total, words = int(counted[1]), int(counted[2]), counted[3]
    filled = round(LENGTH * (number - 1) / total)
    bar = Content.styled("█" * filled, "$text-accent") + Content.styled("░" * (LENGTH - filled), MUTED)
    left = f" {number - 1} of {total} done, now {words}"
    return Content(f"{COMPUTING} ") + bar + Content(left) + hint

"""Utilisation as a bar with a tick where a link is used up."""

from __future__ import annotations

from textual.content import Content

from engine.checks import Check
from engine.units import text
from tui.text import MUTED

_EIGHTHS = " ▏▎▍▌▋▊▉"
TICK, TICK_PASSED, LONGER = "│", "┃", "▶"


def style(check: Check) -> str:
    """Colour by what a utilisation means; the figure and the word OVER say it too."""
    if check.utilisation is None:
        return MUTED
    return "$text-success" if check.holds else "$text-error"


def figure(check: Check) -> str:
    """A utilisation in words: "0.96", "1.66 OVER", "not checked"."""
    if check.utilisation is None:
        return "not checked"
    return f"{text(check.utilisation, 'ratio', 'us')}{'' if check.holds else ' OVER'}"


def bar(check: Check, width: int, full: float) -> Content:
    """A bar of `width` cells that stands for `full`; the tick is at 1.0, and an arrow says that it goes on."""
    used, tick = check.utilisation or 0.0, min(width - 1, int(width / full))
    eighths = round(min(used / full, 1.0) * width * 8)
    cells = list(("█" * (eighths // 8) + _EIGHTHS[eighths % 8].strip()).ljust(width)[:width])
    if used > full:
        cells[-1] = LONGER
    before, after = "".join(cells[:tick]), "".join(cells[tick + 1 :])
    mark = TICK_PASSED if used > 1 else TICK
    return Content.assemble((before, style(check)), (mark, "bold"), (after, style(check)))

"""Utilisation as a bar with a tick where a link is used up."""

from __future__ import annotations

from textual.content import Content

from engine.units import text
from tui.render.styles import MUTED

_EIGHTHS = " ▏▎▍▌▋▊▉"
TICK, TICK_PASSED, LONGER = "│", "┃", "▶"


def style(used: float | None) -> str:
    """Colour by what a utilisation means; the figure and the word OVER say it too."""
    if used is None:
        return MUTED
    return "$text-success" if used <= 1 else "$text-error"


def figure(used: float | None) -> str:
    """A utilisation in words: "0.96", "1.66 OVER", "not checked"."""
    if used is None:
        return "not checked"
    return f"{text(used, 'ratio', 'us')}{' OVER' if used > 1 else ''}"


def bar(used: float, width: int, full: float) -> Content:
    """A bar of `width` cells that stands for `full`; the tick is at 1.0, and an arrow says that it goes on."""
    tick = min(width - 1, int(width / full))
    eighths = round(min(used / full, 1.0) * width * 8)
    cells = list(("█" * (eighths // 8) + _EIGHTHS[eighths % 8].strip()).ljust(width)[:width])
    if used > full:
        cells[-1] = LONGER
    before, after = "".join(cells[:tick]), "".join(cells[tick + 1 :])
    return Content.assemble((before, style(used)), (TICK_PASSED if used > 1 else TICK, "bold"), (after, style(used)))

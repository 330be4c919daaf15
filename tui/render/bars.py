"""Utilisation as a bar with a tick at 1.00."""

from __future__ import annotations

from textual.content import Content

from engine.units import text
from tui.render.styles import MUTED

_EIGHTHS = " ▏▎▍▌▋▊▉"
TICK, TICK_PASSED, CUT_OFF, NOW = "│", "┃", "▶", "●"


def style(utilisation: float | None) -> str:
    """Colour of a utilisation; the figure and the word OVER say the same."""
    if utilisation is None:
        return MUTED
    return "$text-success" if utilisation <= 1 else "$text-error"


def figure(utilisation: float | None) -> str:
    """A utilisation in words: "0.96", "1.66 OVER", "not checked"."""
    if utilisation is None:
        return "not checked"
    return f"{text(utilisation, 'ratio', 'us')}{' OVER' if utilisation > 1 else ''}"


def span(low: float, now: float, high: float, width: int, full: float) -> Content:
    """A line on `width` cells of scale `full` from a lower to a higher utilisation, with a dot at the one now."""
    start, at_now, tick, end = (min(width - 1, int(used / full * width)) for used in (low, now, 1.0, high))
    cells = list(f"{' ' * start}{'━' * (end + 1 - start)}".ljust(width))
    cells[tick] = TICK_PASSED if high > 1 else TICK
    cells[at_now] = NOW
    cells[-1] = CUT_OFF if high > full else cells[-1]
    before, after = "".join(cells[:tick]), "".join(cells[tick + 1 :])
    return Content.assemble((before, style(low)), (cells[tick], "bold"), (after, style(high)))


def bar(utilisation: float, width: int, full: float) -> Content:
    """A bar on `width` cells of scale `full`, with a tick at 1.0; an arrow marks a bar that is cut off."""
    tick = min(width - 1, int(width / full))
    eighths = round(min(utilisation / full, 1.0) * width * 8)
    cells = list(("█" * (eighths // 8) + _EIGHTHS[eighths % 8].strip()).ljust(width)[:width])
    if utilisation > full:
        cells[-1] = CUT_OFF
    before, after = "".join(cells[:tick]), "".join(cells[tick + 1 :])
    colour, tick_sign = style(utilisation), TICK_PASSED if utilisation > 1 else TICK
    return Content.assemble((before, colour), (tick_sign, "bold"), (after, colour))

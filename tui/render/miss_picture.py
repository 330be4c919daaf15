"""A miss: a stretch of the roof to scale, such as a clamp zone and the purlins beside it."""

from __future__ import annotations

from textual.content import Content

from engine.comparison.roof_plan import Plan
from engine.mounting.interface import Miss
from engine.units import System, text

ZONE, SUPPORT, EMPTY = "█", "┃", "─"
AROUND = 1.5
"""Lengths of the miss, or of the stretch if it is longer, that are shown on both sides of it."""


def draw(miss: Miss, plan: Plan, system: System, width: int) -> list[Content]:
    """The stretch as a bar among ribs or purlins as upright strokes, and under it how far away the nearest one is."""
    low, high = min(miss.low, miss.nearest), max(miss.high, miss.nearest)
    margin = AROUND * max(abs(miss.move), miss.high - miss.low)
    start, step = low - margin, (high - low + 2 * margin) / max(1, width - 1)

    def at(place: float) -> int:
        return round((place - start) / step)

    letters = [EMPTY] * width
    for place in plan.supports if miss.up_slope else plan.ribs:
        if 0 <= at(place) < width:
            letters[at(place)] = SUPPORT
    first, last = at(miss.low), max(at(miss.low), at(miss.high))
    letters[first : last + 1] = ZONE * (last + 1 - first)
    if at(miss.nearest) not in range(first, last + 1):
        letters[at(miss.nearest)] = SUPPORT
    line = Content("".join(letters)).stylize("$text-error", first, last + 1)
    line = line.stylize("bold $text-warning", at(miss.nearest), at(miss.nearest) + 1)
    left, right = sorted((at(miss.nearest), last if miss.nearest > miss.high else first))
    away = f"{'├' if right > left else ''}{'─' * max(0, right - left - 1)}{'┤' if right > left else '│'}"
    words = f"{away} {text(abs(miss.move), 'small length', system)}: {ZONE} must reach {SUPPORT}"
    return [line, Content(f"{' ' * min(left, max(0, width - len(words)))}{words}"[:width])]

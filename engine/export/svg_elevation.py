"""A row of attachments from the side as SVG, black and grey; the class draws in attachments and loads itself."""

from __future__ import annotations

import numpy as np

from engine.common.arrays import Floats
from engine.export.svg import Drawing
from engine.lessons.picture import StepPicture
from engine.units import System, text

STYLES = {
    "text": "font-size: 12px; fill: #000",
    "line": "stroke: #000; stroke-width: 1.5",
    ".seam": "stroke: #999",
    ".held": "stroke-width: 3",
    "rect": "fill: #ddd; stroke: #000",
    ".structure": "fill: #bbb; stroke: none",
    ".rail": "fill: #000",
    "polyline": "fill: none; stroke: #000; stroke-width: 2",
}
LEFT, WIDE = 90.0, 560.0
"""Room for the names, and width of the row [px]."""

ARROW, MODULES, RAIL, FOOT, SEAM, STRUCTURE = 70.0, 12.0, 8.0, 12.0, 22.0, 12.0
"""Heights of the layers from above [px]."""

IN_VIEW = 20
"""Ribs in view, or fastenings of a rib if the member runs up the slope."""


def elevation_drawing(picture: StepPicture, system: System, *, is_answer: bool) -> str:
    """The stretch around the most loaded attachment; only the answer shows attachments, each with an arrow."""
    drawing = Drawing("elevation", LEFT + WIDE + 20, ARROW + 96, "one row of attachments from the side", STYLES)
    start, end = _stretch(picture)

    def across(place: float) -> float:
        return LEFT + WIDE * (min(max(place, start), end) - start) / (end - start)

    seen, top = picture.seen, ARROW + 16
    inside = (seen.at >= start) & (seen.at <= end)
    for first, last in seen.members.tolist():
        if last > start and first < end:
            drawing.rectangle(across(first), top, across(last) - across(first), MODULES, "")
            drawing.rectangle(across(first), top + MODULES, across(last) - across(first), RAIL, "rail")
    foot = top + MODULES + RAIL
    for place in _inside(picture.study.crossed_at, start, end):
        drawing.line(across(place), foot + FOOT, across(place), foot + FOOT + SEAM, "seam")
    drawing.rectangle(LEFT, foot + FOOT + SEAM, WIDE, STRUCTURE, "structure")
    _names(drawing, picture, top)
    if is_answer:
        for place in seen.at[inside].tolist():
            drawing.line(across(place), foot, across(place), foot + FOOT + SEAM, "held")
        _arrows(drawing, picture, [across(place) for place in seen.at[inside].tolist()], seen.force[inside], system)
    return drawing.written()


def _stretch(picture: StepPicture) -> tuple[float, float]:
    """The stretch in view [m]: from the end of the row, or around its most loaded attachment."""
    roof, seen = picture.job.roof, picture.seen
    length = IN_VIEW * (roof.support_spacing if picture.study.runs_up_slope else roof.rib_spacing)
    worst, first = float(seen.at[int(np.argmax(seen.force))]), float(seen.members.min())
    start = first if worst < first + 0.9 * length else worst - length / 2
    return start, start + length


def _inside(places: Floats, start: float, end: float) -> list[float]:
    return [place for place in places.tolist() if start <= place <= end]


def _names(drawing: Drawing, picture: StepPicture, top: float) -> None:
    titles = {check.link: check.title for check in picture.row.checks.values()}
    seams = f"{picture.job.roof.rib_word}s"
    levels = (MODULES - 2, MODULES + RAIL + 2, MODULES + RAIL + FOOT + 2, MODULES + RAIL + FOOT + SEAM)
    for name, down in zip(("modules", titles[picture.study.member], "attachments", seams), levels, strict=True):
        drawing.text(0, top + down, name)


def _arrows(drawing: Drawing, picture: StepPicture, places: list[float], forces: Floats, system: System) -> None:
    """An arrow a load, the largest with its size; all to one scale."""
    most, foot = float(forces.max()), ARROW + 12
    for place, force in zip(places, forces.tolist(), strict=True):
        high = (ARROW - 14) * force / max(most, 1.0)
        if high < 1:
            continue
        tip, tail = (foot - high, foot) if picture.uplift else (foot, foot - high)
        side = 4 if picture.uplift else -4
        drawing.path([(place, tail), (place, tip), (place - 4, tip + side), (place, tip), (place + 4, tip + side)])
    largest = places[int(np.argmax(forces))]
    drawing.text(largest, foot - ARROW + 8, text(most, "force", system), anchor="middle")

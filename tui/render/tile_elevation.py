"""One row of attachments from the side, small: arrows of uplift, modules, rail, attachments and ribs, to scale."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from textual.content import Content

from engine.common.arrays import Floats
from engine.common.tolerances import SUMMED_LENGTH
from engine.comparison.attachment_schedule import schedule
from engine.comparison.compare import Column, Comparison
from engine.design.design import Design
from engine.mounting.places import places_along_eave
from engine.studies.spacing import Elevation, elevation
from tui.render.canvas import DOWN, Canvas
from tui.render.elevation import Window, arrow
from tui.render.roof_plan import sign
from tui.render.styles import MUTED

RIBS_IN_VIEW = 12
"""Number of rib spacings in view, unless a rib takes less than the minimum pitch."""

MIN_PITCH = 2
"""Minimum number of cells from rib to rib."""

MIN_HEIGHT = 5
"""Rows below which nothing can be read."""


@dataclass(frozen=True)
class Scale:
    """One scale for all methods: cells from rib to rib, cells a metre takes, and uplift of the longest arrow [N]."""

    pitch: int
    across: float
    uplift: float


def common_scale(answer: Comparison, width: int) -> Scale:
    """The scale of elevations `width` cells wide."""
    rib_spacing = answer.scenario.job.roof.rib_spacing
    pitch = max(MIN_PITCH, width // RIBS_IN_VIEW)
    uplifts = [column.candidate.demands.attachment_up.max() for column in answer.columns if column.candidate]
    return Scale(pitch, pitch / rib_spacing, float(max([*uplifts, 1.0])))


def draw(column: Column, scale: Scale, width: int, height: int) -> list[Content]:
    """The row with the largest uplift of a method that was checked."""
    design, candidate = column.design, column.candidate
    assert design is not None
    assert candidate is not None
    seen = elevation(design.layout, candidate.demands.attachment_up)
    canvas = Canvas(width, height)
    window = Window(_start(seen, width / scale.across, 1 / scale.across), scale.across, scale.pitch, first=0)
    columns = [window.column(place) for place in seen.at.tolist()]
    top = height - (4 if design.layout.member.clamped else 3)
    _modules(canvas, window, design, seen, top)
    for start, end in seen.members.tolist() if design.layout.member.clamped else ():
        _run(canvas, window.column(start), window.column(end), top + 1, "━")
    _roof(canvas, window, design)
    _attachments(canvas, columns, design, seen)
    for at, length in zip(columns, np.rint(seen.force / scale.uplift * top * DOWN).astype(int).tolist(), strict=True):
        if 0 <= at < width and length:
            arrow(canvas, window, at, top * DOWN - 1, length, up=True)
    return canvas.content().split(allow_blank=True)


def _start(seen: Elevation, view: float, margin: float) -> float:
    """Start of the view [m]: the attachment with the largest uplift in its middle, no farther than the members."""
    low, high = float(seen.members.min()) - margin, float(seen.members.max()) + margin
    middle = float(seen.at[int(np.argmax(seen.force))])
    return max(low, min(middle - view / 2, high - view))


def _modules(canvas: Canvas, window: Window, design: Design, seen: Elevation, row: int) -> None:
    """The modules over the row's attachments; a tilted one begins with a wedge."""
    letters = "◢▆" if design.field.attitude.tilt else "▆▆"
    for start, end in _module_edges(design, seen).tolist():
        first, last = window.column(start), window.column(end) - 2
        _run(canvas, first, last, row, letters[1], "$text-primary")
        canvas.words(first, row, letters[0], "$text-primary")


def _module_edges(design: Design, seen: Elevation) -> Floats:
    """Both ends of each module over the row, or nearest to it (n, 2) [m along the row]."""
    at, attachments = design.field.outlines, design.layout.attachments
    along, across = np.stack([at.left, at.right]), np.stack([at.low, at.high])
    level = attachments.y[seen.attachment[0]]
    if design.layout.member.runs_up_slope:
        along, across, level = across, along, attachments.x[seen.attachment[0]]
    away = np.maximum(across[0] - level, level - across[1])
    return np.unique(np.round(along[:, away < max(0.0, float(away.min())) + SUMMED_LENGTH], 3), axis=1).T


def _roof(canvas: Canvas, window: Window, design: Design) -> None:
    """The roof's surface with its ribs; along a rib, with its fastenings."""
    job, bottom = design.job, canvas.height - 1
    if design.layout.member.runs_up_slope:
        places, length = job.roof.supports(job.building), job.building.slope_length
    else:
        places, length = places_along_eave(job).x, job.building.length
    _run(canvas, window.column(0.0), window.column(length), bottom, "─", MUTED)
    for place in places.tolist():
        if not design.layout.member.runs_up_slope:
            canvas.words(window.column(place), bottom - 1, "│", MUTED)
        canvas.words(window.column(place), bottom, "┴", MUTED)


def _attachments(canvas: Canvas, columns: list[int], design: Design, seen: Elevation) -> None:
    """The attachments, with the signs of the roof plan."""
    used = schedule(design).utilisation
    for at, number in zip(columns, seen.attachment.tolist(), strict=True):
        letter, style = sign(None if used is None else float(used[number]))
        canvas.words(at, canvas.height - 2, "┃", style)
        canvas.words(at, canvas.height - 1, letter, style)


def _run(canvas: Canvas, first: int, last: int, row: int, letter: str, style: str = "") -> None:
    """A letter from cell to cell, as far as they are in view."""
    first, last = max(0, first), min(canvas.width - 1, last)
    canvas.words(first, row, letter * (last - first + 1), style)

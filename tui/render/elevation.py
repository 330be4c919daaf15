"""One row of attachments from the side: modules, what carries them, attachments, seams, clips, structure."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np
from textual.content import Content

from engine.links import Check
from engine.project.job import Job
from engine.studies.spacing import Elevation, SpacingRow, SpacingStudy
from engine.units import System, text
from tui.render import bars
from tui.render.canvas import ACROSS, DOWN, Canvas
from tui.render.styles import MUTED

LABELS = 18
"""Cells at the left for the words."""

LAYERS = 6
"""Rows below the arrows."""

HEAD = 3
"""Dots an arrow's head is high."""

MIN_IN_VIEW = 8
"""Minimum number of ribs in view, or of fastenings if the member runs up the slope."""


@dataclass(frozen=True)
class Window:
    """The stretch in view: `start` [m] is at cell `first`, a metre takes `scale` cells, a rib spacing about `pitch`."""

    start: float
    scale: float
    pitch: int
    first: int = LABELS + 2

    def column(self, place: float) -> int:
        """The cell of a place along the row [m]."""
        return self.first + round((place - self.start) * self.scale)


def draw(
    job: Job,
    study: SpacingStudy,
    row: SpacingRow,
    system: System,
    *,
    uplift: bool,
    width: int,
    height: int,
    loads_only: bool = False,
) -> Content:
    """The row with an arrow at each attachment, to one scale over all spacings of the method.

    `loads_only`: nothing shows which links hold.
    """
    seen = row.at_largest_uplift if uplift else row.at_largest_down_load
    canvas, window, top = Canvas(width, height), _window(job, study, seen, width), height - LAYERS
    _layers(canvas, window, job, study, {} if loads_only else row.checks, seen, top)
    most = max((each.attachment_up if uplift else each.attachment_down_load) for each in study.rows)
    lengths = np.rint(seen.force / max(most, 1.0) * (top - 1) * DOWN).astype(int).tolist()
    columns = [window.column(place) for place in seen.at]
    for column, length in zip(columns, lengths, strict=True):
        if LABELS < column < width and length:
            arrow(canvas, window, column, top * DOWN - 1, length, up=uplift)
    largest = int(np.argmax(seen.force))
    words, tip = text(seen.force[largest], "force", system), top - 1 - -(-lengths[largest] // DOWN)
    canvas.words(
        max(LABELS + 1, min(width - len(words), columns[largest] - len(words) // 2)), max(0, tip), words, "bold"
    )
    return canvas.content()


def _window(job: Job, study: SpacingStudy, seen: Elevation, width: int) -> Window:
    """A window of two of the widest spans: at the end of the row, or around its most loaded attachment."""
    unit = job.roof.support_spacing if study.runs_up_slope else job.roof.rib_spacing
    origin = job.roof.first_support if study.runs_up_slope else job.roof.first_rib
    room = width - LABELS - 3
    widest = max(row.span for row in study.rows) / unit
    pitch = max(2, int(room / max(MIN_IN_VIEW, min(2 * widest, room / 2))))
    in_view = room / pitch
    first = int((seen.members.min() - origin) / unit)
    worst = round((seen.at[int(np.argmax(seen.force))] - origin) / unit)
    if worst > first + in_view - 2:
        first = worst - int(in_view / 2)
    return Window(origin + max(0, first) * unit, pitch / unit, pitch)


def _layers(
    canvas: Canvas,
    window: Window,
    job: Job,
    study: SpacingStudy,
    checks: Mapping[str, Check],
    seen: Elevation,
    top: int,
) -> None:
    """Layers with their names, from the modules down, in the colours of their checks."""
    styles = defaultdict(str, {check.link: bars.style(check.utilisation) for check in checks.values()})
    held = {window.column(place) for place in seen.at.tolist()}
    for start, end in seen.members.tolist():
        _run(canvas, window.column(start), window.column(end), top, "▀", styles["module"])
        _run(canvas, window.column(start), window.column(end), top + 1, "━", styles[study.member])
    for column in held:
        _run(canvas, column, column, top + 2, "█", styles["attachment"])
    _roof(canvas, study, [window.column(place) for place in study.crossed_at.tolist()], held, styles, top + 3)
    over = {check.link for check in checks.values() if not check.holds}
    for line, (name, link) in enumerate(_names(job, study), start=top):
        words, style = (f"{name} OVER", "$text-error bold") if link in over else (name, "")
        canvas.words(0, line, words, style)


def _run(canvas: Canvas, first: int, last: int, row: int, letter: str, style: str) -> None:
    """A letter from cell to cell, clear of the words at the left."""
    first, last = max(LABELS + 1, first), min(canvas.width - 1, last)
    canvas.words(first, row, letter * (last - first + 1), style)


def _roof(
    canvas: Canvas, study: SpacingStudy, crossed_at: list[int], held: set[int], styles: Mapping[str, str], row: int
) -> None:
    """Ribs with their fastenings, unloaded ones muted; one rib from its side if the member runs up the slope."""
    if study.runs_up_slope:
        _run(canvas, crossed_at[0] - 1, crossed_at[-1] + 1, row, "━", styles["rib"])
    _run(canvas, crossed_at[0] - 1, crossed_at[-1] + 1, row + 1, "─", MUTED)
    _run(canvas, crossed_at[0] - 1, crossed_at[-1] + 1, row + 2, "▒", MUTED)
    for column in crossed_at:
        loaded = study.runs_up_slope or column in held
        if not study.runs_up_slope:
            _run(canvas, column, column, row, "┃", styles["rib"] if loaded else MUTED)
        _run(canvas, column, column, row + 1, "●" if loaded else "┴", styles["roof_fastening"] if loaded else MUTED)


def _names(job: Job, study: SpacingStudy) -> tuple[tuple[str, str], ...]:
    """The layers' names from the modules down, each with its link."""
    titles = {check.link: check.title for check in study.rows[0].checks.values()}
    return (
        ("modules", "module"),
        (titles[study.member], study.member),
        ("attachments", "attachment"),
        (f"{job.roof.rib_word}s", "rib"),
        (f"{job.roof.fastening_word.removesuffix('s')}s", "roof_fastening"),
        ("structure", "structure"),
    )


def arrow(canvas: Canvas, window: Window, column: int, foot: int, dots: int, *, up: bool) -> None:
    """An arrow on the modules, `dots` long with its head; `foot` is the lowest dot it may use."""
    left, right = ACROSS * column, ACROSS * column + 1
    far = foot - max(dots, HEAD + 1) + 1
    canvas.fill(left, far, right, foot, "$text-accent")
    for back in range(1, HEAD if window.pitch >= HEAD else HEAD - 1):
        row = far + back if up else foot - back
        canvas.fill(left - back, row, right + back, row, "$text-accent")

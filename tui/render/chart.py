"""Utilisation against spacing: rail, rack or module frame, and the roof, with the limit at 1.0."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from textual.content import Content

from engine.studies.spacing import SpacingRow, SpacingStudy
from engine.units import System, text
from tui.render.canvas import ACROSS, DOWN, Canvas
from tui.render.styles import MUTED

AXIS = 5
"""Cells at the left for the figures of the axis."""

FULL = 2.0
"""Utilisation at the top of the chart; larger ones are off the chart."""

MEMBER, ROOF = "○", "●"
OF_MEMBER, OF_ROOF = "$text-primary", "$text-accent"


@dataclass(frozen=True)
class Frame:
    """Scale of the chart: x of every spacing from the closest on, and the bottom [dots]."""

    x: tuple[float, ...]
    bottom: int

    def y(self, utilisation: float) -> float:
        """The dot of a utilisation."""
        return self.bottom - utilisation / FULL * self.bottom


def draw(
    study: SpacingStudy, selected: int, system: System, width: int, height: int, *, so_far: bool = False
) -> Content:
    """The two curves, the limit line, the selected spacing and both span limits.

    `so_far`: only what is known up to the selected spacing; a limit appears once it is passed.
    """
    rows = study.rows[: selected + 1] if so_far else study.rows
    canvas = Canvas(width, height)
    frame = _frame(study, width, height)
    right = width * ACROSS - 1
    canvas.line(frame.x[selected], 0, frame.x[selected], frame.bottom, MUTED, every=2)
    canvas.line(AXIS * ACROSS, frame.y(1.0), right, frame.y(1.0), "$text-error")
    canvas.words(0, round(frame.y(1.0)) // DOWN, "1.00", "$text-error bold")
    canvas.words(0, 0, text(FULL, "ratio", system), MUTED)
    canvas.words(0, frame.bottom // DOWN, text(0.0, "ratio", system), MUTED)
    _curve(canvas, frame, [row.member_utilisation for row in rows], MEMBER, OF_MEMBER)
    _curve(canvas, frame, [row.roof_utilisation for row in rows], ROOF, OF_ROOF)
    _limits(canvas, frame, study, rows[-1].span if so_far else None)
    _labels(canvas, frame, study, selected, system)
    return canvas.content()


def _frame(study: SpacingStudy, width: int, height: int) -> Frame:
    """Scale of the spacings: to scale if each is wider than the one before, else at equal steps."""
    spans = np.array([row.span if row.moved is None else row.moved for row in study.rows])
    steps = spans if (np.diff(spans) > 0).all() else np.arange(len(spans), dtype=np.float64)
    within = (steps - steps[0]) / max(steps[-1] - steps[0], 1e-9)
    left, right = (AXIS + 2) * ACROSS, (width - 4) * ACROSS
    return Frame(tuple((left + within * (right - left)).tolist()), (height - 1) * DOWN - 1)


def _curve(canvas: Canvas, frame: Frame, utilisations: Sequence[float | None], mark: str, style: str) -> None:
    """A line from spacing to spacing with a mark at each; neither is rounded across the limit, nor into its row."""
    limit = round(frame.y(1.0)) // DOWN
    known = [
        (x, min(frame.y(value), limit * DOWN - 1) if value > 1 else max(frame.y(value), (limit + 1) * DOWN))
        for x, value in zip(frame.x, utilisations, strict=False)
        if value is not None
    ]
    for (x0, from_), (x1, to) in pairwise(known):
        canvas.line(x0, from_, x1, to, style)
    for x, y in known:
        canvas.words(round(x) // ACROSS, round(y) // DOWN, mark, f"{style} bold")


def _limits(canvas: Canvas, frame: Frame, study: SpacingStudy, reached: float | None) -> None:
    """The spacing limits of member and roof, if passed on the way there: a line down from the limit with its name."""
    if study.limits is None:
        return
    named = (
        (study.limits.member, f"{MEMBER} {study.member.replace('_', ' ')}", OF_MEMBER),
        (study.limits.roof, f"{ROOF} roof", OF_ROOF),
    )
    for row, (limit, name, style) in enumerate(named, start=frame.bottom // DOWN - 1):
        if limit is None:
            canvas.words(AXIS + 3, row, f"{name} limit: none", style)
            continue
        if reached is not None and reached <= limit:
            continue
        x = next(x for x, each in zip(frame.x, study.rows, strict=True) if abs(each.span - limit) < 1e-6)
        canvas.line(x, frame.y(1.0), x, frame.bottom, style)
        words = f"{name} limit"
        canvas.words(min(round(x) // ACROSS + 2, canvas.width - len(words)), row, words, style)


def label(row: SpacingRow, system: System) -> str:
    """The spacing in words, or the distance by which the array is moved."""
    return row.label if row.moved is None else text(row.moved, "small length", system)


def _labels(canvas: Canvas, frame: Frame, study: SpacingStudy, selected: int, system: System) -> None:
    """Spacings or places below the chart: the selected one always, others if there is room."""
    row, taken = canvas.height - 1, [False] * canvas.width
    order = [selected, 0, len(study.rows) - 1, *range(len(study.rows))]
    for number in dict.fromkeys(order):
        each = study.rows[number]
        words = text(each.span, "length", system) if study.limits else label(each, system)
        start = max(0, min(canvas.width - len(words), round(frame.x[number]) // ACROSS - len(words) // 2))
        if not any(taken[max(0, start - 1) : start + len(words) + 1]):
            taken[start : start + len(words)] = [True] * len(words)
            canvas.words(start, row, words, "bold reverse" if number == selected else MUTED)

"""Charts as SVG, black and grey only: utilisation by component, and its growth with the attachment spacing."""

from __future__ import annotations

from collections.abc import Sequence

from engine import links
from engine.comparison.compare import Column
from engine.export.svg import Drawing
from engine.studies.spacing import SpacingStudy
from engine.units import System, number, text, unit

STYLES = {
    "text": "font-size: 12px; fill: #000",
    ".quiet": "fill: #555",
    "line": "stroke: #000; stroke-width: 1",
    ".grid": "stroke: #ddd",
    ".limit": "stroke-width: 1.5; stroke-dasharray: 6 3",
    ".bar": "fill: #bbb; stroke: #000",
    ".over": "fill: #000",
    "polyline": "fill: none; stroke: #000; stroke-width: 1.6",
}
DASHES = ("", "7 3", "2 3", "10 3 2 3", "4 2 1 2", "1 4", "12 4", "6 2 2 2 2 2")
"""Dashes that distinguish lines without colour."""

BAR, LABEL, CHART = 24.0, 170.0, 430.0


def utilisation_chart(column: Column) -> str:
    """A bar for every component that was checked; the upright line marks the limit."""
    checked = [(check.title, check.utilisation) for check in column.checks.values() if check.utilisation is not None]
    most = max(1.25, *(used for _, used in checked)) if checked else 1.25
    drawing = Drawing(
        "used", LABEL + CHART + 90, BAR * len(checked) + 34, f"{column.title}: utilisation by component", STYLES
    )
    for place, (title, used) in enumerate(checked):
        top = 6 + BAR * place
        drawing.text(LABEL - 8, top + 14, title, anchor="end")
        drawing.rectangle(LABEL, top, CHART * used / most, BAR - 8, "over" if used > 1 else "bar")
        drawing.text(
            LABEL + CHART * used / most + 6, top + 13, text(used, "ratio", "us") + (" over" if used > 1 else "")
        )
    foot, resistance = 6 + BAR * len(checked), column.design.job.words.resistance if column.design else ""
    drawing.line(LABEL, 0, LABEL, foot, "grid")
    drawing.line(LABEL + CHART / most, 0, LABEL + CHART / most, foot, "limit")
    drawing.text(LABEL + CHART / most, foot + 16, f"1.00 = {resistance}", "quiet", anchor="middle")
    return drawing.written()


WIDE, HIGH, LEFT, TOP, HIGHEST = 520.0, 250.0, 56.0, 14.0, 2.0
"""Size of the study's plot, and the utilisation where it is cut off."""


def study_chart(study: SpacingStudy, system: System) -> str:
    """Utilisation of every component over the longest span; each line has its own dashes and its name at its end."""
    drawing = Drawing(
        "study", LEFT + WIDE + 190, TOP + HIGH + 48, f"{study.title}: utilisation by attachment spacing", STYLES
    )
    farthest = max(row.span for row in study.rows)
    _axes(drawing, study, farthest, system)
    names: list[tuple[float, str, str]] = []
    job = study.rows[0].design.job
    for link in (link for link in links.LINKS if link.depends_on_layout(job)):
        ratios = [row.checks[link.key].utilisation for row in study.rows]
        if any(value is None for value in ratios):
            continue
        dash = DASHES[len(names) % len(DASHES)]
        places = [_place(row.span, value or 0.0, farthest) for row, value in zip(study.rows, ratios, strict=True)]
        drawing.path(places, dash)
        names.append((places[-1][1], study.rows[0].checks[link.key].title, dash))
    _names(drawing, names)
    return drawing.written()


def _place(span: float, used: float, farthest: float) -> tuple[float, float]:
    return LEFT + WIDE * span / farthest, TOP + HIGH * (1 - min(used, HIGHEST) / HIGHEST)


def _axes(drawing: Drawing, study: SpacingStudy, farthest: float, system: System) -> None:
    for used in (0.0, 0.5, 1.0, 1.5, 2.0):
        x, y = _place(0, used, farthest)
        drawing.line(x, y, x + WIDE, y, "limit" if used == 1 else "grid")
        drawing.text(x - 6, y + 4, f"{used:.1f}", anchor="end")
    for row in study.rows:
        x, y = _place(row.span, 0, farthest)
        drawing.line(x, y, x, y + 4, "")
        drawing.text(x, y + 18, f"{number(row.span, 'length', system):.3g}", anchor="middle")
    words = f"longest span [{unit('length', system)}]; utilisation, cut off at {HIGHEST:.1f}"
    drawing.text(LEFT + WIDE / 2, TOP + HIGH + 40, words, "quiet", anchor="middle")


def _names(drawing: Drawing, names: Sequence[tuple[float, str, str]]) -> None:
    """Names at the lines' ends, moved apart if they would touch."""
    lowest = 0.0
    for y, title, dash in sorted(names):
        lowest = max(y, lowest + 15)
        drawing.path([(LEFT + WIDE + 8, lowest), (LEFT + WIDE + 40, lowest)], dash)
        drawing.text(LEFT + WIDE + 46, lowest + 4, title)

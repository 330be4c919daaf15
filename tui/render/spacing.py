"""The span study at one spacing: the figures, one sentence, the row from the side, every link, and the chart."""

from __future__ import annotations

from textual.content import Content

from engine.design.verdict import component_name
from engine.links import Check
from engine.project.job import Job
from engine.studies.spacing import SpacingRow, SpacingStudy
from engine.units import System, text, unit
from tui.render import bars, chart, elevation
from tui.render.styles import wrapped

NAME, USED = 14, 11
APART = 3
"""Cells between links and chart."""

SHORT = 8
"""Rows that links and chart take where there are few."""

ROOMY = 32
"""From this height on they take twice as many."""


def figures(job: Job, row: SpacingRow, system: System, *, pull: bool) -> tuple[tuple[str, str], ...]:
    """The figures to be read from the back of a room, each with what it is."""
    force, way = (row.attachment_up, "pull") if pull else (row.attachment_down_load, "push")
    span = text(row.span, "length", system, with_unit=False), f"{unit('length', system)} apart, ◂ {row.words} ▸"
    most = max(row.checks.values(), key=lambda check: check.utilisation or 0.0)
    return (
        span,
        (text(row.attachments, "count", system), "attachments"),
        (text(force, "force", system, with_unit=False), f"{unit('force', system)}, the largest {way} on one"),
        (text(most.utilisation, "ratio", system), f"of what the {component_name(job, most)} may carry"),
    )


def in_one_line(row: SpacingRow, system: System, *, pull: bool) -> str:
    """The same where there is little room."""
    force, way = (row.attachment_up, "pull") if pull else (row.attachment_down_load, "push")
    attachments = f"{text(row.attachments, 'count', system)} attachments"
    return f"◂ {row.words} ▸   {attachments}   largest {way} {text(force, 'force', system)}"


def draw(job: Job, study: SpacingStudy, chosen: int, system: System, *, pull: bool, width: int, height: int) -> Content:
    """All of it for the room there is; the figures come first where they are not shown large elsewhere."""
    row, roomy = study.rows[chosen], height >= ROOMY
    holds = all(check.holds for check in row.checks.values())
    lines = [] if roomy else [Content.styled(in_one_line(row, system, pull=pull), "bold")]
    lines += wrapped(row.sentence, width, f"bold {'$text-success' if holds else '$text-error'}")
    below = 2 * SHORT if roomy else SHORT
    above = max(elevation.LAYERS + 2, height - below - len(lines) - 1)
    lines += elevation.draw(job, study, row, system, pull=pull, width=width, height=above).split("\n")
    lines.append(Content(""))
    half = (width - APART) // 2
    left = _links(tuple(row.checks.values()), half, below)
    right = chart.draw(study, chosen, system, width - half - APART, below).split("\n")
    lines += [
        one + Content(" " * (half + APART - len(one.plain))) + other for one, other in zip(left, right, strict=True)
    ]
    return Content("\n").join(lines)


def _links(links: tuple[Check, ...], width: int, height: int) -> list[Content]:
    """A bar for each link, spread over the height."""
    lines = []
    for check in links:
        line = Content(check.title.ljust(NAME)[:NAME])
        if check.utilisation is not None:
            line += bars.bar(check.utilisation, width - NAME - USED, chart.FULL) + Content(" ")
        lines += [
            line + Content.styled(bars.figure(check.utilisation), f"{bars.style(check.utilisation)} bold"),
            *[Content("")] * (height // len(links) - 1),
        ]
    return (lines + [Content("")] * height)[:height]

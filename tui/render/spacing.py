"""The spacing study at one spacing: figures, one sentence, the row from the side, bars of the links, and the chart."""

from __future__ import annotations

from collections.abc import Sequence

from textual.content import Content

from engine import links
from engine.design.verdict import component_name
from engine.links import Check
from engine.project.job import Job
from engine.studies.spacing import SpacingRow, SpacingStudy
from engine.units import System, in_one, text, unit
from tui.render import bars, chart, elevation
from tui.render.styles import wrapped

NAME, UTILISATION = 18, 11
GAP = 3
"""Cells between links and chart."""

CHART_HEIGHT = 8
"""Height of links and chart [rows]; twice as much if there is room."""

ROOMY = 32
"""Height from which there is room [rows]."""


def figures(job: Job, row: SpacingRow, system: System, *, uplift: bool) -> tuple[tuple[str, str], ...]:
    """The large figures, each with its label."""
    force, kind = _force(row, uplift=uplift)
    span = text(row.span, "length", system, with_unit=False), f"{unit('length', system)} apart, ◂ {row.label} ▸"
    if row.moved is not None:
        span = text(row.moved, "small length", system, with_unit=False), f"{unit('small length', system)} ◂ moved ▸"
    controlling = max(row.checks.values(), key=lambda check: check.utilisation or 0.0)
    return (
        span,
        (text(row.attachments, "count", system), "attachments"),
        (text(force, "force", system, with_unit=False), f"{unit('force', system)}, largest {kind}"),
        (text(controlling.utilisation, "ratio", system), f"utilisation of the {component_name(job, controlling)}"),
    )


def in_one_line(row: SpacingRow, system: System, *, uplift: bool) -> str:
    """The same in one line."""
    force, kind = _force(row, uplift=uplift)
    attachments = f"{text(row.attachments, 'count', system)} attachments"
    step = row.label if row.moved is None else f"moved {chart.label(row, system)}"
    return f"◂ {step} ▸   {attachments}   largest {kind} {text(force, 'force', system)}"


def _force(row: SpacingRow, *, uplift: bool) -> tuple[float, str]:
    """The largest load of an attachment [N], and its name."""
    words = row.design.job.words
    return (row.attachment_up, words.of("uplift")) if uplift else (row.attachment_down_load, words.of("down load"))


def draw(
    job: Job,
    study: SpacingStudy,
    selected: int,
    system: System,
    *,
    uplift: bool,
    width: int,
    height: int,
    so_far: bool = False,
) -> Content:
    """The whole study for the room there is; the figures come first if they are not shown large elsewhere.

    `so_far`: the chart shows nothing of the spacings beyond the selected one.
    """
    row, roomy = study.rows[selected], height >= ROOMY
    holds = all(check.holds for check in row.checks.values())
    lines = [] if roomy else [Content.styled(in_one_line(row, system, uplift=uplift), "bold")]
    lines += wrapped(in_one(row.sentence, system), width, f"bold {'$text-success' if holds else '$text-error'}")
    below = 2 * CHART_HEIGHT if roomy else CHART_HEIGHT
    above = max(elevation.LAYERS + 2, height - below - len(lines) - 1)
    lines += elevation.draw(job, study, row, system, uplift=uplift, width=width, height=above).split("\n")
    lines.append(Content(""))
    half = (width - GAP) // 2
    varying = tuple(row.checks[link.key] for link in links.LINKS if link.depends_on_layout(job))
    left = _bars([check for check in varying if check.utilisation is not None], half, below)
    right = chart.draw(study, selected, system, width - half - GAP, below, so_far=so_far).split("\n")
    lines += [
        one + Content(" " * (half + GAP - len(one.plain))) + other for one, other in zip(left, right, strict=True)
    ]
    return Content("\n").join(lines)


def _bars(checks: Sequence[Check], width: int, height: int) -> list[Content]:
    """A bar for each link that changes with the spacing, spread over the height."""
    lines = []
    for check in checks:
        line = Content(check.title.ljust(NAME)[:NAME])
        line += bars.bar(check.ratio, width - NAME - UTILISATION, chart.FULL) + Content(" ")
        lines += [
            line + Content.styled(bars.figure(check.utilisation), f"{bars.style(check.utilisation)} bold"),
            *[Content("")] * (height // len(checks) - 1),
        ]
    return (lines + [Content("")] * height)[:height]

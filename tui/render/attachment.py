"""One attachment in full: place, loads, and utilisation of its links."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator

from textual.content import Content

from engine.comparison.compare import Column
from engine.comparison.roof_plan import Plan
from engine.project.job import Job
from engine.units import System, text
from tui.render import bars
from tui.render.roof_plan import CLEAR, SIGNS, UNCHECKED
from tui.render.styles import MUTED

TITLE = 14
"""Cells of a link's name."""

BESIDE = 70
"""Width from which the utilisations are shown beside the loads [cells]."""


def draw(job: Job, plan: Plan, column: Column, attachment: int, system: System, width: int) -> Content:
    """The attachment for a pane of that width."""
    place, links = (
        _place_and_loads(job, plan, attachment, system),
        list(_links(plan, column, attachment, min(width, BESIDE // 2))),
    )
    if width < BESIDE:
        return Content("\n").join([*place, Content(""), *links])
    rows = max(len(place), len(links))
    left, right = (lines + [Content("")] * (rows - len(lines)) for lines in (place, links))
    half = max(width // 2, 2 + max(len(line.plain) for line in place))
    return Content("\n").join(
        one + Content(" " * (half - len(one.plain))) + other for one, other in zip(left, right, strict=True)
    )


def _place_and_loads(job: Job, plan: Plan, attachment: int, system: System) -> list[Content]:
    """Its place on the roof and its loads."""
    attachments = plan.attachments
    x, y = (text(float(value), "length", system) for value in (attachments.x[attachment], attachments.y[attachment]))
    lines = [
        Content.styled(f"attachment {attachment + 1} of {len(attachments)}", "bold"),
        Content(
            f"row {attachments.row[attachment]}, {job.roof.rib_word} {attachments.rib[attachment]}, "
            f"wind zone {attachments.zone[attachment]}"
        ),
        Content(f"{x} from rake, {y} from eave"),
    ]
    if attachments.up is None or attachments.down is None:
        return lines
    uplift, down_load = (
        text(float(force[attachment]), "force", system) for force in (attachments.up, attachments.down)
    )
    return [*lines, Content(f"largest {job.words.of('uplift')} {uplift}, down load {down_load}")]


def _links(plan: Plan, column: Column, attachment: int, width: int) -> Iterator[Content]:
    """Utilisation of each of its links, or why nothing was checked."""
    if not plan.attachments.ratios and column.flags:
        yield from (Content(line) for line in textwrap.wrap(f"Not checked. {column.flags[0].text}", width))
    for link, utilisations in plan.attachments.ratios.items():
        utilisation = float(utilisations[attachment])
        room = width - TITLE - 11
        drawn = bars.bar(utilisation, room, 1.5) + Content(" ")
        yield (
            Content(plan.attachments.titles[link].ljust(TITLE))
            + drawn
            + Content.styled(bars.figure(utilisation), f"{bars.style(utilisation)} bold")
        )


def legend(plan: Plan) -> Content:
    """The signs of the plan and their meaning."""
    clear = f"  {CLEAR} {', '.join(dict.fromkeys(area.name for area in plan.keep_clear))}" if plan.keep_clear else ""
    signs = [Content.styled(letter, style) + Content.styled(f" {words}", MUTED) for letter, words, style in SIGNS]
    if plan.attachments.utilisation is None:
        signs = [Content.styled(f"{UNCHECKED} not checked", MUTED)]
    return Content("  ").join(
        [*signs, Content.styled("━", "$text-primary bold") + Content.styled(f" exposed edge{clear}", MUTED)]
    )

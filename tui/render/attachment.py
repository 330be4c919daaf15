"""One attachment in full: where it is, what it brings, and what is used at it."""

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

TITLE, SIDE = 14, 70
"""Cells of a link's name; from `SIDE` cells on what is used stands beside what is brought."""


def draw(job: Job, plan: Plan, column: Column, attachment: int, system: System, width: int) -> Content:
    """The attachment for a panel of that width."""
    place, used = _place(job, plan, attachment, system), list(_used(plan, column, attachment, min(width, SIDE // 2)))
    if width < SIDE:
        return Content("\n").join([*place, Content(""), *used])
    rows = max(len(place), len(used))
    left, right = (lines + [Content("")] * (rows - len(lines)) for lines in (place, used))
    half = max(width // 2, 2 + max(len(line.plain) for line in place))
    return Content("\n").join(
        one + Content(" " * (half - len(one.plain))) + other for one, other in zip(left, right, strict=True)
    )


def _place(job: Job, plan: Plan, attachment: int, system: System) -> list[Content]:
    """Where it is and what it brings."""
    attachments = plan.attachments
    x, y = (text(float(value), "length", system) for value in (attachments.x[attachment], attachments.y[attachment]))
    lines = [
        Content.styled(f"attachment {attachment + 1} of {len(attachments)}", "bold"),
        Content(
            f"row {attachments.row[attachment]}, {job.roof.rib_word} {attachments.rib[attachment]}, wind zone {attachments.zone[attachment]}"
        ),
        Content(f"{x} from rake, {y} from eave"),
    ]
    if attachments.up is None or attachments.down is None:
        return lines
    pull, push = (text(float(force[attachment]), "force", system) for force in (attachments.up, attachments.down))
    return [*lines, Content(f"largest pull {pull}, push {push}")]


def _used(plan: Plan, column: Column, attachment: int, width: int) -> Iterator[Content]:
    """What is used of each link at it, or why nothing was checked."""
    if not plan.attachments.ratios and column.flags:
        yield from (Content(line) for line in textwrap.wrap(f"not checked: {column.flags[0].text}", width))
    for link, all_used in plan.attachments.ratios.items():
        used = float(all_used[attachment])
        room = width - TITLE - 11
        drawn = bars.bar(used, room, 1.5) + Content(" ")
        yield (
            Content(plan.attachments.titles[link].ljust(TITLE))
            + drawn
            + Content.styled(bars.figure(used), f"{bars.style(used)} bold")
        )


def legend(plan: Plan) -> Content:
    """What the signs mean."""
    clear = f"  {CLEAR} {', '.join(dict.fromkeys(area.name for area in plan.keep_clear))}" if plan.keep_clear else ""
    signs = [Content.styled(letter, style) + Content.styled(f" {words}", MUTED) for letter, words, style in SIGNS]
    if plan.attachments.utilisation is None:
        signs = [Content.styled(f"{UNCHECKED} not checked", MUTED)]
    return Content("  ").join(
        [*signs, Content.styled("━", "$text-primary bold") + Content.styled(f" exposed edge{clear}", MUTED)]
    )

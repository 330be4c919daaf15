"""A made-up fourth mounting method: landscape modules on two bars a row. It shows what a method has to say, and no more."""

from __future__ import annotations

from typing import Annotated, ClassVar, Self

import numpy as np

from engine.mounting.influence import assemble, share_among
from engine.mounting.interface import Need, Refusal, Spacing, SpacingKind
from engine.mounting.layout import Attitude, Field, Layout, Member, Pattern
from engine.mounting.lines_along_eave import (
    bar_needs,
    clamp_needs,
    on_ribs,
    row_lines,
    rows_of,
    spacing_in_words,
    steps_worth_a_look,
    too_few_points,
)
from engine.mounting.module_grid import Grid, place
from engine.project.job import Job
from engine.schema import Described, entry

MEMBER = Member("rail", "rail")


class TwinBars(Described):
    id: ClassVar[str] = "twin_bars"
    spans: ClassVar[bool] = True
    spacing: Annotated[Spacing, SpacingKind("ribs")] = entry("fewest", description="how often each bar is attached")

    def title(self, job: Job) -> str:
        return "twin bars"

    def suits(self, job: Job) -> Refusal | None:
        return Refusal("no_wood", "twin bars do not suit a wood deck") if job.roof.support == "wood deck" else None

    def place(self, job: Job) -> Field | Refusal:
        module, array = job.module, job.array
        grid = Grid(
            module.length, module.width, module.length + array.gap, module.width + array.gap, array.columns, array.rows * array.columns
        )
        top = array.height_above_roof
        return place(job, grid, Attitude(0.0, top, top, module.width, module.length), job.hardware.rail.longest_run)

    def sparsest(self, job: Job, field: Field) -> tuple[int, ...]:
        return steps_worth_a_look(job, field)

    def lay(self, job: Job, field: Field, pattern: Pattern, minimum: int) -> Layout | Refusal:
        ribs, height, lines = job.roof.ribs(job.building), job.hardware.attachment_height, []
        for rows in rows_of(field, pattern):
            within = rows.depth * np.array([0.25, 0.75])
            share, couple = share_among(within, 0.0, rows.depth, field.attitude.middle - height)
            bars = row_lines(rows, rows.low[:, None] + within, share, couple, rows.depth / 2)
            stood = on_ribs(job, rows, bars, job.hardware.rail, rows.module.shape[1] + 1 if minimum else 0)
            if isinstance(stood, Refusal):
                return stood
            lines += stood
        return too_few_points(job, lines, minimum, MEMBER) or assemble(pattern, MEMBER, lines, ribs, height)

    def remedies(self) -> tuple[Self, ...]:
        return ()

    def needs(self, job: Job, field: Field, layout: Layout) -> tuple[Need, ...]:
        return Need("attachment", "attachments", len(layout.points)), bar_needs("rail", "bars", layout.lines), *clamp_needs(layout.lines)

    def says(self, layout: Layout, job: Job) -> str:
        return spacing_in_words(job, layout)

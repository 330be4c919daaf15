"""A made-up fourth mounting method: landscape modules on two bars a row.

An example of the least that a method must define.
"""

from __future__ import annotations

from typing import Annotated, ClassVar, Self

import numpy as np

from engine.mounting.influence import shares_of_lines
from engine.mounting.interface import Alternative, PartQuantity, Refusal, RunGroup, SpacingField, SpacingRule
from engine.mounting.layout import Field, Layout, Member, SupportLines
from engine.mounting.lines_along_eave import (
    LinesAlongEave,
    bar_quantities,
    candidate_steps,
    clamp_quantities,
    describe_spacing,
    lines_under_rows,
)
from engine.mounting.module_grid import in_landscape, place_modules
from engine.mounting.places import places_along_eave
from engine.project.job import Job
from engine.schema import InputTable, input_field

MEMBER = Member("rail", "rail")


class TwinBars(InputTable):
    id: ClassVar[str] = "twin_bars"
    spacing_is_span: ClassVar[bool] = True
    spacing: Annotated[SpacingRule, SpacingField("ribs")] = input_field(
        "fewest", description="spacing of attachments along each bar, in ribs"
    )

    def title(self, job: Job) -> str:
        return "twin bars"

    def refusal_of_roof(self, job: Job) -> Refusal | None:
        return (
            Refusal("no_wood", "Twin bars do not suit a wood deck. Use rails")
            if job.roof.support == "wood deck"
            else None
        )

    def place_modules(self, job: Job) -> Field | Refusal:
        return place_modules(job, *in_landscape(job), job.hardware.rail.longest_run)

    def candidate_spacings(self, job: Job, field: Field) -> tuple[int, ...]:
        return candidate_steps(job, field)

    def field_lines(self, job: Job, field: Field) -> TwinBarLines:
        return TwinBarLines(job, field, MEMBER, places_along_eave(job))

    def remedies(self) -> tuple[tuple[Self, ...], ...]:
        return ()

    def alternatives(self) -> tuple[Alternative, ...]:
        return ()

    def parts_needed(self, job: Job, field: Field, layout: Layout) -> tuple[PartQuantity, ...]:
        return (
            PartQuantity("attachment", "attachments", len(layout.attachments)),
            bar_quantities("rail", "bars", layout.lines),
            *clamp_quantities(layout.lines),
        )

    def spacing_label(self, layout: Layout, job: Job) -> str:
        return describe_spacing(job, layout)


class TwinBarLines(LinesAlongEave):
    def lines_of(self, group: RunGroup) -> list[SupportLines] | Refusal:
        rows = self.rows(group)
        within, arm = (
            rows.depth * np.array([0.25, 0.75]),
            self.field.attitude.middle - self.job.hardware.attachment_height,
        )
        share, couple = shares_of_lines(within, 0.0, rows.depth, arm)
        return [lines_under_rows(rows, rows.low[:, None] + within, share, couple, rows.depth / 2)]

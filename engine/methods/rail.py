"""Rails along the eave under rows of portrait modules, continuous over the ribs they cross; or up the slope, each over one rib."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import Annotated, ClassVar

import numpy as np

from engine.arrays import Ints
from engine.columns import Columns
from engine.described import Choice, Count, Described, Quantity, entry
from engine.influence import Shares, assemble
from engine.job import Job
from engine.layout import Attitude, Field, Layout, Member, SupportLines
from engine.mounting import Need, Refusal, Spacing, SpacingKind
from engine.placing import Grid, place
from engine.rows import (
    Rows,
    bar_needs,
    below_rule,
    chosen_ribs,
    clamp_needs,
    one_by_one,
    row_lines,
    rows_of,
    spacing_in_words,
    standing_place,
    steps_worth_a_look,
    too_few_ribs,
)

ALONG, UP = "along the eave", "up the slope"


class Rail(Described):
    """Two or three rails under each row, or column, at the module maker's clamp zone."""

    id: ClassVar[str] = "rail"
    spans: ClassVar[bool] = True
    spacing: Annotated[Spacing, SpacingKind("ribs")] = entry(
        "fewest", description="how often each rail is attached; up the slope the number counts supports or steps instead of ribs"
    )
    rails_per_row: Annotated[int, Count(2, 3)] = entry(
        2, description="rails under each row of modules, or column where rails run up the slope"
    )
    runs: Annotated[str, Choice((ALONG, UP))] = entry(
        ALONG, description="along the eave under portrait modules, or up the slope, each over one rib, under modules in landscape"
    )
    step: Annotated[float, Quantity("length", "3 in", "12 ft", shown="small length")] = entry(
        "24 in", description="rails up the slope: where they may be attached along the rib; brackets on the structure stand on supports"
    )

    @property
    def columns(self) -> Columns | None:
        """How rails run up the slope, where they do."""
        return Columns(self.rails_per_row, self.step) if self.runs == UP else None

    def title(self, job: Job) -> str:
        """What people call it."""
        return "rails up the slope" if self.columns else "rails"

    def suits(self, job: Job) -> Refusal | None:
        """Rails stand on any roof."""
        return None

    def place(self, job: Job) -> Field | Refusal:
        """Keep the modules' number and, to the nearest column, the width they take in landscape."""
        if self.columns:
            return self.columns.place(job)
        module, array = job.module, job.array
        columns = max(1, round(array.columns * (module.length + array.gap) / (module.width + array.gap)))
        grid = Grid(module.width, module.length, module.width + array.gap, module.length + array.gap, columns, array.rows * array.columns)
        top = array.height_above_roof
        attitude = Attitude(0.0, top, top, module.length, module.length)
        return place(job, grid, attitude, job.hardware.rail.longest_run)

    def sparsest(self, job: Job, field: Field) -> tuple[int, ...]:
        """Ribs from attachment to attachment, sparsest first."""
        if self.columns:
            return self.columns.sparsest(job, field)
        return steps_worth_a_look(job, field)

    def lay(self, job: Job, field: Field, spacing: int, minimum: int) -> Layout | Refusal:
        """Attachments on every `spacing`-th rib of every rail."""
        if self.columns:
            return self.columns.lay(job, field, spacing, minimum)
        ribs, height, added = job.roof.ribs(job.building), job.hardware.attachment_height, 0
        lines: list[SupportLines] = []
        shares = Shares(field.attitude.middle - height)
        for rows in rows_of(field):
            wanted = math.ceil(2 * (rows.module.shape[1] + 1) / self.rails_per_row) if minimum else 0
            chosen, more = chosen_ribs(job, ribs, rows, spacing, job.hardware.rail, wanted)
            if len(chosen) < 2:
                return too_few_ribs(job, rows)
            added += more * self.rails_per_row * len(rows.module)
            for alike in self._rails(job, rows, shares, chosen):
                if isinstance(alike, Refusal):
                    return alike
                lines.append(alike)
        points = sum(len(these) * len(these.ribs) for these in lines)
        if points < minimum:
            return below_rule(job, points, minimum)
        return assemble(spacing, Member("rail", "rail"), lines, ribs, height, added)

    def _rails(self, job: Job, rows: Rows, shares: Shares, chosen: Ints) -> Iterator[SupportLines | Refusal]:
        """The rails of rows alike: all together where they lie alike in every row, row by row where supports or clips decide."""
        singly = job.hardware.bracket == "structure" or bool(job.hardware.clip_clearance)
        for these in one_by_one(rows) if singly else [rows]:
            places = self._places(job, float(these.low[0]), float(these.low[0] + these.depth))
            if isinstance(places, Refusal):
                yield places
                return
            within = np.array(places) - these.low[0]
            share, couple = shares.among(within, these.depth)
            yield row_lines(these, these.low[:, None] + within, share, couple, these.depth / len(within), chosen)

    def _places(self, job: Job, low: float, high: float) -> list[float] | Refusal:
        """Where the rails lie: in the clamp zones, and any third one at the middle."""
        near, far = job.module.clamp_zone
        zones = [(low + near, low + far), (high - far, high - near)]
        if self.rails_per_row == 3:
            quarter = (high - low) / 4
            zones.insert(1, (low + quarter, high - quarter))
        places = []
        for zone in zones:
            y = standing_place(job, *zone, "a rail")
            if isinstance(y, Refusal):
                return y
            places.append(y)
        if len({round(y, 4) for y in places}) < len(places):
            return Refusal(
                "misses_support", "two rails of a row would stand over the same support: fewer rails, or supports closer together"
            )
        return places

    def needs(self, job: Job, field: Field, layout: Layout) -> tuple[Need, ...]:
        """Rails cut from stock, clamps, attachments."""
        return (
            Need("attachment", "attachments", len(layout.points)),
            bar_needs("rail", "rails", layout.lines),
            *clamp_needs(layout.lines),
        )

    def says(self, layout: Layout, job: Job) -> str:
        """The spacing in words."""
        if self.columns:
            return self.columns.says(layout, job)
        return spacing_in_words(job, layout)

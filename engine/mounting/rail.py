"""Rails along the eave under rows of portrait modules, continuous over the ribs they cross; or up the slope, each over one rib."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from types import MappingProxyType
from typing import Annotated, ClassVar, Self

import numpy as np

from engine.mounting.influence import ModuleShares, build_layout
from engine.mounting.interface import PartQuantity, Refusal, SpacingField, SpacingRule
from engine.mounting.layout import Attitude, Field, Layout, Member, SpacingPattern, SupportLines
from engine.mounting.line_position import find_line_position
from engine.mounting.lines_along_eave import (
    IN_LINE,
    STAGGERED,
    ModuleRows,
    bar_quantities,
    candidate_steps,
    clamp_quantities,
    describe_spacing,
    lines_on_ribs,
    lines_under_rows,
    module_rows,
    split_rows,
    too_few_attachments,
)
from engine.mounting.lines_up_slope import RailsUpSlope
from engine.mounting.module_grid import Grid, place
from engine.project.job import Job
from engine.schema import Choice, Count, InputTable, Quantity, input_field

ALONG, UP = "along the eave", "up the slope"

PLACES: Mapping[str, tuple[float, float]] = MappingProxyType(
    {
        "middle": (0.5, 0.5),
        "outer": (0.0, 1.0),
        "inner": (1.0, 0.0),
        "toward eave": (0.0, 0.0),
        "toward ridge": (1.0, 1.0),
    }
)
"""How far into its clamp zone, from the eave, the lowest and the highest rail of a row lie."""


MEMBER = Member("rail", "rail")


class Rail(InputTable):
    """Two or three rails under each row, or column, at the module maker's clamp zone."""

    id: ClassVar[str] = "rail"
    spans: ClassVar[bool] = True
    spacing: Annotated[SpacingRule, SpacingField("ribs")] = input_field(
        "fewest",
        description="how often each rail is attached; up the slope the number counts supports or steps instead of ribs",
    )
    rails_per_row: Annotated[int, Count(2, 3)] = input_field(
        2, description="rails under each row of modules, or column where rails run up the slope"
    )
    rail_place: Annotated[str, Choice(tuple(PLACES))] = input_field(
        "middle", description="where in the clamp zones rails along the eave lie"
    )
    lines: Annotated[str, Choice((IN_LINE, STAGGERED))] = input_field(
        IN_LINE,
        description="whether neighbouring rails stand on the same ribs, or supports, or every other one midway between",
    )
    runs: Annotated[str, Choice((ALONG, UP))] = input_field(
        ALONG,
        description="along the eave under portrait modules, or up the slope, each over one rib, under modules in landscape",
    )
    step: Annotated[float, Quantity("length", "3 in", "12 ft", shown="small length")] = input_field(
        "24 in",
        description="rails up the slope: where they may be attached along the rib; brackets on the structure stand on supports",
    )

    @property
    def columns(self) -> RailsUpSlope | None:
        """How rails run up the slope, where they do."""
        return RailsUpSlope(self.rails_per_row, self.step, self.lines == STAGGERED) if self.runs == UP else None

    def title(self, job: Job) -> str:
        """What people call it."""
        return "rails up the slope" if self.columns else "rails"

    def refusal_of_roof(self, job: Job) -> Refusal | None:
        """Rails stand on any roof."""
        return None

    def place(self, job: Job) -> Field | Refusal:
        """Keep the modules' number and, to the nearest column, the width they take in landscape."""
        if self.columns:
            return self.columns.place(job)
        module, array = job.module, job.array
        columns = max(1, round(array.columns * (module.length + array.gap) / (module.width + array.gap)))
        grid = Grid(
            module.width,
            module.length,
            module.width + array.gap,
            module.length + array.gap,
            columns,
            array.rows * array.columns,
        )
        top = array.height_above_roof
        attitude = Attitude(0.0, top, top, module.length, module.length)
        return place(job, grid, attitude, job.hardware.rail.longest_run)

    def candidate_spacings(self, job: Job, field: Field) -> tuple[int, ...]:
        """Ribs from attachment to attachment, sparsest first."""
        if self.columns:
            return self.columns.candidate_spacings(job, field)
        return candidate_steps(job, field)

    def lay_out(self, job: Job, field: Field, pattern: SpacingPattern, minimum: int) -> Layout | Refusal:
        """Attachments on the ribs that every row asks for, on each of its rails."""
        if self.columns:
            return self.columns.lay_out(job, field, pattern, minimum)
        height, lines = job.hardware.attachment_height, list[SupportLines]()
        shares = ModuleShares(field.attitude.middle - height)
        for rows in module_rows(field, pattern):
            min_attachments = math.ceil(2 * (rows.module.shape[1] + 1) / self.rails_per_row) if minimum else 0
            for alike in self._rails(job, rows, shares, min_attachments):
                if isinstance(alike, Refusal):
                    return alike
                lines += alike
        return too_few_attachments(job, lines, minimum, MEMBER) or build_layout(
            pattern, MEMBER, lines, job.roof.ribs(job.building), height
        )

    def _rails(
        self, job: Job, rows: ModuleRows, shares: ModuleShares, min_attachments: int
    ) -> Iterator[list[SupportLines] | Refusal]:
        """The rails of rows alike: all together where they lie alike in every row, row by row where supports or clips decide."""
        singly = job.hardware.bracket == "structure" or bool(job.hardware.clip_clearance)
        for these in split_rows(rows) if singly else [rows]:
            places = self._places(job, float(these.low[0]), float(these.low[0] + these.depth))
            if isinstance(places, Refusal):
                yield places
                return
            within = np.array(places) - these.low[0]
            share, couple = shares.among(within, these.depth)
            rails = lines_under_rows(these, these.low[:, None] + within, share, couple, these.depth / len(within))
            yield lines_on_ribs(
                job, these, rails, job.hardware.rail, min_attachments, staggered=self.lines == STAGGERED
            )

    def _places(self, job: Job, low: float, high: float) -> list[float] | Refusal:
        """Where the rails lie: in the clamp zones, and any third one at the middle."""
        near, far = job.module.clamp_zone
        first, last = PLACES[self.rail_place]
        zones = [(low + near, low + far, first), (high - far, high - near, last)]
        if self.rails_per_row == 3:
            quarter = (high - low) / 4
            zones.insert(1, (low + quarter, high - quarter, 0.5))
        places = []
        for start, end, part in zones:
            y = find_line_position(job, start, end, "a rail", start + part * (end - start))
            if isinstance(y, Refusal):
                return y
            places.append(y)
        if len({round(y, 4) for y in places}) < len(places):
            return Refusal(
                "misses_support",
                "two rails of a row would stand over the same support: fewer rails, or supports closer together",
            )
        return places

    def parts_needed(self, job: Job, field: Field, layout: Layout) -> tuple[PartQuantity, ...]:
        """Rails cut from stock, clamps, attachments."""
        return (
            PartQuantity("attachment", "attachments", len(layout.attachments)),
            bar_quantities("rail", "rails", layout.lines),
            *clamp_quantities(layout.lines),
        )

    def spacing_label(self, layout: Layout, job: Job) -> str:
        """The spacing in words."""
        staggered, tripled = self.lines == STAGGERED, self.rails_per_row == 3
        words = self.columns.spacing_label(layout, job) if self.columns else describe_spacing(job, layout)
        moved = f"rails {self.rail_place}" if self.rail_place != "middle" and not self.columns else ""
        return ", ".join(
            filter(None, [words, "staggered" if staggered else "", moved, "3 rails each" if tripled else ""])
        )

    def remedies(self) -> tuple[Self, ...]:
        """Staggered; the rails moved within their zones too; a third rail; a third rail and staggered."""
        staggered = self.model_copy(update={"lines": STAGGERED})
        moved = (
            []
            if self.columns
            else [staggered.model_copy(update={"rail_place": place}) for place in ("toward eave", "toward ridge")]
        )
        tripled = [rails.model_copy(update={"rails_per_row": 3}) for rails in (self, staggered)]
        return tuple(rails for rails in (staggered, *moved, *tripled) if rails != self)

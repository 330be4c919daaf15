"""Rails along the eave under portrait modules, or up the slope, each over one rib, under landscape modules."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from types import MappingProxyType
from typing import Annotated, ClassVar, Self

import numpy as np

from engine.mounting.influence import ShareCache, build_layout
from engine.mounting.interface import PartQuantity, Refusal, SpacingField, SpacingRule
from engine.mounting.layout import Attitude, Field, Layout, Member, SpacingPattern, SupportLines
from engine.mounting.line_position import find_line_position, structure_word
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
from engine.mounting.module_grid import Grid, place_modules
from engine.project.job import Job
from engine.schema import Choice, Count, InputTable, Quantity, input_field

ALONG, UP = "along the eave", "up the slope"

POSITIONS: Mapping[str, tuple[float, float]] = MappingProxyType(
    {
        "middle": (0.5, 0.5),
        "outer": (0.0, 1.0),
        "inner": (1.0, 0.0),
        "toward eave": (0.0, 0.0),
        "toward ridge": (1.0, 1.0),
    }
)
"""Positions of the lowest and the highest rail of a row in their clamp zones, from 0 (toward the eave) to 1 [-]."""

MEMBER = Member("rail", "rail")


class Rail(InputTable):
    """Two or three rails under each row or column, in the module maker's clamp zones."""

    id: ClassVar[str] = "rail"
    spacing_is_span: ClassVar[bool] = True
    spacing: Annotated[SpacingRule, SpacingField("ribs")] = input_field(
        "fewest",
        description="spacing of attachments along each rail, in ribs; in purlins or steps if rails run up the slope",
    )
    rails_per_row: Annotated[int, Count(2, 3)] = input_field(
        2, description="rails under each row of modules, or under each column if rails run up the slope"
    )
    rail_place: Annotated[str, Choice(tuple(POSITIONS))] = input_field(
        "middle", description="position in the clamp zones of rails along the eave"
    )
    lines: Annotated[str, Choice((IN_LINE, STAGGERED))] = input_field(
        IN_LINE,
        description="neighbouring rails attached at the same ribs or purlins, or every other rail midway between",
    )
    runs: Annotated[str, Choice((ALONG, UP))] = input_field(
        ALONG,
        description="along the eave under portrait modules, or up the slope over one rib under landscape modules",
    )
    step: Annotated[float, Quantity("length", "3 in", "12 ft", shown="small length")] = input_field(
        "24 in",
        description="rails up the slope: distance between possible attachments along the rib; brackets on the "
        "structure are attached at the purlins instead",
    )

    @property
    def up_slope(self) -> RailsUpSlope | None:
        """The layout of rails up the slope; None if they run along the eave."""
        return RailsUpSlope(self.rails_per_row, self.step, self.lines == STAGGERED) if self.runs == UP else None

    def title(self, job: Job) -> str:
        """Name of the method."""
        return "rails up the slope" if self.up_slope else "rails"

    def refusal_of_roof(self, job: Job) -> Refusal | None:
        """None: rails suit any roof."""
        return None

    def place_modules(self, job: Job) -> Field | Refusal:
        """Field with the stated number of modules and, to the nearest column, the width of the array in landscape."""
        if self.up_slope:
            return self.up_slope.place_modules(job)
        module, array = job.module, job.array
        columns = max(1, round(array.columns * (module.length + array.gap) / (module.width + array.gap)))
        grid = Grid(
            width=module.width,
            depth=module.length,
            pitch_x=module.width + array.gap,
            pitch_y=module.length + array.gap,
            columns=columns,
            count=array.rows * array.columns,
        )
        top = array.height_above_roof
        attitude = Attitude(0.0, top, top, module.length, module.length)
        return place_modules(job, grid, attitude, job.hardware.rail.longest_run)

    def candidate_spacings(self, job: Job, field: Field) -> tuple[int, ...]:
        """Ribs from attachment to attachment, largest first."""
        if self.up_slope:
            return self.up_slope.candidate_spacings(job, field)
        return candidate_steps(job, field)

    def lay_out(self, job: Job, field: Field, pattern: SpacingPattern, minimum: int) -> Layout | Refusal:
        """Rails of every row, each attached at the ribs of the pattern."""
        if self.up_slope:
            return self.up_slope.lay_out(job, field, pattern, minimum)
        height, lines = job.hardware.attachment_height, list[SupportLines]()
        shares = ShareCache(field.attitude.middle - height)
        for rows in module_rows(field, pattern):
            min_attachments = math.ceil(2 * (rows.module.shape[1] + 1) / self.rails_per_row) if minimum else 0
            for rails in self._rails(job, rows, shares, min_attachments):
                if isinstance(rails, Refusal):
                    return rails
                lines += rails
        cure = "Use three rails a row" if self.rails_per_row == 2 else "Use another mounting method"
        refusal = too_few_attachments(job, lines, minimum, MEMBER, cure)
        return refusal or build_layout(pattern, MEMBER, lines, job.roof.ribs(job.building), height)

    def _rails(
        self, job: Job, rows: ModuleRows, shares: ShareCache, min_attachments: int
    ) -> Iterator[list[SupportLines] | Refusal]:
        """The rails of rows with equal positions along x.

        Rails have the same positions in all rows, except if purlins or clips decide: then row by row.
        """
        row_by_row = job.hardware.bracket == "structure" or bool(job.hardware.clip_clearance)
        for group in split_rows(rows) if row_by_row else [rows]:
            positions = self._positions(job, float(group.low[0]), float(group.low[0] + group.depth))
            if isinstance(positions, Refusal):
                yield positions
                return
            within = np.array(positions) - group.low[0]
            share, couple = shares.shares(within, group.depth)
            rails = lines_under_rows(group, group.low[:, None] + within, share, couple, group.depth / len(within))
            yield lines_on_ribs(
                job, group, rails, job.hardware.rail, min_attachments, staggered=self.lines == STAGGERED
            )

    def _positions(self, job: Job, low: float, high: float) -> list[float] | Refusal:
        """Positions up the slope [m] of the rails of a row from `low` to `high` [m], or a refusal if purlins miss them.

        One rail lies in each clamp zone, a third one in the middle half of the module.
        """
        near, far = job.module.clamp_zone
        first, last = POSITIONS[self.rail_place]
        zones = [(low + near, low + far, first), (high - far, high - near, last)]
        if self.rails_per_row == 3:
            quarter = (high - low) / 4
            zones.insert(1, (low + quarter, high - quarter, 0.5))
        positions = []
        for start, end, part in zones:
            preferred = start + part * (end - start)
            y = find_line_position(job, start, end, "the clamp zone", preferred, "run the rails up the slope")
            if isinstance(y, Refusal):
                return y
            positions.append(y)
        if len({round(y, 4) for y in positions}) < len(positions):  # to 0.1 mm: two rails over one purlin
            return Refusal(
                "misses_support",
                f"Two rails of a row would lie over the same {structure_word(job)}. "
                f"{'Use two rails a row, or run' if self.rails_per_row == 3 else 'Run'} the rails up the slope",
            )
        return positions

    def parts_needed(self, job: Job, field: Field, layout: Layout) -> tuple[PartQuantity, ...]:
        """Quantities of attachments, rails and clamps."""
        return (
            PartQuantity("attachment", "attachments", len(layout.attachments)),
            bar_quantities("rail", "rails", layout.lines),
            *clamp_quantities(layout.lines),
        )

    def spacing_label(self, layout: Layout, job: Job) -> str:
        """Spacing of a layout in words, with options that differ from the usual ones."""
        words = [self.up_slope.spacing_label(layout, job) if self.up_slope else describe_spacing(job, layout)]
        if self.lines == STAGGERED:
            words.append("staggered")
        if self.rail_place != "middle" and not self.up_slope:
            words.append(f"rails {self.rail_place}")
        if self.rails_per_row == 3:
            words.append("3 rails each")
        return ", ".join(words)

    def remedies(self) -> tuple[Self, ...]:
        """Rails staggered; staggered and moved within their zones; with a third rail; with a third, staggered."""
        staggered = self.model_copy(update={"lines": STAGGERED})
        positions = () if self.up_slope else ("toward eave", "toward ridge")
        moved = [staggered.model_copy(update={"rail_place": position}) for position in positions]
        with_third_rail = [rails.model_copy(update={"rails_per_row": 3}) for rails in (self, staggered)]
        return tuple(rails for rails in (staggered, *moved, *with_third_rail) if rails != self)

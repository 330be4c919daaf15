"""Rails along the eave under rows of portrait modules, continuous over the ribs they cross."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from types import MappingProxyType

import numpy as np

from engine.mounting.build_layout import build_layout
from engine.mounting.influence import ShareCache
from engine.mounting.interface import Refusal
from engine.mounting.layout import Attitude, Field, Layout, Member, SpacingPattern, SupportLines
from engine.mounting.line_position import find_line_position, structure_word
from engine.mounting.lines_along_eave import (
    ModuleRows,
    candidate_steps,
    describe_spacing,
    lines_on_ribs,
    lines_under_rows,
    module_rows,
    split_rows,
    too_few_attachments,
)
from engine.mounting.module_grid import Grid, place_modules
from engine.mounting.places import places_along_eave
from engine.project.job import Job

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


@dataclass(frozen=True)
class RailsAlongEave:
    """Modules in portrait, each row on `rails` rails at a `position` of `POSITIONS` in the clamp zones."""

    rails: int
    position: str
    staggered: bool

    def place_modules(self, job: Job) -> Field | Refusal:
        """Field with the stated number of modules and, to the nearest column, the width of the array in landscape."""
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
        return candidate_steps(job, field)

    def lay_out(self, job: Job, field: Field, pattern: SpacingPattern, minimum: int) -> Layout | Refusal:
        """Rails of every row, each attached at the ribs of the pattern."""
        height, lines = job.hardware.attachment_height, list[SupportLines]()
        shares = ShareCache(field.attitude.middle - height)
        for rows in module_rows(field, pattern):
            min_attachments = math.ceil(2 * (rows.module.shape[1] + 1) / self.rails) if minimum else 0
            for rails in self._rails(job, rows, shares, min_attachments):
                if isinstance(rails, Refusal):
                    return rails
                lines += rails
        cure = "Use three rails a row" if self.rails == 2 else "Use another mounting method"
        refusal = too_few_attachments(job, lines, minimum, MEMBER, cure)
        return refusal or build_layout(pattern, MEMBER, lines, places_along_eave(job), height)

    def spacing_label(self, layout: Layout, job: Job) -> str:
        """Spacing of a layout in words."""
        return describe_spacing(job, layout)

    def _rails(
        self, job: Job, rows: ModuleRows, shares: ShareCache, min_attachments: int
    ) -> Iterator[list[SupportLines] | Refusal]:
        """The rails of rows with equal positions along x.

        Rails have the same positions in all rows, except if purlins or clips decide: then row by row.
        """
        row_by_row = job.hardware.at_fastenings or bool(job.hardware.clip_clearance)
        for group in split_rows(rows) if row_by_row else [rows]:
            positions = self._positions(job, float(group.low[0]), float(group.low[0] + group.depth))
            if isinstance(positions, Refusal):
                yield positions
                return
            within = np.array(positions) - group.low[0]
            share, couple = shares.shares(within, group.depth)
            rails = lines_under_rows(group, group.low[:, None] + within, share, couple, group.depth / len(within))
            yield lines_on_ribs(job, group, rails, job.hardware.rail, min_attachments, staggered=self.staggered)

    def _positions(self, job: Job, low: float, high: float) -> list[float] | Refusal:
        """Positions up the slope [m] of the rails of a row from `low` to `high` [m], or a refusal if purlins miss them.

        One rail lies in each clamp zone, a third one in the middle half of the module.
        """
        near, far = job.module.clamp_zone
        first, last = POSITIONS[self.position]
        zones = [("the clamp zone", low + near, low + far, first), ("the clamp zone", high - far, high - near, last)]
        if self.rails == 3:
            quarter = (high - low) / 4
            zones.insert(1, ("the middle half of a module", low + quarter, high - quarter, 0.5))
        positions = []
        for name, start, end, part in zones:
            preferred = start + part * (end - start)
            y = find_line_position(job, start, end, name, preferred, "run the rails up the slope")
            if isinstance(y, Refusal):
                return y
            positions.append(y)
        if len({round(y, 4) for y in positions}) < len(positions):  # to 0.1 mm: two rails over one purlin
            return Refusal(
                "misses_support",
                f"Two rails of a row would lie over the same {structure_word(job)}. "
                f"{'Use two rails a row, or run' if self.rails == 3 else 'Run'} the rails up the slope",
            )
        return positions

"""Rails along the eave under rows of portrait modules, continuous over the ribs they cross."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property
from types import MappingProxyType

import numpy as np

from engine.mounting.influence import ShareCache
from engine.mounting.interface import Refusal, RunGroup
from engine.mounting.layout import Field, Layout, Member, SupportLines
from engine.mounting.line_position import find_line_position, structure_word
from engine.mounting.lines_along_eave import (
    LinesAlongEave,
    candidate_steps,
    describe_spacing,
    lines_under_rows,
    split_rows,
)
from engine.mounting.module_grid import in_portrait, place_modules
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
        return place_modules(job, *in_portrait(job), job.hardware.rail.longest_run)

    def candidate_spacings(self, job: Job, field: Field) -> tuple[int, ...]:
        """Ribs from attachment to attachment, largest first."""
        return candidate_steps(job, field)

    def field_lines(self, job: Job, field: Field) -> RailLines:
        """The rails under every row."""
        cure = "Use three rails a row" if self.rails == 2 else "Use another mounting method"
        return RailLines(
            job, field, MEMBER, places_along_eave(job), cure=cure, staggered=self.staggered, arrangement=self
        )

    def spacing_label(self, layout: Layout, job: Job) -> str:
        """Spacing of a layout in words."""
        return describe_spacing(job, layout)

    def positions(self, job: Job, low: float, high: float) -> list[float] | Refusal:
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


@dataclass(frozen=True, eq=False, kw_only=True)
class RailLines(LinesAlongEave):
    """Rails of every row, each attached at the ribs of a pattern."""

    arrangement: RailsAlongEave

    def lines_of(self, group: RunGroup) -> list[SupportLines] | Refusal:
        """The rails of rows that are alike.

        Rails have the same positions in all rows, except if purlins or clips decide: then row by row.
        """
        hardware, rows = self.job.hardware, self.rows(group)
        row_by_row, rails = hardware.at_fastenings or bool(hardware.clip_clearance), list[SupportLines]()
        for alike in split_rows(rows) if row_by_row else [rows]:
            positions = self.arrangement.positions(self.job, float(alike.low[0]), float(alike.low[0] + alike.depth))
            if isinstance(positions, Refusal):
                return positions
            within = np.array(positions) - alike.low[0]
            share, couple = self._shares.shares(within, alike.depth)
            rails.append(lines_under_rows(alike, alike.low[:, None] + within, share, couple, alike.depth / len(within)))
        return rails

    @cached_property
    def _shares(self) -> ShareCache:
        return ShareCache(self.field.attitude.middle - self.job.hardware.attachment_height)

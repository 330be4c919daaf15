"""Rails along the eave under rows of portrait modules, continuous over the ribs they cross."""

from __future__ import annotations

import math
from typing import Annotated, ClassVar

import numpy as np

from engine.described import Count, Described, entry
from engine.influence import assemble, share_among
from engine.job import Job
from engine.layout import Attitude, Field, Layout, Member
from engine.mounting import Need, Refusal, Spacing, SpacingKind
from engine.placing import Grid, place
from engine.rows import (
    Carried,
    bar_needs,
    below_rule,
    chosen_ribs,
    clamp_needs,
    modules_of_runs,
    row_line,
    spacing_in_words,
    standing_place,
    steps_worth_a_look,
    too_few_ribs,
)


class _Shares:
    """What each rail carries of a module; rows that lie alike are worked out once."""

    def __init__(self, height: float) -> None:
        self.height = height
        self.known: dict[tuple[float, ...], list[Carried]] = {}

    def carried(self, low: float, high: float, places: list[float]) -> list[Carried]:
        """The shares of rails at `places`, under a module from `low` to `high` [m up the slope]."""
        alike = tuple(round(place - low, 6) for place in places)
        if alike not in self.known:
            shares, couples = share_among(np.array(alike), 0.0, high - low, self.height)
            width = (high - low) / len(places)
            self.known[alike] = [Carried(float(share), float(couple), width) for share, couple in zip(shares, couples, strict=True)]
        return self.known[alike]


class Rail(Described):
    """Two or three rails under each row, at the module maker's clamp zone."""

    id: ClassVar[str] = "rail"
    spans: ClassVar[bool] = True
    spacing: Annotated[Spacing, SpacingKind("ribs")] = entry("fewest", description="how often each rail is attached")
    rails_per_row: Annotated[int, Count(2, 3)] = entry(2, description="rails under each row of modules")

    def title(self, job: Job) -> str:
        """What people call it."""
        return "rails"

    def suits(self, job: Job) -> Refusal | None:
        """Rails stand on any roof."""
        return None

    def place(self, job: Job) -> Field | Refusal:
        """Keep the modules' number and, to the nearest column, the width they take in landscape."""
        module, array = job.module, job.array
        columns = max(1, round(array.columns * (module.length + array.gap) / (module.width + array.gap)))
        grid = Grid(module.width, module.length, module.width + array.gap, module.length + array.gap, columns, array.rows * array.columns)
        top = array.height_above_roof
        attitude = Attitude(0.0, top, top, module.length, module.length)
        return place(job, grid, attitude, job.hardware.rail.longest_run)

    def sparsest(self, job: Job, field: Field) -> tuple[int, ...]:
        """Ribs from attachment to attachment, sparsest first."""
        return steps_worth_a_look(job, field)

    def lay(self, job: Job, field: Field, spacing: int, minimum: int) -> Layout | Refusal:
        """Attachments on every `spacing`-th rib of every rail."""
        ribs, height = job.roof.ribs(job.building), job.hardware.attachment_height
        lines = []
        rails = _Shares(field.attitude.middle - height)
        for modules in modules_of_runs(field):
            low, high = float(field.outlines.low[modules[0]]), float(field.outlines.high[modules[0]])
            start, end = float(field.outlines.left[modules[0]]), float(field.outlines.right[modules[-1]])
            places = self._places(job, low, high)
            if isinstance(places, Refusal):
                return places
            wanted = math.ceil(2 * (len(modules) + 1) / self.rails_per_row) if minimum else 0
            chosen = chosen_ribs(job, ribs, start, end, spacing, job.hardware.rail, wanted)
            if len(chosen) < 2:
                return too_few_ribs(job, start, end)
            lines += [
                row_line(field, modules, y, carried, chosen) for y, carried in zip(places, rails.carried(low, high, places), strict=True)
            ]
        points = sum(len(line.ribs) for line in lines)
        if points < minimum:
            return below_rule(job, points, minimum)
        return assemble(spacing, Member("rail", 1, clamped=True), lines, ribs, height)

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
        return spacing_in_words(job, layout.spacing)

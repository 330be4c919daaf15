"""Tilted rows on closed frames: a lower and an upper line of feet under each row of landscape modules."""

from __future__ import annotations

import math
from typing import Annotated, ClassVar, Self

import numpy as np

from engine.mounting.influence import build_layout
from engine.mounting.interface import PartQuantity, Refusal, SpacingField, SpacingRule
from engine.mounting.layout import Attitude, Field, Foot, Layout, Member, SpacingPattern, SupportLines
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
    too_few_attachments,
)
from engine.mounting.module_grid import Grid, place
from engine.project.job import Job
from engine.schema import Choice, InputTable, Number, Quantity, input_field

MEMBER = Member("rack", "rack_beam", bars=2, legs=True)


class TiltedRack(InputTable):
    """Rows tilted from the roof, their low edge toward eave or ridge, clear of each other's shade."""

    id: ClassVar[str] = "tilted_rack"
    spans: ClassVar[bool] = True
    spacing: Annotated[SpacingRule, SpacingField("ribs")] = input_field(
        "fewest", description="how often a frame stands under each row"
    )
    tilt: Annotated[float, Quantity("angle", "3 deg", "45 deg")] = input_field(
        "10 deg", description="tilt of the modules from the roof"
    )
    low_edge: Annotated[float, Quantity("length", "0 in", "6 ft", shown="small length")] = input_field(
        "6 in", description="height of the modules' low edge above the roof"
    )
    design_sun_elevation: Annotated[float, Quantity("angle", "5 deg", "80 deg")] = input_field(
        "20 deg", description="lowest sun above the roof plane that no row may shade"
    )
    low_side: Annotated[str, Choice(("eave", "ridge"))] = input_field(
        "eave", description="which way the modules' low edge faces"
    )
    lines: Annotated[str, Choice((IN_LINE, STAGGERED))] = input_field(
        IN_LINE, description="whether neighbouring rows load the same ribs"
    )
    net_coefficient: Annotated[float, Number(0.1, 10)] | None = input_field(
        None, description="a wind-tunnel report's net pressure coefficient, where the standard gives none"
    )

    def title(self, job: Job) -> str:
        """What people call it."""
        return "tilted rack"

    def refusal_of_roof(self, job: Job) -> Refusal | None:
        """A rack stands on any roof; whether the standard knows its wind is another question."""
        return None

    def place(self, job: Job) -> Field | Refusal:
        """Rows as far apart as the design sun asks, keeping the modules' number and columns."""
        module, array = job.module, job.array
        depth, rise = module.width * math.cos(math.radians(self.tilt)), module.width * math.sin(math.radians(self.tilt))
        pitch = max(depth + rise / math.tan(math.radians(self.design_sun_elevation)), depth + array.gap)
        grid = Grid(module.length, depth, module.length + array.gap, pitch, array.columns, array.rows * array.columns)
        tilt = self.tilt if self.low_side == "eave" else -self.tilt
        attitude = Attitude(
            tilt, self.low_edge, self.low_edge + rise, module.width, module.length, self.net_coefficient
        )
        return place(job, grid, attitude, job.hardware.rack_beam.longest_run)

    def candidate_spacings(self, job: Job, field: Field) -> tuple[int, ...]:
        """Ribs from frame to frame, sparsest first."""
        return candidate_steps(job, field)

    def lay_out(self, job: Job, field: Field, pattern: SpacingPattern, minimum: int) -> Layout | Refusal:
        """Frames on the ribs that every row asks for, each with a lower and an upper foot."""
        height, lines = job.hardware.attachment_height, list[SupportLines]()
        for rows in module_rows(field, pattern):
            missed = self._misses_supports(job, rows)
            if missed:
                return missed
            middle, whole = rows.low[:, None] + rows.depth / 2, np.ones(1)
            feet = frame_feet(rows.depth, field.attitude.middle - height)
            frames = lines_under_rows(rows, middle, whole, 0 * whole, field.attitude.chord, feet)
            min_attachments = rows.module.shape[1] + 1 if minimum else 0
            place_on_ribs = lines_on_ribs(
                job, rows, frames, job.hardware.rack_beam, min_attachments, staggered=self.lines == STAGGERED
            )
            if isinstance(place_on_ribs, Refusal):
                return place_on_ribs
            lines += place_on_ribs
        return too_few_attachments(job, lines, minimum, MEMBER) or build_layout(
            pattern, MEMBER, lines, job.roof.ribs(job.building), height
        )

    def _misses_supports(self, job: Job, rows: ModuleRows) -> Refusal | None:
        """Brackets fastened to the structure need a support under both lines of feet."""
        if job.hardware.bracket != "structure":
            return None
        for low in rows.low:
            for edge, name in ((low, "lower"), (low + rows.depth, "upper")):
                place = find_line_position(job, float(edge), float(edge), f"the {name} feet")
                if isinstance(place, Refusal):
                    return place
        return None

    def parts_needed(self, job: Job, field: Field, layout: Layout) -> tuple[PartQuantity, ...]:
        """Frames with legs and braces, two beams a row, clamps, attachments."""
        frames = sum(len(these) * len(these.stands_on) for these in layout.lines)
        return (
            PartQuantity("attachment", "attachments", len(layout.attachments)),
            bar_quantities("rack_beam", "rack beams", layout.lines, bars=2),
            PartQuantity("leg", "frame legs", 2 * frames),
            PartQuantity("brace", "frame braces", frames),
            *clamp_quantities(layout.lines, bars=2),
        )

    def spacing_label(self, layout: Layout, job: Job) -> str:
        """The spacing in words."""
        words = describe_spacing(job, layout)
        return f"{words}, staggered" if self.lines == STAGGERED else words

    def remedies(self) -> tuple[Self, ...]:
        """Staggered, where it is not yet."""
        return () if self.lines == STAGGERED else (self.model_copy(update={"lines": STAGGERED}),)


def frame_feet(apart: float, height: float) -> tuple[Foot, Foot]:
    """Statics of a closed frame on two feet `apart` [m], loaded at its middle, `height` above them [m].

    A load along the slope is shared by both feet and turns the frame: down-slope it presses the
    lower foot and lifts the upper one. Both feet take the whole frame's effective wind area.
    """
    turn = height / apart
    return Foot(-apart / 2, 0.5, turn, 0.5), Foot(apart / 2, 0.5, -turn, 0.5)

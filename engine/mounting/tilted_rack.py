"""Tilted rows of landscape modules on closed frames, each with a lower and an upper foot."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Annotated, ClassVar, Self

import numpy as np

from engine.mounting.interface import Alternative, PartQuantity, Refusal, RunGroup, SpacingField, SpacingRule
from engine.mounting.layout import Attitude, Field, Foot, Layout, Member, SupportLines
from engine.mounting.line_position import find_line_position
from engine.mounting.lines_along_eave import (
    IN_LINE,
    STAGGERED,
    LinesAlongEave,
    ModuleRows,
    bar_quantities,
    candidate_steps,
    clamp_quantities,
    describe_spacing,
    lines_under_rows,
)
from engine.mounting.module_grid import Grid, place_modules
from engine.mounting.places import places_along_eave
from engine.project.array import LANDSCAPE
from engine.project.job import Job
from engine.schema import Choice, InputTable, Number, Quantity, input_field

MEMBER = Member("rack", "rack_beam", bars=2, legs=True)

LOWEST_TILT = 3
"""Smallest tilt of a rack from the roof [deg]."""


class TiltedRack(InputTable):
    """Rows tilted from the roof, their low edge toward eave or ridge, far enough apart not to shade each other."""

    id: ClassVar[str] = "tilted_rack"
    spacing_is_span: ClassVar[bool] = True
    spacing: Annotated[SpacingRule, SpacingField("ribs")] = input_field(
        "fewest", description="spacing of the frames under each row, in ribs"
    )
    tilt: Annotated[float, Quantity("angle", f"{LOWEST_TILT} deg", "45 deg")] = input_field(
        "10 deg", description="tilt of the modules from the roof"
    )
    low_edge: Annotated[float, Quantity("length", "0 in", "6 ft", shown="small length")] = input_field(
        "6 in", description="height of the modules' low edge above the roof"
    )
    design_sun_elevation: Annotated[float, Quantity("angle", "5 deg", "80 deg")] = input_field(
        "20 deg", description="lowest sun above the roof plane that no row may shade"
    )
    low_side: Annotated[str, Choice(("eave", "ridge"))] = input_field(
        "eave", description="side of the modules' low edge"
    )
    lines: Annotated[str, Choice((IN_LINE, STAGGERED))] = input_field(
        IN_LINE,
        description="neighbouring rows attached at the same ribs, or every other row midway between; not set: "
        "staggered if that spares attachments",
    )
    net_coefficient: Annotated[float, Number(0.1, 10)] | None = input_field(
        None, description="net pressure coefficient of a wind-tunnel report, for roofs outside the standard's scope"
    )

    def title(self, job: Job) -> str:
        """Name of the method."""
        return "tilted rack"

    def refusal_of_roof(self, job: Job) -> Refusal | None:
        """None: racks suit any roof; the load standard decides if it covers them."""
        return None

    def place_modules(self, job: Job) -> Field | Refusal:
        """Field with the stated number of modules and columns, its rows unshaded at the design sun elevation."""
        module, gap = job.module, job.module_gap
        tilt, sun = math.radians(self.tilt), math.radians(self.design_sun_elevation)
        depth, rise = module.width * math.cos(tilt), module.width * math.sin(tilt)
        pitch = max(depth + rise / math.tan(sun), depth + gap)
        grid = Grid(LANDSCAPE, module.length, depth, module.length + gap, pitch)
        attitude = Attitude(
            tilt=self.tilt if self.low_side == "eave" else -self.tilt,
            low=self.low_edge,
            high=self.low_edge + rise,
            chord=module.width,
            long_side=module.length,
            net_coefficient=self.net_coefficient,
        )
        return place_modules(job, grid, attitude, job.hardware.rack_beam.longest_run)

    def candidate_spacings(self, job: Job, field: Field) -> tuple[int, ...]:
        """Ribs from frame to frame, largest first."""
        return candidate_steps(job, field)

    def field_lines(self, job: Job, field: Field) -> RackLines:
        """The frames under every row."""
        return RackLines(job, field, MEMBER, places_along_eave(job), staggered=self.lines == STAGGERED)

    def parts_needed(self, job: Job, field: Field, layout: Layout) -> tuple[PartQuantity, ...]:
        """Quantities of attachments, rack beams (two a row), frame legs, braces and clamps."""
        frames = sum(len(line) * len(line.stands_on) for line in layout.lines)
        return (
            PartQuantity("attachment", "attachments", len(layout.attachments)),
            bar_quantities("rack_beam", "rack beams", layout.lines, bars=2),
            PartQuantity("leg", "frame legs", 2 * frames),
            PartQuantity("brace", "frame braces", frames),
            *clamp_quantities(layout.lines, bars=2),
        )

    def spacing_label(self, layout: Layout, job: Job) -> str:
        """Spacing of a layout in words."""
        words = describe_spacing(job, layout)
        return f"{words}, staggered" if self.lines == STAGGERED else words

    def remedies(self) -> tuple[tuple[Self, ...], ...]:
        """Rows staggered, if they are not yet."""
        return () if self.lines == STAGGERED else ((self.model_copy(update={"lines": STAGGERED}),),)

    def alternatives(self) -> tuple[Alternative, ...]:
        """A lower tilt, degree by degree."""
        degrees = range(math.ceil(self.tilt) - 1, LOWEST_TILT - 1, -1)
        return tuple(Alternative("tilt", f"lower the tilt to {each} deg", {"tilt": f"{each} deg"}) for each in degrees)


def frame_feet(distance: float, height: float) -> tuple[Foot, Foot]:
    """Lower and upper foot of a closed frame, with their parts of a load at its middle.

    Both feet share every load evenly. A load along the slope also turns the frame: a down-slope load presses the lower
    foot and lifts the upper one. Each foot takes the effective wind area of the whole frame.

    Args:
        distance: from foot to foot [m].
        height: of the load above the feet [m].
    """
    couple = height / distance
    return Foot(-distance / 2, 0.5, couple, 0.5), Foot(distance / 2, 0.5, -couple, 0.5)


@dataclass(frozen=True, eq=False, kw_only=True)
class RackLines(LinesAlongEave):
    """Frames of every row at the ribs of a pattern, each with a lower and an upper foot."""

    def lines_of(self, group: RunGroup) -> list[SupportLines] | Refusal:
        """The frames of rows that are alike."""
        rows, attitude = self.rows(group), self.field.attitude
        refusal = self._misses_structure(rows)
        if refusal:
            return refusal
        middle, whole = rows.low[:, None] + rows.depth / 2, np.ones(1)
        feet = frame_feet(rows.depth, attitude.middle - self.job.hardware.attachment_height)
        return [lines_under_rows(rows, middle, whole, 0 * whole, attitude.chord, feet)]

    def _misses_structure(self, rows: ModuleRows) -> Refusal | None:
        """Refusal if a line of feet lies on an overhang, or misses the purlins that its brackets need; else None."""
        job = self.job
        if not (job.hardware.at_fastenings or job.building.overhang.exists):
            return None
        for low in rows.low:
            for edge, name in ((low, "lower"), (low + rows.depth, "upper")):
                position = find_line_position(job, float(edge), float(edge), f"the line of the {name} feet")
                if isinstance(position, Refusal):
                    return position
        return None

"""The plan of a job before any method is laid on it: it follows the inputs at once."""

from __future__ import annotations

import numpy as np

from engine.common.arrays import Floats
from engine.comparison.attachment_schedule import Schedule
from engine.comparison.hardware_plan import HardwarePlan, Segments
from engine.comparison.roof_plan import Plan
from engine.loads.interface import RoofZones
from engine.mounting.interface import MountingMethod, Refusal
from engine.mounting.layout import Rectangles
from engine.mounting.module_grid import in_landscape, outlines_in
from engine.project.job import Job

NONE: Floats = np.empty(0)
NO_RECTANGLES = Rectangles(NONE, NONE, NONE, NONE)
NO_LINES = Segments(NONE, NONE, NONE, NONE)
NO_HARDWARE = HardwarePlan("", NO_LINES, NO_LINES, NONE, NONE)
NO_ATTACHMENTS = Schedule(np.empty(0, dtype=np.int64), np.empty(0, dtype=np.int64), NONE, NONE, (), None, None, {}, {})


def sketch(job: Job, method: MountingMethod, before: Plan | None) -> tuple[Plan, str]:
    """The plan with the modules as a method places them, and why they do not fit; empty if they do.

    `before` is the last plan with its wind zones; they stay while the roof does.
    """
    building, roof = job.building, job.roof
    field = method.place_modules(job)
    stays = before is not None and (before.length, before.depth) == (building.length, building.slope_length)
    drawn = Plan(
        length=building.length,
        depth=building.slope_length,
        top="ridge" if building.has_ridge else "high edge",
        side=building.side_word,
        rib_word=roof.rib_word,
        eave_faces=building.eave_faces,
        ribs=roof.ribs(building),
        supports=roof.supports(building),
        rafters=roof.rafters.along(building.length),
        roof_zones=before.roof_zones if before and stays else RoofZones(NO_RECTANGLES, NO_ATTACHMENTS.row, ()),
        borders=before.borders if before and stays else NO_LINES,
        keep_clear=job.keep_clear,
        modules=outlines_in(job, in_landscape(job)[0]) if isinstance(field, Refusal) else field.outlines,
        zone=(),
        exposed=np.empty(0, dtype=np.bool_),
        exposed_edges=NO_LINES,
        attachments=NO_ATTACHMENTS,
        hardware=NO_HARDWARE,
    )
    return drawn, field.reason if isinstance(field, Refusal) else ""

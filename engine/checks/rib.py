"""The seam or rib in bending between its fastenings."""

from __future__ import annotations

import numpy as np

from engine.arrays import Floats, Ints
from engine.checks.check import Asked, Check, Place, of_allowable, worst
from engine.demands import Demands
from engine.job import Job
from engine.layout import Field, Layout


def check_rib(job: Job, field: Field, layout: Layout, demands: Demands) -> Check:
    """The ribs that carry points, with the array; without it, see `check_bare_rib`."""
    return _bent(job, demands, demands.rib_moment, demands.rib, demands.station_y)


def check_bare_rib(job: Job, demands: Demands) -> Check:
    """What the roof's bending has used before any array: every rib of the slope."""
    return _bent(job, demands, demands.bare_moment, demands.bare_rib, demands.bare_station_y)


def _bent(job: Job, demands: Demands, moment: Floats, rib: Ints, station_y: Floats) -> Check:
    """Each rib's largest moment of either sign: sagging compresses the rib, hogging the pan."""
    panel, ribs = job.roof.panel, job.roof.ribs(job.building)
    rib_compressed, pan_compressed = (
        of_allowable(allowable, demands.combinations) for allowable in (panel.moment_rib_compressed, panel.moment_pan_compressed)
    )
    sagging, hogging = np.maximum(moment.max(axis=1), 0.0), np.maximum(-moment.min(axis=1), 0.0)
    asked = Asked(
        np.concatenate([sagging, hogging]),
        np.concatenate([np.broadcast_to(rib_compressed, sagging.shape), np.broadcast_to(pan_compressed, hogging.shape)]),
    )

    def place(item: int) -> Place:
        row, hogs = item % len(rib), item >= len(rib)
        used = (-moment[row] / pan_compressed if hogs else moment[row] / rib_compressed).max(axis=1)
        return Place(f"{job.roof.rib_word} {rib[row] + 1}", float(ribs[rib[row]]), float(station_y[int(np.argmax(used))]))

    return worst("rib", f"{job.roof.rib_word} bending", "moment", asked, demands.combinations, place)

"""The seam or rib in bending between its fastenings."""

from __future__ import annotations

from collections.abc import Sequence

from engine.arrays import Floats, Ints
from engine.checks.check import Asked, Check, Place, of_allowable, two_way, worst
from engine.combination import Combination
from engine.demands import Demands
from engine.job import Job
from engine.layout import Field, Layout


def check_rib(job: Job, field: Field, layout: Layout, demands: Demands) -> Check:
    """The ribs that carry points, with the array; without it, see `check_bare_rib`."""
    return _bent(job, demands, demands.rib_moment, demands.rib, demands.station_y)


def check_bare_rib(job: Job, demands: Demands) -> Check:
    """What the roof's bending has used before any array: every rib of the slope."""
    return _bent(job, demands, demands.bare_moment, demands.bare_rib, demands.bare_station_y)


def asked_of_ribs(job: Job, combinations: Sequence[Combination], moment: Floats) -> Asked:
    """Moments of either sign anywhere along ribs (R, T, C): sagging compresses the rib, hogging the pan."""
    panel = job.roof.panel
    rib_compressed, pan_compressed = (
        of_allowable(allowable, combinations) for allowable in (panel.moment_rib_compressed, panel.moment_pan_compressed)
    )
    return two_way(moment, up=pan_compressed, down=rib_compressed)


def _bent(job: Job, demands: Demands, moment: Floats, rib: Ints, station_y: Floats) -> Check:
    asked, ribs, stations = asked_of_ribs(job, demands.combinations, moment), job.roof.ribs(job.building), len(station_y)

    def place(item: int) -> Place:
        row, station = divmod(item, stations)
        return Place(f"{job.roof.rib_word} {rib[row] + 1}", float(ribs[rib[row]]), float(station_y[station]))

    return worst("rib", f"{job.roof.rib_word} bending", "moment", asked.listed, demands.combinations, place)

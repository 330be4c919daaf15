"""The seam or rib in bending between its fastenings."""

from __future__ import annotations

from engine.checks.check import Check, Place, of_allowable, two_way, worst
from engine.demands import Demands
from engine.job import Job
from engine.layout import Field, Layout


def check_rib(job: Job, field: Field, layout: Layout, demands: Demands) -> Check:
    """Capacity follows the sign of the moment: a sagging moment compresses the rib, a hogging one the pan."""
    panel, ribs = job.roof.panel, job.roof.ribs(job.building)
    compressed_rib, compressed_pan = (
        of_allowable(moment, demands.combinations) for moment in (panel.moment_rib_compressed, panel.moment_pan_compressed)
    )
    stations = len(demands.station_y)
    moments = demands.rib_moment.reshape(-1, demands.rib_moment.shape[-1])

    def place(item: int) -> Place:
        row, station = divmod(item, stations)
        rib = int(demands.rib[row])
        return Place(f"{job.roof.rib_word} {rib + 1}", float(ribs[rib]), float(demands.station_y[station]))

    title = f"{job.roof.rib_word} bending"
    return worst("rib", title, "moment", two_way(moments, compressed_pan, compressed_rib), demands.combinations, place)

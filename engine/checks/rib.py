"""The seam or rib in bending between its fastenings."""

from __future__ import annotations

from engine.arrays import Floats, Ints
from engine.checks.check import Check, Place, of_allowable, two_way, worst, worst_of
from engine.demands import Demands
from engine.job import Job
from engine.layout import Field, Layout


def check_rib(job: Job, field: Field, layout: Layout, demands: Demands) -> Check:
    """The ribs that carry points, with the array and without it."""
    loaded = _bent(job, demands, demands.rib_moment, demands.rib, demands.station_y, "with the array")
    alone = _bent(job, demands, demands.bare_moment[demands.rib], demands.rib, demands.bare_station_y, "without the array")
    return worst_of([loaded, alone])


def check_bare_rib(job: Job, demands: Demands) -> Check:
    """What the roof's bending has used before any array."""
    return _bent(job, demands, demands.bare_moment, demands.bare_rib, demands.bare_station_y, "without the array")


def _bent(job: Job, demands: Demands, moment: Floats, rib: Ints, station_y: Floats, case: str) -> Check:
    """Capacity follows the sign of the moment: a sagging moment compresses the rib, a hogging one the pan."""
    panel, ribs = job.roof.panel, job.roof.ribs(job.building)
    compressed_rib, compressed_pan = (
        of_allowable(allowable, demands.combinations) for allowable in (panel.moment_rib_compressed, panel.moment_pan_compressed)
    )

    def place(item: int) -> Place:
        row, station = divmod(item, len(station_y))
        return Place(f"{job.roof.rib_word} {rib[row] + 1}, {case}", float(ribs[rib[row]]), float(station_y[station]))

    asked = two_way(moment.reshape(-1, moment.shape[-1]), compressed_pan, compressed_rib)
    return worst("rib", f"{job.roof.rib_word} bending", "moment", asked, demands.combinations, place)

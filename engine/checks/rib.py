"""The seam or rib in bending between its fastenings."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from engine.arrays import Ints
from engine.bent import Bent
from engine.checks.check import Asked, Check, Place, of_allowable, two_way, worst
from engine.combination import Combination
from engine.demands import Demands
from engine.job import Job
from engine.layout import Field, Layout


def check_rib(job: Job, field: Field, layout: Layout, demands: Demands) -> Check:
    """The ribs that carry points, with the array; without it, see `check_bare_rib`."""
    return _bent(job, demands.combinations, demands.bent, demands.rib)


def check_bare_rib(job: Job, demands: Demands) -> Check:
    """What the roof's bending has used before any array: every rib of the slope."""
    return _bent(job, demands.combinations, demands.roof.bare_bent, np.arange(len(demands.roof.ribs)))


def asked_of_ribs(job: Job, combinations: Sequence[Combination], bent: Bent) -> Asked:
    """Moments of either sign anywhere along ribs, as in `Bent.extremes`: sagging compresses the rib, hogging the pan."""
    panel = job.roof.panel
    rib_compressed, pan_compressed = (
        of_allowable(allowable, combinations) for allowable in (panel.moment_rib_compressed, panel.moment_pan_compressed)
    )
    return two_way(bent.extremes, up=pan_compressed, down=rib_compressed)


def _bent(job: Job, combinations: Sequence[Combination], bent: Bent, rib: Ints) -> Check:
    asked, ribs = asked_of_ribs(job, combinations, bent), job.roof.ribs(job.building)

    def place(row: int, along: int) -> Place:
        _, number = asked.governing
        return Place(f"{job.roof.rib_word} {rib[row] + 1}", float(ribs[rib[row]]), bent.place(row, along, number))

    return worst("rib", f"{job.roof.rib_word} bending", "moment", asked, combinations, place)

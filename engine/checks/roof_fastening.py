"""The roof's own fastening: clip, or panel screws, at one rib and one support."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from engine.arrays import Floats, Ints
from engine.checks.check import Asked, Check, Place, resistances, worst, worst_of
from engine.demands import Demands
from engine.job import Job
from engine.layout import Field, Layout
from engine.strength import shear_strength, strength


def check_roof_fastening(job: Job, field: Field, layout: Layout, demands: Demands) -> Check:
    """Uplift, with the array and without it, on the ribs that carry points; bearing where a value is stated.

    On a face-fastened roof the panel's screws share what slides along it, and T/Ta + V/Va counts at each (linear, safe).
    """
    pulled = _pulled_and_sheared(job, demands)
    alone = _uplift(job, demands, demands.bare_fastening[demands.rib], demands.rib, "without the array")
    return worst_of([pulled, alone, _bearing(job, demands)])


def check_bare_fastening(job: Job, demands: Demands) -> Check:
    """What the roof has used before any array: every fastening of the slope, without the array."""
    return _uplift(job, demands, demands.bare_fastening, demands.bare_rib, "without the array")


def _title(job: Job) -> str:
    return job.roof.fastening_word


def _pulled_and_sheared(job: Job, demands: Demands) -> Check:
    pull = np.maximum(-demands.fastening, 0.0)
    can = resistances(strength(job.roof.fastening.uplift), demands.combinations)
    if job.roof.floats:
        return _worst(job, demands, pull, can, demands.rib, "with the array")
    if job.roof.fastening.in_plane is None:
        alone = _worst(job, demands, pull, can, demands.rib, "with the array")
        return replace(alone, note="shear from what slides along the panel not checked: no strength along the slope is stated")
    shear = np.abs(demands.panel_in_plane)[:, None, :] / len(demands.fastening_y)
    along = resistances(shear_strength(job.roof.fastening.in_plane), demands.combinations)
    return _worst(job, demands, pull + shear * can / along, can, demands.rib, "with the array, pulled and sheared")


def _uplift(job: Job, demands: Demands, signed: Floats, rib: Ints, case: str) -> Check:
    can = resistances(strength(job.roof.fastening.uplift), demands.combinations)
    return _worst(job, demands, np.maximum(-signed, 0.0), can, rib, case)


def _bearing(job: Job, demands: Demands) -> Check:
    if job.roof.fastening.bearing is None:
        return Check("roof_fastening", _title(job), "force", note="pushing down not checked: no bearing strength is stated")
    can = resistances(strength(job.roof.fastening.bearing), demands.combinations)
    return _worst(job, demands, np.maximum(demands.fastening, 0.0), can, demands.rib, "pushed down")


def _worst(job: Job, demands: Demands, demand: Floats, can: Floats, rib: Ints, case: str) -> Check:
    ribs, count = job.roof.ribs(job.building), len(demands.fastening_y)

    def place(item: int) -> Place:
        row, fastening = divmod(item, count)
        name = f"{job.roof.rib_word} {rib[row] + 1}, {case}"
        return Place(name, float(ribs[rib[row]]), float(demands.fastening_y[fastening]))

    flat = demand.reshape(-1, demand.shape[-1])
    return worst("roof_fastening", _title(job), "force", Asked(flat, np.broadcast_to(can, flat.shape)), demands.combinations, place)

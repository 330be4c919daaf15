"""The roof's own fastening: clip, or panel screws, at one rib and one support."""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np

from engine.common.arrays import Bools, Floats, Ints
from engine.links.check import Asked, Check, Place, resistances, worst, worst_of
from engine.load_path.demands import Demands
from engine.project.job import Job
from engine.strength import shear_strength, strength

BARE = "without the array"


def check_roof_fastening(demands: Demands) -> Check:
    """Uplift, with the array and without it, on the ribs that carry points; bearing where a value is stated."""
    cases = [_worst(demands, asked, demands.rib, case) for case, asked in asked_of_fastenings(demands).items()]
    unchecked = [Check("roof_fastening", _title(demands.job), "force", note=note) for note in _unchecked(demands.job)]
    return worst_of([*cases, *unchecked])


def check_bare_fastening(demands: Demands) -> Check:
    """What the roof has used before any array: every fastening of the slope, without the array."""
    every = np.arange(len(demands.roof.ribs))
    return _worst(demands, _bare(demands, every), every, BARE)


def asked_of_fastenings(demands: Demands) -> Mapping[str, Asked]:
    """What every fastening on the ribs that carry points is asked, case by case (R, F, C)."""
    job = demands.job
    with_array = "with the array, pulled and sheared" if _sheared(job) else "with the array"
    cases = {
        with_array: _pulled(demands, demands.fastening, demands.held, demands.panel_in_plane),
        BARE: _bare(demands, demands.rib),
    }
    if job.roof.fastening.bearing is not None:
        can = resistances(strength(job.roof.fastening.bearing), demands.combinations)
        cases["pushed down"] = Asked(np.maximum(demands.fastening, 0.0), can)
    return cases


def _title(job: Job) -> str:
    return job.roof.fastening_word


def _unchecked(job: Job) -> list[str]:
    fastening, notes = job.roof.fastening, []
    if not job.roof.floats and fastening.in_plane is None:
        notes.append("shear from what slides along the panel not checked: no strength along the slope is stated")
    if fastening.bearing is None:
        notes.append("pushing down not checked: no bearing strength is stated")
    return notes


def _sheared(job: Job) -> bool:
    """Whether the panel's screws share what slides along it, and their strength against that is stated."""
    return not job.roof.floats and job.roof.fastening.in_plane is not None


def _bare(demands: Demands, rib: Ints) -> Asked:
    """The fastenings of some ribs without the array."""
    roof = demands.roof
    return _pulled(demands, roof.bare[rib], roof.held[rib], roof.bare_in_plane[rib])


def _pulled(demands: Demands, signed: Floats, held: Bools, sliding: Floats) -> Asked:
    """The pull (R, F, C), and on a face-fastened roof what slides (R, C), shared by a rib's screws: T/Ta + V/Va at each (linear, safe)."""
    job, pull = demands.job, np.maximum(-signed, 0.0)
    can = resistances(strength(job.roof.fastening.uplift), demands.combinations)
    if not _sheared(job):
        return Asked(pull, can)
    shear = (held / np.maximum(held.sum(axis=1, keepdims=True), 1))[..., None] * np.abs(sliding)[:, None, :]
    return Asked(pull + shear * can / resistances(shear_strength(job.roof.fastening.in_plane or ()), demands.combinations), can)


def _worst(demands: Demands, asked: Asked, rib: Ints, case: str) -> Check:
    job, ribs = demands.job, demands.roof.ribs

    def place(row: int, fastening: int) -> Place:
        name = f"{job.roof.rib_word} {rib[row] + 1}, {case}"
        return Place(name, float(ribs[rib[row]]), float(demands.fastening_y[fastening]))

    return worst("roof_fastening", _title(job), "force", asked, demands.combinations, place)

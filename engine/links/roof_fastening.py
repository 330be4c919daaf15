"""The roof's own fastening: clip, or panel screws, at one rib and one support."""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np

from engine.common.arrays import Bools, Floats, Ints
from engine.links.check import Check, DemandOverResistance, Location, governing_check, governing_of, resistances
from engine.load_path.demands import Demands
from engine.project.job import Job
from engine.strength import shear_strength, strength

BARE = "without the array"


def check_roof_fastening(demands: Demands) -> Check:
    """Uplift, with the array and without it, on the ribs that carry points; bearing where a value is stated."""
    cases = [_governing(demands, ratios, demands.rib, case) for case, ratios in fastening_ratios(demands).items()]
    unchecked = [Check("roof_fastening", _title(demands.job), "force", note=note) for note in _unchecked(demands.job)]
    return governing_of([*cases, *unchecked])


def check_bare_fastening(demands: Demands) -> Check:
    """What the roof has used before any array: every fastening of the slope, without the array."""
    every = np.arange(len(demands.roof.ribs))
    return _governing(demands, _bare(demands, every), every, BARE)


def fastening_ratios(demands: Demands) -> Mapping[str, DemandOverResistance]:
    """What every fastening on the ribs that carry points is asked, case by case (R, F, C)."""
    job = demands.job
    with_array = "with the array, pulled and sheared" if _sheared(job) else "with the array"
    cases = {
        with_array: _pulled(demands, demands.fastening, demands.is_fastened, demands.panel_in_plane),
        BARE: _bare(demands, demands.rib),
    }
    if job.roof.fastening.bearing is not None:
        can = resistances(strength(job.roof.fastening.bearing), demands.combinations)
        cases["pushed down"] = DemandOverResistance(np.maximum(demands.fastening, 0.0), can)
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


def _bare(demands: Demands, rib: Ints) -> DemandOverResistance:
    """The fastenings of some ribs without the array."""
    roof = demands.roof
    return _pulled(demands, roof.without_array[rib], roof.is_fastened[rib], roof.in_plane_without_array[rib])


def _pulled(demands: Demands, signed: Floats, is_fastened: Bools, sliding: Floats) -> DemandOverResistance:
    """The pull (R, F, C), and on a face-fastened roof what slides (R, C), shared by a rib's screws: T/Ta + V/Va at each (linear, safe)."""
    job, pull = demands.job, np.maximum(-signed, 0.0)
    can = resistances(strength(job.roof.fastening.uplift), demands.combinations)
    if not _sheared(job):
        return DemandOverResistance(pull, can)
    shear = (is_fastened / np.maximum(is_fastened.sum(axis=1, keepdims=True), 1))[..., None] * np.abs(sliding)[
        :, None, :
    ]
    return DemandOverResistance(
        pull + shear * can / resistances(shear_strength(job.roof.fastening.in_plane or ()), demands.combinations), can
    )


def _governing(demands: Demands, ratios: DemandOverResistance, rib: Ints, case: str) -> Check:
    job, ribs = demands.job, demands.roof.ribs

    def place(row: int, fastening: int) -> Location:
        name = f"{job.roof.rib_word} {rib[row] + 1}, {case}"
        return Location(name, float(ribs[rib[row]]), float(demands.fastening_y[fastening]))

    return governing_check("roof_fastening", _title(job), "force", ratios, demands.combinations, place)

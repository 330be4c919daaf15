"""The roof around a field, before any layout: fastenings, what covers them, what the air asks of them."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from engine.common.arrays import Bools, Floats
from engine.common.combination import Combination
from engine.loads.interface import Loads
from engine.mounting.layout import Field, Rectangles
from engine.project.job import Job
from engine.statics.rib_bending import LoadedRibs, RibActions, RibMoments
from engine.statics.rib_supports import RibGroup, group_ribs


@dataclass(frozen=True, eq=False)
class RoofLoads:
    """Every rib Q of the slope and every level F at which ribs are fastened, in every combination C.

    `fastening_y` (F,) [m]; `rib_groups`: which ribs are fastened where, and `is_fastened` (Q, F) the same as yes and no:
    nothing is brought to a level where a rib is not fastened. `area` (Q, F) tributary to each fastening [m²],
    `covered_fraction` (Q, F) the part of it under modules [-]; `surface_force` (Q, F, C) what the air and bare
    snow bring to each tributary area with the array in place [N]; `without_array` (Q, F, C) the same
    without the array; `moments_without_array` its bending of every rib, on a solid
    deck from uplift alone; `sheet_and_snow_sliding` (Q, C) what each panel's own weight and the snow beside the modules push down
    the slope, `in_plane_without_array` (Q, C) what they do without modules [N].
    """

    ribs: Floats
    fastening_y: Floats
    rib_groups: tuple[RibGroup, ...]
    is_fastened: Bools
    area: Floats
    covered_fraction: Floats
    surface_force: Floats
    without_array: Floats
    moments_without_array: RibMoments
    sheet_and_snow_sliding: Floats
    in_plane_without_array: Floats


def factors(combinations: tuple[Combination, ...], case: str) -> Floats:
    """A case's factor in every combination, (C,)."""
    return np.array([combination.factors.get(case, 0.0) for combination in combinations])


def find_roof_loads(job: Job, field: Field, loads: Loads) -> RoofLoads:
    """Look at every fastening of the slope, with the field on it and without.

    Surface pressures go to fastenings by tributary area, as in the uplift test that a fastening's
    strength comes from (a stated choice); only the array's point loads go by the continuous beam.
    """
    ribs, (levels, rib_groups) = job.roof.ribs(job.building), group_ribs(job)
    shape = (len(ribs), len(levels))
    low, high = _stretches(rib_groups, shape)
    is_fastened = high > low
    left, right = _strips(job, ribs)
    area = (right - left)[:, None] * (high - low)
    covered_fraction = _overlap(field.outlines, left, right, low, high) / np.where(is_fastened, area, 1.0)
    tributary = Rectangles(
        *(np.broadcast_to(side, shape)[is_fastened] for side in (left[:, None], low, right[:, None], high))
    )
    combinations = loads.combinations
    slope = np.radians(job.building.slope)

    surface_force = np.zeros((*shape, len(combinations)))
    without_array = np.zeros_like(surface_force)
    for case in loads.wind_cases:
        factor = factors(combinations, case)
        alone = _spread(loads.cladding_pressure(case, tributary), is_fastened) * area
        beneath = loads.internal_pressure(case) * covered_fraction * area
        without_array += alone[..., None] * factor
        surface_force += (alone * (1 - covered_fraction) + beneath)[..., None] * factor
    sheet_and_snow_sliding = _own_weight(job, loads, area.sum(axis=1))
    in_plane_without_array = sheet_and_snow_sliding.copy()
    for case in loads.snow_cases:
        factor = factors(combinations, case)
        vertical = _spread(loads.snow_on_roof(case, tributary), is_fastened) * np.cos(slope) * area
        without_array += (vertical * np.cos(slope))[..., None] * factor
        surface_force += (vertical * np.cos(slope) * (1 - covered_fraction))[..., None] * factor
        sheet_and_snow_sliding += (vertical * np.sin(slope) * (1 - covered_fraction)).sum(axis=1)[:, None] * factor
        in_plane_without_array += (vertical * np.sin(slope)).sum(axis=1)[:, None] * factor

    moments_without_array = LoadedRibs(
        np.arange(len(ribs)), levels, rib_groups, RibActions.surface_only(bending_part(job, without_array))
    ).rib_moments
    return RoofLoads(
        ribs,
        levels,
        rib_groups,
        is_fastened,
        area,
        covered_fraction,
        surface_force,
        without_array,
        moments_without_array,
        sheet_and_snow_sliding,
        in_plane_without_array,
    )


def _own_weight(job: Job, loads: Loads, area: Floats) -> Floats:
    """What the weight of panels of some area (Q,) [m²], and an earthquake's part of it, push down the slope (Q, C) [N]."""
    slope, pushed = np.radians(job.building.slope), np.zeros(len(loads.combinations))
    for case, part in loads.weight_cases.items():
        pushed += (part.downward * np.sin(slope) + part.toward_eave * np.cos(slope)) * factors(loads.combinations, case)
    return job.roof.panel.weight * area[:, None] * pushed


def bending_part(job: Job, load: Floats) -> Floats:
    """The part of a load that a rib carries: on a solid deck the panel bears what presses down."""
    return np.minimum(load, 0.0) if job.roof.solid_deck else load


def _stretches(rib_groups: tuple[RibGroup, ...], shape: tuple[int, int]) -> tuple[Floats, Floats]:
    """From where to where each fastening holds its panel (Q, F) [m]; nothing where there is none."""
    low, high = np.zeros(shape), np.zeros(shape)
    for group in rib_groups:
        low[np.ix_(group.ribs, group.levels)] = group.low
        high[np.ix_(group.ribs, group.levels)] = group.high
    return low, high


def _strips(job: Job, ribs: Floats) -> tuple[Floats, Floats]:
    """Each rib's strip of the roof along x (Q,) [m]."""
    half = job.roof.rib_spacing / 2
    return np.maximum(ribs - half, 0.0), np.minimum(ribs + half, job.building.length)


def _spread(values: Floats, is_fastened: Bools) -> Floats:
    """Values of the fastenings there are, at their ribs and levels (Q, F)."""
    spread = np.zeros(is_fastened.shape)
    spread[is_fastened] = values
    return spread


def _overlap(outlines: Rectangles, left: Floats, right: Floats, low: Floats, high: Floats) -> Floats:
    """Area of modules over each tributary rectangle (Q, F) [m²]: lengths shared in x times lengths shared in y."""
    along = np.maximum(np.minimum(outlines.right, right[:, None]) - np.maximum(outlines.left, left[:, None]), 0.0)
    shared = np.zeros_like(low)
    rib_groups, rib = np.unique(np.concatenate([low, high], axis=1), axis=0, return_inverse=True)
    for number, stretch in enumerate(rib_groups):
        bottom, top = np.split(stretch[:, None], 2)
        up = np.maximum(np.minimum(outlines.high, top) - np.maximum(outlines.low, bottom), 0.0)
        shared[rib == number] = along[rib == number] @ up.T
    return shared

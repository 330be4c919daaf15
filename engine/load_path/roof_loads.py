"""Wind and snow on the roof itself, before any layout: forces on every fastening, with the array and without."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from engine.common.arrays import Bools, Floats
from engine.common.combination import Combination
from engine.common.tolerances import SAME_RATIO
from engine.loads.interface import Loads
from engine.mounting.layout import Field, Rectangles
from engine.project.job import Job
from engine.statics.rib_bending import LoadedRibs, RibActions, RibMoments
from engine.statics.rib_supports import RibGroup, group_ribs


@dataclass(frozen=True, eq=False)
class RoofLoads:
    """Loads on all ribs Q of the slope at all levels F at which any rib is fastened, in all combinations C.

    `fastening_y` (F,) [m]: the levels; `rib_groups`: ribs with the same fastening positions; `is_fastened` (Q, F): True
    if the rib is fastened at the level, else all forces there are 0. `area` (Q, F) [m²]: roof tributary to each
    fastening; `covered_fraction` (Q, F) [-]: the part of it under modules. `surface_force` (Q, F, C) [N]: wind and snow
    on the panel itself with the array in place; `without_array` (Q, F, C) [N]: the same without the array.
    `moments_without_array`: bending of every rib without the array, on a solid deck from uplift alone.
    `sheet_and_snow_sliding` (Q, C) [N]: load along the slope from each panel's own weight, the snow beside the modules
    and snow retention; `in_plane_without_array` (Q, C) [N]: the same without the array.
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
    """Factor of a load case in each combination (C,) [-]."""
    return np.array([combination.factors.get(case, 0.0) for combination in combinations])


def find_roof_loads(job: Job, field: Field, loads: Loads) -> RoofLoads:
    """Loads on every fastening of the slope, with the field on it and without.

    Surface pressures go to fastenings by tributary area, as in the uplift test that a fastening's strength comes from
    (a stated choice); only the forces of attachments are distributed by the continuous beam.
    """
    ribs, (levels, rib_groups) = job.roof.ribs(job.building), group_ribs(job)
    tributary = _TributaryAreas.of_roof(job, field, ribs, rib_groups, len(levels))
    wind, wind_without_array = _wind_forces(loads, tributary)
    snow_beside_modules, snow = _snow_forces(job, loads, tributary)
    along_slope = _own_weight(job, loads, tributary.area.sum(axis=1)) + _snow_retention(job, loads, ribs)
    slope = np.radians(job.building.slope)
    without_array = wind_without_array + snow * np.cos(slope)
    every_rib = np.arange(len(ribs))
    roof_alone = RibActions.surface_only(bending_part(job, without_array))
    return RoofLoads(
        ribs=ribs,
        fastening_y=levels,
        rib_groups=rib_groups,
        is_fastened=tributary.is_fastened,
        area=tributary.area,
        covered_fraction=tributary.covered_fraction,
        surface_force=wind + snow_beside_modules * np.cos(slope),
        without_array=without_array,
        moments_without_array=LoadedRibs(every_rib, levels, rib_groups, roof_alone).rib_moments,
        sheet_and_snow_sliding=along_slope + (snow_beside_modules * np.sin(slope)).sum(axis=1),
        in_plane_without_array=along_slope + (snow * np.sin(slope)).sum(axis=1),
    )


@dataclass(frozen=True, eq=False)
class _TributaryAreas:
    """Roof area tributary to each fastening of ribs Q at levels F.

    `is_fastened` (Q, F); `area` (Q, F) [m²] and `covered_fraction` (Q, F) [-], 0 where a rib is not fastened;
    `rectangles` (n,) are those of the fastenings that exist, in the order of `is_fastened`.
    """

    is_fastened: Bools
    area: Floats
    covered_fraction: Floats
    rectangles: Rectangles

    @classmethod
    def of_roof(
        cls, job: Job, field: Field, ribs: Floats, rib_groups: tuple[RibGroup, ...], levels: int
    ) -> _TributaryAreas:
        """The tributary areas of a roof, and the part of each under the field's modules."""
        shape = (len(ribs), levels)
        low, high = _stretches(rib_groups, shape)
        left, right = _strips(job, ribs)
        is_fastened = high > low
        area = (right - left)[:, None] * (high - low)
        covered_fraction = _overlap(field.outlines, left, right, low, high) / np.where(is_fastened, area, 1.0)
        sides = left[:, None], low, right[:, None], high
        rectangles = Rectangles(*(np.broadcast_to(side, shape)[is_fastened] for side in sides))
        return cls(is_fastened, area, covered_fraction, rectangles)

    @property
    def uncovered_fraction(self) -> Floats:
        """Part of each area beside the modules (Q, F) [-]."""
        return 1 - self.covered_fraction

    def spread(self, values: Floats) -> Floats:
        """Values of the fastenings that exist (n,) at their ribs and levels (Q, F), 0 elsewhere."""
        spread = np.zeros(self.is_fastened.shape)
        spread[self.is_fastened] = values
        return spread


def _wind_forces(loads: Loads, tributary: _TributaryAreas) -> tuple[Floats, Floats]:
    """Wind force on each fastening's area with the array and without it, (Q, F, C) each [N].

    Under modules only the internal pressure acts on the panel: the rest of the wind acts on the modules.
    """
    with_array = np.zeros((*tributary.area.shape, len(loads.combinations)))
    without_array = np.zeros_like(with_array)
    for case in loads.wind_cases:
        factor = factors(loads.combinations, case)
        cladding = tributary.spread(loads.cladding_pressure(case, tributary.rectangles)) * tributary.area
        internal = loads.internal_pressure(case) * tributary.covered_fraction * tributary.area
        without_array += cladding[..., None] * factor
        with_array += (cladding * tributary.uncovered_fraction + internal)[..., None] * factor
    return with_array, without_array


def _snow_forces(job: Job, loads: Loads, tributary: _TributaryAreas) -> tuple[Floats, Floats]:
    """Vertical snow load on each fastening's area beside modules and without them, (Q, F, C) each [N].

    Snow counts per horizontal area.
    """
    horizontal_area = np.cos(np.radians(job.building.slope)) * tributary.area
    places = tributary.rectangles
    partly = (tributary.covered_fraction > SAME_RATIO)[tributary.is_fastened]
    beside = np.zeros((*tributary.area.shape, len(loads.combinations)))
    without_array = np.zeros_like(beside)
    for case in loads.snow_cases:
        factor = factors(loads.combinations, case)
        alone, free = loads.snow_on_roof(case, places), loads.snow_beside_modules(case, places, partly)
        without_array += (tributary.spread(alone) * horizontal_area)[..., None] * factor
        beside += (tributary.spread(free) * horizontal_area)[..., None] * factor
    return beside * tributary.uncovered_fraction[..., None], without_array


def _own_weight(job: Job, loads: Loads, area: Floats) -> Floats:
    """Load along the slope from the own weight of panels of `area` (Q,) [m²], with its seismic parts (Q, C) [N]."""
    slope, along_slope = np.radians(job.building.slope), np.zeros(len(loads.combinations))
    for case, part in loads.weight_cases.items():
        per_weight = part.downward * np.sin(slope) + part.toward_eave * np.cos(slope)
        along_slope += per_weight * factors(loads.combinations, case)
    return job.roof.panel.weight * area[:, None] * along_slope


def _snow_retention(job: Job, loads: Loads, ribs: Floats) -> Floats:
    """Load along the slope from snow retention on each panel (Q, C) [N], in every combination with snow.

    It is added to the snow on the panel itself, although a line holds part of that (loadpath's choice, safe).
    """
    snow = np.sum([factors(loads.combinations, case) for case in loads.snow_cases], axis=0)
    left, right = _strips(job, ribs)
    loads_of_lines = sum(line.load for line in job.roof.snow_retention)
    return np.outer((right - left) * loads_of_lines, np.broadcast_to(snow, len(loads.combinations)))


def bending_part(job: Job, load: Floats) -> Floats:
    """Part of a load normal to the roof that bends ribs: on a solid deck only uplift, the deck carries down load."""
    return np.minimum(load, 0.0) if job.roof.solid_deck else load


def _stretches(rib_groups: tuple[RibGroup, ...], shape: tuple[int, int]) -> tuple[Floats, Floats]:
    """Lower and upper end of the stretch that each fastening holds, (Q, F) each [m]; both 0 if there is none."""
    low, high = np.zeros(shape), np.zeros(shape)
    for group in rib_groups:
        low[np.ix_(group.ribs, group.levels)] = group.low
        high[np.ix_(group.ribs, group.levels)] = group.high
    return low, high


def _strips(job: Job, ribs: Floats) -> tuple[Floats, Floats]:
    """Left and right end of each rib's strip of roof, (Q,) each [m]."""
    half = job.roof.rib_spacing / 2
    return np.maximum(ribs - half, 0.0), np.minimum(ribs + half, job.building.length)


def _overlap(outlines: Rectangles, left: Floats, right: Floats, low: Floats, high: Floats) -> Floats:
    """Area of modules over each tributary rectangle (Q, F) [m²].

    It is the sum over modules of the length shared along x times the length shared up the slope. Ribs with the same
    stretches are treated together, as one matrix product.

    Args:
        outlines: the modules (n,).
        left: left ends of the ribs' strips (Q,) [m].
        right: their right ends (Q,) [m].
        low: lower ends of the fastenings' stretches (Q, F) [m].
        high: their upper ends (Q, F) [m].
    """
    along = np.maximum(np.minimum(outlines.right, right[:, None]) - np.maximum(outlines.left, left[:, None]), 0.0)
    shared = np.zeros_like(low)
    different, group = np.unique(np.concatenate([low, high], axis=1), axis=0, return_inverse=True)
    for number, stretches in enumerate(different):
        bottom, top = np.split(stretches[:, None], 2)
        up_slope = np.maximum(np.minimum(outlines.high, top) - np.maximum(outlines.low, bottom), 0.0)
        shared[group == number] = along[group == number] @ up_slope.T
    return shared

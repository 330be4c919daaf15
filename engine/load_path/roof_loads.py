"""Wind and snow on the roof itself, before any layout: forces on every fastening, with the array and without."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from engine.common.arrays import Bools, Floats
from engine.common.combination import Combination
from engine.common.tolerances import SAME_RATIO
from engine.load_path.tributary_areas import TributaryAreas, strips_of_ribs
from engine.loads.interface import Loads
from engine.mounting.layout import Field
from engine.project.job import Job
from engine.statics.rib_bending import LoadedRibs, RibActions, RibMoments
from engine.statics.rib_supports import RibGroup, group_ribs


@dataclass(frozen=True, eq=False)
class SurfaceCase:
    """Force of one load case on the panel over each fastening, with the array and without, (Q, F) each [N]."""

    case: str
    with_array: Floats
    without_array: Floats

    def times(self, factor: float) -> SurfaceCase:
        """The same case, all its forces times a factor."""
        return SurfaceCase(self.case, self.with_array * factor, self.without_array * factor)


@dataclass(frozen=True, eq=False)
class MemberSurface:
    """Wind, snow and weight of the roof itself at each fastening (F, Q, C) each [N], as members carry them.

    With the array, and without. Wind is that of the member's effective wind area; if its spans are unknown, of a
    fastening's.
    """

    with_array: Floats
    without_array: Floats


@dataclass(frozen=True, eq=False)
class RoofLoads:
    """Loads on all ribs Q of the slope at all levels F at which any rib is fastened, in all combinations C.

    `fastening_y` (F,) [m]: the levels; `rib_groups`: ribs with the same fastening positions; `is_fastened` (Q, F): True
    if the rib is fastened at the level, else all forces there are 0. `area` (Q, F) [m²]: roof tributary to each
    fastening; `covered_fraction` (Q, F) [-]: the part of it under modules. `surface`: the cases of wind and snow
    normal to the roof; `surface_force` (Q, F, C) [N]: their sums with the array in place; `without_array` (Q, F, C)
    [N]: the same without the array.
    `moments_without_array`: bending of every rib without the array, on a solid deck from uplift alone.
    `sheet_and_snow_sliding` (Q, C) [N]: load along the slope from each panel's own weight, the snow beside the modules
    and snow retention; `in_plane_without_array` (Q, C) [N]: the same without the array. `on_members` is
    None on a deck whose joists or rafters are not stated.
    """

    ribs: Floats
    fastening_y: Floats
    rib_groups: tuple[RibGroup, ...]
    is_fastened: Bools
    area: Floats
    covered_fraction: Floats
    surface: tuple[SurfaceCase, ...]
    surface_force: Floats
    without_array: Floats
    moments_without_array: RibMoments
    sheet_and_snow_sliding: Floats
    in_plane_without_array: Floats
    on_members: MemberSurface | None = None


def factors(combinations: tuple[Combination, ...], case: str) -> Floats:
    """Factor of a load case in each combination (C,) [-]."""
    return np.array([combination.factors.get(case, 0.0) for combination in combinations])


def find_roof_loads(job: Job, field: Field, loads: Loads) -> RoofLoads:
    """Loads on every fastening of the slope, with the field on it and without.

    Surface pressures go to fastenings by tributary area, as in the uplift test that a fastening's strength comes from
    (a stated choice); only the forces of attachments are distributed by the continuous beam.
    """
    ribs, (levels, rib_groups) = job.roof.ribs(job.building), group_ribs(job)
    tributary = TributaryAreas.of_roof(job, field, ribs, rib_groups, len(levels))
    snow = tuple(_snow_forces(job, loads, tributary))
    sliding, sliding_alone = (each.sum(axis=1) for each in _combined(loads, snow, tributary.area.shape))
    along_slope = _own_weight(job, loads, tributary.area.sum(axis=1)) + _snow_retention(job, loads, ribs)
    slope = np.radians(job.building.slope)
    normal_snow = tuple(each.times(float(np.cos(slope))) for each in snow)
    surface = (*_wind_forces(loads, tributary), *normal_snow)
    surface_force, without_array = _combined(loads, surface, tributary.area.shape)
    every_rib = np.arange(len(ribs))
    roof_alone = RibActions.surface_only(bending_part(job, without_array))
    return RoofLoads(
        ribs=ribs,
        fastening_y=levels,
        rib_groups=rib_groups,
        is_fastened=tributary.is_fastened,
        area=tributary.area,
        covered_fraction=tributary.covered_fraction,
        surface=surface,
        surface_force=surface_force,
        without_array=without_array,
        moments_without_array=LoadedRibs(every_rib, levels, rib_groups, roof_alone).rib_moments,
        sheet_and_snow_sliding=along_slope + sliding * np.sin(slope),
        in_plane_without_array=along_slope + sliding_alone * np.sin(slope),
        on_members=_on_members(job, loads, tributary, ribs, levels, normal_snow, (surface_force, without_array)),
    )


def _on_members(
    job: Job,
    loads: Loads,
    tributary: TributaryAreas,
    ribs: Floats,
    levels: Floats,
    snow: tuple[SurfaceCase, ...],
    on_fastenings: tuple[Floats, Floats],
) -> MemberSurface | None:
    """Wind, snow and the roof's own weight as members carry them; None on a deck whose members are not stated.

    Wind acts at the effective areas of the members where their spans are stated; else their forces are those
    `on_fastenings`, with the array and without it (Q, F, C) [N].
    """
    if job.roof.stated_member:
        x, y = np.broadcast_arrays(ribs[:, None], levels)
        areas = member_wind_areas(job, x, y)[tributary.is_fastened]
        surface = (*_wind_forces(loads, tributary, areas), *snow)
        on_fastenings = _combined(loads, surface, tributary.area.shape)
    elif job.roof.solid_deck:
        return None
    slope, weight = np.radians(job.building.slope), job.roof.dead_load * tributary.area[..., None]
    dead = np.zeros(len(loads.combinations))
    for case, part in loads.weight_cases.items():
        dead += (part.downward * np.cos(slope) - part.toward_eave * np.sin(slope)) * factors(loads.combinations, case)
    return MemberSurface(*((each + weight * dead).swapaxes(0, 1) for each in on_fastenings))


def member_wind_areas(job: Job, x: Floats, y: Floats) -> Floats:
    """Effective wind area of the member below each place x, y [m]: its span times a third of it, §26.2 [m²].

    Raises:
        ValueError: the members' spans are not stated.
    """
    if job.roof.stated_member is None:
        raise ValueError("the spans of the members are unknown")
    up_slope = job.roof.members_up_slope
    supports = job.roof.stated_member.supports(job.building, up_slope=up_slope)
    bay = np.clip(np.searchsorted(supports, y if up_slope else x, side="right") - 1, 0, len(supports) - 2)
    area: Floats = np.diff(supports)[bay] ** 2 / 3
    return area


def _combined(loads: Loads, cases: tuple[SurfaceCase, ...], shape: tuple[int, ...]) -> tuple[Floats, Floats]:
    """Forces in all combinations with the array and without it, (Q, F, C) each [N]."""
    with_array = np.zeros((*shape, len(loads.combinations)))
    without_array = np.zeros_like(with_array)
    for each in cases:
        factor = factors(loads.combinations, each.case)
        with_array += each.with_array[..., None] * factor
        without_array += each.without_array[..., None] * factor
    return with_array, without_array


def _wind_forces(loads: Loads, tributary: TributaryAreas, area: Floats | None = None) -> Iterator[SurfaceCase]:
    """Wind on each fastening's area, case by case.

    Under modules only the pressure from below acts on the panel: the rest of the wind acts on the modules.

    Args:
        loads: the loads.
        tributary: the roof that each fastening holds.
        area: effective wind area of each fastening that exists (n,) [m²]; None for its own tributary area.
    """
    for case in loads.wind_cases:
        pressure = loads.cladding_pressure(case, tributary.rectangles, area=area)
        cladding = tributary.spread(pressure) * tributary.area
        from_below = loads.pressure_below_panel(case, tributary.rectangles, tributary.area[tributary.is_fastened])
        under_modules = tributary.spread(from_below) * tributary.covered_fraction * tributary.area
        yield SurfaceCase(case, cladding * tributary.uncovered_fraction + under_modules, cladding)


def _snow_forces(job: Job, loads: Loads, tributary: TributaryAreas) -> Iterator[SurfaceCase]:
    """Vertical snow load on each fastening's area, case by case; snow counts per horizontal area."""
    horizontal_area = np.cos(np.radians(job.building.slope)) * tributary.area
    places = tributary.rectangles
    partly = (tributary.covered_fraction > SAME_RATIO)[tributary.is_fastened]
    for case in loads.snow_cases:
        alone = tributary.spread(loads.snow_on_roof(case, places)) * horizontal_area
        beside = tributary.spread(loads.snow_beside_modules(case, places, partly)) * horizontal_area
        yield SurfaceCase(case, beside * tributary.uncovered_fraction, alone)


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
    left, right = strips_of_ribs(job, ribs)
    loads_of_lines = sum(line.load for line in job.roof.snow_retention)
    return np.outer((right - left) * loads_of_lines, np.broadcast_to(snow, len(loads.combinations)))


def bending_part(job: Job, load: Floats) -> Floats:
    """Part of a load normal to the roof that bends ribs: on a solid deck only uplift, the deck carries down load."""
    return np.minimum(load, 0.0) if job.roof.solid_deck else load

"""Wind and snow on the roof itself with an array on it, before any layout: forces on every fastening."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from engine.common.arrays import Floats
from engine.common.tolerances import SAME_RATIO
from engine.load_path.bare_roof import BareRoof, combined, member_areas_of_fastenings, on_members
from engine.loads.interface import Loads
from engine.mounting.layout import Field
from engine.project.job import Job


@dataclass(frozen=True, eq=False)
class RoofLoads(BareRoof):
    """The bare roof and the loads on it under an array; axes as in `BareRoof`.

    `covered_fraction` (Q, F) [-]: the part of each fastening's area under modules. `cases`: wind and snow of each case
    normal to the roof (Q, F) [N]; `surface_force` (Q, F, C) [N]: their sums. `sheet_and_snow_sliding` (Q, C) [N]: load
    along the slope from each panel's own weight, the snow beside the modules and snow retention. `members_with_array`
    (F, Q, C) [N]: as `members_alone`.
    """

    covered_fraction: Floats
    cases: Mapping[str, Floats]
    surface_force: Floats
    sheet_and_snow_sliding: Floats
    members_with_array: Floats | None


def find_roof_loads(job: Job, field: Field, loads: Loads, bare: BareRoof) -> RoofLoads:
    """Loads on every fastening of the slope with the field on it."""
    slope, tributary = np.radians(job.building.slope), bare.tributary
    covered = tributary.covered_fraction(field)
    snow = {case: _snow_beside(job, loads, bare, covered, case) for case in loads.snow_cases}
    normal_snow = {case: force * float(np.cos(slope)) for case, force in snow.items()}
    cases = {case: _wind(loads, bare, covered, case) for case in loads.wind_cases} | normal_snow
    surface_force = combined(loads, cases, tributary.area.shape)
    snow_in_plane = combined(loads, snow, tributary.area.shape).sum(axis=1) * np.sin(slope)
    return RoofLoads(
        **vars(bare),
        covered_fraction=covered,
        cases=cases,
        surface_force=surface_force,
        sheet_and_snow_sliding=bare.panel_sliding + snow_in_plane,
        members_with_array=_members_with_array(job, loads, bare, covered, normal_snow, surface_force),
    )


def _members_with_array(
    job: Job, loads: Loads, bare: BareRoof, covered: Floats, snow: Mapping[str, Floats], surface: Floats
) -> Floats | None:
    """Wind, snow and the roof's own weight as members carry them (F, Q, C) [N].

    Wind acts at the effective areas of the members where their spans are stated; else their forces are those on the
    fastenings, `surface` (Q, F, C) [N].
    """
    if job.roof.stated_member is None:
        return on_members(job, loads, bare.tributary, surface)
    areas = member_areas_of_fastenings(job, bare.tributary, bare.ribs, bare.fastening_y)
    wind = {case: _wind(loads, bare, covered, case, areas) for case in loads.wind_cases}
    return on_members(job, loads, bare.tributary, combined(loads, wind | dict(snow), surface.shape[:2]))


def _wind(loads: Loads, bare: BareRoof, covered: Floats, case: str, area: Floats | None = None) -> Floats:
    """Wind of a case on each fastening's area (Q, F) [N].

    Under modules only the pressure from below acts on the panel: the rest of the wind acts on the modules.

    Args:
        loads: the loads.
        bare: the roof without the array.
        covered: part of each fastening's area under modules (Q, F) [-].
        case: the wind case.
        area: effective wind area of each fastening that exists (n,) [m²]; None for its own tributary area.
    """
    tributary = bare.tributary
    from_below = loads.pressure_below_panel(case, tributary.rectangles, tributary.area[tributary.is_fastened])
    under_modules = tributary.spread(from_below) * covered * tributary.area
    alone = bare.cases_alone[case] if area is None else tributary.wind(loads, case, area)
    return alone * (1 - covered) + under_modules


def _snow_beside(job: Job, loads: Loads, bare: BareRoof, covered: Floats, case: str) -> Floats:
    """Vertical snow load on each fastening's area beside modules (Q, F) [N]; snow counts per horizontal area."""
    tributary, partly = bare.tributary, (covered > SAME_RATIO)[bare.is_fastened]
    snow = tributary.spread(loads.snow_beside_modules(case, tributary.rectangles, partly))
    horizontal_area = float(np.cos(np.radians(job.building.slope))) * tributary.area
    return snow * horizontal_area * (1 - covered)

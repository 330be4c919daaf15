"""The roof of a job without any array: its fastenings, and wind, snow and weight on each."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from engine.common.arrays import Bools, Floats
from engine.common.combination import Combination
from engine.load_path.tributary_areas import TributaryAreas, strips_of_ribs
from engine.loads.interface import Loads
from engine.project.job import Job
from engine.statics.rib_bending import LoadedRibs, RibActions
from engine.statics.rib_supports import RibGroup, group_ribs


@dataclass(frozen=True, eq=False)
class BareRoof:
    """All ribs Q of the slope at all levels F at which any rib is fastened, and their loads in all combinations C.

    `ribs` (Q,) and `fastening_y` (F,) [m]; `rib_groups`: ribs with the same fastening positions; `is_fastened` (Q, F):
    True if the rib is fastened at the level, else all forces there are 0; `tributary`: the roof that each fastening
    holds, of `area` (Q, F) [m²]. `cases_alone`: wind and snow of each case normal to the roof (Q, F) [N];
    `without_array` (Q, F, C) [N]: their sums. `alone`: every rib under them, on a solid deck under uplift alone.
    `panel_sliding` (Q, C) [N]: load along the slope from each panel's own weight and snow retention;
    `in_plane_without_array` (Q, C) [N]: the same with the snow on the panel. `members_alone` (F, Q, C) [N]: wind, snow
    and weight of the roof as members carry them; None on a deck whose joists or rafters are not stated.
    """

    ribs: Floats
    fastening_y: Floats
    rib_groups: tuple[RibGroup, ...]
    tributary: TributaryAreas
    cases_alone: Mapping[str, Floats]
    without_array: Floats
    alone: LoadedRibs
    panel_sliding: Floats
    in_plane_without_array: Floats
    members_alone: Floats | None

    @property
    def is_fastened(self) -> Bools:
        """True if a rib is fastened at a level (Q, F)."""
        return self.tributary.is_fastened

    def same_as(self, other: BareRoof) -> bool:
        """True if ribs and loads are equal: methods of a job differ where their modules change the snow on the roof."""
        names = ("ribs", "without_array", "in_plane_without_array", "members_alone")  # the last may be None for both
        return all(np.array_equal(getattr(self, name), getattr(other, name)) for name in names)

    @property
    def area(self) -> Floats:
        """Roof tributary to each fastening (Q, F) [m²]."""
        return self.tributary.area


def factors(combinations: tuple[Combination, ...], case: str) -> Floats:
    """Factor of a load case in each combination (C,) [-]."""
    return np.array([combination.factors.get(case, 0.0) for combination in combinations])


def find_bare_roof(job: Job, loads: Loads) -> BareRoof:
    """Loads on every fastening of the slope without an array.

    Surface pressures go to fastenings by tributary area, as in the uplift test that a fastening's strength comes from
    (a stated choice); only the forces of attachments are distributed by the continuous beam.
    """
    ribs, (levels, rib_groups) = job.ribs, group_ribs(job)
    tributary, slope = TributaryAreas.of_roof(job, ribs, rib_groups, len(levels)), np.radians(job.building.slope)
    snow = {case: _snow_alone(job, loads, tributary, case) for case in loads.snow_cases}
    normal_snow = {case: force * float(np.cos(slope)) for case, force in snow.items()}
    cases = {case: tributary.wind(loads, case) for case in loads.wind_cases} | normal_snow
    without_array = combined(loads, cases, tributary.area.shape)
    sliding = _own_weight(job, loads, tributary.area.sum(axis=1)) + _snow_retention(job, loads, ribs)
    snow_in_plane = combined(loads, snow, tributary.area.shape).sum(axis=1) * np.sin(slope)
    actions = RibActions.surface_only(bending_part(job, without_array))
    return BareRoof(
        ribs=ribs,
        fastening_y=levels,
        rib_groups=rib_groups,
        tributary=tributary,
        cases_alone=cases,
        without_array=without_array,
        alone=LoadedRibs(np.arange(len(ribs)), levels, rib_groups, actions),
        panel_sliding=sliding,
        in_plane_without_array=sliding + snow_in_plane,
        members_alone=_members_alone(job, loads, tributary, (ribs, levels), normal_snow, without_array),
    )


def combined(loads: Loads, cases: Mapping[str, Floats], shape: tuple[int, ...]) -> Floats:
    """Sums of the forces of cases (Q, F) in all combinations (Q, F, C) [N]."""
    total = np.zeros((*shape, len(loads.combinations)))
    for case, force in cases.items():
        total += force[..., None] * factors(loads.combinations, case)
    return total


def _snow_alone(job: Job, loads: Loads, tributary: TributaryAreas, case: str) -> Floats:
    """Vertical snow load on each fastening's area without the array (Q, F) [N]; snow counts per horizontal area."""
    snow = tributary.spread(loads.snow_on_roof(case, tributary.rectangles))
    return snow * (float(np.cos(np.radians(job.building.slope))) * tributary.area)


def _members_alone(
    job: Job,
    loads: Loads,
    tributary: TributaryAreas,
    at: tuple[Floats, Floats],
    snow: Mapping[str, Floats],
    alone: Floats,
) -> Floats | None:
    """Wind, snow and the roof's own weight as members carry them without the array (F, Q, C) [N], see `on_members`."""
    if job.roof.stated_member is None:
        return on_members(job, loads, tributary, alone)
    areas = member_areas_of_fastenings(job, tributary, *at)
    wind = {case: tributary.wind(loads, case, areas) for case in loads.wind_cases}
    return on_members(job, loads, tributary, combined(loads, wind | dict(snow), tributary.area.shape))


def on_members(job: Job, loads: Loads, tributary: TributaryAreas, surface: Floats) -> Floats | None:
    """Forces of wind and snow at every fastening (Q, F, C), with the roof's own weight, at its members (F, Q, C) [N].

    None on a deck whose joists or rafters are not stated.
    """
    if job.roof.solid_deck and job.roof.stated_member is None:
        return None
    slope, weight = np.radians(job.building.slope), job.roof.dead_load * tributary.area[..., None]
    dead = np.zeros(len(loads.combinations))
    for case, part in loads.weight_cases.items():
        dead += (part.downward * np.cos(slope) - part.toward_eave * np.sin(slope)) * factors(loads.combinations, case)
    forces: Floats = (surface + weight * dead).swapaxes(0, 1)
    return forces


def member_areas_of_fastenings(job: Job, tributary: TributaryAreas, ribs: Floats, levels: Floats) -> Floats:
    """Effective wind area of the member below each fastening that exists (n,) [m²]."""
    x, y = np.broadcast_arrays(ribs[:, None], levels)
    return member_wind_areas(job, x, y)[tributary.is_fastened]


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

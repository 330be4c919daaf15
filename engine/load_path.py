"""From modules to fastenings: influence x pressure, members, seams, fastenings.

Signs: normal to the roof positive toward it; in the plane positive down the slope.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from engine.arrays import Floats, Ints, grouped, summed
from engine.bent import Acting, Bent, bend
from engine.bill import Bill
from engine.demands import Demands, MemberDemands
from engine.fastened import SAME_LEVEL, Fastened
from engine.job import Job
from engine.layout import Field, Layout
from engine.loads import Loads
from engine.reference import Recorder, silent
from engine.roof_state import RoofState, bent_by, factors
from engine.units import GRAVITY

LEAST_AREA = 0.01
"""Effective wind areas are not taken smaller than this [m²]; every curve is flat long before."""


@dataclass(frozen=True, eq=False)
class ModuleForces:
    """What each module gives in each load case: forces normal to the roof and down the slope.

    `weight` is one module's vertical dead weight, its share of the hardware included [N].
    """

    field: Field
    loads: Loads
    slope: float
    weight: float

    def of(self, case: str, module: Ints, area: Floats, record: Recorder = silent) -> tuple[Floats, Floats]:
        """Forces of the modules named, for effective wind areas [m²]: (normal, down the slope) [N].

        Wind acts normal to the module, weight and snow act vertically; snow counts per horizontal area.
        """
        if case in self.loads.wind_cases:
            tilt = np.radians(self.field.attitude.tilt)
            force = self.loads.wind(case, module, area, record) * self.field.area
            return force * np.cos(tilt), -force * np.sin(tilt)
        if record is not silent:
            self._gravity(case, module, self.weight, record)
        normal, in_plane = self._steady[case]
        return normal[module], in_plane[module]

    @cached_property
    def _steady(self) -> dict[str, tuple[Floats, Floats]]:
        """What does not depend on an effective area, of every module, case by case."""
        every, slope = np.arange(self.field.modules), np.radians(self.slope)
        forces = {}
        for case in (*self.loads.weight_cases, *self.loads.snow_cases):
            downward, toward_eave = self._gravity(case, every, self.weight)
            forces[case] = (
                downward * np.cos(slope) - toward_eave * np.sin(slope),
                downward * np.sin(slope) + toward_eave * np.cos(slope),
            )
        return forces

    def _gravity(self, case: str, module: Ints, weight: float, record: Recorder = silent) -> tuple[Floats, Floats]:
        """What acts upright and horizontally toward the eave: parts of the weight, or snow [N]."""
        if case in self.loads.weight_cases:
            part = self.loads.weight_cases[case]
            for step in part.steps:
                record(step)
            return np.full(len(module), part.downward * weight), np.full(len(module), part.toward_eave * weight)
        to_horizontal = np.radians(self.slope + self.field.attitude.tilt)
        snow: Floats = self.loads.snow(case, module, record) * self.field.area * np.cos(to_horizontal)
        return snow, np.zeros(len(module))

    def across(self, case: str) -> float:
        """What each module gives along the eave [N]: an earthquake's part of its weight."""
        part = self.loads.weight_cases.get(case)
        return part.across * self.weight if part else 0.0

    def pressure(self, case: str, own_weight: float) -> Floats:
        """What presses on every module itself, normal to it [Pa]: for its maker's rating."""
        every = np.arange(self.field.modules)
        if case in self.loads.wind_cases:
            return self.loads.wind(case, every, np.full(len(every), self.field.area))
        to_horizontal = np.radians(self.slope + self.field.attitude.tilt)
        downward, toward_eave = self._gravity(case, every, own_weight)
        pressure: Floats = (downward * np.cos(to_horizontal) - toward_eave * np.sin(to_horizontal)) / self.field.area
        return pressure


def trace(job: Job, field: Field, loads: Loads, roof: RoofState, layout: Layout, bill: Bill) -> Demands:
    """Follow wind, snow and weight of one layout from the modules to the fastenings."""
    weight = bill.mass * GRAVITY / field.modules
    forces = ModuleForces(field, loads, job.building.slope, weight)
    cases = (*loads.weight_cases, *loads.snow_cases, *loads.wind_cases)
    factor = np.stack([factors(loads.combinations, case) for case in cases])

    area = point_areas(field, layout)
    by_case = {case: point_forces(forces, layout, case, area) for case in cases}
    normal = np.stack([by_case[case][0] for case in cases], axis=1) @ factor
    in_plane = np.stack([by_case[case][1] for case in cases], axis=1) @ factor

    on_module = np.stack([forces.pressure(case, job.module.mass * GRAVITY) for case in cases], axis=1) @ factor
    clamp, clamp_place = _clamps(forces, layout, cases, factor, normal)
    rib, from_points, bent = _ribs(job, roof, layout, normal, in_plane)
    sliding = np.stack([summed(layout.points.rib, column, len(roof.ribs)) for column in in_plane.T], axis=1)
    if job.hardware.bracket == "structure":  # nothing of the array's reaches the sheet
        sliding, on_sheet = np.zeros_like(sliding), np.zeros_like(on_module)
    else:
        on_sheet = on_module
    inside = sum(loads.inside_wind(case) * factors(loads.combinations, case) for case in loads.wind_cases)
    bay = float((roof.area * roof.covered).max())
    return Demands(
        combinations=loads.combinations,
        dead_pressure=bill.pressure_on(field),
        module_pressure=on_module,
        clamp=clamp,
        clamp_place=clamp_place,
        members=tuple(_members(forces, layout, cases, factor)),
        point_area=area,
        point_normal=normal,
        point_in_plane=in_plane,
        point_across=_across(forces, layout),
        point_cases=by_case,
        rib=rib,
        fastening_y=roof.fastening_y,
        held=roof.held[rib],
        fastening_points=from_points,
        fastening_surface=bent_by(job, roof.surface[rib]),
        covered=roof.covered[rib],
        bare_rib=np.arange(len(roof.ribs)),
        bare_fastening=roof.bare,
        bare_held=roof.held,
        bare_in_plane=roof.bare_in_plane,
        bent=bent,
        bare_bent=roof.bare_bent,
        panel_in_plane=(sliding + roof.snow_in_plane)[rib],
        bound=bay * ((on_sheet.min(axis=0) * np.cos(np.radians(field.attitude.tilt))) + inside),
    )


def _across(forces: ModuleForces, layout: Layout) -> Floats:
    """What every point gets along the eave, across its rib (P, C) [N]: shared like the in-plane force."""
    shared = summed(layout.influence.point, layout.influence.in_plane, len(layout.points))
    along = [sum(factor * forces.across(case) for case, factor in combination.factors.items()) for combination in forces.loads.combinations]
    across: Floats = shared[:, None] * np.array(along)
    return across


def point_areas(field: Field, layout: Layout) -> Floats:
    """Each point's own effective wind area [m²]: its reaction under unit uniform pressure (§26.2)."""
    influence = layout.influence
    area = summed(influence.point, influence.tributary, len(layout.points)) * field.area
    return effective(area)


def effective(area: Floats) -> Floats:
    """Areas that curves can be read at [m²]: shares keep their sign, so where a far load relieves they may sum to less than nothing."""
    return np.maximum(area, LEAST_AREA)


def point_forces(
    forces: ModuleForces, layout: Layout, case: str, area: Floats, entries: Ints | None = None, record: Recorder = silent
) -> tuple[Floats, Floats]:
    """What a case brings to every point: force normal to the roof and in its plane, (P,) [N].

    `entries` restricts it to some influence entries, as when a single point is explained.
    """
    influence = layout.influence
    chosen = slice(None) if entries is None else entries
    point = influence.point[chosen]
    normal, in_plane = forces.of(case, influence.module[chosen], area[point], record)
    to_roof = influence.share[chosen] * normal + influence.couple[chosen] * in_plane
    along = influence.in_plane[chosen] * in_plane
    return summed(point, to_roof, len(area)), summed(point, along, len(area))


def _clamps(forces: ModuleForces, layout: Layout, cases: tuple[str, ...], factor: Floats, point_normal: Floats) -> tuple[Floats, Floats]:
    """Force of every clamp, normal to its module (K, C), and its place (K, 2)."""
    points, tilt = layout.points, np.radians(forces.field.attitude.tilt)
    if not layout.member.clamped:
        return point_normal, np.column_stack([points.x, points.y])
    bars, places, forces_of = layout.member.bars, [], []
    for these in layout.lines:
        lines, loads = these.module.shape
        first = np.unique(these.clamp, return_index=True)[1]
        clamp = (np.arange(lines)[:, None] * these.clamps + these.clamp).ravel()
        module, share, couple = these.module.ravel(), np.repeat(these.share, loads) / bars, these.couple.ravel() / bars
        area = effective(summed(clamp, share, lines * these.clamps) * forces.field.area)
        columns = []
        for case in cases:
            normal, in_plane = forces.of(case, module, area[clamp])
            off_the_module = normal * np.cos(tilt) - in_plane * np.sin(tilt)
            columns.append(summed(clamp, share * off_the_module + couple * in_plane, lines * these.clamps))
        forces_of.append(np.stack(columns, axis=1) @ factor)
        places.append(np.column_stack(layout.member.on_roof(np.tile(these.load_start[first], lines), np.repeat(these.y, these.clamps))))
    return np.concatenate(forces_of), np.concatenate(places)


def _members(forces: ModuleForces, layout: Layout, cases: tuple[str, ...], factor: Floats) -> Iterator[MemberDemands]:
    """Bending of every line, at its own effective wind area: span x width, the width not below span/3 (§26.2)."""
    for these, bending in zip(layout.lines, layout.bending, strict=True):
        module, span = these.module, float(bending.spans.max())
        area = np.full(module.size, span * max(these.width / layout.member.bars, span / 3))
        strong, weak = [], []
        for case in cases:
            normal, in_plane = (part.reshape(module.shape) for part in forces.of(case, module.ravel(), area))
            strong.append(these.share[:, None] * normal + these.couple * in_plane)
            sideways = np.full_like(normal, forces.across(case)) if layout.member.up else in_plane
            weak.append(these.share[:, None] * sideways)
        across = np.stack(strong, axis=-1) @ factor / layout.member.bars
        along = np.stack(weak, axis=-1) @ factor / layout.member.bars
        yield MemberDemands(
            these.y, bending.stations, bending.moments @ across, bending.moments @ along, bending.supports, bending.sags @ across
        )


def _ribs(job: Job, roof: RoofState, layout: Layout, normal: Floats, in_plane: Floats) -> tuple[Ints, Floats, Bent]:
    """Every rib that carries points as a continuous beam over its fastenings.

    A force along the slope enters at the attachment's height and turns the rib there.

    Returns:
        The ribs (R,), what the points bring to the fastenings (R, F, C) [N], and how the ribs bend.
    """
    points = layout.points
    rib, row = np.unique(points.rib, return_inverse=True)
    first, place = grouped(points.y, SAME_LEVEL)
    pressing = np.zeros((len(rib), len(first), normal.shape[1]))
    turning = np.zeros_like(pressing)
    if job.hardware.bracket != "structure":
        np.add.at(pressing, (row, place), bent_by(job, normal))
        np.add.at(turning, (row, place), -in_plane * points.height)
    acting = Acting(points.y[first], pressing, turning, bent_by(job, roof.surface[rib]))
    brought, bent = bend(rib, roof.fastening_y, roof.alike, acting)
    return rib, brought, bent.between(*_beside(roof.alike, points.y))


def _beside(alike: Sequence[Fastened], y: Floats) -> tuple[float, float]:
    """From where to where ribs are looked at with the array: as far as the bays beside it [m].

    Farther off they bend as they do without the array, which is looked at by itself.
    """
    low = min(float(these.y[max(np.searchsorted(these.y, y.min()) - 2, 0)]) for these in alike)
    high = max(float(these.y[min(np.searchsorted(these.y, y.max()) + 1, len(these.y) - 1)]) for these in alike)
    return low, high

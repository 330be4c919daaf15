"""From modules to fastenings: influence x pressure, members, seams, fastenings.

Signs: normal to the roof positive toward it; in the plane positive down the slope.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from typing import TypeVar

import numpy as np

from engine.common.arrays import Floats, Ints, group_nearby, sum_by_group
from engine.load_path.module_forces import ModuleForces
from engine.load_path.roof_loads import RoofLoads, bending_part, factors
from engine.loads.interface import Loads
from engine.mounting.influence import Bending, Influence
from engine.mounting.layout import Field, Layout, SupportLines
from engine.project.job import Job
from engine.statics.rib_bending import LoadedRibs, RibActions, RibMoments
from engine.statics.rib_supports import SAME_LEVEL, RibGroup

T = TypeVar("T", Ints, Floats)

MIN_AREA = 0.01
"""Effective wind areas are not taken smaller than this [m²]; every curve is flat long before."""


@dataclass(frozen=True, eq=False)
class MemberDemands:
    """A set of lines alike: bending at stations, both axes, and midspan deflection.

    `y` (B,) [m], `strong` and `weak` (B, T, C) [N m], `stations` (T,) [m], `supports` (S,) [m],
    `deflection_ei` (B, S-1, C): deflection times EI [N m³]. Places as in `SupportLines`.
    """

    y: Floats
    stations: Floats
    strong: Floats
    weak: Floats
    supports: Floats
    deflection_ei: Floats

    @property
    def spans(self) -> Floats:
        """From support to support (S-1,) [m]."""
        return np.diff(self.supports)

    @property
    def middles(self) -> Floats:
        """The middle of each span (S-1,) [m]."""
        return (self.supports[:-1] + self.supports[1:]) / 2


def panel_sliding(job: Job, roof: RoofLoads, layout: Layout, in_plane: Floats) -> Floats:
    """What slides along each rib's panel (Q, C) [N]: what its points bring, its own weight, and the snow beside the modules."""
    if job.hardware.bracket == "structure":  # nothing of the array's reaches the sheet
        return roof.sheet_and_snow_sliding
    from_attachments: Floats = np.stack(
        [sum_by_group(layout.attachments.rib, column, len(roof.ribs)) for column in in_plane.T], axis=1
    )
    return from_attachments + roof.sheet_and_snow_sliding


def unavoidable_fastening_load(job: Job, field: Field, loads: Loads, roof: RoofLoads, on_module: Floats) -> Floats:
    """The least that some fastening must carry, however finely attachments are spread (C,) [N]."""
    bay = float((roof.area * roof.covered_fraction).max())
    inside = np.array([loads.internal_pressure(case) for case in loads.wind_cases]) @ [
        factors(loads.combinations, case) for case in loads.wind_cases
    ]
    if job.hardware.bracket == "structure":
        return np.asarray(bay * inside)
    return np.asarray(bay * (on_module.min(axis=0) * np.cos(np.radians(field.attitude.tilt)) + inside))


def across_ribs(forces: ModuleForces, influence: Influence, attachments: int) -> Floats:
    """What every point gets along the eave, across its rib (P, C) [N]: shared like the in-plane force."""
    return sum_by_group(influence.attachment, influence.in_plane, attachments)[:, None] * forces.across_combined


def attachment_areas(field: Field, influence: Influence, attachments: int) -> Floats:
    """Each point's own effective wind area (P,) [m²]: its reaction under unit uniform pressure (§26.2)."""
    return effective_area(sum_by_group(influence.attachment, influence.tributary, attachments) * field.area)


def effective_area(area: Floats) -> Floats:
    """Areas that curves can be read at [m²]: shares keep their sign, so where a far load relieves they may sum to less than nothing."""
    return np.maximum(area, MIN_AREA)


def attachment_cases(forces: ModuleForces, influence: Influence, area: Floats) -> dict[str, tuple[Floats, Floats]]:
    """What every load case brings to every point: case → force normal to the roof and in its plane, (P,) [N]."""
    return {case: _attachment_forces(forces, influence, case, area) for case in forces.cases}


def _attachment_forces(forces: ModuleForces, influence: Influence, case: str, area: Floats) -> tuple[Floats, Floats]:
    normal, in_plane = forces.of(case, influence.module, area[influence.attachment])
    to_roof = influence.share * normal + influence.couple * in_plane
    return sum_by_group(influence.attachment, to_roof, len(area)), sum_by_group(
        influence.attachment, influence.in_plane * in_plane, len(area)
    )


@dataclass(frozen=True, eq=False)
class ClampLoads:
    """What clamps (K,) on lines hold, line after line: a module's load after another, `module`, `share` and `couple` (N,).

    Each clamp's loads are those from its `first` (K,) on; `place` (K, 2) is where it sits, x and y [m].
    """

    first: Ints
    module: Ints
    share: Floats
    couple: Floats
    place: Floats

    @classmethod
    def of_layout(cls, layout: Layout) -> ClampLoads:
        """Neighbours share a clamp."""

        def of_loads(of: Callable[[SupportLines], T]) -> T:
            return np.concatenate([np.full(these.module.shape, of(these)).ravel() for these in layout.lines])

        first = np.flatnonzero(np.diff(of_loads(lambda these: these.clamp), prepend=-1))  # each line has two or more
        bars, module = layout.member.bars, of_loads(lambda these: these.module)
        share, couple = of_loads(lambda these: these.share[:, None]) / bars, of_loads(lambda these: these.couple) / bars
        along, across = (
            of_loads(lambda these: these.load_start)[first],
            of_loads(lambda these: these.across[:, None])[first],
        )
        return cls(first, module, share, couple, np.column_stack(layout.member.on_roof(along, across)))

    def of_clamp(self, clamp: int) -> tuple[Ints, Floats, Floats]:
        """What one clamp holds: modules, shares and couples."""
        here = slice(self.first[clamp], self.first[clamp + 1] if clamp + 1 < len(self.first) else None)
        return self.module[here], self.share[here], self.couple[here]


def clamps(forces: ModuleForces, layout: Layout) -> tuple[Floats, Floats]:
    """Force of every clamp on a line, normal to its module (K, C), and its place (K, 2)."""
    clamp_loads, tilt = ClampLoads.of_layout(layout), np.radians(forces.field.attitude.tilt)
    area = effective_area(np.add.reduceat(clamp_loads.share, clamp_loads.first) * forces.field.area)
    normal, in_plane = forces.combined(
        clamp_loads.module, np.repeat(area, np.diff(clamp_loads.first, append=len(clamp_loads.module)))
    )
    off_the_module = normal * np.cos(tilt) - in_plane * np.sin(tilt)
    force = np.add.reduceat(
        clamp_loads.share[:, None] * off_the_module + clamp_loads.couple[:, None] * in_plane, clamp_loads.first, axis=0
    )
    return force, clamp_loads.place


def members(forces: ModuleForces, layout: Layout, every: Sequence[Bending]) -> Iterator[MemberDemands]:
    """Bending of every line, at the effective wind area of its spans; over its outermost points at that of what hangs beyond."""
    stretches = [_stretches(layout, these, bending) for these, bending in zip(layout.lines, every, strict=True)]
    on_bars = _on_bars(forces, layout, [each for of_set in stretches for each in of_set])
    for these, bending, (_, *ends) in zip(layout.lines, every, stretches, strict=True):
        across_ribs, along = next(on_bars)
        strong, weak, deflections_ei = (
            bending.moments @ across_ribs,
            bending.moments @ along,
            bending.deflections_ei @ across_ribs,
        )
        for end in ends:
            moments, (across_ribs, along) = bending.moments[end.station, end.loads], next(on_bars)
            strong[:, end.station], weak[:, end.station] = moments @ across_ribs, moments @ along
        yield MemberDemands(these.across, bending.stations, strong, weak, layout.supports(these), deflections_ei)


@dataclass(frozen=True, eq=False)
class _Stretch:
    """A set of lines bent by some `loads` at one effective wind `area` [m²]: at one `station`, or all along where it is -1."""

    lines: SupportLines
    loads: Ints
    area: float
    station: int = -1


def _stretches(layout: Layout, lines: SupportLines, bending: Bending) -> tuple[_Stretch, _Stretch, _Stretch]:
    """A set's whole lines, and what hangs beyond their first and their last support; stations begin with the supports."""
    spans, before, beyond = member_areas(layout, lines)
    last = len(lines.stands_on) - 1
    at_first, at_last = (np.flatnonzero(bending.moments[station]) for station in (0, last))
    whole = _Stretch(lines, np.arange(len(lines.load_start)), spans)
    return whole, _Stretch(lines, at_first, before, 0), _Stretch(lines, at_last, beyond, last)


def _on_bars(forces: ModuleForces, layout: Layout, stretches: Sequence[_Stretch]) -> Iterator[tuple[Floats, Floats]]:
    """Forces on one bar of each stretch's lines, across it and along the roof (B, L, C) [N]."""
    bars, modules = layout.member.bars, [each.lines.module[:, each.loads] for each in stretches]
    sizes, areas = [these.size for these in modules], [each.area for each in stretches]
    combined = forces.combined(np.concatenate([these.ravel() for these in modules]), np.repeat(areas, sizes))
    pieces = zip(*(np.split(force, np.cumsum(sizes)[:-1]) for force in combined), strict=True)
    for each, these, piece in zip(stretches, modules, pieces, strict=True):
        normal, in_plane = (force.reshape(*these.shape, force.shape[1]) for force in piece)
        share, couple = each.lines.share[:, None, None] / bars, each.lines.couple[:, each.loads, None] / bars
        sideways = np.broadcast_to(forces.across_combined, in_plane.shape) if layout.member.up else in_plane
        yield share * normal + couple * in_plane, share * sideways


def member_areas(layout: Layout, lines: SupportLines) -> Floats:
    """Effective wind areas of a bar of some lines (3,) [m²]: of its longest span, and of what hangs beyond its first and last point.

    Length x width, the width not below a third of the length (§26.2).
    """
    supports, width = layout.supports(lines), lines.width / layout.member.bars
    lengths = np.array([layout.span(lines), supports[0] - lines.start, lines.end - supports[-1]])
    return effective_area(lengths * np.maximum(width, lengths / 3))


def ribs(job: Job, roof: RoofLoads, layout: Layout, normal: Floats, in_plane: Floats) -> LoadedRibs:
    """Every rib that carries points as a continuous beam over its fastenings, under its points and the air.

    A force along the slope enters at the attachment's height and turns the rib there.
    """
    attachments = layout.attachments
    rib, row = np.unique(attachments.rib, return_inverse=True)
    first, place = group_nearby(attachments.y, SAME_LEVEL)
    normal_forces = np.zeros((len(rib), len(first), normal.shape[1]))
    couples = np.zeros_like(normal_forces)
    if job.hardware.bracket != "structure":
        np.add.at(normal_forces, (row, place), bending_part(job, normal))
        np.add.at(couples, (row, place), -in_plane * attachments.height)
    return LoadedRibs(
        rib,
        roof.fastening_y,
        roof.rib_groups,
        RibActions(attachments.y[first], normal_forces, couples, bending_part(job, roof.surface_force[rib])),
    )


def near_attachments(rib_moments: RibMoments, rib_groups: Sequence[RibGroup], y: Floats) -> RibMoments:
    """Ribs with the array, as far as the bays beside points at `y`.

    Farther off they bend as they do without the array, which is looked at by itself.
    """
    low = min(float(these.y[max(np.searchsorted(these.y, y.min()) - 2, 0)]) for these in rib_groups)
    high = max(float(these.y[min(np.searchsorted(these.y, y.max()) + 1, len(these.y) - 1)]) for these in rib_groups)
    return rib_moments.between(low, high)

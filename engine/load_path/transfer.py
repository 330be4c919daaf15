"""Transfer of loads from the modules to clamps, members, attachments, ribs and fastenings.

Signs: normal to the roof positive toward it; in the plane positive down the slope.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from typing import TypeVar

import numpy as np

from engine.common.arrays import Floats, Ints, group_nearby, sum_by_group
from engine.common.tolerances import SAME_LEVEL
from engine.load_path.bare_roof import bending_part, factors
from engine.load_path.module_forces import ModuleForces
from engine.load_path.roof_loads import RoofLoads
from engine.loads.interface import Loads
from engine.mounting.influence import Bending, Influence, one_after_another
from engine.mounting.layout import Attachments, Field, LaidLines, Layout, SupportLines
from engine.project.job import Job
from engine.statics.rib_bending import LoadedRibs, RibActions, RibMoments
from engine.statics.rib_supports import RibGroup

T = TypeVar("T", Ints, Floats)

MIN_AREA = 0.01
"""Smallest effective wind area [m²]: below some 1 m² all pressure curves of the standards are constant."""


@dataclass(frozen=True, eq=False)
class MemberDemands:
    """Bending of one bar of each line of a set, in every combination.

    `y` (B,) [m]: positions of the lines; `strong` and `weak` (B, T, C) [N m]: moments about both axes at `stations`
    (T,) [m]; `deflection_ei` (B, S-1, C) [N m³]: midspan deflections times EI between `supports` (S,) [m]. For members
    up the slope the axes are exchanged, as in `SupportLines`.
    """

    y: Floats
    stations: Floats
    strong: Floats
    weak: Floats
    supports: Floats
    deflection_ei: Floats

    @property
    def spans(self) -> Floats:
        """Span lengths (S-1,) [m]."""
        return np.diff(self.supports)

    @property
    def middles(self) -> Floats:
        """Middles of the spans (S-1,) [m]."""
        return (self.supports[:-1] + self.supports[1:]) / 2


def panel_sliding(job: Job, roof: RoofLoads, layout: Layout, in_plane: Floats) -> Floats:
    """Load along the slope on each rib's panel (Q, C) [N]: from attachments, own weight and snow beside the modules.

    Args:
        job: the job.
        roof: loads on the roof itself.
        layout: the layout.
        in_plane: force of each attachment down the slope (P, C) [N].
    """
    if job.hardware.bypasses_sheet:
        return roof.sheet_and_snow_sliding
    from_attachments: Floats = np.stack(
        [sum_by_group(layout.attachments.rib, column, len(roof.ribs)) for column in in_plane.T], axis=1
    )
    return from_attachments + roof.sheet_and_snow_sliding


def unavoidable_fastening_load(
    job: Job, field: Field, loads: Loads, roof: RoofLoads, module_pressure: Floats
) -> Floats:
    """Load that at least one fastening must carry even at the closest attachment spacing (C,) [N], uplift negative.

    It is the pressure on the modules, with the internal pressure, on the largest covered tributary area.

    Args:
        job: the job.
        field: the modules.
        loads: the loads.
        roof: loads on the roof itself.
        module_pressure: pressure normal to each module (M, C) [Pa].
    """
    covered_area = float((roof.area * roof.covered_fraction).max())
    internal = np.array([loads.internal_pressure(case) for case in loads.wind_cases]) @ [
        factors(loads.combinations, case) for case in loads.wind_cases
    ]
    if job.hardware.bypasses_sheet:
        return np.asarray(covered_area * internal)
    on_modules = module_pressure.min(axis=0) * np.cos(np.radians(field.attitude.tilt))
    return np.asarray(covered_area * (on_modules + internal))


def across_shares(influence: Influence, attachments: int) -> Floats:
    """Force of each attachment along the eave (P,) per unit of such a force on every module [-]."""
    return sum_by_group(influence.attachment, influence.in_plane, attachments)


def attachment_areas(field: Field, influence: Influence, attachments: int) -> Floats:
    """Effective wind area of each attachment (P,) [m²]: its reaction under unit uniform pressure (§26.2)."""
    return effective_area(sum_by_group(influence.attachment, influence.tributary, attachments) * field.area)


def effective_area(area: Floats) -> Floats:
    """Effective wind areas of at least `MIN_AREA` [m²].

    Sums of shares may be negative: shares keep their sign, and a distant module may relieve an attachment.
    """
    return np.maximum(area, MIN_AREA)


def attachment_forces(
    forces: ModuleForces, influences: Sequence[Influence], area: Floats, near_ends: Ints
) -> tuple[Floats, Floats, Floats]:
    """Force on each attachment in every case [N], by continuous beams and near the ends of lines in other ways too.

    All influences are worked out together, because each call is slow whatever its size.

    Args:
        forces: forces of the modules.
        influences: that of continuous beams, then those of the other ways on the attachments near the ends.
        area: effective area at which wind acts on each attachment (P,) [m²].
        near_ends: numbers of the attachments near the ends of lines (N,).

    Returns:
        By continuous beams normal to the roof and down the slope, (P, K) each, with the cases K in the order of
        `forces.cases`; then normal to the roof by the other ways (W, N, K).
    """
    by_beams, *others = influences
    count, pairs = len(area), one_after_another(influences)
    place_near_end = np.empty(count, dtype=np.int64)
    place_near_end[near_ends] = np.arange(len(near_ends))
    starts = count + len(near_ends) * np.arange(len(others))
    group = np.concatenate(
        [by_beams.attachment, *(at + place_near_end[each.attachment] for at, each in zip(starts, others, strict=True))]
    )
    to_roof = np.empty((count + len(near_ends) * len(others), len(forces.cases)))
    along_slope, beams = np.empty((count, len(forces.cases))), slice(len(by_beams.attachment))
    for number, case in enumerate(forces.cases):
        normal, in_plane = forces.on_parts(case, pairs.module, pairs.attachment, area)
        to_roof[:, number] = sum_by_group(group, pairs.share * normal + pairs.couple * in_plane, len(to_roof))
        along_slope[:, number] = sum_by_group(by_beams.attachment, by_beams.in_plane * in_plane[beams], count)
    return to_roof[:count], along_slope, to_roof[count:].reshape(len(others), len(near_ends), len(forces.cases))


@dataclass(frozen=True, eq=False)
class ClampLoads:
    """Loads N on the clamps K of all lines, in the order of the lines.

    Each load is a `share` and a `couple` (N,) of the forces of a `module` (N,), as in `SupportLines`. The loads of a
    clamp begin with number `first` (K,); `position` (K, 2) is x and y [m].
    """

    first: Ints
    module: Ints
    share: Floats
    couple: Floats
    position: Floats

    @classmethod
    def of_lines(cls, layout: LaidLines) -> ClampLoads:
        """Clamp loads of lines; two neighbouring modules load the clamp between them."""

        def each_load(value: Callable[[SupportLines], T]) -> T:
            return np.concatenate([np.full(line.module.shape, value(line)).ravel() for line in layout.lines])

        # A new clamp begins where the number changes; each line has two or more, so it changes between lines too.
        first = np.flatnonzero(np.diff(each_load(lambda line: line.clamp), prepend=-1))
        along = each_load(lambda line: line.load_start)[first]
        across = each_load(lambda line: line.across[:, None])[first]
        return cls(
            first=first,
            module=each_load(lambda line: line.module),
            share=each_load(lambda line: line.share[:, None]) / layout.member.bars,
            couple=each_load(lambda line: line.couple) / layout.member.bars,
            position=np.column_stack(layout.member.on_roof(along, across)),
        )

    def of_clamp(self, clamp: int) -> tuple[Ints, Floats, Floats]:
        """Modules, shares and couples (n,) of the loads on one clamp."""
        here = slice(self.first[clamp], self.first[clamp + 1] if clamp + 1 < len(self.first) else None)
        return self.module[here], self.share[here], self.couple[here]


def clamp_forces(forces: ModuleForces, layout: LaidLines) -> tuple[Floats, Floats]:
    """Force of each clamp normal to its module (K, C) [N], and its position x, y (K, 2) [m]."""
    clamp_loads, tilt = ClampLoads.of_lines(layout), np.radians(forces.field.attitude.tilt)
    share, first, module = clamp_loads.share, clamp_loads.first, clamp_loads.module
    area = effective_area(np.add.reduceat(share, first) * forces.field.area)
    clamp = np.repeat(np.arange(len(first)), np.diff(first, append=len(module)))
    normal, in_plane = forces.combined(module, clamp, area)
    normal_to_module = normal * np.cos(tilt) - in_plane * np.sin(tilt)
    on_clamps = share[:, None] * normal_to_module + clamp_loads.couple[:, None] * in_plane
    return np.add.reduceat(on_clamps, first, axis=0), clamp_loads.position


def member_demands(
    forces: ModuleForces, layout: LaidLines, sets: Sequence[SupportLines], every: Sequence[Bending]
) -> Iterator[MemberDemands]:
    """Bending of some sets of lines of a layout.

    Wind acts at the effective wind area of the spans; the moments over the outermost supports, which come from the
    overhangs alone, are taken at the effective wind area of the overhangs.

    Args:
        forces: forces of the modules on members.
        layout: the layout.
        sets: the sets of lines.
        every: bending of each of them under unit loads.
    """
    stretches = [_stretches(layout, line, bending) for line, bending in zip(sets, every, strict=True)]
    on_bars = _forces_on_bars(forces, layout, [stretch for of_line in stretches for stretch in of_line])
    for line, bending, (_, *overhangs) in zip(sets, every, stretches, strict=True):
        normal, sideways = next(on_bars)
        strong, weak = bending.moments @ normal, bending.moments @ sideways
        deflections_ei = bending.deflections_ei @ normal
        for overhang in overhangs:
            moments, (normal, sideways) = bending.moments[overhang.station, overhang.loads], next(on_bars)
            strong[:, overhang.station] = moments @ normal
            weak[:, overhang.station] = moments @ sideways
        yield MemberDemands(line.across, bending.stations, strong, weak, layout.supports(line), deflections_ei)


@dataclass(frozen=True, eq=False)
class _Stretch:
    """Part of a set of lines, and the numbers of the `loads` that bend it, at one effective wind `area` [m²].

    `station` is the outer support over which an overhang bends the line, or -1 for the whole line.
    """

    lines: SupportLines
    loads: Ints
    area: float
    station: int = -1


def _stretches(layout: LaidLines, lines: SupportLines, bending: Bending) -> tuple[_Stretch, _Stretch, _Stretch]:
    """The whole of a set of lines, the overhang before its first support and the one beyond its last support."""
    spans, before, beyond = member_areas(layout, lines)
    last = len(lines.stands_on) - 1
    # The first stations are the supports. Only loads on an overhang bend the line over its outermost support.
    at_first, at_last = (np.flatnonzero(bending.moments[station]) for station in (0, last))
    whole = _Stretch(lines, np.arange(len(lines.load_start)), spans)
    return whole, _Stretch(lines, at_first, before, 0), _Stretch(lines, at_last, beyond, last)


def _forces_on_bars(
    forces: ModuleForces, layout: LaidLines, stretches: Sequence[_Stretch]
) -> Iterator[tuple[Floats, Floats]]:
    """Forces on one bar of each stretch's lines, normal to the roof and sideways, (B, L, C) each [N].

    All stretches are computed in one call, because each call is slow whatever its size.
    """
    bars, modules = layout.member.bars, [stretch.lines.module[:, stretch.loads] for stretch in stretches]
    sizes, areas = [numbers.size for numbers in modules], np.array([stretch.area for stretch in stretches])
    part = np.repeat(np.arange(len(stretches)), sizes)
    combined = forces.combined(np.concatenate([numbers.ravel() for numbers in modules]), part, areas)
    pieces = zip(*(np.split(force, np.cumsum(sizes)[:-1]) for force in combined), strict=True)
    for stretch, numbers, piece in zip(stretches, modules, pieces, strict=True):
        normal, in_plane = (force.reshape(*numbers.shape, force.shape[1]) for force in piece)
        lines = stretch.lines
        share, couple = lines.share[:, None, None] / bars, lines.couple[:, stretch.loads, None] / bars
        sideways = np.broadcast_to(forces.across_combined, in_plane.shape) if layout.member.runs_up_slope else in_plane
        yield share * normal + couple * in_plane, share * sideways


def member_areas(layout: LaidLines, lines: SupportLines) -> Floats:
    """Effective wind areas of one bar: of its longest span, its first overhang and its last overhang (3,) [m²].

    Length x width, the width at least a third of the length (§26.2).
    """
    supports, width = layout.supports(lines), lines.width / layout.member.bars
    lengths = np.array([layout.span(lines), supports[0] - lines.start, lines.end - supports[-1]])
    return effective_area(lengths * np.maximum(width, lengths / 3))


def loaded_ribs(job: Job, roof: RoofLoads, layout: Layout, normal: Floats, in_plane: Floats) -> LoadedRibs:
    """Each rib that carries attachments, as a continuous beam over its fastenings under attachments, wind and snow.

    A force along the slope acts at the attachment's height and turns the rib there.

    Args:
        job: the job.
        roof: loads on the roof itself.
        layout: the layout.
        normal: force of each attachment normal to the roof (P, C) [N].
        in_plane: force of each attachment down the slope (P, C) [N].
    """
    rib = np.unique(layout.attachments.rib)
    if job.hardware.bypasses_sheet:
        normal, in_plane = np.zeros_like(normal), np.zeros_like(in_plane)
    y, normal_forces, couples = rib_actions(layout.attachments, bending_part(job, normal), in_plane)
    actions = RibActions(y, normal_forces, couples, bending_part(job, roof.surface_force[rib]))
    return LoadedRibs(rib, roof.fastening_y, roof.rib_groups, actions)


def rib_actions(attachments: Attachments, normal: Floats, in_plane: Floats) -> tuple[Floats, Floats, Floats]:
    """Actions of attachments on the ribs R that carry them, in K cases or combinations.

    Args:
        attachments: the attachments.
        normal: force of each attachment normal to the roof (P, K) [N].
        in_plane: force of each attachment down the slope (P, K) [N].

    Returns:
        Positions (L,) [m], forces (R, L, K) [N] and couples (R, L, K) [N m] there.
    """
    rib, row = np.unique(attachments.rib, return_inverse=True)
    first, position = group_nearby(attachments.y, SAME_LEVEL)
    normal_forces = np.zeros((len(rib), len(first), normal.shape[1]))
    couples = np.zeros_like(normal_forces)
    np.add.at(normal_forces, (row, position), normal)
    np.add.at(couples, (row, position), -in_plane * attachments.height)
    return attachments.y[first], normal_forces, couples


def near_attachments(rib_moments: RibMoments, rib_groups: Sequence[RibGroup], y: Floats) -> RibMoments:
    """Moments from one bay below the attachments at `y` [m] to one bay above them.

    Farther away ribs bend as they do without the array, which is checked separately.
    """
    below = [max(np.searchsorted(group.y, y.min()) - 2, 0) for group in rib_groups]
    above = [min(np.searchsorted(group.y, y.max()) + 1, len(group.y) - 1) for group in rib_groups]
    low = min(float(group.y[number]) for group, number in zip(rib_groups, below, strict=True))
    high = max(float(group.y[number]) for group, number in zip(rib_groups, above, strict=True))
    return rib_moments.between(low, high)

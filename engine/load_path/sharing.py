"""Forces on attachments by every way in which lines may pass their loads on; near the ends of lines the largest counts.

By continuous beams on rigid supports the forces are in equilibrium with the loads, so that the reactions for the
building's engineer are these. The largest of several ways is not. Of opposite forces the larger counts.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from dataclasses import field as dataclass_field
from functools import cached_property, partial

import numpy as np

from engine.common.arrays import Bools, Floats, Ints
from engine.common.combination import Combination
from engine.load_path import transfer
from engine.load_path.module_forces import ModuleForces
from engine.mounting import influence
from engine.mounting.influence import Influence, SolvedLines
from engine.mounting.layout import Member
from engine.project.job import Job
from engine.statics.load_sharing import spring_reactions
from engine.units import both

CONTINUOUS = "continuous beam"

UNCERTAINTY = (1.0, 0.45, 0.2)
"""Parts of a stated stiffness of the seam that are tried: it may be less by a factor of five (judgement)."""


def is_on_springs(job: Job, member: Member) -> bool:
    """True if a line is a bar on ribs of a stated stiffness; what lies below the sheet has none of it."""
    stated = job.roof.panel.stiffness_at_clamp is not None and not job.hardware.bypasses_sheet
    return stated and job.hardware.section(member.section) is not None


def ways_near_ends(job: Job, member: Member) -> Mapping[str, influence.ReactionRule]:
    """Name → other ways of a line: a rail on seams of the stated stiffness, or a stiff one where none is stated."""
    section, stiffness = job.hardware.section(member.section), job.roof.panel.stiffness_at_clamp
    if section is None or stiffness is None or not is_on_springs(job, member):
        return influence.UNKNOWN_STIFFNESS
    ways = {influence.TRIBUTARY: influence.UNKNOWN_STIFFNESS[influence.TRIBUTARY]}
    for part in UNCERTAINTY:
        softness = member.bars * section.inertia * section.modulus / (stiffness * part)
        name = f"rail on {job.roof.rib_word}s of {both(stiffness * part, 'stiffness')}"
        ways[name] = partial(spring_reactions, softness=softness)
    return ways


@dataclass(frozen=True, eq=False)
class Way:
    """One way of the lines of run groups: its `name`, the shares of the modules, and `cases` as `attachment_cases`.

    The cases in proportion to the weight are those of a module of 1 N.
    """

    name: str
    influence: Influence
    cases: Mapping[str, tuple[Floats, Floats]]


@dataclass(frozen=True, eq=False)
class InCombinations:
    """Forces (..., C) [N] that are the same for every weight, and those for each newton of a module's weight."""

    fixed: Floats
    per_weight: Floats


@dataclass(eq=False)
class RunForces:
    """Forces of modules on the attachments of run groups, with wind at the effective areas `area` (P,) [m²].

    `unit` are the forces of modules of 1 N each, so that one solution serves all layouts with these lines.
    """

    unit: ModuleForces
    solved: SolvedLines
    area: Floats

    @cached_property
    def ways(self) -> tuple[Way, ...]:
        """All ways, that of continuous beams first; only that one if no line has more than two supports."""
        ends = self.solved.near_ends
        others = zip(ends.names, ends.influences, strict=True) if ends else ()
        by_beams = self._way(CONTINUOUS, self.solved.influence)
        return by_beams, *(self._way(name, influence) for name, influence in others)

    @cached_property
    def normal(self) -> InCombinations:
        """Forces normal to the roof by each way (W, P, C); by others than beams only near the ends of lines."""
        every = [self.unit.split_by_weight([normal for normal, _ in way.cases.values()]) for way in self.ways]
        fixed, per_weight = zip(*every, strict=True)
        return InCombinations(np.stack(fixed), np.stack(per_weight))

    @cached_property
    def in_plane(self) -> InCombinations:
        """Forces down the slope (P, C)."""
        return InCombinations(*self.unit.split_by_weight([in_plane for _, in_plane in self.ways[0].cases.values()]))

    @cached_property
    def near_ends(self) -> Bools:
        """True for the attachments near the ends of lines with more than two supports (P,)."""
        near = np.zeros(len(self.area), dtype=bool)
        if self.solved.near_ends:
            near[self.solved.near_ends.attachments] = True
        return near

    def _way(self, name: str, influence: Influence) -> Way:
        return Way(name, influence, transfer.attachment_cases(self.unit, influence, self.area))


@dataclass(eq=False)
class ForcesPool:
    """Forces on the attachments of all run groups that were worked out so far (N,), those of one after another."""

    parts: list[RunForces]
    _pooled: dict[int, tuple[InCombinations, InCombinations, Bools]] = dataclass_field(default_factory=dict)

    @property
    def pooled(self) -> tuple[InCombinations, InCombinations, Bools]:
        """Forces normal to the roof by each way (W, N, C), those down the slope (N, C), and what is near ends (N,)."""
        count = len(self.parts)
        if count not in self._pooled:
            ways = max(len(part.ways) for part in self.parts)
            normal = [_with_ways(part.normal, ways) for part in self.parts]
            in_plane, near = [part.in_plane for part in self.parts], [part.near_ends for part in self.parts]
            self._pooled = {count: (_joined(normal), _joined(in_plane), np.concatenate(near))}
        return self._pooled[count]

    def locate(self, position: int) -> tuple[RunForces, int]:
        """The part in which a position of the pool lies, and the number there."""
        starts = np.cumsum([0, *(len(part.area) for part in self.parts)])
        part = int(np.searchsorted(starts, position, side="right")) - 1
        return self.parts[part], position - int(starts[part])


def _with_ways(forces: InCombinations, ways: int) -> InCombinations:
    """Forces by each way, with those of lines without near ends repeated for every way (W, P, C)."""
    if len(forces.fixed) == ways:
        return forces
    shape = (ways, *forces.fixed.shape[1:])
    return InCombinations(np.broadcast_to(forces.fixed, shape), np.broadcast_to(forces.per_weight, shape))


def _joined(parts: Sequence[InCombinations]) -> InCombinations:
    """Forces of several parts, one after another along the axis of attachments."""
    fixed, per_weight = ([getattr(part, name) for part in parts] for name in ("fixed", "per_weight"))
    return InCombinations(np.concatenate(fixed, axis=-2), np.concatenate(per_weight, axis=-2))


def _number_of_largest(by_way: Floats) -> Ints:
    """Number of the way (W, ..., C) with the largest force (..., C); of equal ones the first."""
    largest: Ints = np.abs(by_way).round(6).argmax(axis=0)
    return largest


@dataclass(frozen=True, eq=False)
class AttachmentForce:
    """How the force on one attachment comes about: the `way`, and the attachment's `number` among those of the way.

    `area` is its effective wind area [m²]; `forces` have the weight of the modules.
    """

    way: Way
    number: int
    area: float
    forces: ModuleForces

    def of_case(self, case: str, part: int = 0) -> float:
        """Force in a load case, normal to the roof (part 0) or in its plane (part 1) [N]."""
        return float(self.way.cases[case][part][self.number]) * self.forces.weight_factor(case)

    def in_combination(self, combination: Combination) -> float:
        """Force normal to the roof in a combination [N]."""
        return sum(factor * self.of_case(case) for case, factor in combination.factors.items())


@dataclass(eq=False)
class AttachmentForces:
    """Forces of modules on all attachments of a layout, for the weight of `forces`.

    `index` (P,) has the attachments' positions in the pool.
    """

    pool: ForcesPool
    index: Ints
    forces: ModuleForces

    @cached_property
    def normal_by_beams(self) -> Floats:
        """Force on each attachment normal to the roof, lines as continuous beams (P, C) [N]."""
        normal, _, _ = self.pool.pooled
        return self._at_weight(normal.fixed[0][self.index], normal.per_weight[0][self.index])

    @cached_property
    def normal(self) -> Floats:
        """Force on each attachment normal to the roof, the largest of all ways near the ends of lines (P, C) [N]."""
        normal, _, near_ends = self.pool.pooled
        near = np.flatnonzero(near_ends[self.index])
        if not len(near):
            return self.normal_by_beams
        here, forces = self.index[near], self.normal_by_beams.copy()
        by_way = self._at_weight(normal.fixed[:, here], normal.per_weight[:, here])
        forces[near] = np.take_along_axis(by_way, _number_of_largest(by_way)[None], axis=0)[0]
        return forces

    @cached_property
    def in_plane(self) -> Floats:
        """Force on each attachment down the slope (P, C) [N]."""
        _, in_plane, _ = self.pool.pooled
        return self._at_weight(in_plane.fixed[self.index], in_plane.per_weight[self.index])

    @cached_property
    def cases(self) -> Mapping[str, tuple[Floats, Floats]]:
        """Load case → force on each attachment normal to the roof and down the slope, in equilibrium, (P,) each [N]."""
        return {case: (self._of_case(case, 0), self._of_case(case, 1)) for case in self.forces.cases}

    def _of_case(self, case: str, part: int) -> Floats:
        pooled = np.concatenate([each.ways[0].cases[case][part] for each in self.pool.parts])
        return self.forces.weight_factor(case) * pooled[self.index]

    def _at_weight(self, fixed: Floats, per_weight: Floats) -> Floats:
        return fixed + self.forces.weight * per_weight

    def governing(self, attachment: int, combination: int) -> AttachmentForce:
        """How the force on an attachment in a combination comes about, by their numbers."""
        run, number = self.pool.locate(int(self.index[attachment]))
        by_way = self._at_weight(run.normal.fixed[:, number], run.normal.per_weight[:, number])
        way = _number_of_largest(by_way)[combination] if run.near_ends[number] else 0
        return AttachmentForce(run.ways[way], number, float(run.area[number]), self.forces)

    def by_beams(self, attachment: int) -> AttachmentForce:
        """How the force on an attachment comes about, lines as continuous beams."""
        run, number = self.pool.locate(int(self.index[attachment]))
        return AttachmentForce(run.ways[0], number, float(run.area[number]), self.forces)

    def at_area(self, attachment: int, area: float) -> AttachmentForce:
        """As `by_beams`, with wind at another effective area [m²]."""
        run, number = self.pool.locate(int(self.index[attachment]))
        other = RunForces(run.unit, run.solved, np.full(len(run.area), area))
        return AttachmentForce(other.ways[0], number, area, self.forces)

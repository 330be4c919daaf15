"""Forces on attachments by every way in which lines may pass their loads on; near the ends of lines the largest counts.

By continuous beams on rigid supports the forces are in equilibrium with the loads, so that the reactions for the
building's engineer are these. The largest of several ways is not. Of opposite forces the larger counts.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property, partial

import numpy as np

from engine.common.arrays import Bools, Floats, Ints
from engine.common.combination import Combination
from engine.load_path import transfer
from engine.load_path.module_forces import ModuleForces
from engine.mounting import influence
from engine.mounting.influence import Influence, SolvedLines
from engine.mounting.layout import Layout, Member
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
    """Forces (..., P, C) [N] that are the same for every weight, and those for each newton of a module's weight."""

    fixed: Floats
    per_weight: Floats

    def at(self, weight: float) -> Floats:
        """The forces with modules of a weight [N]."""
        return self.fixed + weight * self.per_weight

    def of(self, attachments: slice | int) -> InCombinations:
        """The forces on some of the attachments."""
        return InCombinations(self.fixed[..., attachments, :], self.per_weight[..., attachments, :])


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
        names = (CONTINUOUS, *(ends.names if ends else ()))
        influences = (self.solved.influence, *(ends.influences if ends else ()))
        return tuple(map(Way, names, influences, transfer.attachment_cases(self.unit, influences, self.area)))

    @cached_property
    def normal(self) -> InCombinations:
        """Forces normal to the roof by each way (W, P, C); by others than beams only near the ends of lines."""
        every = [self.unit.split_by_weight([normal for normal, _ in way.cases.values()]) for way in self.ways]
        return InCombinations(*(np.stack(part) for part in zip(*every, strict=True)))

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


def _largest_of_ways(by_way: Floats) -> Floats:
    """The largest force of all ways (W, ..., C), with its sign; of equal ones that of the first way."""
    largest: Floats = np.take_along_axis(by_way, _number_of_largest(by_way)[None], axis=0)[0]
    return largest


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


RunPart = tuple[RunForces, slice]
"""The forces of one run group: those of all that were worked out together, and where its attachments are there."""


@dataclass(eq=False)
class AttachmentForces:
    """Forces of modules on all attachments of a layout, for the weight of `forces`; `parts` are those of its runs."""

    layout: Layout
    parts: Sequence[RunPart]
    forces: ModuleForces

    @cached_property
    def normal_by_beams(self) -> Floats:
        """Force on each attachment normal to the roof, lines as continuous beams (P, C) [N]."""
        return self._joined(
            [InCombinations(run.normal.fixed[0], run.normal.per_weight[0]).of(at) for run, at in self.parts]
        )

    @cached_property
    def normal(self) -> Floats:
        """Force on each attachment normal to the roof, the largest of all ways near the ends of lines (P, C) [N]."""
        near = np.concatenate([run.near_ends[at] for run, at in self.parts])
        if not near.any():
            return self.normal_by_beams
        ways = max(len(run.ways) for run, _ in self.parts)
        runs = [_with_ways(run.normal.of(at), ways) for run, at in self.parts]
        by_way = _one_after_another(runs).at(self.forces.weight)
        forces = by_way[0].copy()
        forces[near] = _largest_of_ways(by_way[:, near])
        return self.layout.in_order(forces)

    @cached_property
    def in_plane(self) -> Floats:
        """Force on each attachment down the slope (P, C) [N]."""
        return self._joined([run.in_plane.of(at) for run, at in self.parts])

    def _joined(self, runs: Sequence[InCombinations]) -> Floats:
        """Forces of the runs (P', C) in the order of the layout (P, C)."""
        return self.layout.in_order(_one_after_another(runs).at(self.forces.weight))

    @cached_property
    def cases(self) -> Mapping[str, tuple[Floats, Floats]]:
        """Load case → force on each attachment normal to the roof and down the slope, in equilibrium, (P,) each [N]."""
        return {case: (self._of_case(case, 0), self._of_case(case, 1)) for case in self.forces.cases}

    def _of_case(self, case: str, part: int) -> Floats:
        together = np.concatenate([run.ways[0].cases[case][part][at] for run, at in self.parts])
        return self.layout.in_order(self.forces.weight_factor(case) * together)

    def governing(self, attachment: int, combination: int) -> AttachmentForce:
        """How the force on an attachment in a combination comes about, by their numbers."""
        run, number = self._find(attachment)
        way = (
            _number_of_largest(run.normal.of(number).at(self.forces.weight))[combination]
            if run.near_ends[number]
            else 0
        )
        return AttachmentForce(run.ways[way], number, float(run.area[number]), self.forces)

    def by_beams(self, attachment: int) -> AttachmentForce:
        """How the force on an attachment comes about, lines as continuous beams."""
        run, number = self._find(attachment)
        return AttachmentForce(run.ways[0], number, float(run.area[number]), self.forces)

    def at_area(self, attachment: int, area: float) -> AttachmentForce:
        """As `by_beams`, with wind at another effective area [m²]."""
        run, number = self._find(attachment)
        other = RunForces(run.unit, run.solved, np.full(len(run.area), area))
        return AttachmentForce(other.ways[0], number, area, self.forces)

    def _find(self, attachment: int) -> tuple[RunForces, int]:
        """The forces among which those on an attachment are, and its number there."""
        number = self.layout.place_among_runs(attachment)
        for run, at in self.parts:
            if number < at.stop - at.start:
                return run, at.start + number
            number -= at.stop - at.start
        raise IndexError(f"no attachment has the number {attachment}")


def _with_ways(forces: InCombinations, ways: int) -> InCombinations:
    """Forces by each way, with those of lines without near ends repeated for every way (W, P, C)."""
    if len(forces.fixed) == ways:
        return forces
    shape = (ways, *forces.fixed.shape[1:])
    return InCombinations(np.broadcast_to(forces.fixed, shape), np.broadcast_to(forces.per_weight, shape))


def _one_after_another(runs: Sequence[InCombinations]) -> InCombinations:
    """Forces of several runs, one after another along the axis of attachments."""
    return InCombinations(
        *(np.concatenate([getattr(run, part) for run in runs], axis=-2) for part in ("fixed", "per_weight"))
    )

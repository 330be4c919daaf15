"""Forces on attachments by every way in which lines may pass their loads on; near the ends of lines the largest counts.

By continuous beams on rigid supports the forces are in equilibrium with the loads, so that the reactions for the
building's engineer are these. The largest of several ways is not. Of opposite forces the larger counts.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cached_property, partial

import numpy as np

from engine.common.arrays import Floats, Ints
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
        name = f"rail on {job.roof.rib_word}s of {both(stiffness * part, 'stiffness', job.system)}"
        ways[name] = partial(spring_reactions, softness=softness)
    return ways


@dataclass(frozen=True, eq=False)
class RunForces:
    """Forces of modules of 1 N on the attachments P of run groups, in every case K, so that they serve all layouts.

    `normal` and `in_plane` (P, K) [N] by continuous beams, wind at the effective areas `area` (P,) [m²]. `near_ends`
    (N,): numbers of the attachments near the ends of lines with more than two supports; `other_ways` (W, N, K) [N]:
    their forces normal to the roof by each of the other ways.
    """

    solved: SolvedLines
    area: Floats
    normal: Floats
    in_plane: Floats
    near_ends: Ints
    other_ways: Floats

    @classmethod
    def of_lines(
        cls, unit: ModuleForces, solved: SolvedLines, influences: Sequence[Influence], area: Floats
    ) -> RunForces:
        """The forces of modules of 1 N each, `unit`, by all ways in which these lines may pass them on."""
        near_ends = np.flatnonzero(solved.is_near_end)
        normal, in_plane, other_ways = transfer.attachment_forces(unit, influences, area, near_ends)
        return cls(solved, area, normal, in_plane, near_ends, other_ways)

    def near_ends_in(self, part: slice) -> tuple[Ints, Floats]:
        """The attachments near the ends of lines in a part of all, and their forces normal to the roof by each way.

        Returns:
            Their numbers in this part (n,), and the forces (1 + W, n, K) [N], those of continuous beams first.
        """
        here = slice(*np.searchsorted(self.near_ends, [part.start, part.stop]))
        numbers = self.near_ends[here]
        return numbers - part.start, np.concatenate([self.normal[None, numbers], self.other_ways[:, here]])

    def by_way(self, attachment: int) -> Floats:
        """Force on one attachment normal to the roof by each way (1 + W, K) [N]; by beams alone away from the ends."""
        numbers, by_way = self.near_ends_in(slice(attachment, attachment + 1))
        return by_way[:, 0] if len(numbers) else self.normal[[attachment]]

    def way(self, number: int) -> str:
        """Name of a way."""
        return CONTINUOUS if number == 0 else tuple(self.solved.ways)[number - 1]


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
    """The force on one attachment and the modules that bring it, by the `way` of that name.

    `module`, `share`, `couple`, `along` (n,): what it carries of which modules, as in `Influence`. `normal` and
    `in_plane`: load case → its force [N]. `area` is its effective wind area [m²]; `forces` have the modules' weight.
    """

    way: str
    module: Ints
    share: Floats
    couple: Floats
    along: Floats
    normal: Mapping[str, float]
    in_plane: Mapping[str, float]
    area: float
    forces: ModuleForces

    def in_combination(self, combination: Combination) -> float:
        """Force normal to the roof in a combination [N]."""
        return sum(factor * self.normal[case] for case, factor in combination.factors.items())


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
        return self.layout.in_order(self._by_beams)

    @cached_property
    def normal(self) -> Floats:
        """Force on each attachment normal to the roof, the largest of all ways near the ends of lines (P, C) [N]."""
        forces, start = self._by_beams.copy(), 0
        for run, part in self.parts:
            numbers, by_way = run.near_ends_in(part)
            if len(numbers):
                forces[start + numbers] = _largest_of_ways(self.forces.at_weight(by_way))
            start += part.stop - part.start
        return self.layout.in_order(forces)

    @cached_property
    def _by_beams(self) -> Floats:
        """As `normal_by_beams`, one run after another."""
        return self.forces.at_weight(np.concatenate([run.normal[at] for run, at in self.parts]))

    @cached_property
    def in_plane(self) -> Floats:
        """Force on each attachment down the slope (P, C) [N]."""
        together = np.concatenate([run.in_plane[at] for run, at in self.parts])
        return self.layout.in_order(self.forces.at_weight(together))

    @cached_property
    def cases(self) -> Mapping[str, tuple[Floats, Floats]]:
        """Load case → force on each attachment normal to the roof and down the slope, in equilibrium, (P,) each [N]."""
        normal, in_plane = (
            self.layout.in_order(np.concatenate(each))
            for each in zip(*((run.normal[at], run.in_plane[at]) for run, at in self.parts), strict=True)
        )
        factors = {case: self.forces.weight_factor(case) for case in self.forces.cases}
        return {
            case: (factor * normal[:, number], factor * in_plane[:, number])
            for number, (case, factor) in enumerate(factors.items())
        }

    def governing(self, attachment: int, combination: int) -> AttachmentForce:
        """The force on an attachment by the way that governs in a combination, by their numbers."""
        run, number = self._find(attachment)
        by_way = self.forces.at_weight(run.by_way(number))
        return self._force(run, number, int(_number_of_largest(by_way)[combination]))

    def by_beams(self, attachment: int) -> AttachmentForce:
        """The force on an attachment, lines as continuous beams."""
        return self._force(*self._find(attachment), 0)

    def at_area(self, attachment: int, area: float) -> AttachmentForce:
        """As `by_beams`, with wind at another effective area [m²]."""
        run, number = self._find(attachment)
        unit, influences = replace(self.forces, weight=1.0), run.solved.influences
        other = RunForces.of_lines(unit, run.solved, influences, np.full(len(run.area), area))
        return self._force(other, number, 0)

    def _force(self, run: RunForces, number: int, way: int) -> AttachmentForce:
        """The force on an attachment by one way, by their numbers."""
        influence = run.solved.influences[way]
        here, normal = np.flatnonzero(influence.attachment == number), run.by_way(number)[way]
        by_case = {
            case: self.forces.weight_factor(case) * np.array([normal[k], run.in_plane[number, k]])
            for k, case in enumerate(self.forces.cases)
        }
        return AttachmentForce(
            way=run.way(way),
            module=influence.module[here],
            share=influence.share[here],
            couple=influence.couple[here],
            along=influence.in_plane[here],
            normal={case: float(normal) for case, (normal, _) in by_case.items()},
            in_plane={case: float(in_plane) for case, (_, in_plane) in by_case.items()},
            area=float(run.area[number]),
            forces=self.forces,
        )

    def _find(self, attachment: int) -> tuple[RunForces, int]:
        """The forces among which those on an attachment are, and its number there."""
        number = self.layout.place_among_runs(attachment)
        for run, at in self.parts:
            if number < at.stop - at.start:
                return run, at.start + number
            number -= at.stop - at.start
        raise IndexError(f"no attachment has the number {attachment}")

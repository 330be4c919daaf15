"""Forces on attachments by every way in which lines may pass their loads on; near the ends of lines the largest counts.

By continuous beams on rigid supports the forces are in equilibrium with the loads. The largest of several ways is not,
so that purlins and reactions for the building's engineer use the beams alone. Of opposite forces the larger counts.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property, partial

import numpy as np

from engine.common.arrays import Floats, Ints
from engine.load_path import transfer
from engine.load_path.module_forces import ModuleForces
from engine.mounting import influence
from engine.mounting.influence import Influence, NearEnds, SolvedLines
from engine.mounting.layout import Member
from engine.project.job import Job
from engine.statics.load_sharing import spring_reactions
from engine.units import both

CONTINUOUS = "continuous beam"

UNCERTAINTY = (1.0, 0.45, 0.2)
"""Parts of a stated stiffness of the seam that are tried: it may be less by a factor of five (judgement)."""


def ways_near_ends(job: Job, member: Member) -> Mapping[str, influence.Way]:
    """Name → other ways of a line: a rail on seams of the stated stiffness, or a stiff one where none is stated."""
    section, stiffness = job.hardware.section(member.section), job.roof.panel.stiffness_at_clamp
    if section is None or stiffness is None:
        return influence.UNKNOWN_STIFFNESS
    ways = {influence.TRIBUTARY: influence.UNKNOWN_STIFFNESS[influence.TRIBUTARY]}
    for part in UNCERTAINTY:
        softness = member.bars * section.inertia * section.modulus / (stiffness * part)
        name = f"rail on {job.roof.rib_word}s of {both(stiffness * part, 'stiffness')}"
        ways[name] = partial(spring_reactions, softness=softness)
    return ways


@dataclass(frozen=True, eq=False)
class Way:
    """Forces on the attachments in one way: its `name`, shares of the modules, and `cases` as `attachment_cases`."""

    name: str
    influence: Influence
    cases: Mapping[str, tuple[Floats, Floats]]


@dataclass(eq=False)
class AttachmentForces:
    """Forces of modules on attachments, wind at each one's own effective wind area `area` (P,) [m²]."""

    forces: ModuleForces
    solved: SolvedLines
    area: Floats

    @cached_property
    def by_beams(self) -> Way:
        """Lines as continuous beams on rigid supports: forces in equilibrium."""
        return self._way(CONTINUOUS, self.solved.influence)

    @cached_property
    def normal_by_beams(self) -> Floats:
        """Force on each attachment normal to the roof, lines as continuous beams (P, C) [N]."""
        return self._normal(self.by_beams)

    @cached_property
    def normal(self) -> Floats:
        """Force on each attachment normal to the roof, the largest of all ways near the ends of lines (P, C) [N]."""
        if self._near_ends is None:
            return self.normal_by_beams
        largest = self.normal_by_beams.copy()
        largest[self._near_ends.attachments] = np.take_along_axis(self._by_way, self._largest[None], axis=0)[0]
        return largest

    def governing(self, attachment: int, combination: int) -> Way:
        """The way that gives the force on an attachment in a combination, by their numbers."""
        if self._near_ends is None or attachment not in self._near_ends.attachments:
            return self.by_beams
        row = int(np.searchsorted(self._near_ends.attachments, attachment))
        return self._ways[int(self._largest[row, combination])]

    @property
    def _near_ends(self) -> NearEnds | None:
        return self.solved.near_ends

    @cached_property
    def _ways(self) -> tuple[Way, ...]:
        """All ways, for lines with attachments near ends."""
        assert self._near_ends
        others = zip(self._near_ends.names, self._near_ends.influences, strict=True)
        return self.by_beams, *(self._way(name, influence) for name, influence in others)

    @cached_property
    def _by_way(self) -> Floats:
        """Force on the attachments near ends by each way (W, E, C) [N]."""
        assert self._near_ends
        return np.stack([self._normal(way)[self._near_ends.attachments] for way in self._ways])

    @cached_property
    def _largest(self) -> Ints:
        """Number of the way with the largest force on each attachment near an end (E, C); of equal ones the first."""
        largest: Ints = np.abs(self._by_way).round(6).argmax(axis=0)
        return largest

    def _way(self, name: str, influence: Influence) -> Way:
        return Way(name, influence, transfer.attachment_cases(self.forces, influence, self.area))

    def _normal(self, way: Way) -> Floats:
        return self.forces.in_combinations([normal for normal, _ in way.cases.values()])

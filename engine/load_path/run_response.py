"""What the modules bring to the lines of run groups, kept for all layouts that have these lines.

All lines of a layout that are new are worked out together, because each step is slow whatever its size.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from dataclasses import field as dataclass_field
from functools import cached_property
from typing import Any, TypeVar

import numpy as np

from engine.common.arrays import Floats, Ints
from engine.load_path import transfer
from engine.load_path.module_forces import ModuleForces
from engine.load_path.roof_loads import member_wind_areas
from engine.load_path.sharing import AttachmentForces, ForcesPool, RunForces, ways_near_ends
from engine.load_path.transfer import MemberDemands
from engine.loads.interface import Loads
from engine.mounting.build_layout import put_together
from engine.mounting.influence import Bending, SolvedLines
from engine.mounting.layout import Field, LaidLines, Layout
from engine.project.job import Job

T = TypeVar("T")


@dataclass(eq=False)
class LinesResponse:
    """Lines of several run groups, solved, with the forces of modules of 1 N each (`unit`) on their attachments."""

    job: Job
    field: Field
    laid: LaidLines
    unit: ModuleForces
    _members: dict[float, tuple[MemberDemands, ...]] = dataclass_field(default_factory=dict)

    @cached_property
    def solved(self) -> SolvedLines:
        """The lines solved as continuous beams."""
        return SolvedLines(self.laid, ways_near_ends(self.job, self.laid.member))

    @cached_property
    def area(self) -> Floats:
        """Effective wind area of each attachment (P,) [m²]."""
        return transfer.attachment_areas(self.field, self.solved.influence, len(self.laid.attachments))

    @cached_property
    def across_share(self) -> Floats:
        """Force of each attachment along the eave (P,) per unit of such a force on every module [-]."""
        return transfer.across_shares(self.solved.influence, len(self.laid.attachments))

    @cached_property
    def on_attachments(self) -> RunForces:
        """Forces on the attachments, wind at each one's own effective area."""
        return RunForces(self.unit, self.solved, self.area)

    @cached_property
    def for_members(self) -> RunForces:
        """Forces on the attachments, wind at the effective area of the member below, whose spans are stated."""
        return RunForces(
            self.unit, self.solved, member_wind_areas(self.job, self.laid.attachments.x, self.laid.attachments.y)
        )

    def members(self, forces: ModuleForces) -> tuple[MemberDemands, ...]:
        """Bending of each set of lines under the forces on members."""
        if forces.weight not in self._members:
            self._members[forces.weight] = tuple(transfer.member_demands(forces, self.laid, self.solved.bending))
        return self._members[forces.weight]


@dataclass(frozen=True, eq=False)
class RunResponse:
    """The lines of one run group among those that were solved together: its sets of `lines`, and where it begins.

    `start` is the position of its first attachment among those of all run groups so far.
    """

    among: LinesResponse
    lines: slice
    start: int

    @property
    def bending(self) -> Sequence[Bending]:
        """Bending of each set of lines under unit loads."""
        return self.among.solved.bending[self.lines]

    def members(self, forces: ModuleForces) -> Sequence[MemberDemands]:
        """Bending of each set of lines under the forces on members."""
        return self.among.members(forces)[self.lines]


@dataclass(eq=False)
class Responses:
    """The responses of all run groups of one field, and the forces of its modules, each worked out on first use."""

    job: Job
    field: Field
    loads: Loads
    _runs: dict[LaidLines, RunResponse] = dataclass_field(default_factory=dict)
    _solved: list[LinesResponse] = dataclass_field(default_factory=list)
    _attachments: int = 0
    _forces: dict[float, ModuleForces] = dataclass_field(default_factory=dict)
    _kept: dict[tuple[Any, ...], Any] = dataclass_field(default_factory=dict)
    _pools: dict[str, ForcesPool] = dataclass_field(default_factory=dict)

    def of(self, runs: Sequence[LaidLines]) -> tuple[RunResponse, ...]:
        """The responses of the lines of run groups."""
        new = [laid for laid in runs if laid not in self._runs]
        if new:
            among, line = LinesResponse(self.job, self.field, put_together(new), self._unit), 0
            self._solved.append(among)
            for laid in new:
                lines = slice(line, line := line + len(laid.lines))
                self._runs[laid] = RunResponse(among, lines, self._attachments)
                self._attachments += len(laid.attachments)
        return tuple(self._runs[laid] for laid in runs)

    def area(self, layout: Layout) -> Floats:
        """Effective wind area of each attachment of a layout (P,) [m²]."""
        index = self._index(layout)
        return np.concatenate([each.area for each in self._solved])[index]

    def across_share(self, layout: Layout) -> Floats:
        """Force of each attachment along the eave (P,) per unit of such a force on every module [-]."""
        index = self._index(layout)
        return np.concatenate([each.across_share for each in self._solved])[index]

    def on_attachments(self, layout: Layout, forces: ModuleForces) -> AttachmentForces:
        """Forces on the attachments of a layout, wind at each one's own effective area."""
        return self._from_pool("on_attachments", layout, forces)

    def for_members(self, layout: Layout, forces: ModuleForces) -> AttachmentForces:
        """As `on_attachments`, wind at the effective area of the member below where its spans are stated."""
        return self._from_pool("for_members" if self.job.roof.stated_member else "on_attachments", layout, forces)

    def _from_pool(self, name: str, layout: Layout, forces: ModuleForces) -> AttachmentForces:
        """Forces from the pool of a property of `LinesResponse`."""
        index, pool = self._index(layout), self._pools.setdefault(name, ForcesPool([]))
        pool.parts += [getattr(each, name) for each in self._solved[len(pool.parts) :]]
        return AttachmentForces(pool, index, forces)

    def _index(self, layout: Layout) -> Ints:
        """Positions of a layout's attachments among those of all run groups so far (P,); its new lines are added."""
        starts = [run.start for run in self.of(layout.runs)]
        together = [start + np.arange(len(laid.attachments)) for start, laid in zip(starts, layout.runs, strict=True)]
        return layout.joined(together)

    def forces(self, mass: float) -> ModuleForces:
        """Forces of the modules, for the total `mass` of modules and hardware above a link [kg]."""
        if mass not in self._forces:
            self._forces[mass] = ModuleForces.of_job(self.job, self.field, self.loads, mass)
        return self._forces[mass]

    def once(self, key: tuple[Any, ...], work_out: Callable[[], T]) -> T:
        """A result that depends on the key alone, worked out once."""
        if key not in self._kept:
            self._kept[key] = work_out()
        kept: T = self._kept[key]
        return kept

    @cached_property
    def _unit(self) -> ModuleForces:
        return ModuleForces(self.field, self.loads, self.job.building.slope, 1.0)

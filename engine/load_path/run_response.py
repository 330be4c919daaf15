"""Loads of the modules on the lines of run groups, kept for all layouts that have these lines.

Lines of a layout that are new are worked out together, because each step is slow whatever its size; those of a large
array in several pieces, because they take much room meanwhile.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from dataclasses import field as dataclass_field
from functools import cached_property
from itertools import groupby
from operator import itemgetter
from typing import Any, TypeVar

import numpy as np

from engine.common.arrays import Floats, Ints
from engine.common.tolerances import SAME_LENGTH
from engine.load_path import transfer
from engine.load_path.bare_roof import member_wind_areas
from engine.load_path.module_forces import ModuleForces
from engine.load_path.sharing import AttachmentForces, RunForces, ways_near_ends
from engine.load_path.transfer import MemberDemands
from engine.loads.interface import Loads
from engine.mounting.build_layout import put_together
from engine.mounting.influence import Bending, SolvedLines
from engine.mounting.layout import Field, LaidLines, Layout
from engine.project.job import Job
from engine.units import GRAVITY

T = TypeVar("T")

LOADS_AT_A_TIME = 8_000
"""Number of loads on lines from which on further run groups are worked out in another piece."""


@dataclass(eq=False)
class LinesResponse:
    """Lines of several run groups, solved, with the forces of modules of 1 N each (`unit`) on their attachments."""

    job: Job
    field: Field
    laid: LaidLines
    unit: ModuleForces
    _kept: dict[tuple[Any, ...], Any] = dataclass_field(default_factory=dict)

    def once(self, key: tuple[Any, ...], work_out: Callable[[], T]) -> T:
        """A result that depends on these lines and on the key alone, worked out once."""
        if key not in self._kept:
            self._kept[key] = work_out()
        kept: T = self._kept[key]
        return kept

    @cached_property
    def solved(self) -> SolvedLines:
        """The lines solved as continuous beams."""
        return SolvedLines(self.laid, ways_near_ends(self.job, self.laid.member))

    @property
    def depends_on(self) -> tuple[object, ...]:
        """All that the response depends on beside the forces: not the places of the lines across themselves.

        Lengths and shares that differ by rounding are the same.
        """
        sizes, numbers, values = list[object](), list[Ints](), list[Floats]()
        for line, attachment in zip(self.laid.lines, self.laid.attachment, strict=True):
            sizes.append((len(line.stands_on), line.module.shape, line.feet))
            numbers += [line.module.ravel(), attachment.ravel()]
            values += [np.array([line.start, line.end, line.width]), self.laid.supports(line)]
            values += [line.load_start, line.load_end, line.share, line.couple.ravel()]
        if self.job.roof.stated_member:
            values += [self.laid.attachments.x, self.laid.attachments.y]
        exact = np.rint(np.concatenate(values) / SAME_LENGTH) + 0.0  # no negative zeros
        return self.laid.member, tuple(sizes), np.concatenate(numbers).tobytes(), exact.tobytes()

    @cached_property
    def across_share(self) -> Floats:
        """Force of each attachment along the eave (P,) per unit of such a force on every module [-]."""
        return transfer.across_shares(self.solved.influence, len(self.laid.attachments))

    @cached_property
    def on_attachments(self) -> RunForces:
        """Forces on the attachments, wind at each one's own effective area."""
        influences = self.solved.influences
        area = transfer.attachment_areas(self.field, influences[0], len(self.laid.attachments))
        return RunForces.of_lines(self.unit, self.solved, influences, area)

    @cached_property
    def for_members(self) -> RunForces:
        """Forces on the attachments, wind at the effective area of the member below, whose spans are stated."""
        at = self.laid.attachments
        areas = member_wind_areas(self.job, at.x, at.y)
        return RunForces.of_lines(self.unit, self.solved, self.solved.influences, areas)

    def members(self, forces: ModuleForces) -> Iterator[MemberDemands]:
        """Bending of each set of lines under the forces on members: large, and kept by nobody."""
        return transfer.member_demands(forces, self.laid, self.laid.lines, self.solved.bending)


@dataclass(frozen=True, eq=False)
class RunResponse:
    """The `laid` lines of one run group among those that were solved together: its sets and its attachments there."""

    laid: LaidLines
    among: LinesResponse
    lines: slice
    attachments: slice

    @property
    def bending(self) -> Sequence[Bending]:
        """Bending of each set of lines under unit loads."""
        return self.among.solved.bending[self.lines]

    def member(self, number: int, forces: ModuleForces) -> MemberDemands:
        """Bending of one set of lines, by its number, under the forces on members."""
        lines = self.laid.lines[number]
        alike = self.among.once((self.lines.start + number, forces), lambda: self._member(number, forces))
        return replace(alike, y=lines.across)

    def _member(self, number: int, forces: ModuleForces) -> MemberDemands:
        (found,) = transfer.member_demands(forces, self.laid, [self.laid.lines[number]], [self.bending[number]])
        return found


@dataclass(eq=False)
class Responses:
    """The responses of all run groups of one field, and the forces of its modules, each worked out on first use.

    `_forces`: by the weight of a module [N]. `_alike`: the lines of fields with the same forces at several places, by
    what their responses depend on; None where there is one field alone.
    """

    job: Job
    field: Field
    loads: Loads
    _runs: dict[LaidLines, RunResponse] = dataclass_field(default_factory=dict)
    _forces: dict[float, ModuleForces] = dataclass_field(default_factory=dict)
    _alike: dict[tuple[object, ...], LinesResponse] | None = None

    def elsewhere(self, job: Job, field: Field, loads: Loads) -> Responses:
        """Those of the same modules at another place; what is the same in both is worked out once."""
        if self._alike is None:
            self._alike = {}
        other = Responses(job, field, loads)
        if self._unit.same_as(other._unit):
            other._forces, other._alike = self._forces, self._alike
        return other

    def of(self, runs: Iterable[LaidLines]) -> tuple[RunResponse, ...]:
        """The responses of the lines of run groups."""
        asked = tuple(runs)
        for piece in _pieces([laid for laid in dict.fromkeys(asked) if laid not in self._runs]):
            among, line, attachment = self._among(put_together(piece)), 0, 0
            for laid in piece:
                lines = slice(line, line := line + len(laid.lines))
                attachments = slice(attachment, attachment := attachment + len(laid.attachments))
                self._runs[laid] = RunResponse(laid, among, lines, attachments)
        return tuple(self._runs[laid] for laid in asked)

    def _among(self, laid: LaidLines) -> LinesResponse:
        """The response of lines; of those of another place where they are alike."""
        found = LinesResponse(self.job, self.field, laid, self._unit)
        return found if self._alike is None else self._alike.setdefault(found.depends_on, found)

    def keep_only(self, runs: Iterable[LaidLines]) -> None:
        """Forget the lines of all other run groups: those of a search take much room, and are not needed after it."""
        self._runs = {laid: self._runs[laid] for laid in runs if laid in self._runs}

    def area(self, layout: Layout) -> Floats:
        """Effective wind area of each attachment of a layout (P,) [m²]."""
        return layout.in_order(
            np.concatenate([run.among.on_attachments.area[run.attachments] for run in self.of(layout.runs)])
        )

    def across_share(self, layout: Layout) -> Floats:
        """Force of each attachment along the eave (P,) per unit of such a force on every module [-]."""
        return layout.in_order(
            np.concatenate([run.among.across_share[run.attachments] for run in self.of(layout.runs)])
        )

    def on_attachments(self, layout: Layout, forces: ModuleForces) -> AttachmentForces:
        """Forces on the attachments of a layout, wind at each one's own effective area."""
        parts = [(run.among.on_attachments, run.attachments) for run in self.of(layout.runs)]
        return AttachmentForces(layout, parts, forces)

    def for_members(self, layout: Layout, forces: ModuleForces) -> AttachmentForces:
        """As `on_attachments`, wind at the effective area of the member below where its spans are stated."""
        if not self.job.roof.stated_member:
            return self.on_attachments(layout, forces)
        parts = [(run.among.for_members, run.attachments) for run in self.of(layout.runs)]
        return AttachmentForces(layout, parts, forces)

    def forces(self, mass: float) -> ModuleForces:
        """Forces of the modules, for the total `mass` of modules and hardware above a link [kg]."""
        return self._of_weight(mass * GRAVITY / self.field.modules)

    @property
    def _unit(self) -> ModuleForces:
        return self._of_weight(1.0)

    def _of_weight(self, weight: float) -> ModuleForces:
        if weight not in self._forces:
            self._forces[weight] = ModuleForces(self.field, self.loads, self.job.building.slope, weight)
        return self._forces[weight]


def _pieces(runs: Sequence[LaidLines]) -> list[list[LaidLines]]:
    """Run groups in pieces that are worked out together."""
    loads = np.cumsum([sum(line.module.size for line in laid.lines) for laid in runs])
    by_piece = groupby(zip(runs, loads // LOADS_AT_A_TIME, strict=True), key=itemgetter(1))
    return [[laid for laid, _ in piece] for _, piece in by_piece]

"""What every link is asked to carry, combination by combination: arrays with the last axis C."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from engine.bill.take_off import Bill
from engine.common.arrays import Bools, Floats, Ints
from engine.common.combination import Combination
from engine.load_path import transfer
from engine.load_path.module_forces import ModuleForces
from engine.load_path.roof_loads import RoofLoads, bending_part
from engine.load_path.transfer import MemberDemands
from engine.loads.interface import Loads
from engine.mounting.influence import SolvedLines
from engine.mounting.layout import Field, Layout
from engine.project.hardware import RailSection
from engine.project.job import Job
from engine.statics.rib_bending import LoadedRibs, RibMoments


@dataclass(frozen=True, eq=False)
class Demands:
    """Wind, snow and weight of one layout, followed from the modules to the fastenings as far as a link asks.

    Each array is worked out when it is first asked for, and kept. Positive toward the roof and down the slope.
    Points P, ribs R that carry points, fastenings F on each, clamps K, modules M, combinations C. `roof`:
    the slope's every rib and level, with the modules on it and without.
    """

    job: Job
    field: Field
    loads: Loads
    roof: RoofLoads
    layout: Layout
    bill: Bill

    @property
    def combinations(self) -> tuple[Combination, ...]:
        """What acts together."""
        return self.loads.combinations

    @property
    def dead_pressure(self) -> float:
        """Weight of modules and hardware over the roof they cover [Pa]."""
        return self.bill.pressure_on(self.field)

    @property
    def section(self) -> RailSection | None:
        """What the members are made of; None for the modules' own frames."""
        return self.job.hardware.section(self.layout.member.section)

    @cached_property
    def forces(self) -> ModuleForces:
        """What the modules give to attachments and the roof, all hardware weighing with them."""
        return self._forces(self.bill.mass)

    @cached_property
    def forces_on_members(self) -> ModuleForces:
        """What they give to rails, racks and frames."""
        return self._forces(self.bill.mass_on_members)

    @cached_property
    def forces_on_clamps(self) -> ModuleForces:
        """What they give to what holds them down: no hardware weighs with them."""
        return self._forces(self.bill.module_mass)

    def _forces(self, mass: float) -> ModuleForces:
        return ModuleForces.of_job(self.job, self.field, self.loads, mass)

    @cached_property
    def solved(self) -> SolvedLines:
        """Who loads whom."""
        return SolvedLines(self.layout)

    @cached_property
    def module_pressure(self) -> Floats:
        """(M, C) normal to the module [Pa]."""
        forces = self.forces_on_clamps
        return forces.in_combinations([forces.pressure(case) for case in forces.cases])

    @cached_property
    def module_hook_cases(self) -> Mapping[str, tuple[Floats, Floats]]:
        """The same as `attachment_cases` for what holds modules on attachments, where no clamps on members do."""
        return transfer.attachment_cases(self.forces_on_clamps, self.solved.influence, self.attachment_area)

    @cached_property
    def _clamps(self) -> tuple[Floats, Floats]:
        forces, attachments = self.forces_on_clamps, self.layout.attachments
        if self.layout.member.clamped:
            return transfer.clamps(forces, self.layout)
        return forces.in_combinations([normal for normal, _ in self.module_hook_cases.values()]), np.column_stack(
            [attachments.x, attachments.y]
        )

    @property
    def clamp_force(self) -> Floats:
        """(K, C) force of one clamp, normal to its module [N]."""
        return self._clamps[0]

    @property
    def clamp_position(self) -> Floats:
        """(K, 2) x and y of the clamps [m]."""
        return self._clamps[1]

    @cached_property
    def members(self) -> tuple[MemberDemands, ...]:
        """Every set of lines."""
        return tuple(transfer.members(self.forces_on_members, self.layout, self.solved.bending))

    @cached_property
    def attachment_area(self) -> Floats:
        """(P,) effective wind area [m²]."""
        return transfer.attachment_areas(self.field, self.solved.influence, len(self.layout.attachments))

    @cached_property
    def attachment_cases(self) -> Mapping[str, tuple[Floats, Floats]]:
        """Load case → each point's forces normal to the roof and in its plane [N], (P,)."""
        return transfer.attachment_cases(self.forces, self.solved.influence, self.attachment_area)

    @cached_property
    def attachment_normal(self) -> Floats:
        """(P, C) [N]."""
        return self.forces.in_combinations([normal for normal, _ in self.attachment_cases.values()])

    @cached_property
    def attachment_in_plane(self) -> Floats:
        """(P, C) [N]."""
        return self.forces.in_combinations([in_plane for _, in_plane in self.attachment_cases.values()])

    @cached_property
    def attachment_across_force(self) -> Floats:
        """(P, C) along the eave, across the rib [N]."""
        return transfer.across_ribs(self.forces, self.solved.influence, len(self.layout.attachments))

    @cached_property
    def _ribs(self) -> LoadedRibs:
        return transfer.ribs(self.job, self.roof, self.layout, self.attachment_normal, self.attachment_in_plane)

    @property
    def rib(self) -> Ints:
        """(R,) which ribs carry points."""
        return self._ribs.number

    @cached_property
    def rib_moments(self) -> RibMoments:
        """How the (R,) ribs bend with the array, as far as the bays beside it."""
        return transfer.near_attachments(self._ribs.rib_moments, self.roof.rib_groups, self.layout.attachments.y)

    @property
    def fastening_from_attachments(self) -> Floats:
        """(R, F, C) what the points bring to each fastening [N]."""
        return self._ribs.reactions

    @cached_property
    def fastening_from_surface(self) -> Floats:
        """(R, F, C) what the air above and below brings [N]."""
        return bending_part(self.job, self.roof.surface_force[self.rib])

    @cached_property
    def panel_in_plane(self) -> Floats:
        """(R, C) what collects at each panel's fixed point [N]."""
        return transfer.panel_sliding(self.job, self.roof, self.layout, self.attachment_in_plane)[self.rib]

    @cached_property
    def unavoidable_fastening_load(self) -> Floats:
        """(C,) the least that some fastening must carry, however finely attachments are spread [N]."""
        return transfer.unavoidable_fastening_load(self.job, self.field, self.loads, self.roof, self.module_pressure)

    @property
    def fastening_y(self) -> Floats:
        """(F,) levels up the slope at which ribs are fastened [m]."""
        return self.roof.fastening_y

    @property
    def is_fastened(self) -> Bools:
        """(R, F) whether a rib is fastened at a level; where it is not, nothing is brought there."""
        return self.roof.is_fastened[self.rib]

    @property
    def attachment_up(self) -> Floats:
        """(P,) the largest pull of each point in any combination [N]."""
        pull: Floats = np.maximum(-self.attachment_normal, 0.0).max(axis=1)
        return pull

    @property
    def attachment_down_load(self) -> Floats:
        """(P,) the largest push of each point in any combination [N]."""
        push: Floats = np.maximum(self.attachment_normal, 0.0).max(axis=1)
        return push

    @property
    def fastening(self) -> Floats:
        """(R, F, C) reaction of each fastening with the array in place [N]."""
        return self.fastening_from_attachments + self.fastening_from_surface

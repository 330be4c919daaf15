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
from engine.load_path.roof_loads import RoofState, bent_by
from engine.load_path.transfer import MemberDemands
from engine.loads.interface import Loads
from engine.mounting.influence import Solved
from engine.mounting.layout import Field, Layout
from engine.project.hardware import Beam
from engine.project.job import Job
from engine.statics.rib_bending import Bent, Ribs


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
    roof: RoofState
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
    def beam(self) -> Beam | None:
        """What the members are made of; None for the modules' own frames."""
        return self.job.hardware.beam(self.layout.member.beam)

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
    def solved(self) -> Solved:
        """Who loads whom."""
        return Solved(self.layout)

    @cached_property
    def module_pressure(self) -> Floats:
        """(M, C) normal to the module [Pa]."""
        forces = self.forces_on_clamps
        return forces.in_combinations([forces.pressure(case) for case in forces.cases])

    @cached_property
    def hook_cases(self) -> Mapping[str, tuple[Floats, Floats]]:
        """The same as `point_cases` for what holds modules on attachments, where no clamps on members do."""
        return transfer.point_cases(self.forces_on_clamps, self.solved.influence, self.point_area)

    @cached_property
    def _clamps(self) -> tuple[Floats, Floats]:
        forces, points = self.forces_on_clamps, self.layout.points
        if self.layout.member.clamped:
            return transfer.clamps(forces, self.layout)
        return forces.in_combinations([normal for normal, _ in self.hook_cases.values()]), np.column_stack([points.x, points.y])

    @property
    def clamp(self) -> Floats:
        """(K, C) force of one clamp, normal to its module [N]."""
        return self._clamps[0]

    @property
    def clamp_place(self) -> Floats:
        """(K, 2) x and y of the clamps [m]."""
        return self._clamps[1]

    @cached_property
    def members(self) -> tuple[MemberDemands, ...]:
        """Every set of lines."""
        return tuple(transfer.members(self.forces_on_members, self.layout, self.solved.bending))

    @cached_property
    def point_area(self) -> Floats:
        """(P,) effective wind area [m²]."""
        return transfer.point_areas(self.field, self.solved.influence, len(self.layout.points))

    @cached_property
    def point_cases(self) -> Mapping[str, tuple[Floats, Floats]]:
        """Load case → each point's forces normal to the roof and in its plane [N], (P,)."""
        return transfer.point_cases(self.forces, self.solved.influence, self.point_area)

    @cached_property
    def point_normal(self) -> Floats:
        """(P, C) [N]."""
        return self.forces.in_combinations([normal for normal, _ in self.point_cases.values()])

    @cached_property
    def point_in_plane(self) -> Floats:
        """(P, C) [N]."""
        return self.forces.in_combinations([in_plane for _, in_plane in self.point_cases.values()])

    @cached_property
    def point_across(self) -> Floats:
        """(P, C) along the eave, across the rib [N]."""
        return transfer.across(self.forces, self.solved.influence, len(self.layout.points))

    @cached_property
    def _ribs(self) -> Ribs:
        return transfer.ribs(self.job, self.roof, self.layout, self.point_normal, self.point_in_plane)

    @property
    def rib(self) -> Ints:
        """(R,) which ribs carry points."""
        return self._ribs.number

    @cached_property
    def bent(self) -> Bent:
        """How the (R,) ribs bend with the array, as far as the bays beside it."""
        return transfer.near(self._ribs.bent, self.roof.alike, self.layout.points.y)

    @property
    def fastening_points(self) -> Floats:
        """(R, F, C) what the points bring to each fastening [N]."""
        return self._ribs.brought

    @cached_property
    def fastening_surface(self) -> Floats:
        """(R, F, C) what the air above and below brings [N]."""
        return bent_by(self.job, self.roof.surface[self.rib])

    @cached_property
    def panel_in_plane(self) -> Floats:
        """(R, C) what collects at each panel's fixed point [N]."""
        return transfer.sliding(self.job, self.roof, self.layout, self.point_in_plane)[self.rib]

    @cached_property
    def bound(self) -> Floats:
        """(C,) the least that some fastening must carry, however finely attachments are spread [N]."""
        return transfer.bound(self.job, self.field, self.loads, self.roof, self.module_pressure)

    @property
    def fastening_y(self) -> Floats:
        """(F,) levels up the slope at which ribs are fastened [m]."""
        return self.roof.fastening_y

    @property
    def held(self) -> Bools:
        """(R, F) whether a rib is fastened at a level; where it is not, nothing is brought there."""
        return self.roof.held[self.rib]

    @property
    def point_up(self) -> Floats:
        """(P,) the largest pull of each point in any combination [N]."""
        pull: Floats = np.maximum(-self.point_normal, 0.0).max(axis=1)
        return pull

    @property
    def point_down(self) -> Floats:
        """(P,) the largest push of each point in any combination [N]."""
        push: Floats = np.maximum(self.point_normal, 0.0).max(axis=1)
        return push

    @property
    def fastening(self) -> Floats:
        """(R, F, C) reaction of each fastening with the array in place [N]."""
        return self.fastening_points + self.fastening_surface

"""Loads on every link of the load path in every combination, the last axis C of each array."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from dataclasses import field as dataclass_field
from functools import cached_property
from itertools import islice

import numpy as np

from engine.bill.take_off import Bill
from engine.common.arrays import Bools, Floats, Ints
from engine.common.combination import Combination
from engine.load_path import transfer
from engine.load_path.bare_roof import bending_part
from engine.load_path.module_forces import ModuleForces
from engine.load_path.roof_loads import RoofLoads
from engine.load_path.roof_members import RoofMembers, find_members
from engine.load_path.run_response import Responses, RunResponse
from engine.load_path.sharing import AttachmentForces
from engine.load_path.transfer import MemberDemands
from engine.loads.interface import Loads
from engine.mounting.holding import Holding, find_holding
from engine.mounting.influence import Bending
from engine.mounting.layout import Field, Layout
from engine.project.hardware import RailSection
from engine.project.job import Job
from engine.statics.rib_bending import LoadedRibs, RibMoments


@dataclass(eq=False)
class Demands:
    """Wind, snow and weight of one layout on its links, from the modules to the roof's fastenings.

    Each array is computed on first use and kept. Positive toward the roof and down the slope. Axes: attachments P, ribs
    R that carry attachments, fastening levels F, clamps K, modules M, combinations C. `roof` holds the loads on all
    ribs of the slope, with the array and without.
    """

    job: Job
    field: Field
    loads: Loads
    roof: RoofLoads
    layout: Layout
    bill: Bill
    responses: Responses
    _members: dict[int, MemberDemands] = dataclass_field(default_factory=dict)

    @property
    def combinations(self) -> tuple[Combination, ...]:
        """The load combinations C."""
        return self.loads.combinations

    @property
    def dead_pressure(self) -> float:
        """Weight of modules and hardware per area of roof they cover [Pa]."""
        return self.bill.pressure_on(self.field)

    @property
    def section(self) -> RailSection | None:
        """Section of the members; None for the modules' own frames."""
        return self.job.hardware.section(self.layout.member.section)

    @property
    def forces(self) -> ModuleForces:
        """Forces of the modules on attachments and the roof, with the weight of all hardware."""
        return self.responses.forces(self.bill.mass)

    @property
    def forces_on_members(self) -> ModuleForces:
        """Forces of the modules on rails, racks and frames, with the weight of these members."""
        return self.responses.forces(self.bill.mass_on_members)

    @property
    def forces_on_clamps(self) -> ModuleForces:
        """Forces of the modules on clamps and hooks, without the weight of hardware."""
        return self.responses.forces(self.bill.module_mass)

    @cached_property
    def runs(self) -> tuple[RunResponse, ...]:
        """The response of each run group of the layout."""
        return self.responses.of(self.layout.runs)

    @property
    def bending(self) -> tuple[Bending, ...]:
        """Bending of each set of lines under unit loads."""
        return tuple(bending for run in self.runs for bending in run.bending)

    @cached_property
    def holding(self) -> Holding:
        """Support of the modules in the layout."""
        return find_holding(self.field, self.layout)

    @property
    def module_pressure(self) -> Floats:
        """Pressure normal to each module (M, C) [Pa]."""
        return self.forces_on_clamps.pressure_combined

    @cached_property
    def on_hooks(self) -> AttachmentForces:
        """As `on_attachments`, for the hooks that hold modules on attachments if there are no clamps on members."""
        return self.responses.on_attachments(self.layout, self.forces_on_clamps)

    @cached_property
    def _clamps(self) -> tuple[Floats, Floats]:
        """Forces and positions of the clamps, or of the hooks if the modules are held at the attachments."""
        attachments, forces = self.layout.attachments, self.forces_on_clamps
        if not self.layout.member.clamped:
            return self.on_hooks.normal, np.column_stack([attachments.x, attachments.y])
        return transfer.clamp_forces(forces, self.layout)

    @property
    def clamp_force(self) -> Floats:
        """Force of each clamp normal to its module (K, C) [N]."""
        return self._clamps[0]

    @property
    def clamp_position(self) -> Floats:
        """Positions x and y of the clamps (K, 2) [m]."""
        return self._clamps[1]

    @property
    def members(self) -> tuple[MemberDemands, ...]:
        """Bending of each set of lines."""
        return tuple(map(self.member, range(len(self.layout.lines))))

    def member(self, number: int) -> MemberDemands:
        """Bending of one set of lines, by its number."""
        if number not in self._members:
            run, own = next(islice(self._sets_of_lines, number, None))
            self._members[number] = run.member(own, self.forces_on_members)
        return self._members[number]

    @property
    def _sets_of_lines(self) -> Iterator[tuple[RunResponse, int]]:
        """The run of each set of lines, and its number there."""
        return ((run, own) for run in self.runs for own in range(len(run.laid.lines)))

    @cached_property
    def attachment_area(self) -> Floats:
        """Effective wind area of each attachment (P,) [m²]."""
        return self.responses.area(self.layout)

    @cached_property
    def on_attachments(self) -> AttachmentForces:
        """Forces of the modules on the attachments, by every way in which lines may pass them on."""
        return self.responses.on_attachments(self.layout, self.forces)

    @property
    def attachment_cases(self) -> Mapping[str, tuple[Floats, Floats]]:
        """Load case → force on each attachment normal to the roof and down the slope, in equilibrium, (P,) each [N]."""
        return self.on_attachments.cases

    @property
    def attachment_normal(self) -> Floats:
        """Force on each attachment normal to the roof (P, C) [N], near the ends of lines the largest of several."""
        return self.on_attachments.normal

    @property
    def attachment_in_plane(self) -> Floats:
        """Force on each attachment down the slope (P, C) [N]."""
        return self.on_attachments.in_plane

    @cached_property
    def across_share(self) -> Floats:
        """Force of each attachment along the eave (P,) per unit of such a force on every module [-]."""
        return self.responses.across_share(self.layout)

    @cached_property
    def attachment_across_force(self) -> Floats:
        """Force on each attachment along the eave, across its rib (P, C) [N], distributed like the in-plane force."""
        across = self.forces.across_combined
        if not across.any():
            return np.zeros((len(self.layout.attachments), len(across)))
        return self.across_share[:, None] * across

    @cached_property
    def _ribs(self) -> LoadedRibs:
        return transfer.loaded_ribs(self.job, self.roof, self.layout, self.attachment_normal, self.attachment_in_plane)

    @property
    def rib(self) -> Ints:
        """Numbers of the ribs that carry attachments (R,)."""
        return self._ribs.number

    @property
    def rib_moments(self) -> RibMoments:
        """Bending moments of the ribs (R,) with the array, from one bay below it to one bay above."""
        return self._near_attachments(self._ribs.rib_moments)

    @property
    def rib_moments_in_parts(self) -> Iterator[tuple[Ints, RibMoments]]:
        """The numbers of a few ribs at a time, and their `rib_moments`."""
        return ((number, self._near_attachments(moments)) for number, moments in self._ribs.moments_in_parts)

    def _near_attachments(self, moments: RibMoments) -> RibMoments:
        return transfer.near_attachments(moments, self.roof.rib_groups, self.layout.attachments.y)

    @property
    def fastening_from_attachments(self) -> Floats:
        """Reaction of each fastening to the attachments (R, F, C) [N]."""
        return self._ribs.reactions

    @cached_property
    def fastening_from_surface(self) -> Floats:
        """Load on each fastening from wind and snow on the panel itself (R, F, C) [N]."""
        return bending_part(self.job, self.roof.surface_force[self.rib])

    @cached_property
    def panel_in_plane(self) -> Floats:
        """Load along the slope at each panel's anchorage (R, C) [N]."""
        return transfer.panel_sliding(self.job, self.roof, self.layout, self.attachment_in_plane)[self.rib]

    @cached_property
    def roof_members(self) -> RoofMembers | None:
        """The loads on the members under the roof, with the array and without; None if those of a deck are unknown."""
        on_attachments = self.responses.for_members(self.layout, self.forces)
        return find_members(self.job, self.roof, self.layout, on_attachments)

    @cached_property
    def unavoidable_fastening_load(self) -> Floats:
        """Load that at least one fastening must carry even at the closest spacing (C,) [N]."""
        return transfer.unavoidable_fastening_load(self.job, self.field, self.loads, self.roof, self.module_pressure)

    @property
    def fastening_y(self) -> Floats:
        """Levels up the slope at which any rib is fastened (F,) [m]."""
        return self.roof.fastening_y

    @property
    def is_fastened(self) -> Bools:
        """True if a rib is fastened at a level (R, F); if not, all forces there are 0."""
        return self.roof.is_fastened[self.rib]

    @property
    def attachment_up(self) -> Floats:
        """Largest uplift of each attachment in any combination (P,) [N]."""
        uplift: Floats = np.maximum(-self.attachment_normal, 0.0).max(axis=1)
        return uplift

    @property
    def attachment_down_load(self) -> Floats:
        """Largest down load of each attachment in any combination (P,) [N]."""
        down_load: Floats = np.maximum(self.attachment_normal, 0.0).max(axis=1)
        return down_load

    @property
    def fastening(self) -> Floats:
        """Load on each fastening with the array in place (R, F, C) [N]."""
        return self.fastening_from_attachments + self.fastening_from_surface

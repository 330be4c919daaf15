"""Forces on the members under the roof, and the members as beams over what carries them.

A purlin lies at every level up the slope at which the panel is fastened, and is loaded by the reactions of the
fastenings. Under a deck, a load between two rafters or joists goes to both by the lever rule. Attachments on the
structure load the member that they stand on. Forces along the slope go to the panel anchorage, or turn the members:
they are left out here.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np

from engine.common.arrays import Floats, Ints, group_nearby
from engine.common.tolerances import SAME_LEVEL
from engine.load_path import transfer
from engine.load_path.roof_loads import RoofLoads
from engine.load_path.sharing import AttachmentForces
from engine.mounting.layout import Layout
from engine.project.job import Job
from engine.statics.point_loads import PointLoadedBeams
from engine.statics.rib_bending import LoadedRibs, RibActions


@dataclass(eq=False)
class RoofMembers:
    """Members (N,) at `across` (N,) [m], carried at `supports` (S,) [m] and loaded at `along` (L,) [m] of their length.

    Purlins and joists run along the eave: `across` is measured from the eave, the others from the left rake. Where they
    run up the slope (`up_slope`), it is the other way round. `supports` is None if their spans are not stated.
    `from_attachments` and `from_surface` (N, L, C) [N]: forces with the array in place, from the attachments and from
    the roof itself with its weight; `without_array` (N, L, C) [N]: forces without the array. `shares` (N, P): part of
    each attachment's force that each member under a deck carries. Wind acts at the effective wind area of a member
    between two supports; if these are unknown, of a fastening and of an attachment.
    """

    across: Floats
    supports: Floats | None
    along: Floats
    from_attachments: Floats
    from_surface: Floats
    without_array: Floats
    up_slope: bool = False
    shares: Floats | None = None

    @property
    def with_array(self) -> Floats:
        """Forces with the array (N, L, C) [N]: large, and made anew whenever they are read."""
        return self.from_attachments + self.from_surface

    @cached_property
    def loaded(self) -> PointLoadedBeams:
        """The members with the array, as beams.

        Raises:
            ValueError: their spans are not stated.
        """
        return self._beams(self.with_array)

    @cached_property
    def bare(self) -> PointLoadedBeams:
        """The members without the array, as beams.

        Raises:
            ValueError: their spans are not stated.
        """
        return self._beams(self.without_array)

    def _beams(self, forces: Floats) -> PointLoadedBeams:
        if self.supports is None:
            raise ValueError("the spans of the members are not stated")
        return PointLoadedBeams(self.supports, self.along, forces)


def find_members(job: Job, roof: RoofLoads, layout: Layout, on_attachments: AttachmentForces) -> RoofMembers | None:
    """The members under a layout; None if the panel lies on a deck whose joists or rafters are not stated.

    Args:
        job: the job.
        roof: loads on the roof itself.
        layout: the layout.
        on_attachments: forces of the attachments, wind at the effective area of the member where that is known.
    """
    if roof.members_with_array is None or roof.members_alone is None:
        return None
    normal, in_plane, member = on_attachments.normal, on_attachments.in_plane, job.roof.stated_member
    if job.roof.solid_deck:
        return _under_deck(job, roof, (roof.members_with_array, roof.members_alone), layout, normal)
    return RoofMembers(
        across=roof.fastening_y,
        supports=member.supports(job.building, up_slope=False) if member else None,
        along=roof.ribs,
        from_attachments=attachments_on_purlins(job, roof, layout, normal, in_plane),
        from_surface=roof.members_with_array,
        without_array=roof.members_alone,
    )


def _under_deck(
    job: Job, roof: RoofLoads, surface: tuple[Floats, Floats], layout: Layout, normal: Floats
) -> RoofMembers:
    """Rafters or joists under a deck, loaded where attachments and fastenings are.

    Args:
        job: the job, with the members stated.
        roof: loads on the roof itself.
        surface: those of the roof itself at every fastening, with the array and without it (F, Q, C) [N].
        layout: the layout.
        normal: force of each attachment normal to the roof (P, C) [N].
    """
    member, up_slope = job.roof.stated_member, job.roof.members_up_slope
    assert member is not None
    at, (x, y) = layout.attachments, np.broadcast_arrays(roof.ribs, roof.fastening_y[:, None])
    across, along = ((x, at.x), (y, at.y)) if up_slope else ((y, at.y), (x, at.x))
    every = np.concatenate([each.ravel() for each in along])
    first, place = group_nearby(every, SAME_LEVEL)
    of_fastenings, of_attachments = (_lever_shares(job, each.ravel()) for each in across)

    def from_fastenings(forces: Floats) -> Floats:
        return _at_places(of_fastenings, forces.reshape(-1, normal.shape[1]), place[: x.size], len(first))

    return RoofMembers(
        across=job.roof.member_lines(job.building),
        supports=member.supports(job.building, up_slope=up_slope),
        along=every[first],
        from_attachments=_at_places(of_attachments, normal, place[x.size :], len(first)),
        from_surface=from_fastenings(surface[0]),
        without_array=from_fastenings(surface[1]),
        up_slope=up_slope,
        shares=of_attachments,
    )


def _lever_shares(job: Job, distance: Floats) -> Floats:
    """Part of a load at each distance from the edge (n,) [m] that each member under a deck carries (N, n).

    A load between two members goes to both by the lever rule. Beyond the outermost ones the walls carry: at the rakes
    beside rafters, at eave and ridge beside joists.
    """
    lines, member = job.roof.member_lines(job.building), job.roof.member
    start, end = member.between(job.building, up_slope=not job.roof.members_up_slope)
    carriers = np.unique(np.concatenate([[min(start, lines[0])], lines, [max(end, lines[-1])]]))
    return np.stack([np.interp(distance, carriers, (carriers == line).astype(np.float64)) for line in lines])


def _at_places(shares: Floats, forces: Floats, place: Ints, places: int) -> Floats:
    """Forces (n, C) at their `place` (n,) along members, by the shares of these (N, n), summed (N, places, C)."""
    summed = np.zeros((len(shares), places, forces.shape[1]))
    for line, share in zip(summed, shares, strict=True):
        np.add.at(line, place, share[:, None] * forces)
    return summed


def attachments_on_purlins(job: Job, roof: RoofLoads, layout: Layout, normal: Floats, in_plane: Floats) -> Floats:
    """Force on each purlin at each rib from the attachments (F, Q, K) [N], in K cases or combinations.

    Args:
        job: the job.
        roof: loads on the roof itself.
        layout: the layout.
        normal: force of each attachment normal to the roof (P, K) [N].
        in_plane: force of each attachment down the slope (P, K) [N].
    """
    attachments, shape = layout.attachments, (len(roof.fastening_y), len(roof.ribs), normal.shape[1])
    on_purlins = np.zeros(shape)
    if job.hardware.bypasses_sheet:
        np.add.at(on_purlins, (nearest_purlin(roof, attachments.y), attachments.rib), normal)
        return on_purlins
    actions = transfer.rib_actions(attachments, normal, in_plane)
    rib = np.unique(attachments.rib)
    nothing = np.zeros((len(rib), shape[0], shape[2]))
    on_ribs = RibActions(*actions, nothing)
    on_purlins[:, rib] = LoadedRibs(rib, roof.fastening_y, roof.rib_groups, on_ribs).reactions.swapaxes(0, 1)
    return on_purlins


def nearest_purlin(roof: RoofLoads, y: Floats) -> Ints:
    """Number of the purlin nearest to each y [m], from 0 at the eave (n,)."""
    nearest: Ints = np.abs(y[:, None] - roof.fastening_y).argmin(axis=1)
    return nearest

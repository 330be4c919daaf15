"""Forces on the purlins: the reactions of the fastenings on each of them, and purlins as beams over the frames.

A purlin lies at every level up the slope at which the panel is fastened. Attachments on the structure load the purlin
that they stand on. Forces along the slope go to the panel anchorage, or turn the purlins: they are left out here.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np

from engine.common.arrays import Floats, Ints
from engine.load_path import transfer
from engine.load_path.roof_loads import RoofLoads
from engine.load_path.sharing import AttachmentForces
from engine.mounting.layout import Layout
from engine.project.job import Job
from engine.statics.point_loads import PointLoadedBeams
from engine.statics.rib_bending import LoadedRibs, RibActions


@dataclass(eq=False)
class Purlins:
    """The purlins (F,) at `y` (F,) [m] over frames at `frames` (S,) [m], loaded at ribs at `x` (Q,) [m].

    `frames` is None if their spans are not stated. `from_attachments` and `from_surface` (F, Q, C) [N]: forces with the
    array in place, from the attachments and from the roof itself with its weight; `without_array` (F, Q, C) [N]: forces
    without the array. Wind acts at the effective wind area of a purlin between two frames; if these are unknown, of a
    fastening and of an attachment.
    """

    y: Floats
    frames: Floats | None
    x: Floats
    from_attachments: Floats
    from_surface: Floats
    without_array: Floats

    @cached_property
    def with_array(self) -> Floats:
        """Forces with the array (F, Q, C) [N]."""
        return self.from_attachments + self.from_surface

    @cached_property
    def loaded(self) -> PointLoadedBeams:
        """The purlins with the array, as beams.

        Raises:
            ValueError: their spans are not stated.
        """
        return self._beams(self.with_array)

    @cached_property
    def bare(self) -> PointLoadedBeams:
        """The purlins without the array, as beams.

        Raises:
            ValueError: their spans are not stated.
        """
        return self._beams(self.without_array)

    def _beams(self, forces: Floats) -> PointLoadedBeams:
        if self.frames is None:
            raise ValueError("the spans of the purlins are not stated")
        return PointLoadedBeams(self.frames, self.x, forces)


def find_purlins(
    job: Job,
    roof: RoofLoads,
    layout: Layout,
    on_attachments: AttachmentForces,
) -> Purlins | None:
    """The purlins under a layout; None if the panel lies on a deck.

    Args:
        job: the job.
        roof: loads on the roof itself.
        layout: the layout.
        on_attachments: forces of the attachments, wind at the effective area of the purlin where that is known.
    """
    if roof.on_purlins is None:
        return None
    member, normal = job.roof.purlins, on_attachments.normal_by_beams
    return Purlins(
        y=roof.fastening_y,
        frames=member.frames(job.building) if member else None,
        x=roof.ribs,
        from_attachments=attachments_on_purlins(job, roof, layout, normal, on_attachments.in_plane),
        from_surface=roof.on_purlins.with_array,
        without_array=roof.on_purlins.without_array,
    )


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

"""Reactions for the building's engineer: unfactored, by load case, of every attachment and of every purlin.

Signs: normal to the roof positive toward it, along the slope positive toward the eave.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from engine.common.arrays import Floats, Ints
from engine.load_path.demands import Demands
from engine.load_path.roof_members import attachments_on_purlins, nearest_purlin

NORMAL, ALONG, ACROSS = "", "along slope", "across"


@dataclass(frozen=True, eq=False)
class PurlinReactions:
    """Line loads on purlins F in each load case over the array's extent, from `start` to `end` [m] along the eave.

    `y` (F,) [m]; case → `from_attachments` and `from_surface` (F,) each [N/m]: means over the extent, from the
    attachments and from wind and snow on the roof itself with the array in place, without its own weight. Wind is that
    of the attachments' and the fastenings' own areas, which is safe for purlins.
    """

    y: Floats
    start: float
    end: float
    from_attachments: dict[str, Floats]
    from_surface: dict[str, Floats]


@dataclass(frozen=True, eq=False)
class Reactions:
    """Reactions of one design: (load case, direction) → force of each attachment (P,) [N]; `purlins` None on a deck.

    Directions in which a case loads no attachment are left out, but for the one normal to the roof. `purlin` (P,) is
    the number of the purlin nearest to each attachment, from 1 at the eave.
    """

    attachments: dict[tuple[str, str], Floats]
    purlin: Ints | None
    purlins: PurlinReactions | None


def reactions(demands: Demands) -> Reactions:
    """The reactions of a layout."""
    forces = demands.forces
    found = dict[tuple[str, str], Floats]()
    for case, (normal, along) in demands.attachment_cases.items():
        found[case, NORMAL] = normal
        for direction, force in ((ALONG, along), (ACROSS, forces.across(case) * demands.across_share)):
            if force.any():
                found[case, direction] = force
    if demands.job.roof.solid_deck:
        return Reactions(found, None, None)
    purlin = nearest_purlin(demands.roof, demands.layout.attachments.y) + 1
    return Reactions(found, purlin, _purlins(demands))


def _purlins(demands: Demands) -> PurlinReactions:
    """Line loads over the extent of the array, to half a rib spacing beyond its outermost attachments."""
    job, roof, x = demands.job, demands.roof, demands.layout.attachments.x
    half = job.roof.rib_spacing / 2
    start, end = max(float(x.min()) - half, 0.0), min(float(x.max()) + half, job.building.length)
    within = (roof.ribs > start) & (roof.ribs < end)
    names = list(demands.attachment_cases)
    normal, in_plane = (np.stack(part, axis=1) for part in zip(*demands.attachment_cases.values(), strict=True))
    on_purlins = attachments_on_purlins(job, roof, demands.layout, normal, in_plane).sum(axis=1)
    return PurlinReactions(
        y=roof.fastening_y,
        start=start,
        end=end,
        from_attachments={case: on_purlins[:, number] / (end - start) for number, case in enumerate(names)},
        from_surface={case: force[within].sum(axis=0) / (end - start) for case, force in roof.cases.items()},
    )

"""The attachments of one design, one by one, as an installer walks the roof.

Attachments are numbered row by row from the eave, along each row from the rake; those numbers are
the layout's own, and every screen and file uses them.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from engine.common.arrays import Floats, Ints, group_nearby
from engine.design.design import Design
from engine.design.trial import Candidate
from engine.links import attachment_ratios, clamp_ratios, fastening_ratios, rib_ratios
from engine.load_path.demands import Demands
from engine.mounting.influence import SAME_PLACE, SolvedLines
from engine.mounting.layout import Attachments

CARRIED_BY = 0.1
"""A module that brings a point less than this part of what the nearest one brings is held elsewhere."""


@dataclass(frozen=True, eq=False)
class Schedule:
    """Attachments P in walking order; forces [N] are positive, distances from left rake and eave [m].

    `row` counts from 1 at the eave, `rib` from 1 at the left rake; `zone` is the worst wind zone of the
    modules a point carries. `used` gives, link by link, what is used at or beside each point (P,); it is
    empty, and `up` and `down` are None, where nothing was checked.
    """

    row: Ints
    rib: Ints
    x: Floats
    y: Floats
    zone: tuple[str, ...]
    up: Floats | None
    down: Floats | None
    used: Mapping[str, Floats]
    titles: Mapping[str, str]

    def __len__(self) -> int:
        return len(self.rib)

    @property
    def utilisation(self) -> Floats | None:
        """What the governing link of each point uses (P,); None where nothing was checked."""
        return np.max(list(self.used.values()), axis=0) if self.used else None

    @property
    def governing(self) -> tuple[str, ...]:
        """The link that is used most at each point; no words where nothing was checked."""
        if not self.used:
            return ("",) * len(self)
        links = list(self.used)
        return tuple(self.titles[links[index]] for index in np.argmax(list(self.used.values()), axis=0))

    @property
    def is_checked(self) -> str:
        """The links that are looked at point by point, in words: a method may hang on others; no words where nothing was checked."""
        titles = [self.titles[link] for link in self.used]
        return " and ".join(filter(None, [", ".join(titles[:-1]), *titles[-1:]]))

    @property
    def verdicts(self) -> tuple[str, ...]:
        """What is to be said of each point: "holds", "over" or "not checked"."""
        if self.utilisation is None:
            return ("not checked",) * len(self)
        return tuple("holds" if used <= 1 else "over" for used in self.utilisation.tolist())


def schedule(design: Design) -> Schedule:
    """Number, place and load every attachment of a design."""
    attachments, candidate = design.layout.attachments, design.candidate
    return Schedule(
        row=group_nearby(attachments.y, SAME_PLACE)[1] + 1,
        rib=attachments.rib + 1,
        x=attachments.x,
        y=attachments.y,
        zone=_zones(design),
        up=candidate.demands.attachment_up if candidate else None,
        down=candidate.demands.attachment_down_load if candidate else None,
        used=_used(candidate) if candidate else {},
        titles={check.link: check.title for check in candidate.checks} if candidate else {},
    )


def _zones(design: Design) -> tuple[str, ...]:
    solved = design.candidate.demands.solved if design.candidate else SolvedLines(design.layout)
    influence, loads, count = solved.influence, design.loads, len(design.layout.attachments)
    attachment, share = influence.attachment, np.abs(influence.share)
    largest, worst = np.zeros(count), np.zeros(count, dtype=np.int64)
    np.maximum.at(largest, attachment, share)
    carried = np.flatnonzero(share >= CARRIED_BY * largest[attachment])
    np.maximum.at(worst, attachment[carried], loads.zone[influence.module[carried]])
    return tuple(loads.zone_names[zone] for zone in worst)


def _used(candidate: Candidate) -> dict[str, Floats]:
    """The links that can be told point by point: what grips the roof, and the roof beside it."""
    layout, demands = candidate.layout, candidate.demands
    used = {"attachment": attachment_ratios(demands).per_item}
    if not layout.member.clamped:
        used["clamp"] = clamp_ratios(demands).per_item
    bending = rib_ratios(demands, demands.rib_moments).per_item
    fastening = np.max([ratios.per_item for ratios in fastening_ratios(demands).values()], axis=0)
    return used | {
        "rib": _beside(layout.attachments, demands, demands.rib_moments.positions, bending),
        "roof_fastening": _beside(layout.attachments, demands, demands.fastening_y, fastening),
    }


def _beside(attachments: Attachments, demands: Demands, y: Floats, used: Floats) -> Floats:
    """What is used along ribs (R, T) at places `y` (T,), told at the points on both sides of each place (P,)."""
    told = np.zeros(len(attachments))
    for row, rib in enumerate(demands.rib):
        on_rib = np.flatnonzero(attachments.rib == rib)  # in rising order up the slope, as points are numbered
        above = np.searchsorted(attachments.y[on_rib], y)
        for beside in (np.maximum(above - 1, 0), np.minimum(above, len(on_rib) - 1)):
            np.maximum.at(told, on_rib[beside], used[row])
    return told

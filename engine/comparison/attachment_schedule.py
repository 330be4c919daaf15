"""The attachments of one design, one by one, in the order in which an installer walks the roof.

Attachments are numbered row by row from the eave, along each row from the rake. The numbers are those of the layout;
every screen and file uses them.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from engine.common.arrays import Floats, Ints, group_nearby
from engine.common.tolerances import SAME_PLACE
from engine.design.design import Design
from engine.design.trial import Candidate
from engine.links.attachment import attachment_utilisation
from engine.links.clamp import clamp_ratios
from engine.links.rib import rib_ratios
from engine.links.roof_fastening import fastening_ratios
from engine.load_path.demands import Demands
from engine.mounting.influence import SolvedLines
from engine.mounting.layout import Attachments

CARRIED_BY = 0.1
"""A module counts as carried by an attachment from this part of its largest share on; less is a side effect."""


@dataclass(frozen=True, eq=False)
class Schedule:
    """Attachments P in walking order; forces [N] are positive, distances from left rake and eave [m].

    `row` counts from 1 at the eave, `rib` from 1 at the left rake. `zone` is the worst wind zone of the modules that an
    attachment carries. `ratios` are the utilisations of each link at or beside every attachment (P,); they are empty,
    and `up` and `down` None, where nothing was checked.
    """

    row: Ints
    rib: Ints
    x: Floats
    y: Floats
    zone: tuple[str, ...]
    up: Floats | None
    down: Floats | None
    ratios: Mapping[str, Floats]
    titles: Mapping[str, str]

    def __len__(self) -> int:
        return len(self.rib)

    @property
    def utilisation(self) -> Floats | None:
        """Largest utilisation at each attachment (P,); None where nothing was checked."""
        return np.max(list(self.ratios.values()), axis=0) if self.ratios else None

    @property
    def governing_links(self) -> tuple[str | None, ...]:
        """Id of the controlling component at each attachment; None where nothing was checked."""
        if not self.ratios:
            return (None,) * len(self)
        links = list(self.ratios)
        return tuple(links[index] for index in np.argmax(list(self.ratios.values()), axis=0))

    @property
    def governing(self) -> tuple[str, ...]:
        """Controlling component at each attachment; empty words where nothing was checked."""
        return tuple(self.titles[link] if link else "" for link in self.governing_links)

    @property
    def is_checked(self) -> str:
        """The components checked attachment by attachment, in words; a method may be controlled by others."""
        titles = [self.titles[link] for link in self.ratios]
        return " and ".join(filter(None, [", ".join(titles[:-1]), *titles[-1:]]))

    @property
    def verdicts(self) -> tuple[str, ...]:
        """One verdict for each attachment: "holds", "over" or "not checked"."""
        if self.utilisation is None:
            return ("not checked",) * len(self)
        return tuple("holds" if ratio <= 1 else "over" for ratio in self.utilisation.tolist())


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
        ratios=_ratios(candidate) if candidate else {},
        titles={check.link: check.title for check in candidate.checks.values()} if candidate else {},
    )


def _zones(design: Design) -> tuple[str, ...]:
    influence, loads, count = SolvedLines(design.layout).influence, design.loads, len(design.layout.attachments)
    attachment, share = influence.attachment, np.abs(influence.share)
    largest, worst = np.zeros(count), np.zeros(count, dtype=np.int64)
    np.maximum.at(largest, attachment, share)
    carried = np.flatnonzero(share >= CARRIED_BY * largest[attachment])
    np.maximum.at(worst, attachment[carried], loads.zone[influence.module[carried]])
    return tuple(loads.zone_names[zone] for zone in worst)


def _ratios(candidate: Candidate) -> dict[str, Floats]:
    """Utilisations of the components at an attachment: the attachment itself, and the roof beside it."""
    layout, demands = candidate.layout, candidate.demands
    found = {"attachment": attachment_utilisation(demands).max(axis=1)}
    if not layout.member.clamped:
        found["clamp"] = clamp_ratios(demands).per_item
    moments = demands.rib_moments
    bending = rib_ratios(demands, moments).per_item
    found["rib"] = _beside(layout.attachments, demands, moments.positions, bending)
    fastening = [ratios.per_item for ratios in fastening_ratios(demands).values()]
    if fastening:
        largest: Floats = np.max(fastening, axis=0)
        found["roof_fastening"] = _beside(layout.attachments, demands, demands.fastening_y, largest)
    return found


def _beside(attachments: Attachments, demands: Demands, y: Floats, ratios: Floats) -> Floats:
    """Utilisations along ribs (R, T) at places `y` (T,), given to the attachments on both sides of each place (P,)."""
    beside = np.zeros(len(attachments))
    for row, rib in enumerate(demands.rib):
        on_rib = np.flatnonzero(attachments.rib == rib)  # in rising order up the slope, as attachments are numbered
        above = np.searchsorted(attachments.y[on_rib], y)
        for neighbour in (np.maximum(above - 1, 0), np.minimum(above, len(on_rib) - 1)):
            np.maximum.at(beside, on_rib[neighbour], ratios[row])
    return beside

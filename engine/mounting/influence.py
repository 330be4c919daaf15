"""Influence of every module on every attachment, from continuous beams along the support lines.

First a module is a beam up the slope over the lines beneath it, which gives each line's share of its forces. Then each
line is a continuous beam over the ribs it is attached to, loaded by modules or clamps. Its reactions under unit loads,
times the shares, are the influence of each module on each attachment. Lines with equally many supports and loads are
solved together. Attachments at one position belong to both lines that meet there, so influences are added up there.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import TypeVar

import numpy as np

from engine.common.arrays import Floats, Ints, group_nearby
from engine.common.tolerances import NEGLIGIBLE_SHARE, SAME_PLACE
from engine.mounting.layout import Attachments, Layout, Member, SpacingPattern, SupportLines
from engine.mounting.places import Places
from engine.statics.continuous_beam import BeamResponse, UnitCouples, UnitForces, solve_beams

T = TypeVar("T")

FAR_APART = 1e5
"""Offset between places, so that one sorted array holds positions at all of them [m]: longer than any roof."""

STATIONS_PER_MODULE_EDGE = 41
"""Stations along a line under spread loads; the largest moment is missed by less than 0.1 %."""


@dataclass(frozen=True, eq=False)
class Influence:
    """Influence of modules on attachments: arrays (n,) with one entry for each pair of a module and an attachment.

    A module's force normal to the roof and its force in the plane (down-slope positive) act at its middle. The
    attachment carries `share` x normal + `couple` x in-plane as force normal to the roof, and `in_plane` x in-plane
    along the slope. `tributary` x module area, summed, is the attachment's effective wind area. Shares keep their
    sign: a distant module may relieve an attachment. Pairs with a negligible share are left out.
    """

    attachment: Ints
    module: Ints
    share: Floats
    couple: Floats
    in_plane: Floats
    tributary: Floats


@dataclass(frozen=True, eq=False)
class Bending:
    """Bending of one set of lines under unit loads.

    `moments` (T, L) [m] at `stations` (T,) along them [m]; `deflections_ei` (S-1, L) [m³] at midspan, times EI.
    """

    stations: Floats
    moments: Floats
    deflections_ei: Floats


def shares_of_lines(lines: Floats, low: float, high: float, height: float) -> tuple[Floats, Floats]:
    """Shares of a module's forces to the lines beneath it, with the module as a beam up the slope.

    Args:
        lines: positions of the lines up the slope [m], (K,).
        low: the module's lower edge [m].
        high: its upper edge [m].
        height: height of the module's middle above the attachments [m].

    Returns:
        Each line's share of the force normal to the roof (K,) [-], and its force normal to the roof per unit of the
        module's in-plane force (down-slope positive), which acts at `height` (K,) [-].
    """
    supports = lines[None]
    share = solve_beams(supports, UnitForces(np.array([[low]]), np.array([[high]]))).reactions[0, :, 0]
    couple = solve_beams(supports, UnitCouples(np.array([[(low + high) / 2]]))).reactions[0, :, 0]
    # A force down the slope above the lines presses the lower line: a couple opposite to the beam's positive sense.
    return share, -height * couple


class ShareCache:
    """Cache of `shares_of_lines` for rows whose lines have the same positions within the modules."""

    def __init__(self, height: float) -> None:
        self.height = height
        self._shares: dict[tuple[float, ...], tuple[Floats, Floats]] = {}

    def shares(self, within: Floats, depth: float) -> tuple[Floats, Floats]:
        """Shares of lines at `within` (K,) [m] from the lower edge of a module of `depth` [m]."""
        key = (depth, *np.rint(within * 1e6))  # to the micrometre: rounding must not miss the cache
        if key not in self._shares:
            self._shares[key] = shares_of_lines(within, 0.0, depth, self.height)
        return self._shares[key]


def build_layout(
    pattern: SpacingPattern,
    member: Member,
    lines: Sequence[SupportLines],
    places: Places,
    height: float,
    up_slope_positions: Floats | None = None,
) -> Layout:
    """The layout of support lines, with each attachment that two lines share only once.

    Args:
        pattern: the spacing pattern.
        member: kind of member that the lines are.
        lines: the support lines, each at two places or more.
        places: places along the eave at which attachments may be.
        height: height of the attachments above the pan [m].
        up_slope_positions: for members up the slope, the positions at which they may be attached, from the eave [m].
    """
    feet = [_feet(line) for line in lines]
    place, y = (np.concatenate([np.ravel(part) for part in column]) for column in zip(*feet, strict=True))
    positions = places.x
    if up_slope_positions is not None:
        # The axes are exchanged: the line itself lies at a place, and the numbers are those of positions along it.
        positions = up_slope_positions
        place, y = np.searchsorted(places.x, y - SAME_PLACE), up_slope_positions[place]
    attachments, number = _merge_attachments(place, y, places, height)
    ends = np.cumsum([y.size for _, y in feet])[:-1]
    attachment = tuple(part.reshape(y.shape) for part, (_, y) in zip(np.split(number, ends), feet, strict=True))
    added = sum(len(line) * len(line.feet) * line.added_ribs for line in lines)
    return Layout(pattern, added, member, tuple(lines), positions, attachments, attachment)


def _feet(lines: SupportLines) -> tuple[Ints, Floats]:
    """Place and position up the slope [m] of each foot of each support of a set of lines, (G, S, B) each."""
    offset = np.array([foot.offset for foot in lines.feet])
    shape = (len(lines.feet), len(lines.stands_on), len(lines))
    return np.full(shape, lines.stands_on[:, None]), np.full(shape, lines.across + offset[:, None, None])


class SolvedLines:
    """All lines of a layout solved as continuous beams; influence and bending are computed on first use."""

    def __init__(self, layout: Layout) -> None:
        self.layout = layout
        self._batches = [_LineBatch.solve(layout, numbers) for numbers in _batches(layout.lines)]

    @cached_property
    def influence(self) -> Influence:
        """Influence of every module on every attachment."""
        reactions = self._in_order_of_lines(lambda batch: batch.response.reactions)
        entries = [
            entry
            for line, its_reactions, attachment in zip(
                self.layout.lines, reactions, self.layout.attachment, strict=True
            )
            for entry in _influence_entries(line, its_reactions, attachment)
        ]
        return Influence(*(np.concatenate(column) for column in zip(*entries, strict=True)))

    @cached_property
    def bending(self) -> list[Bending]:
        """Bending of each set of lines, in their order."""
        return self._in_order_of_lines(_LineBatch.bending)

    def _in_order_of_lines(self, results: Callable[[_LineBatch], Iterable[T]]) -> list[T]:
        """Results of all batches, put back in the order of the lines."""
        by_number: dict[int, T] = {}
        for batch in self._batches:
            by_number.update(zip(batch.numbers, results(batch), strict=True))
        return [by_number[number] for number in range(len(by_number))]


def _batches(lines: Sequence[SupportLines]) -> list[list[int]]:
    """Numbers of the sets of lines that can be solved together, with equally many supports and loads."""
    groups: dict[tuple[int, int], list[int]] = defaultdict(list)
    for number, line in enumerate(lines):
        groups[len(line.stands_on), len(line.load_start)].append(number)
    return list(groups.values())


@dataclass(frozen=True, eq=False)
class _LineBatch:
    """Sets of lines solved together, by their `numbers`; one beam represents all lines of a set."""

    numbers: list[int]
    loads: UnitForces
    response: BeamResponse

    @classmethod
    def solve(cls, layout: Layout, numbers: list[int]) -> _LineBatch:
        """The sets of lines with these numbers, solved for unit loads."""
        lines = [layout.lines[number] for number in numbers]
        starts, ends = np.stack([line.load_start for line in lines]), np.stack([line.load_end for line in lines])
        loads = UnitForces(starts, ends)
        return cls(numbers, loads, solve_beams(np.stack([layout.supports(line) for line in lines]), loads))

    def bending(self) -> Iterator[Bending]:
        """Bending of each set at its supports and between them.

        Under point loads the moment is largest at a load; under spread loads it is taken at many stations.
        """
        supports, loads = self.response.supports, self.loads
        first, last = supports[:, :1], supports[:, -1:]
        if (loads.end > loads.start).any():
            between = first + (last - first) * np.linspace(0, 1, STATIONS_PER_MODULE_EDGE)
        else:
            between = np.clip(loads.start, first, last)
        stations = np.concatenate([supports, between], axis=1)
        moments = np.concatenate([self.response.support_moments, self.response.moments(between)], axis=1)
        return map(Bending, stations, moments, self.response.deflections_ei)


def _influence_entries(lines: SupportLines, reactions: Floats, attachment: Ints) -> Iterator[tuple[Ints | Floats, ...]]:
    """Fields of `Influence` (n,) for each foot of a set of lines.

    Args:
        lines: the set of lines.
        reactions: of the supports under unit loads (S, L) [-].
        attachment: number of the attachment under each foot (G, S, B).
    """
    support, load = np.nonzero(np.abs(reactions) > NEGLIGIBLE_SHARE)
    module, reaction = lines.module[:, load].T.ravel(), reactions[support, load, None]
    normal, couple = (reaction * lines.share).ravel(), (reaction * lines.couple[:, load].T).ravel()
    for foot, attachment_of_foot in zip(lines.feet, attachment, strict=True):
        yield (
            attachment_of_foot[support].ravel(),
            module,
            normal * foot.normal,
            couple * foot.normal + normal * foot.couple,
            normal * foot.in_plane,
            normal,
        )


def _merge_attachments(place: Ints, y: Floats, places: Places, height: float) -> tuple[Attachments, Ints]:
    """Attachments, and the number of the attachment under each foot (n,).

    Feet at the same place within half a millimetre share one attachment. Attachments are numbered row by row from the
    eave, in each row from the left rake.

    Args:
        place: number of each foot's place along the eave (n,).
        y: position of each foot up the slope [m], (n,).
        places: places along the eave at which attachments may be.
        height: height of the attachments above the pan [m].
    """
    first, attachment = group_nearby(place * FAR_APART + y, SAME_PLACE)
    order = np.lexsort((place[first], group_nearby(y[first], SAME_PLACE)[1]))
    number = np.argsort(order)
    first = first[order]
    return Attachments(places.rib[place[first]], places.x[place[first]], y[first], height), number[attachment]

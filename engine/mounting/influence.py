"""Influence of every module on every attachment, from continuous beams along the support lines.

First a module is a beam up the slope over the lines beneath it, which gives each line's share of its forces. Then each
line is a continuous beam over the ribs it is attached to, loaded by modules or clamps. Its reactions under unit loads,
times the shares, are the influence of each module on each attachment. Lines with equally many supports and loads are
solved together. Attachments at one position belong to both lines that meet there, so influences are added up there.

Seams give way under a rail. That relieves the attachment with the largest load, and may raise those near the ends of a
line. For these the reactions are found in other ways too, see `SolvedLines.influences`.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cache, cached_property, partial
from types import MappingProxyType
from typing import TypeVar

import numpy as np

from engine.common.arrays import Bools, Floats, Ints
from engine.common.tolerances import NEGLIGIBLE_SHARE
from engine.mounting.layout import LaidLines, SupportLines
from engine.statics.continuous_beam import BeamResponse, UnitCouples, UnitForces, solve_beams
from engine.statics.load_sharing import stiff_beam_reactions, tributary_reactions

T = TypeVar("T")

NEAR_END = (0, 2)
"""Supports, counted from either end of a line, whose load may grow where seams give way: the last and the third."""

ReactionRule = Callable[[BeamResponse], Floats]
"""Reactions of beams under unit loads (B, S, L) by another way than on rigid supports."""

TRIBUTARY = "tributary load"

UNKNOWN_STIFFNESS: Mapping[str, ReactionRule] = MappingProxyType(
    {TRIBUTARY: tributary_reactions, "stiff beam on equal supports": stiff_beam_reactions}
)
"""Ways that count where it is unknown how much a seam gives way."""

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


def one_after_another(influences: Sequence[Influence]) -> Influence:
    """The pairs of several influences, one influence after another."""
    columns = zip(*(vars(each).values() for each in influences), strict=True)
    return Influence(*(np.concatenate(column) for column in columns))


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


class SolvedLines:
    """All lines of a layout solved as continuous beams.

    `ways`: name → reactions by another way in which lines may pass their loads on near their ends. Influences are large
    and made anew whenever they are read.
    """

    def __init__(self, layout: LaidLines, ways: Mapping[str, ReactionRule] = UNKNOWN_STIFFNESS) -> None:
        self.layout, self.ways = layout, ways
        self._batches = [_LineBatch.solve(layout, numbers) for numbers in _batches(layout.lines)]

    @property
    def influence(self) -> Influence:
        """Influence of every module on every attachment."""
        return self._influence(self._in_order_of_lines(lambda batch: batch.response.reactions))

    @property
    def influences(self) -> tuple[Influence, ...]:
        """That of continuous beams, then by each of the other ways that on the attachments near the ends of lines."""
        return self.influence, *(self._near_ends() if self.is_near_end.any() else ())

    @cached_property
    def is_near_end(self) -> Bools:
        """True for the attachments near the ends of lines (P,), of those with more than two supports."""
        feet = zip(self.layout.attachment, self._supports_near_ends, strict=True)
        is_near = np.zeros(len(self.layout.attachments), dtype=bool)
        is_near[np.concatenate([attachment[:, near].ravel() for attachment, near in feet])] = True
        return is_near

    @property
    def _supports_near_ends(self) -> list[Bools]:
        return [_near_ends(len(line.stands_on)) for line in self.layout.lines]

    def _near_ends(self) -> Iterator[Influence]:
        """Influence by each of the other ways on the attachments near the ends of lines, with all that these carry."""
        is_near, supports = self.is_near_end, self._supports_near_ends
        # Where a line passes over the end of another one, it brings its own load as a continuous beam.
        carries = [np.any(is_near[attachment], axis=(0, 2), keepdims=True)[0] for attachment in self.layout.attachment]
        rigid = self._in_order_of_lines(lambda batch: batch.response.reactions)

        for rule in self.ways.values():
            other = self._in_order_of_lines(partial(_LineBatch.reactions_by, rule=rule))
            parts = zip(carries, supports, other, rigid, strict=True)
            yield self._influence([here * np.where(near[:, None], new, old) for here, near, new, old in parts])

    def _influence(self, reactions: Sequence[Floats]) -> Influence:
        """Influence from the reactions of each set of lines under unit loads, (S, L) each."""
        sets = zip(self.layout.lines, reactions, self.layout.attachment, strict=True)
        entries = [entry for of_set in sets for entry in _influence_entries(*of_set)]
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


@cache
def _near_ends(supports: int) -> Bools:
    """True for the supports near the ends of a line (S,); none if statics alone gives the reactions of two."""
    number = np.arange(supports)
    near: Bools = np.isin(number, NEAR_END) | np.isin(number[::-1], NEAR_END)
    return near if supports > 2 else np.zeros(supports, dtype=bool)


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
    def solve(cls, layout: LaidLines, numbers: list[int]) -> _LineBatch:
        """The sets of lines with these numbers, solved for unit loads."""
        lines = [layout.lines[number] for number in numbers]
        starts, ends = np.stack([line.load_start for line in lines]), np.stack([line.load_end for line in lines])
        loads = UnitForces(starts, ends)
        return cls(numbers, loads, solve_beams(np.stack([layout.supports(line) for line in lines]), loads))

    def reactions_by(self, rule: ReactionRule) -> Floats:
        """Reactions of each set by another way (B, S, L)."""
        return rule(self.response)

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

"""From support lines to points, and who loads whom: every line is a continuous beam over the ribs it stands on."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import TypeVar

import numpy as np

from engine.common.arrays import Floats, Ints, group_nearby
from engine.mounting.layout import Attachments, Layout, Member, SpacingPattern, SupportLines
from engine.statics.continuous_beam import BeamResponse, UnitCouples, UnitForces, solve_beams

T = TypeVar("T")

SAME_PLACE = 5e-4
"""Points closer than this on a rib are one [m]."""

FAR_APART = 1e5
"""Keeps the places of different ribs apart in one row of numbers [m]."""

NEGLIGIBLE = 1e-12
"""A support that gets less of a load than this has nothing to do with it: from span to span it is a quarter of what it was."""

STATIONS_PER_MODULE_EDGE = 41
"""Where a spread load bends a line between its supports; a peak is missed by less than 0.1 %."""


@dataclass(frozen=True, eq=False)
class Influence:
    """How modules reach points: one entry per pair that has to do with each other, arrays of (n,).

    A module gives a force normal to the roof and one in its plane (down-slope positive) at its
    middle. The point receives `share` x normal + `couple` x in-plane as force normal to the
    roof, and `in_plane` x in-plane along the slope. `tributary` x module area, summed, is the
    point's effective wind area. Shares keep their sign: a far module may relieve a point.
    """

    attachment: Ints
    module: Ints
    share: Floats
    couple: Floats
    in_plane: Floats
    tributary: Floats


@dataclass(frozen=True, eq=False)
class Bending:
    """Bending influence of one set of lines: moments (T, L) [m] at `stations` (T,) along them [m], midspan sags times EI (S-1, L) [m³]."""

    stations: Floats
    moments: Floats
    deflections_ei: Floats


def shares_of_lines(lines: Floats, low: float, high: float, height: float) -> tuple[Floats, Floats]:
    """A module's shares to the lines beneath it, as a beam up the slope.

    Args:
        lines: the lines' places up the slope [m].
        low: the module's lower edge [m].
        high: its upper edge [m].
        height: of the module's middle above the lines' points [m].

    Returns:
        Each line's share of the force normal to the roof, and the force normal to the roof it
        gets per unit of the module's in-plane force (down-slope positive), which acts at `height`.
    """
    supports = lines[None]
    share = solve_beams(supports, UnitForces(np.array([[low]]), np.array([[high]]))).reactions[0, :, 0]
    couple = solve_beams(supports, UnitCouples(np.array([[(low + high) / 2]]))).reactions[0, :, 0]
    return share, -height * couple


class ModuleShares:
    """`shares_of_lines`, worked out once for rows that lie alike."""

    def __init__(self, height: float) -> None:
        self.height = height
        self._known: dict[tuple[float, ...], tuple[Floats, Floats]] = {}

    def among(self, within: Floats, depth: float) -> tuple[Floats, Floats]:
        """Shares of lines `within` a module of `depth`, from its lower edge [m]."""
        alike = (depth, *np.rint(within * 1e6))
        if alike not in self._known:
            self._known[alike] = shares_of_lines(within, 0.0, depth, self.height)
        return self._known[alike]


def build_layout(
    pattern: SpacingPattern,
    member: Member,
    lines: Sequence[SupportLines],
    ribs: Floats,
    height: float,
    places: Floats | None = None,
) -> Layout:
    """Gather the points of all lines: two lines that share one have it once.

    Args:
        pattern: how often the field is held.
        member: what the lines are.
        lines: the support lines, each on at least two ribs.
        ribs: every rib's place along x [m].
        height: of the points above the pan [m].
        places: for members up the slope, where along them they may stand, from the eave [m].
    """
    feet = [_feet(these) for these in lines]
    rib, y = (np.concatenate([np.ravel(part) for part in column]) for column in zip(*feet, strict=True))
    if places is not None:
        rib, y = np.searchsorted(ribs, y - SAME_PLACE), places[rib]
    attachments, number = _merge_attachments(rib, y, ribs, height)
    ends = np.cumsum([y.size for _, y in feet])[:-1]
    attachment = tuple(part.reshape(y.shape) for part, (_, y) in zip(np.split(number, ends), feet, strict=True))
    added = sum(len(these) * len(these.feet) * these.added for these in lines)
    return Layout(pattern, added, member, tuple(lines), ribs if places is None else places, attachments, attachment)


def _feet(lines: SupportLines) -> tuple[Ints, Floats]:
    """Rib and place up the slope of every foot of every support of a set of lines (G, S, B)."""
    offset = np.array([foot.offset for foot in lines.feet])
    shape = (len(lines.feet), len(lines.stands_on), len(lines))
    return np.full(shape, lines.stands_on[:, None]), np.full(shape, lines.across + offset[:, None, None])


class SolvedLines:
    """Every line of a layout as a continuous beam: who loads whom, and how the lines bend; each worked out when it is asked for."""

    def __init__(self, layout: Layout) -> None:
        self.layout = layout
        self._alike = [_LineBatch.of(layout, numbers) for numbers in _batches(layout.lines)]

    @cached_property
    def influence(self) -> Influence:
        """What every point gets of every module."""
        reactions = self._of_lines(lambda alike: alike.answer.reactions)
        pieces = [
            piece
            for each in zip(self.layout.lines, reactions, self.layout.attachment, strict=True)
            for piece in _influence_entries(*each)
        ]
        return Influence(*(np.concatenate(column) for column in zip(*pieces, strict=True)))

    @cached_property
    def bending(self) -> list[Bending]:
        """Of every set of lines."""
        return self._of_lines(_LineBatch.bending)

    def _of_lines(self, of: Callable[[_LineBatch], Iterable[T]]) -> list[T]:
        """What those alike say, in the order of the lines."""
        said = {number: each for alike in self._alike for number, each in zip(alike.numbers, of(alike), strict=True)}
        return [said[number] for number in range(len(said))]


def _batches(lines: Sequence[SupportLines]) -> list[list[int]]:
    """Lines with equally many supports and loads can be solved together."""
    groups: dict[tuple[int, int], list[int]] = defaultdict(list)
    for number, these in enumerate(lines):
        groups[len(these.stands_on), len(these.load_start)].append(number)
    return list(groups.values())


@dataclass(frozen=True, eq=False)
class _LineBatch:
    """Sets of lines solved together, by their `numbers`: one beam stands for all of a set."""

    numbers: list[int]
    loads: UnitForces
    answer: BeamResponse

    @classmethod
    def of(cls, layout: Layout, numbers: list[int]) -> _LineBatch:
        lines = [layout.lines[number] for number in numbers]
        loads = UnitForces(
            np.stack([these.load_start for these in lines]), np.stack([these.load_end for these in lines])
        )
        return cls(numbers, loads, solve_beams(np.stack([layout.supports(these) for these in lines]), loads))

    def bending(self) -> Iterator[Bending]:
        """Of each set, over supports and where loads bend it most between them."""
        supports, loads = self.answer.supports, self.loads
        first, last = supports[:, :1], supports[:, -1:]
        if (loads.end > loads.start).any():
            between = first + (last - first) * np.linspace(0, 1, STATIONS_PER_MODULE_EDGE)
        else:
            between = np.clip(loads.start, first, last)
        stations = np.concatenate([supports, between], axis=1)
        moments = np.concatenate([self.answer.support_moments, self.answer.moments(between)], axis=1)
        return map(Bending, stations, moments, self.answer.deflections_ei)


def _influence_entries(lines: SupportLines, reactions: Floats, attachment: Ints) -> Iterator[tuple[Ints | Floats, ...]]:
    """What each foot of each support gets from each load of every line of a set; `reactions` is (S, L), `attachment` (G, S, B)."""
    support, load = np.nonzero(np.abs(reactions) > NEGLIGIBLE)
    module, reaction = lines.module[:, load].T.ravel(), reactions[support, load, None]
    normal, turning = (reaction * lines.share).ravel(), (reaction * lines.couple[:, load].T).ravel()
    for foot, here in zip(lines.feet, attachment, strict=True):
        yield (
            here[support].ravel(),
            module,
            normal * foot.normal,
            turning * foot.normal + normal * foot.couple,
            normal * foot.in_plane,
            normal,
        )


def _merge_attachments(rib: Ints, y: Floats, ribs: Floats, height: float) -> tuple[Attachments, Ints]:
    """Points that two lines share are one point: same rib, same place but for half a millimetre.

    They are numbered as one walks the roof: row by row from the eave, along each from the rake.
    """
    first, attachment = group_nearby(rib * FAR_APART + y, SAME_PLACE)
    walked = np.lexsort((rib[first], group_nearby(y[first], SAME_PLACE)[1]))
    number = np.argsort(walked)
    first = first[walked]
    return Attachments(rib[first], ribs[rib[first]], y[first], height), number[attachment]

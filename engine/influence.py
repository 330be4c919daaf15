"""From support lines to points: every line is a continuous beam over the ribs it stands on."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence

import numpy as np

from engine.arrays import Floats, Ints, grouped
from engine.beam import Couples, Spread, respond
from engine.layout import Bending, Influence, Layout, Member, Pattern, Points, SupportLines

SAME_PLACE = 5e-4
"""Points closer than this on a rib are one [m]."""

FAR_APART = 1e5
"""Keeps the places of different ribs apart in one row of numbers [m]."""

STATIONS_PER_MODULE_EDGE = 41
"""Where a spread load bends a line between its supports; a peak is missed by less than 0.1 %."""


def share_among(lines: Floats, low: float, high: float, height: float) -> tuple[Floats, Floats]:
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
    supports, none = lines[None], np.empty((1, 0))
    share = respond(supports, Spread(np.array([[low]]), np.array([[high]])), none).reactions[0, :, 0]
    couple = respond(supports, Couples(np.array([[(low + high) / 2]])), none).reactions[0, :, 0]
    return share, -height * couple


class Shares:
    """`share_among`, worked out once for rows that lie alike."""

    def __init__(self, height: float) -> None:
        self.height = height
        self._known: dict[tuple[float, ...], tuple[Floats, Floats]] = {}

    def among(self, within: Floats, depth: float) -> tuple[Floats, Floats]:
        """Shares of lines `within` a module of `depth`, from its lower edge [m]."""
        alike = (depth, *np.rint(within * 1e6))
        if alike not in self._known:
            self._known[alike] = share_among(within, 0.0, depth, self.height)
        return self._known[alike]


def assemble(
    pattern: Pattern, member: Member, lines: Sequence[SupportLines], ribs: Floats, height: float, places: Floats | None = None
) -> Layout:
    """Solve every line and gather points and influence.

    Args:
        pattern: how often the field is held.
        member: what the lines are.
        lines: the support lines, each on at least two ribs.
        ribs: every rib's place along x [m].
        height: of the points above the pan [m].
        places: for members up the slope, where along them they may stand, from the eave [m].
    """
    stands = ribs if places is None else places
    solved: dict[int, tuple[Bending, Floats]] = {}
    for alike in _alike(lines):
        solved |= dict(zip(alike, _solve([lines[index] for index in alike], stands), strict=True))
    pieces = [_entries(these, solved[index][1]) for index, these in enumerate(lines)]
    rib, y, module, share, couple, in_plane, tributary = (np.concatenate(column) for column in zip(*pieces, strict=True))
    if places is not None:
        rib, y = np.searchsorted(ribs, y - SAME_PLACE), places[rib]
    points, point = _merged(rib, y, ribs, height)
    influence = Influence(point, module, share, couple, in_plane, tributary)
    added = sum(len(these) * len(these.feet) * these.added for these in lines)
    return Layout(pattern, added, member, tuple(lines), points, influence, tuple(solved[index][0] for index in range(len(lines))))


def _alike(lines: Sequence[SupportLines]) -> list[list[int]]:
    """Lines with equally many supports and loads can be solved together."""
    groups: dict[tuple[int, int], list[int]] = defaultdict(list)
    for index, these in enumerate(lines):
        groups[len(these.ribs), len(these.load_start)].append(index)
    return list(groups.values())


def _solve(group: Sequence[SupportLines], stands: Floats) -> list[tuple[Bending, Floats]]:
    """Bending and reactions (S, L) of each set of lines: one beam stands for all of a set."""
    supports = stands[np.stack([these.ribs for these in group])]
    loads = Spread(np.stack([these.load_start for these in group]), np.stack([these.load_end for these in group]))
    first, last = supports[:, :1], supports[:, -1:]
    if (loads.end > loads.start).any():
        between = first + (last - first) * np.linspace(0, 1, STATIONS_PER_MODULE_EDGE)
    else:
        between = np.clip(loads.start, first, last)
    stations = np.concatenate([supports, between], axis=1)
    answer = respond(supports, loads, stations)
    return [
        (Bending(supports[row], stations[row], answer.moments[row], answer.sags[row]), answer.reactions[row]) for row in range(len(group))
    ]


def _entries(lines: SupportLines, reactions: Floats) -> tuple[Ints | Floats, ...]:
    """What each foot of each support gets from each load of every line of a set; `reactions` is (S, L)."""
    normal = reactions * lines.share[:, None, None]
    turning = reactions * lines.couple[:, None, :]
    shape = normal.shape
    rib = np.broadcast_to(lines.ribs[:, None], shape)
    module = np.broadcast_to(lines.module[:, None], shape)
    y = np.broadcast_to(lines.y[:, None, None], shape)
    columns = [
        (
            rib,
            y + foot.offset,
            module,
            normal * foot.normal,
            turning * foot.normal + normal * foot.couple,
            normal * foot.in_plane,
            normal * foot.tributary,
        )
        for foot in lines.feet
    ]
    return tuple(np.concatenate([np.ravel(part) for part in column]) for column in zip(*columns, strict=True))


def _merged(rib: Ints, y: Floats, ribs: Floats, height: float) -> tuple[Points, Ints]:
    """Points that two lines share are one point: same rib, same place but for half a millimetre.

    They are numbered as one walks the roof: row by row from the eave, along each from the rake.
    """
    first, point = grouped(rib * FAR_APART + y, SAME_PLACE)
    walked = np.lexsort((rib[first], grouped(y[first], SAME_PLACE)[1]))
    number = np.argsort(walked)
    first = first[walked]
    return Points(rib[first], ribs[rib[first]], y[first], height), number[point]

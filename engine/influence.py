"""From support lines to points: every line is a continuous beam over the ribs it stands on."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence

import numpy as np

from engine.arrays import Floats, Ints
from engine.beam import Couples, Response, Spread, respond
from engine.layout import Bending, Influence, Layout, Member, Points, SupportLine

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


def assemble(spacing: int, member: Member, lines: Sequence[SupportLine], ribs: Floats, height: float) -> Layout:
    """Solve every line and gather points and influence.

    Args:
        spacing: the method's own measure of how often.
        member: what the lines are.
        lines: the support lines, each on at least two ribs.
        ribs: every rib's place along x [m].
        height: of the points above the pan [m].
    """
    pieces, bending = [], []
    for batch in _alike(lines):
        group = [lines[index] for index in batch]
        stations, response = _solve(group, ribs)
        supports = ribs[np.stack([line.ribs for line in group])]
        bending.append(Bending(np.array(batch), np.diff(supports, axis=1), stations, response.moments, response.sags))
        pieces.append(_entries(group, response.reactions))
    rib, y, module, share, couple, in_plane, tributary = (np.concatenate(column) for column in zip(*pieces, strict=True))
    points, point = _merged(rib, y, ribs, height)
    return Layout(spacing, member, tuple(lines), points, Influence(point, module, share, couple, in_plane, tributary), tuple(bending))


def _alike(lines: Sequence[SupportLine]) -> list[list[int]]:
    """Lines with equally many supports and loads, on the same feet, can be solved together."""
    groups: dict[tuple[object, ...], list[int]] = defaultdict(list)
    for index, line in enumerate(lines):
        groups[len(line.ribs), len(line.module), line.feet].append(index)
    return list(groups.values())


def _solve(group: Sequence[SupportLine], ribs: Floats) -> tuple[Floats, Response]:
    supports = ribs[np.stack([line.ribs for line in group])]
    loads = Spread(np.stack([line.load_start for line in group]), np.stack([line.load_end for line in group]))
    first, last = supports[:, :1], supports[:, -1:]
    if (loads.end > loads.start).any():
        between = first + (last - first) * np.linspace(0, 1, STATIONS_PER_MODULE_EDGE)
    else:
        between = np.clip(loads.start, first, last)
    stations = np.concatenate([supports, between], axis=1)
    return stations, respond(supports, loads, stations)


def _entries(group: Sequence[SupportLine], reactions: Floats) -> tuple[Ints | Floats, ...]:
    """What each foot of each support gets from each load of lines alike; `reactions` is (B, S, L)."""
    shape = reactions.shape
    normal = reactions * np.stack([line.share for line in group])[:, None]
    turning = reactions * np.stack([line.couple for line in group])[:, None]
    rib = np.broadcast_to(np.stack([line.ribs for line in group])[:, :, None], shape)
    module = np.broadcast_to(np.stack([line.module for line in group])[:, None], shape)
    y = np.broadcast_to(np.array([line.y for line in group])[:, None, None], shape)
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
        for foot in group[0].feet
    ]
    return tuple(np.concatenate([np.ravel(part) for part in column]) for column in zip(*columns, strict=True))


def _merged(rib: Ints, y: Floats, ribs: Floats, height: float) -> tuple[Points, Ints]:
    """Points that two lines share are one point: same rib, same place to the millimetre."""
    key = rib.astype(np.int64) * 10_000_000 + np.rint(y * 1000).astype(np.int64)
    _, first, point = np.unique(key, return_index=True, return_inverse=True)
    return Points(rib[first], ribs[rib[first]], y[first], height), point.astype(np.int64)

"""Attachments of support lines: one under every foot of every support, shared where two lines meet."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from engine.common.arrays import Floats, Ints, group_nearby
from engine.common.tolerances import SAME_PLACE
from engine.mounting.layout import Attachments, Layout, Member, SpacingPattern, SupportLines
from engine.mounting.places import Places

FAR_APART = 1e5
"""Offset between places, so that one sorted array holds positions at all of them [m]: longer than any roof."""


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

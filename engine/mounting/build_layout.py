"""Attachments of support lines: one under every foot of every support, shared where two lines meet.

The lines of runs that are alike are laid together, and remembered for the next pattern in which these runs have the
same spacings. A layout joins them and numbers all attachments row by row from the eave, in each row from the left rake.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from engine.common.arrays import FAR_APART, Floats, Ints, group_nearby
from engine.common.tolerances import SAME_PLACE
from engine.mounting.layout import Attachments, Field, LaidLines, Layout, Member, SpacingPattern, SupportLines
from engine.mounting.places import Places
from engine.project.job import Job


def lay_lines(
    member: Member,
    lines: Sequence[SupportLines],
    places: Places,
    height: float,
    up_slope_positions: Floats | None = None,
) -> LaidLines:
    """Support lines with their attachments; feet at the same place within half a millimetre share one.

    Args:
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
    first, number = group_nearby(place * FAR_APART + y, SAME_PLACE)
    attachments = Attachments(places.rib[place[first]], places.x[place[first]], y[first], height)
    ends = np.cumsum([y.size for _, y in feet])[:-1]
    attachment = tuple(part.reshape(y.shape) for part, (_, y) in zip(np.split(number, ends), feet, strict=True))
    return LaidLines(member, tuple(lines), positions, attachments, attachment)


def _feet(lines: SupportLines) -> tuple[Ints, Floats]:
    """Place and position up the slope [m] of each foot of each support of a set of lines, (G, S, B) each."""
    offset = np.array([foot.offset for foot in lines.feet])
    shape = (len(lines.feet), len(lines.stands_on), len(lines))
    return np.full(shape, lines.stands_on[:, None]), np.full(shape, lines.across + offset[:, None, None])


@dataclass(frozen=True, eq=False)
class LinesAtPlaces:
    """Common part of the lines of all methods under a field: a `member`, and places where they are attached.

    `positions` [m from the eave] are those of members up the slope, None for others; `cure` as in `FieldLines`.
    """

    job: Job
    field: Field
    member: Member
    places: Places
    positions: Floats | None = None
    cure: str = "Use another mounting method"

    def lay(self, lines: Sequence[SupportLines]) -> LaidLines:
        """Lines with their attachments."""
        return lay_lines(self.member, lines, self.places, self.job.hardware.attachment_height, self.positions)


def put_together(runs: Sequence[LaidLines]) -> LaidLines:
    """The lines of several runs one after another, with their attachments in the same order."""
    if len(runs) == 1:
        return runs[0]
    one, starts = runs[0], np.cumsum([0, *(len(laid.attachments) for laid in runs)]).tolist()
    rib, x, y = (np.concatenate([getattr(laid.attachments, axis) for laid in runs]) for axis in ("rib", "x", "y"))
    attachments = Attachments(rib, x, y, one.attachments.height)
    numbers = [start + own for start, laid in zip(starts, runs, strict=False) for own in laid.attachment]
    lines = tuple(line for laid in runs for line in laid.lines)
    return LaidLines(one.member, lines, one.stand_positions, attachments, tuple(numbers))


def join_runs(pattern: SpacingPattern, runs: Sequence[LaidLines]) -> Layout | None:
    """The layout of all runs, its attachments numbered row by row; None if runs share an attachment."""
    together = put_together(runs)
    at = together.attachments
    _, level = group_nearby(at.y, SAME_PLACE)
    by_row = np.lexsort((at.x, level))
    x, y, level = at.x[by_row], at.y[by_row], level[by_row]
    if ((np.diff(level) == 0) & (np.diff(x) < SAME_PLACE) & (np.abs(np.diff(y)) < SAME_PLACE)).any():
        return None
    order = np.empty_like(by_row)
    order[by_row] = np.arange(len(by_row))
    attachments = Attachments(at.rib[by_row], x, y, at.height)
    numbers = tuple(order[attachment] for attachment in together.attachment)
    return Layout(
        together.member, together.lines, together.stand_positions, attachments, numbers, pattern, tuple(runs), order
    )

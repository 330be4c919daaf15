"""A spacing that fails although a wider one holds, and what is at the attachment that fails.

More attachments carry less in the mean, not each of them: one near a module clamp carries that clamp almost alone
however close its neighbours are, and a short span beside a long overhang loads the last attachment by the lever.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from engine.common.arrays import Floats
from engine.common.tolerances import SAME_LENGTH
from engine.design.trial import Candidate
from engine.links import Check
from engine.mounting.layout import Layout


@dataclass(frozen=True)
class LoadedAttachment:
    """The attachment beside the place that fails.

    `load`: its largest uplift, or down load [N]; `largest_wider`: the largest of any at the wider spacing [N];
    `overhang`: of its member at the end of the line [m], None where it is neither the last nor, loaded the other way by
    the lever, the last but one; `is_last`: it is the last; `span`: the one beside it [m]; `to_clamp`: distance of the
    nearest module clamp [m], None where the load is spread.
    """

    is_uplift: bool
    load: float
    largest_wider: float
    overhang: float | None
    is_last: bool
    span: float
    to_clamp: float | None


@dataclass(frozen=True)
class CloserFailure:
    """A `span` [m] at which a member or the roof fails by `check`, and a wider one that holds with `wider_check`."""

    span: float
    check: Check
    wider_span: float
    wider_check: Check
    attachment: LoadedAttachment | None


def closer_failure(scanned: Sequence[Candidate]) -> CloserFailure | None:
    """The worst of the uniform spacings that fail although a wider one holds, beside the next wider that does.

    Args:
        scanned: candidates of uniform spacing, closest first.
    """
    holds = [not (each.member_over() or each.roof_over()) for each in scanned]
    last = max((number for number, good in enumerate(holds) if good), default=0)
    failing = [number for number in range(last) if not holds[number]]
    if not failing:
        return None
    worst = max(failing, key=lambda number: _check(scanned[number]).ratio)
    wider = next(number for number in range(worst, last + 1) if holds[number])
    return _failure(scanned[worst], scanned[wider])


def _check(candidate: Candidate) -> Check:
    return max(candidate.member_check, candidate.roof_check, key=lambda check: check.ratio)


def _failure(fails: Candidate, wider: Candidate) -> CloserFailure:
    check = _check(fails)
    spans = fails.layout.longest_span, wider.layout.longest_span
    return CloserFailure(spans[0], check, spans[1], _check(wider), _attachment(fails, wider, check))


def _attachment(fails: Candidate, wider: Candidate, check: Check) -> LoadedAttachment | None:
    """The attachment with the largest load on the rib that fails; None where no place is known, or none is there."""
    if check.place.x is None:
        return None
    demands = fails.compute_demands()
    numbers = [number for number, each in enumerate(demands.combinations) if each.name == check.combination]
    here = np.flatnonzero(np.abs(fails.layout.attachments.x - check.place.x) < SAME_LENGTH)
    if not (len(here) and numbers):
        return None
    normal = demands.attachment_normal[:, numbers[0]]
    number = int(here[np.argmax(np.abs(normal[here]))])
    is_uplift = bool(normal[number] < 0)
    size = "attachment_up" if is_uplift else "attachment_down_load"
    return LoadedAttachment(
        is_uplift,
        float(getattr(demands, size)[number]),
        float(getattr(wider.compute_demands(), size).max()),
        *_beside(fails.layout, number, normal),
    )


def _beside(layout: Layout, number: int, normal: Floats) -> tuple[float | None, bool, float, float | None]:
    """Overhang at the end of the line, True at the last attachment, the span beside it, distance of the nearest clamp.

    Args:
        layout: the layout.
        number: of the attachment.
        normal: force on every attachment in the combination that fails (P,) [N].
    """
    lines, attachment = next(
        each for each in zip(layout.lines, layout.attachment, strict=True) if (each[1] == number).any()
    )
    foot, place, line = (int(index) for index in np.argwhere(attachment == number)[0])
    supports = layout.supports(lines)
    from_end, end = min((place, 0), (len(supports) - 1 - place, -1))
    overhang = float(supports[0] - lines.start if end == 0 else lines.end - supports[-1])
    levered = from_end == 1 and normal[number] * normal[attachment[foot, end, line]] < 0
    spans = np.diff(supports)
    is_clamp = lines.load_end - lines.load_start < SAME_LENGTH
    to_clamps = np.abs(lines.load_start[is_clamp] - supports[place])
    return (
        overhang if from_end == 0 or levered else None,
        from_end == 0,
        float(spans[0] if end == 0 else spans[-1]),
        float(to_clamps.min()) if len(to_clamps) else None,
    )

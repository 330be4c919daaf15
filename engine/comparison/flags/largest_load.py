"""A note that explains a method with the largest load on one attachment, and yet the lowest utilisation of the roof."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from operator import itemgetter

import numpy as np

from engine.common.sentences import capitalized
from engine.common.tolerances import SAME_LENGTH
from engine.comparison.flags.flag import Flag
from engine.design.design import Design
from engine.links import Check, roof_fastening
from engine.links.roof_fastening import DOWN_LOAD, UPLIFT
from engine.units import both

SAME_RATIO_SHOWN = 0.01
"""Difference of utilisations that a reader sees [-]."""


def flags(designs: Sequence[Design]) -> Iterator[tuple[Design, Flag]]:
    """A flag for the method whose roof is used least although one of its attachments carries the most."""
    checked = [design for design in designs if design.candidate and design.status.nothing_over]
    if len(checked) < 2:
        return
    easiest, next_best = sorted(checked, key=lambda design: _roof(design).ratio)[:2]
    if _roof(next_best).ratio - _roof(easiest).ratio < SAME_RATIO_SHOWN:
        return
    for name, load in ((UPLIFT, _largest_uplift), (DOWN_LOAD, _largest_down_load)):
        (most, loaded), (second, other) = sorted(((load(each), each) for each in checked), key=itemgetter(0))[:-3:-1]
        if loaded is easiest and most > second:
            text = (
                f"{capitalized(easiest.title)}: largest {name} on one attachment {both(most, 'force')}, {other.title} "
                f"{both(second, 'force')}; yet the roof is used least: {_used(easiest)}, {next_best.title} "
                f"{_used(next_best)}{_reason(easiest, next_best, name)}"
            )
            yield easiest, Flag("largest_load_easiest", "note", text)
            return


def _reason(easiest: Design, other: Design, load: str) -> str:
    """A load that no fastening carries, or fewer attachments at the place used most; empty where it is neither."""
    roof, pulled = easiest.job.roof, all(_roof(each).link == roof_fastening.LINK.key for each in (easiest, other))
    if load == DOWN_LOAD and pulled and roof.fastening.bearing is None:
        return f". A down load bears on the {roof.support} and does not pull on the {roof.fastening_word}"
    few, many = _attachments_near(easiest), _attachments_near(other)
    if few is None or many is None or few >= many:
        return ""
    verb = "attachment loads" if few == 1 else "attachments load"
    return f". Where the roof is used most {few or 'no'} {verb} the {roof.rib_word}, {other.title} {many}"


def _attachments_near(design: Design) -> int | None:
    """Number of attachments on the rib used most, within one bay of that place; None where it has no place."""
    place, at = _roof(design).place, design.layout.attachments
    if place.x is None or place.y is None:
        return None
    on_rib = np.abs(at.x - place.x) < SAME_LENGTH
    return int((on_rib & (np.abs(at.y - place.y) <= design.job.roof.support_spacing)).sum())


def _used(design: Design) -> str:
    check = _roof(design)
    return f"{check.title} {check.ratio:.2f}"


def _roof(design: Design) -> Check:
    assert design.candidate
    return design.candidate.roof_check


def _largest_uplift(design: Design) -> float:
    assert design.candidate
    return float(design.candidate.demands.attachment_up.max())


def _largest_down_load(design: Design) -> float:
    assert design.candidate
    return float(design.candidate.demands.attachment_down_load.max())

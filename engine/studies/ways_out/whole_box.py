"""The worst verdict on one design all over its tolerance: the square within which the array may in truth be set out.

A design is checked at the corners of the square. A clamp right over a seam loads it most, and that may be between them:
a grid over the square is tried, its left and right side also with seams that drift, and finer steps around the worst
place where that is close to 1.00.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from itertools import product

import numpy as np

from engine.design.design import Design
from engine.design.elsewhere import CLOSE_TO_LIMIT, SIDES, Place, SetOut, largest_drift, largest_offset
from engine.design.shared_roof import SharedRoof
from engine.design.status import Verdict
from engine.loads.interface import LoadStandard

PLACES_ALONG, PLACES_UP = 5, 3
"""Number of places along the eave and up the slope, corners among them."""

FINER = (-3 / 4, -1 / 2, -1 / 4, 1 / 4, 1 / 2, 3 / 4)
"""Finer steps around the worst place, in parts of the distance to the next one [-]."""

MOST = 0.995
"""Largest utilisation that counts as holding all over the tolerance (judgement): no grid finds the very largest [-]."""


def most_allowed(design: Design) -> float:
    """Largest utilisation that counts as holding all over the tolerance; 1 where the array is set out exactly [-]."""
    return MOST if largest_offset(design) else 1.0


def holds_in_box(design: Design, standard: LoadStandard) -> bool:
    """True if a design holds all over its tolerance."""
    worst = worst_in_box(design, standard)
    return worst.status.nothing_over and worst.utilisation <= most_allowed(design)


def worst_in_box(design: Design, standard: LoadStandard) -> Verdict:
    """The worst verdict on the layout of a design all over its tolerance."""
    if not largest_offset(design):
        return design.verdict
    verdict_of = SetOut(design, standard, SharedRoof()).verdict_at
    (along, between), (up, between_up) = (
        np.linspace(-1, 1, number, retstep=True) for number in (PLACES_ALONG, PLACES_UP)
    )
    grid = [(x, y, 0.0) for x, y in product(along.tolist(), up.tolist())]
    drifted = [(x, y, x) for x, y in product(SIDES, up.tolist())] if largest_drift(design) else []
    worst, (x, y, drift) = _worst([*grid, *drifted], verdict_of)
    if worst.utilisation < CLOSE_TO_LIMIT or not worst.status.nothing_over:
        return worst
    around = [(x + step * between, y) for step in FINER] + [(x, y + step * between_up) for step in FINER]
    finer = [(x, y, drift) for x, y in [(x, y), *around] if max(abs(x), abs(y)) <= 1]
    return _worst(finer, verdict_of)[0]


def _worst(places: Iterable[Place], verdict_of: Callable[[Place], Verdict]) -> tuple[Verdict, Place]:
    """The worst of the verdicts at some places, and its place."""
    return max(((verdict_of(place), place) for place in places), key=lambda each: each[0].badness)

"""The worst verdict on one design all over its tolerance: the square within which the array may in truth be set out.

A design is checked at the corners of the square. A clamp right over a seam loads it most, and that may be between them:
a grid over the square is tried, and finer steps around its worst place where that is close to 1.00.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from itertools import product

import numpy as np

from engine.design.design import Design
from engine.design.elsewhere import moved, same_layout_at
from engine.design.shared_roof import SharedRoof
from engine.design.status import Status, Verdict
from engine.loads.interface import LoadStandard
from engine.project.job import Job

PLACES_ALONG, PLACES_UP = 5, 3
"""Number of places along the eave and up the slope, corners among them."""

FINER = (-3 / 4, -1 / 2, -1 / 4, 1 / 4, 1 / 2, 3 / 4)
"""Finer steps around the worst place, in parts of the distance to the next one [-]."""

CLOSE = 0.95
"""Utilisation from which finer steps are tried: from one place to the next it changes by less than the rest [-]."""

MOST = 0.995
"""Largest utilisation that counts as holding all over the tolerance (judgement): no grid finds the very largest [-]."""

Place = tuple[float, float]
"""Distances along the eave and up the slope, in parts of the tolerance."""


def most_allowed(job: Job) -> float:
    """Largest utilisation that counts as holding all over the tolerance; 1 where the array is set out exactly [-]."""
    return MOST if job.placement.tolerance else 1.0


def holds_in_box(design: Design, standard: LoadStandard) -> bool:
    """True if a design holds all over its tolerance."""
    worst = worst_in_box(design, standard)
    return worst.status.nothing_over and worst.utilisation <= most_allowed(design.job)


def worst_in_box(design: Design, standard: LoadStandard) -> Verdict:
    """The worst verdict on the layout of a design all over its tolerance."""
    if not design.job.placement.tolerance:
        return design.verdict
    verdict_at = _same_layout(design, standard)
    (along, between), (up, between_up) = (
        np.linspace(-1, 1, number, retstep=True) for number in (PLACES_ALONG, PLACES_UP)
    )
    worst, (x, y) = _worst(product(along.tolist(), up.tolist()), verdict_at)
    if worst.utilisation < CLOSE or not worst.status.nothing_over:
        return worst
    around = [(x + step * between, y) for step in FINER] + [(x, y + step * between_up) for step in FINER]
    return _worst([(x, y), *(place for place in around if max(map(abs, place)) <= 1)], verdict_at)[0]


def _worst(places: Iterable[Place], verdict_at: Callable[[Place], Verdict]) -> tuple[Verdict, Place]:
    """The worst of the verdicts at some places, and its place."""
    found = [(verdict_at(place), place) for place in places]
    return max(found, key=lambda each: (not each[0].status.nothing_over, each[0].utilisation))


def _same_layout(design: Design, standard: LoadStandard) -> Callable[[Place], Verdict]:
    """The verdict on the layout of a design elsewhere; refused where it cannot be built."""
    tolerance, shared = design.job.placement.tolerance, SharedRoof()

    def verdict_at(place: Place) -> Verdict:
        there = same_layout_at(moved(design.job, *(tolerance * part for part in place)), design, standard, shared)
        return there.verdict if there else Verdict(Status.REFUSED)

    return verdict_at

"""Plan of the pull tests on site that would show the uplift strength of one method's attachments."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from engine.common.arrays import Bools, Floats, Ints
from engine.common.tolerances import SAME_RATIO
from engine.design.design import Design
from engine.design.trial import Candidate
from engine.links.attachment import NORMAL_PART, attachment_ratios
from engine.links.unchecked import UP
from engine.project.job import Job
from engine.strength.characteristic_tests import FRACTILE_FACTORS, mean_over_design
from engine.strength.pull_tests import FABRICATION_SCATTER, MIN_TESTS_BEYOND, SCREW, mean_over_allowable
from engine.strength.test_statistics import MIN_TESTS

MID_BAY = 1 / 4
"""An attachment farther than this part of the bay from the rows of fastenings is mid-bay (judgement)."""

RIBS_APART = 2
"""Smallest distance between two pulls, in ribs: a pull may damage the panels on both sides of its rib (judgement)."""

INPUT = "hardware.attachment_uplift"
"""Path of the strength that the pulls show."""


@dataclass(frozen=True)
class Series:
    """A number of tests, the kind of part that fails, and the mean load at failure that they must reach [N]."""

    tests: int
    connection: str
    mean: float


@dataclass(frozen=True)
class PullPlaces:
    """Attachments (numbers from 1) of one kind of place at which to pull; unlike places must not be mixed."""

    kind: str
    numbers: tuple[int, ...]


@dataclass(frozen=True)
class PullTestPlan:
    """Tests that show the uplift strength of an attachment.

    `key`: the way of knowing a strength that takes them; `resistance` [N]: the allowable or design resistance that the
    attachments need; None where their other loads leave no room for uplift.
    """

    key: str
    resistance: float | None
    series: tuple[Series, ...]
    places: tuple[PullPlaces, ...]


def pull_test_plan(design: Design, candidate: Candidate) -> PullTestPlan:
    """The plan for a layout that was checked."""
    needed = needed_resistances(candidate)
    factors = {each.partial_factor for each in candidate.demands.combinations if each.partial_factor is not None}
    resistance = float(needed.max()) if np.isfinite(needed).all() else None
    series = _series(design.job, resistance, max(factors, default=None)) if resistance else ()
    return PullTestPlan(
        key="characteristic_tests" if factors else "pull_tests",
        resistance=resistance,
        series=series,
        places=tuple(_places(design, needed)),
    )


def needed_resistances(candidate: Candidate) -> Floats:
    """Uplift resistance at which each attachment is just at its limit, beside its other loads (P,) [N].

    Infinite where the other loads alone reach the limit.
    """
    parts = dict(attachment_ratios(candidate.demands, UP).parts)
    uplift = parts.pop(NORMAL_PART[UP]).demand
    left = 1 - np.sum([part.utilisation for part in parts.values()], axis=0)
    room = left > SAME_RATIO
    needed = np.where(uplift > 0, np.inf, 0.0)
    np.divide(uplift, left, out=needed, where=room)
    largest: Floats = needed.max(axis=1)
    return largest


def _series(job: Job, resistance: float, partial_factor: float | None) -> tuple[Series, ...]:
    """The smallest numbers of tests that count; a screw that fails has another factor than another part."""
    if partial_factor is not None:
        numbers = sorted(FRACTILE_FACTORS)[:4]
        return tuple(Series(n, "any", resistance * mean_over_design(n, partial_factor)) for n in numbers)
    return tuple(
        Series(tests, connection, resistance * mean_over_allowable(tests, connection))
        for connection in FABRICATION_SCATTER
        if connection != SCREW or job.hardware.pierces
        for tests in (MIN_TESTS, MIN_TESTS_BEYOND)
    )


def _places(design: Design, needed: Floats) -> list[PullPlaces]:
    """The most loaded attachments of each kind of place, no two of them on neighbouring ribs."""
    attachments, job, found = design.layout.attachments, design.job, []
    for kind, is_such in _kinds(job, attachments.y).items():
        chosen = _spread(np.flatnonzero(is_such), needed, attachments.rib)
        if chosen:
            found.append(PullPlaces(kind, tuple(number + 1 for number in chosen)))
    return found


def _kinds(job: Job, y: Floats) -> dict[str, Bools]:
    """Kind of place → the attachments at `y` (P,) [m from the eave] that are of it (P,)."""
    supports = job.roof.supports(job.building)
    if job.roof.solid_deck or job.hardware.at_fastenings or len(supports) < 2:
        return {f"on {job.hardware.kind.stands_on}": np.ones(len(y), dtype=bool)}
    distance = np.abs(y[:, None] - supports).min(axis=1)
    mid_bay = distance > MID_BAY * job.roof.support_spacing
    return {"mid-bay": mid_bay, "near a purlin": ~mid_bay}


def _spread(candidates: Ints, needed: Floats, rib: Ints) -> list[int]:
    """The most loaded candidates on ribs that are not neighbours, as many as the larger series has tests."""
    chosen: list[int] = []
    for number in candidates[np.argsort(-needed[candidates], kind="stable")].tolist():
        if len(chosen) < MIN_TESTS_BEYOND and all(abs(rib[number] - rib[each]) >= RIBS_APART for each in chosen):
            chosen.append(number)
    return chosen

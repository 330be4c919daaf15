"""Surcharges beside a step, such as drifts: their pressure by distance, and their mean over parts of the roof.

Distances are horizontal, in feet: x along the eave from the left rake, y up the slope from the eave.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np

from engine.common.arrays import Bools, Floats, Ints
from engine.common.calculation import CalculationStep, Recorder, Reference, Term, silent
from engine.common.tolerances import TOUCHING_FEET
from engine.mounting.layout import Rectangles
from engine.units import FOOT


@dataclass(frozen=True)
class Profile:
    """Pressure that changes linearly from `start` at the step to `end` at the `width`, and is 0 beyond [psf, ft].

    `steps` are its calculation; `disputed`: public sources differ on it, and the larger is used.
    """

    start: float
    end: float
    width: float
    source: Reference
    steps: tuple[CalculationStep, ...] = ()
    disputed: bool = False

    def at(self, distance: Floats) -> Floats:
        """Pressure at distances from the step within the width (n,) [psf]."""
        pressure: Floats = self.start + (self.end - self.start) * distance / self.width
        return pressure


@dataclass(frozen=True)
class Surcharge:
    """A profile laid on the roof: from `face` in one direction along one axis, between two ends on the other axis.

    `along_eave`: its axis is x, else y. `outward` is 1 or -1, the direction along the axis. `gap` is the distance from
    the step to the face, over which snow falls beside the roof. All in feet.
    """

    profile: Profile
    along_eave: bool
    outward: int
    face: float
    ends: tuple[float, float]
    gap: float = 0.0

    @property
    def direction(self) -> tuple[bool, int]:
        """Axis and direction in which it falls off."""
        return self.along_eave, self.outward

    def near_and_far(self, plan: Rectangles) -> tuple[Floats, Floats]:
        """Distances of the near and the far side of rectangles from the step, both within the width (n,) [ft]."""
        low, high = (plan.left, plan.right) if self.along_eave else (plan.low, plan.high)
        first, last = (low, high) if self.outward > 0 else (high, low)
        near, far = ((side - self.face) * self.outward + self.gap for side in (first, last))
        return np.clip(near, self.gap, self.profile.width), np.clip(far, self.gap, self.profile.width)

    def shared_length(self, plan: Rectangles) -> Floats:
        """Length of rectangles across the axis that lies between the ends (n,) [ft]."""
        low, high = (plan.low, plan.high) if self.along_eave else (plan.left, plan.right)
        length: Floats = np.maximum(np.minimum(high, self.ends[1]) - np.maximum(low, self.ends[0]), 0.0)
        return length

    def covers(self, plan: Rectangles) -> Bools:
        """True for each rectangle with some part below the surcharge (n,)."""
        near, far = self.near_and_far(plan)
        return (far - near > TOUCHING_FEET) & (self.shared_length(plan) > TOUCHING_FEET)

    def mean(self, plan: Rectangles) -> Floats:
        """Mean pressure over the area of rectangles: the integral of the profile over its area (n,) [psf]."""
        near, far = self.near_and_far(plan)
        volume = (self.profile.at(near) + self.profile.at(far)) / 2 * (far - near) * self.shared_length(plan)
        mean: Floats = volume / ((plan.right - plan.left) * (plan.high - plan.low))
        return mean

    def largest(self, plan: Rectangles) -> Floats:
        """Largest pressure on rectangles that it covers: that of the side next to the step (n,) [psf]."""
        return self.profile.at(self.near_and_far(plan)[0])


def plan_of(places: Rectangles, slope: float) -> Rectangles:
    """Rectangles of the roof plane [m] on the horizontal plane [ft]; `slope` of the roof [deg]."""
    across = math.cos(math.radians(slope)) / FOOT
    return Rectangles(places.left / FOOT, places.low * across, places.right / FOOT, places.high * across)


def mean_of_all(surcharges: Sequence[Surcharge], plan: Rectangles, record: Recorder = silent) -> Floats:
    """Mean surcharge on rectangles (n,) [psf].

    Of surcharges that fall off in one direction the one with the larger mean counts; no rectangle may reach over a
    face, except as a partly covered one. Where two directions meet, their means are added, but no more counts than the
    largest pressure at any point (loadpath's choice, safe: the larger drift counts at each point).
    """
    total, largest, parts = np.zeros(len(plan)), largest_of_all(surcharges, plan), list[Term]()
    for group in _by_direction(surcharges):
        mean, governing = _larger(group, plan)
        total += mean
        if record is not silent and mean[0] > 0:
            parts.append(_record_mean(group[governing], plan, mean[0], record))
    result = np.minimum(total, largest)
    if parts:
        names = [f"m{number}" for number in range(1, len(parts) + 1)]
        equation = f"min({' + '.join(names)}, largest)"
        terms = dict(zip(names, parts, strict=True)) | {"largest": Term(float(largest[0]), "psf")}
        _record_surcharge(float(result[0]), equation, terms, surcharges[0].profile.source, record)
    return result


def largest_of_all(surcharges: Sequence[Surcharge], plan: Rectangles, record: Recorder = silent) -> Floats:
    """Largest surcharge at any point of rectangles (n,) [psf]."""
    largest, governing = np.zeros(len(plan)), None
    for surcharge in surcharges:
        covered = np.flatnonzero(surcharge.covers(plan))
        here = surcharge.largest(_chosen(plan, covered))
        if len(covered) and covered[0] == 0 and here[0] > largest[0]:
            governing = surcharge
        largest[covered] = np.maximum(largest[covered], here)
    if record is not silent and governing is not None:
        for step in governing.profile.steps:
            record(step)
        _record_surcharge(float(largest[0]), "", {}, governing.profile.source, record)
    return largest


def _by_direction(surcharges: Sequence[Surcharge]) -> Iterator[list[Surcharge]]:
    for direction in dict.fromkeys(surcharge.direction for surcharge in surcharges):
        yield [surcharge for surcharge in surcharges if surcharge.direction == direction]


def _larger(surcharges: Sequence[Surcharge], plan: Rectangles) -> tuple[Floats, int]:
    """Largest of the surcharges' means on each rectangle (n,) [psf], and which of them counts on the first one."""
    largest, governing = np.zeros(len(plan)), 0
    for number, surcharge in enumerate(surcharges):
        covered = np.flatnonzero(surcharge.covers(plan))
        mean = surcharge.mean(_chosen(plan, covered))
        if len(covered) and covered[0] == 0 and mean[0] > largest[0]:
            governing = number
        largest[covered] = np.maximum(largest[covered], mean)
    return largest, governing


def _chosen(plan: Rectangles, number: Ints) -> Rectangles:
    return Rectangles(*(side[number] for side in (plan.left, plan.low, plan.right, plan.high)))


def _record_mean(surcharge: Surcharge, plan: Rectangles, mean: float, record: Recorder) -> Term:
    """Record the mean on the first rectangle; returns it as a term."""
    for step in surcharge.profile.steps:
        record(step)
    first = _chosen(plan, np.array([0]))
    near, far = (side[0] for side in surcharge.near_and_far(first))
    pressures = surcharge.profile.at(np.array([near, far]))
    area = (first.right[0] - first.left[0]) * (first.high[0] - first.low[0])
    terms = {
        "pnear": Term(float(pressures[0]), "psf"),
        "pfar": Term(float(pressures[1]), "psf"),
        "xnear": Term(float(near), "ft"),
        "xfar": Term(float(far), "ft"),
        "b": Term(float(surcharge.shared_length(first)[0]), "ft"),
        "A": Term(float(area), "ft2"),
    }
    result, equation = Term(float(mean), "psf"), "(pnear + pfar) / 2 * (xfar - xnear) * b / A"
    meaning = "mean of the surcharge over this part, from its near to its far side"
    record(CalculationStep("pmean", meaning, result, equation, terms, surcharge.profile.source))
    return result


def _record_surcharge(value: float, equation: str, terms: dict[str, Term], source: Reference, record: Recorder) -> None:
    meaning = "surcharge on this part" if equation else "surcharge on this part, its largest pressure (partly covered)"
    record(CalculationStep("psur", meaning, Term(value, "psf"), equation, terms, source))

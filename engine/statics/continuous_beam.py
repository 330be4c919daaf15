"""Continuous beams on rigid supports, many at a time.

Axes and signs: x along the beam; loads toward the roof positive; reactions positive where the
support pushes back; moments positive where they sag (compress the side that faces the sky);
deflections positive toward the roof. Shapes: B beams alike in number, S supports, L loads,
T stations. Each load has the size 1, so that every answer is an influence.

The supports part a beam into S+1 stretches: an overhang, the spans, an overhang. The solution is the
three-moment equation. Every load enters it through four numbers per stretch, the integrals of
1, x, x², x³ over the load, because all kernels are cubic in x. Inside, what follows along the beam
comes first in every array: a step from support to support is then one operation on all beams and loads.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from typing import Protocol

import numpy as np

from engine.common.arrays import Bools, Floats

LoadIntegrals = tuple[Floats, Floats, Floats, Floats]
"""Integrals of 1, x, x², x³ over a load."""


class UnitLoads(Protocol):
    """Loads of size 1 on B beams, L on each."""

    def integrals(self, low: Floats, high: Floats, origin: Floats) -> LoadIntegrals:
        """Integrals of x⁰ … x³ about `origin` over the part of each load within [low, high).

        `low`, `high`, `origin` have shape (K, B, 1), each of the four answers (K, B, L).
        """
        ...


@dataclass(frozen=True, eq=False)
class UnitForces:
    """Forces of 1, each spread evenly from `start` to `end` [m], shape (B, L); a point where they meet."""

    start: Floats
    end: Floats

    def integrals(self, low: Floats, high: Floats, origin: Floats) -> LoadIntegrals:
        """Integrals of the powers of x; see `UnitLoads`."""
        width = self.end - self.start
        if not width.any():
            return _point_integrals(self.start, low, high, origin)
        first, last = np.clip(self.start, low, high) - origin, np.clip(self.end, low, high) - origin
        part = (last - first) / np.where(width > 0, width, 1.0)
        if not width.all():
            part += (width == 0) & _within(self.start, low, high)
        total, product = first + last, first * last
        square = total * total
        return part, part * total / 2, part * (square - product) / 3, part * total * (square - 2 * product) / 4


@dataclass(frozen=True, eq=False)
class UnitCouples:
    """Couples of 1 at `place` [m], shape (B, L), that push toward the roof beyond it and lift before it."""

    place: Floats

    def integrals(self, low: Floats, high: Floats, origin: Floats) -> LoadIntegrals:
        """Integrals of the powers of x: a couple is the derivative of a point force."""
        one, x, square, _ = _point_integrals(self.place, low, high, origin)
        return np.zeros_like(one), one, 2 * x, 3 * square


def _point_integrals(place: Floats, low: Floats, high: Floats, origin: Floats) -> LoadIntegrals:
    within = _within(place, low, high)
    x = np.where(within, place - origin, 0.0)
    square = x * x
    return within.astype(np.float64), x, square, square * x


def _within(place: Floats, low: Floats, high: Floats) -> Bools:
    return (place >= low) & (place < high)


@dataclass(frozen=True, eq=False)
class BeamResponse:
    """What B beams answer to each of L unit loads: `reactions` (B, S, L) [-] and `support_moments` (B, S, L) [m].

    How they bend between is worked out when it is asked for, from what `supports` (B, S) [m] part: of each span, `inner`
    (S-1, B, L) are the loads' powers from its left support on and `shears` (S-1, B, L) [-] stand just beyond that support.
    """

    supports: Floats
    loads: UnitLoads
    reactions: Floats
    support_moments: Floats
    inner: LoadIntegrals
    shears: Floats

    def moments(self, stations: Floats) -> Floats:
        """Moments at stations between the outer supports [m], (B, T): (B, T, L) [m]."""
        places, at = _beam_axis_first(self.supports), _beam_axis_first(stations)
        span = (at >= places[1:-1, None]).sum(0)
        origin = np.take_along_axis(places, span, 0)
        force, turn, _, _ = self.loads.integrals(origin, at, origin)
        start, shear = (
            np.take_along_axis(of_spans, span, 0) for of_spans in (_swap_axes(self.support_moments), self.shears)
        )
        return _swap_axes(start + (shear - force) * (at - origin) + turn)

    @cached_property
    def deflections_ei(self) -> Floats:
        """Deflection at each midspan times the flexural rigidity EI (B, S-1, L) [m³].

        That of a single span, whose influence line is the curve it takes under a force at its middle, and what the
        moments over its supports add.
        """
        places = _beam_axis_first(self.supports)
        starts, span = places[:-1], np.diff(places, axis=0)
        before = self.loads.integrals(starts, starts + span / 2, starts)
        weights: tuple[Floats | float, ...] = -(span**3), 9 * span**2, -12 * span, 4.0
        beyond = (weight * (whole - half) for weight, whole, half in zip(weights, self.inner, before, strict=True))
        alone = 3 * span**2 * before[1] - 4 * before[3] + sum(beyond)
        over = _swap_axes(self.support_moments)
        return _swap_axes(alone / 48 + (over[:-1] + over[1:]) * span**2 / 16)


def solve_beams(supports: Floats, loads: UnitLoads) -> BeamResponse:
    """Solve B continuous beams for L unit loads each.

    Args:
        supports: positions in rising order, at least two [m], shape (B, S).
        loads: the unit loads; they may stand on overhangs.

    Raises:
        ValueError: with fewer than two supports, which hold no beam.
    """
    if supports.shape[1] < 2:
        raise ValueError("a beam needs at least two supports")
    places = _beam_axis_first(supports)
    spans, endless = np.diff(places, axis=0), np.full_like(places[:1], np.inf)
    bounds = np.concatenate([-endless, places, endless])
    force, turn, m2, m3 = loads.integrals(bounds[:-1], bounds[1:], np.concatenate([places[:1], places]))
    inner = force[1:-1], turn[1:-1], m2[1:-1], m3[1:-1]

    moments = np.empty((len(places), *force.shape[1:]))
    moments[0], moments[-1] = turn[0], -turn[-1]  # from the overhangs
    if len(spans) > 1:
        moments[1:-1] = _three_moments(spans, inner, moments[0], moments[-1])
    shears = np.zeros_like(force)
    shears[1:-1] = (np.diff(moments, axis=0) - inner[1]) / spans + inner[0]
    shears[-1] = force[-1]
    reactions = force[:-1] - shears[:-1] + shears[1:]
    return BeamResponse(supports, loads, _swap_axes(reactions), _swap_axes(moments), inner, shears[1:-1])


def _beam_axis_first(places: Floats) -> Floats:
    """Places of B beams (B, K) with what follows along the beam first: (K, B, 1)."""
    return np.ascontiguousarray(places.T)[..., None]


def _swap_axes(array: Floats) -> Floats:
    """Beams first, or what follows along them: (B, K, L) and (K, B, L)."""
    return array.transpose(1, 0, 2)


def _three_moments(spans: Floats, inner: LoadIntegrals, first: Floats, last: Floats) -> Floats:
    """Clapeyron's equation: moments over the inner supports (S-2, B, L), with those over the outermost known (B, L)."""
    _, m1, m2, m3 = inner
    turn_left = 2 * spans * m1 - 3 * m2 + m3 / spans  # 6 EI x end rotation over the span's left support
    turn_right = spans * m1 - m3 / spans
    known = -(turn_right[:-1] + turn_left[1:])
    known[0] -= spans[0] * first
    known[-1] -= spans[-1] * last
    return _solve_tridiagonal(2 * (spans[:-1] + spans[1:]), spans[1:-1], known)


def _solve_tridiagonal(own: Floats, beside: Floats, known: Floats) -> Floats:
    """Solve equations that each know only their neighbours, by elimination forth and back, where `own` and `known` stand.

    `own` (n, B, 1) are the factors of the unknowns themselves, `beside` (n-1, B, 1) those of the unknowns next to them.
    Each pivot outweighs the factors beside it, so that no rows need to be exchanged.
    """
    for before, pivot, square in zip(own, own[1:], beside**2, strict=False):
        np.subtract(pivot, square / before, out=pivot)
    parts = beside / own[:-1]
    for before, here, part in zip(known, known[1:], parts, strict=False):
        np.subtract(here, part * before, out=here)
    known /= own
    for beyond, here, part in zip(known[:0:-1], known[-2::-1], parts[::-1], strict=True):
        np.subtract(here, part * beyond, out=here)
    return known

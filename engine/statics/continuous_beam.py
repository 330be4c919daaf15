"""Continuous beams on rigid supports, many solved at once.

Axes and signs: x along the beam; loads toward the roof positive; reactions positive where the
support pushes back; moments positive where they sag (compress the side that faces the sky);
deflections positive toward the roof. Shapes: B beams with equally many supports, S supports, L loads,
T stations. Each load has the size 1, so every result is an influence coefficient.

The supports divide a beam into S+1 stretches: an overhang, S-1 spans, an overhang. Each load enters a stretch
through four numbers, the integrals of 1, x, x², x³ over the load, because every kernel of beam theory is at most
cubic in x. The overhangs fix the moments over the two outer supports; the three-moment equation, solved by
elimination from end to end, gives those over the inner supports. Shears and reactions follow from equilibrium of
each span. Internal arrays have the beam's axis first, so that one step from support to support serves all beams.
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

        `low`, `high`, `origin` have shape (K, B, 1), each of the four results (K, B, L).
        """
        ...


@dataclass(frozen=True, eq=False)
class UnitForces:
    """Forces of 1, spread evenly from `start` to `end` [m], shape (B, L); point forces where the two are equal."""

    start: Floats
    end: Floats

    def integrals(self, low: Floats, high: Floats, origin: Floats) -> LoadIntegrals:
        """Integrals of the powers of x; see `UnitLoads`."""
        width = self.end - self.start
        if not width.any():
            return _point_integrals(self.start, low, high, origin)
        first = np.clip(self.start, low, high) - origin
        last = np.clip(self.end, low, high) - origin
        fraction = (last - first) / np.where(width > 0, width, 1.0)
        if not width.all():
            fraction += (width == 0) & _within(self.start, low, high)
        total, product = first + last, first * last
        square = total * total
        return (
            fraction,
            fraction * total / 2,
            fraction * (square - product) / 3,
            fraction * total * (square - 2 * product) / 4,
        )


@dataclass(frozen=True, eq=False)
class UnitCouples:
    """Couples of 1 at `position` [m], shape (B, L), that push toward the roof beyond it and lift before it."""

    position: Floats

    def integrals(self, low: Floats, high: Floats, origin: Floats) -> LoadIntegrals:
        """Integrals of the powers of x: a couple is the derivative of a point force."""
        one, x, square, _ = _point_integrals(self.position, low, high, origin)
        return np.zeros_like(one), one, 2 * x, 3 * square


def _point_integrals(position: Floats, low: Floats, high: Floats, origin: Floats) -> LoadIntegrals:
    """1, x, x², x³ of a point inside the stretch, 0 of one outside it."""
    within = _within(position, low, high)
    x = np.where(within, position - origin, 0.0)
    square = x * x
    return within.astype(np.float64), x, square, square * x


def _within(position: Floats, low: Floats, high: Floats) -> Bools:
    return (position >= low) & (position < high)


@dataclass(eq=False)
class BeamResponse:
    """Reactions (B, S, L) [-] and moments over the supports (B, S, L) [m] of B beams under L unit loads.

    Bending between the supports is computed from the rest: `supports` (B, S) [m]; for each span `inner` (S-1, B, L),
    the load integrals about its left support, and `shears` (S-1, B, L) [-] just to the right of that support.
    """

    supports: Floats
    loads: UnitLoads
    reactions: Floats
    support_moments: Floats
    inner: LoadIntegrals
    shears: Floats

    def moments(self, stations: Floats) -> Floats:
        """Moments (B, T, L) [m] at `stations` (B, T) [m] between the outer supports."""
        supports = _beam_axis_first(self.supports)
        at = _beam_axis_first(stations)
        span = (at >= supports[1:-1, None]).sum(0)
        origin = np.take_along_axis(supports, span, 0)
        force, first_moment, _, _ = self.loads.integrals(origin, at, origin)
        at_support = np.take_along_axis(_swap_axes(self.support_moments), span, 0)
        shear = np.take_along_axis(self.shears, span, 0)
        return _swap_axes(at_support + (shear - force) * (at - origin) + first_moment)

    @cached_property
    def deflections_ei(self) -> Floats:
        """Deflection at each midspan times the flexural rigidity EI (B, S-1, L) [m³].

        The deflection of a simple span, whose influence line is its curve under a force at midspan, plus that from
        the moments over its two supports, M l² / 16 each.
        """
        supports = _beam_axis_first(self.supports)
        starts, span = supports[:-1], np.diff(supports, axis=0)
        left_half = self.loads.integrals(starts, starts + span / 2, starts)
        weights: tuple[Floats | float, ...] = -(span**3), 9 * span**2, -12 * span, 4.0
        right_half = (
            weight * (whole - half) for weight, whole, half in zip(weights, self.inner, left_half, strict=True)
        )
        simple_span = 3 * span**2 * left_half[1] - 4 * left_half[3] + sum(right_half)
        moments = _swap_axes(self.support_moments)
        return _swap_axes(simple_span / 48 + (moments[:-1] + moments[1:]) * span**2 / 16)


def solve_beams(supports: Floats, loads: UnitLoads) -> BeamResponse:
    """Reactions and moments of B continuous beams under L unit loads each.

    Args:
        supports: positions in rising order, at least two [m], shape (B, S).
        loads: the unit loads; they may lie on overhangs.

    Raises:
        ValueError: with fewer than two supports: the beam would be a mechanism.
    """
    if supports.shape[1] < 2:
        raise ValueError("a beam needs at least two supports")
    positions = _beam_axis_first(supports)
    spans = np.diff(positions, axis=0)
    infinity = np.full_like(positions[:1], np.inf)
    bounds = np.concatenate([-infinity, positions, infinity])
    origins = np.concatenate([positions[:1], positions])
    force, first_moment, m2, m3 = loads.integrals(bounds[:-1], bounds[1:], origins)
    inner = force[1:-1], first_moment[1:-1], m2[1:-1], m3[1:-1]

    moments = np.empty((len(positions), *force.shape[1:]))
    # A load on the left overhang has a negative x and hogs the beam; on the right its x is positive: the sign flips.
    moments[0], moments[-1] = first_moment[0], -first_moment[-1]
    if len(spans) > 1:
        moments[1:-1] = _three_moments(spans, inner, moments[0], moments[-1])
    shears = np.zeros_like(force)
    shears[1:-1] = (np.diff(moments, axis=0) - inner[1]) / spans + inner[0]
    shears[-1] = force[-1]
    reactions = force[:-1] - shears[:-1] + shears[1:]
    return BeamResponse(supports, loads, _swap_axes(reactions), _swap_axes(moments), inner, shears[1:-1])


def _beam_axis_first(positions: Floats) -> Floats:
    """Positions on B beams (B, K) with the beam's own axis first: (K, B, 1)."""
    return np.ascontiguousarray(positions.T)[..., None]


def _swap_axes(array: Floats) -> Floats:
    """(K, B, L) from (B, K, L), and back."""
    return array.transpose(1, 0, 2)


def _three_moments(spans: Floats, inner: LoadIntegrals, first: Floats, last: Floats) -> Floats:
    """Moments over the inner supports (S-2, B, L) [m], by Clapeyron's three-moment equation.

    Args:
        spans: span lengths (S-1, B, 1) [m].
        inner: load integrals of each span, about its left support (S-1, B, L).
        first: moment over the first support (B, L) [m].
        last: moment over the last support (B, L) [m].
    """
    _, m1, m2, m3 = inner
    # 6 EI times the rotation of a simple span over its left and over its right support.
    rotation_left = 2 * spans * m1 - 3 * m2 + m3 / spans
    rotation_right = spans * m1 - m3 / spans
    right_side = -(rotation_right[:-1] + rotation_left[1:])
    right_side[0] -= spans[0] * first
    right_side[-1] -= spans[-1] * last
    return _solve_tridiagonal(2 * (spans[:-1] + spans[1:]), spans[1:-1], right_side)


def _solve_tridiagonal(diagonal: Floats, off_diagonal: Floats, right_side: Floats) -> Floats:
    """Solution (n, B, L) of symmetric tridiagonal equations, by elimination in place (Thomas algorithm).

    The matrix is diagonally dominant (2 (l1 + l2) against l1 and l2), so no pivoting is needed.

    Args:
        diagonal: (n, B, 1), overwritten.
        off_diagonal: (n-1, B, 1).
        right_side: (n, B, L), overwritten with the solution.
    """
    for before, pivot, square in zip(diagonal, diagonal[1:], off_diagonal**2, strict=False):
        np.subtract(pivot, square / before, out=pivot)
    factors = off_diagonal / diagonal[:-1]
    for before, here, factor in zip(right_side, right_side[1:], factors, strict=False):
        np.subtract(here, factor * before, out=here)
    right_side /= diagonal
    for after, here, factor in zip(right_side[:0:-1], right_side[-2::-1], factors[::-1], strict=True):
        np.subtract(here, factor * after, out=here)
    return right_side

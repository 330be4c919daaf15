"""Continuous beams on rigid supports, many at a time.

Axes and signs: x along the beam; loads toward the roof positive; reactions positive where the
support pushes back; moments positive where they sag (compress the side that faces the sky);
deflections positive toward the roof. Shapes: B beams alike in number, S supports, L loads,
T stations. Each load has the size 1, so that every answer is an influence.

The solution is the three-moment equation. Every load enters it through four numbers per span,
the integrals of 1, x, x², x³ over the load, because all kernels are cubic in x.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from typing import Protocol

import numpy as np

from engine.arrays import Bools, Floats, Ints


class UnitLoads(Protocol):
    """Loads of size 1 on B beams, L on each."""

    def powers(self, low: Floats, high: Floats, origin: Floats) -> Floats:
        """Integrals of x⁰ … x³ about `origin` over the part of each load within [low, high).

        `low`, `high`, `origin` have shape (B, 1, K); the answer has (4, B, L, K).
        """
        ...


@dataclass(frozen=True, eq=False)
class Spread:
    """Forces of 1, each spread evenly from `start` to `end` [m], shape (B, L); a point where they meet."""

    start: Floats
    end: Floats

    def powers(self, low: Floats, high: Floats, origin: Floats) -> Floats:
        """Integrals of the powers of x; see `UnitLoads`."""
        start, end = self.start[:, :, None], self.end[:, :, None]
        width = end - start
        if not width.any():
            return _point_powers(start, low, high, origin)
        reached = _integrated(np.clip(end, low, high) - origin)
        reached -= _integrated(np.clip(start, low, high) - origin)
        if width.all():
            reached /= width
            return reached
        return np.where(width > 0, reached / np.where(width > 0, width, 1.0), _point_powers(start, low, high, origin))


@dataclass(frozen=True, eq=False)
class Couples:
    """Couples of 1 at `place` [m], shape (B, L), that push toward the roof beyond it and lift before it."""

    place: Floats

    def powers(self, low: Floats, high: Floats, origin: Floats) -> Floats:
        """Integrals of the powers of x: a couple is the derivative of a point force."""
        place = self.place[:, :, None]
        points = _point_powers(place, low, high, origin)
        derived = np.zeros_like(points)
        derived[1:] = points[:-1] * np.arange(1, 4)[:, None, None, None]
        return derived


def _point_powers(place: Floats, low: Floats, high: Floats, origin: Floats) -> Floats:
    within = (place >= low) & (place < high)
    return _times_powers(within, np.where(within, place - origin, 0.0))


def _integrated(x: Floats) -> Floats:
    """x, x²/2, x³/3, x⁴/4 (4, …)."""
    powers = _times_powers(x, x)
    powers /= np.arange(1, 5)[:, None, None, None]
    return powers


def _times_powers(first: Floats | Bools, x: Floats) -> Floats:
    """`first` times x⁰ … x³ (4, …)."""
    powers = np.empty((4, *x.shape))
    powers[0] = first
    for k in range(3):
        np.multiply(powers[k], x, out=powers[k + 1])
    return powers


@dataclass(frozen=True, eq=False)
class Response:
    """What B beams answer to each of L unit loads: `reactions` (B, S, L) [-]; how they bend is worked out when it is asked for.

    `spans` (B, 1, S-1) [m]; over each span `inner` (4, B, L, S-1) are the loads' powers from its left support on, `shears`
    (B, L, S-1) [-] stand just beyond that support; `support_moments` (B, L, S) [m].
    """

    supports: Floats
    loads: UnitLoads
    reactions: Floats
    spans: Floats
    inner: Floats
    shears: Floats
    support_moments: Floats

    def moments(self, stations: Floats) -> Floats:
        """Moments at stations between the outer supports [m], (B, T): (B, T, L) [m]."""
        span = (stations[:, :, None] >= self.supports[:, None, 1:-1]).sum(-1)
        origin = np.take_along_axis(self.supports, span, 1)
        along = (stations - origin)[:, None, :]
        before = self.loads.powers(origin[:, None, :], stations[:, None, :], origin[:, None, :])
        start = _pick(self.support_moments, span)
        moments: Floats = start + (_pick(self.shears, span) - before[0]) * along + before[1]
        return moments.transpose(0, 2, 1)

    @cached_property
    def sags(self) -> Floats:
        """Deflection at each midspan times the flexural rigidity EI (B, S-1, L) [m³], by integrating the moments twice."""
        starts, half = self.supports[:, None, :-1], self.spans / 2
        before = self.loads.powers(starts, starts + half, starts)
        return (self._bent(self.spans, self.inner) / 2 - self._bent(half, before)).transpose(0, 2, 1)

    def _bent(self, z: Floats, m: Floats) -> Floats:
        """The moments from each span's left support to `z` beyond it, integrated twice; `m` are the loads' powers up to there."""
        square = z * z
        cube = square * z
        bent: Floats = self.support_moments[..., :-1] * square / 2 + self.shears * cube / 6
        bent -= (cube * m[0] - 3 * square * m[1] + 3 * z * m[2] - m[3]) / 6
        return bent


def respond(supports: Floats, loads: UnitLoads) -> Response:
    """Solve B continuous beams for L unit loads each.

    Args:
        supports: positions in rising order, at least two [m], shape (B, S).
        loads: the unit loads; they may stand on overhangs.

    Raises:
        ValueError: with fewer than two supports, which hold no beam.
    """
    if supports.shape[1] < 2:
        raise ValueError("a beam needs at least two supports")
    starts, ends = supports[:, None, :-1], supports[:, None, 1:]
    spans = ends - starts
    inner = loads.powers(starts, ends, starts)
    first, last = supports[:, None, :1], supports[:, None, -1:]
    left = loads.powers(np.full_like(first, -np.inf), first, first)[..., 0]
    right = loads.powers(last, np.full_like(last, np.inf), last)[..., 0]

    support_moments = _support_moments(spans, inner, left[1], -right[1])
    shears = support_moments[..., 1:] - support_moments[..., :-1] - inner[1]
    shears /= spans
    shears += inner[0]
    reactions = np.zeros_like(support_moments)
    reactions[..., :-1] = shears
    reactions[..., 1:] += inner[0] - shears
    reactions[..., 0] += left[0]
    reactions[..., -1] += right[0]
    return Response(supports, loads, reactions.transpose(0, 2, 1), spans, inner, shears, support_moments)


def _support_moments(spans: Floats, inner: Floats, first: Floats, last: Floats) -> Floats:
    """Clapeyron's three-moment equation; the outermost moments come from the overhangs. (B, L, S)."""
    _, beams, loads, count = inner.shape
    moments = np.zeros((beams, loads, count + 1))
    moments[..., 0], moments[..., -1] = first, last
    if count == 1:
        return moments
    _, m1, m2, m3 = inner
    turn_left = 2 * spans * m1 - 3 * m2 + m3 / spans  # 6 EI x end rotation over the span's left support
    turn_right = spans * m1 - m3 / spans
    known = -(turn_right[..., :-1] + turn_left[..., 1:])
    known[..., 0] -= spans[..., 0] * first
    known[..., -1] -= spans[..., -1] * last
    lengths = spans[:, 0]
    matrix = np.zeros((beams, count - 1, count - 1))
    row = np.arange(count - 1)
    matrix[:, row, row] = 2 * (lengths[:, :-1] + lengths[:, 1:])
    matrix[:, row[:-1], row[1:]] = matrix[:, row[1:], row[:-1]] = lengths[:, 1:-1]
    moments[..., 1:-1] = np.linalg.solve(matrix, known.transpose(0, 2, 1)).transpose(0, 2, 1)
    return moments


def _pick(of_spans: Floats, span: Ints) -> Floats:
    """Each station's own span's value: (B, L, S) and (B, T) give (B, L, T)."""
    beams, loads, _ = of_spans.shape
    return np.take_along_axis(of_spans, np.broadcast_to(span[:, None, :], (beams, loads, span.shape[1])), 2)

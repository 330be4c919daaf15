"""Ribs bent between their fastenings: many ribs and combinations at a time, exact between the places looked at."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from engine.arrays import Floats, Ints
from engine.beam import Couples, Spread
from engine.fastened import Fastened

JUST_BEYOND = 1e-6
"""A couple makes the moment jump: it is looked at just beyond it too [m]."""


@dataclass(frozen=True, eq=False)
class Acting:
    """What acts on R ribs in C combinations, toward the roof positive.

    `pressing` (R, L, C) [N] and `turning` (R, L, C) [N m], couples that push beyond their place and lift before it,
    at `y` (L,) [m]; `surface` (R, F, C) [N] on the stretch that each fastening holds.
    """

    y: Floats
    pressing: Floats
    turning: Floats
    surface: Floats

    @classmethod
    def air(cls, surface: Floats) -> Acting:
        """The air and bare snow alone."""
        nothing = np.zeros((len(surface), 0, surface.shape[2]))
        return cls(np.empty(0), nothing, nothing, surface)


@dataclass(frozen=True, eq=False)
class Bent:
    """Bending of R ribs: `moment` (R, T, C) [N m] at `y` (T,) [m], sagging positive, and the even `load` between (R, T-1, C) [N/m]."""

    y: Floats
    moment: Floats
    load: Floats

    def between(self, low: float, high: float) -> Bent:
        """A stretch of the ribs [m]."""
        first, end = np.searchsorted(self.y, low), np.searchsorted(self.y, high, side="right")
        return Bent(self.y[first:end], self.moment[:, first:end], self.load[:, first : end - 1])

    @cached_property
    def extremes(self) -> Floats:
        """The moments at `y`, and after them the extreme between each two (R, 2T-1, C) [N m]."""
        beyond = self._beyond
        between = self.moment[:, :-1] + (self._shear - self.load * beyond / 2) * beyond
        return np.concatenate([self.moment, between], axis=1)

    @property
    def about(self) -> Floats:
        """Where the extremes are, those between two places told at their middle (2T-1,) [m]."""
        return np.concatenate([self.y, (self.y[:-1] + self.y[1:]) / 2])

    def place(self, rib: int, item: int, combination: int) -> float:
        """Where one of the extremes is [m]."""
        if item < len(self.y):
            return float(self.y[item])
        item -= len(self.y)
        return float(self.y[item] + self._beyond[rib, item, combination])

    @cached_property
    def _shear(self) -> Floats:
        """Shear just beyond each place but the last (R, T-1, C) [N]."""
        apart = np.diff(self.y)[:, None]
        return np.diff(self.moment, axis=1) / apart + self.load * apart / 2

    @cached_property
    def _beyond(self) -> Floats:
        """How far beyond each place the shear vanishes, which makes the moment extreme (R, T-1, C) [m]; 0 where it does not."""
        with np.errstate(divide="ignore", invalid="ignore"):
            beyond = self._shear / self.load
        return np.where((beyond > 0) & (beyond < np.diff(self.y)[:, None]), beyond, 0.0)


def bend(ribs: Ints, levels: Floats, alike: Sequence[Fastened], acting: Acting) -> tuple[Floats, Bent]:
    """Bend ribs, those together that are fastened alike.

    Args:
        ribs: their numbers (R,).
        levels: where up the slope any are fastened (F,) [m].
        alike: which are fastened where.
        acting: what acts on them.

    Returns:
        What `pressing` and `turning` bring to the fastenings (R, F, C) [N], and how the ribs bend: looked at on
        fastenings, where their stretches end, and on both sides of what stands at `acting.y`.
    """
    ends = [end for these in alike for end in (these.y, these.low, these.high)]
    y = np.unique(np.concatenate([acting.y, acting.y + JUST_BEYOND, *ends]))
    shape = (len(ribs), len(levels), acting.surface.shape[2])
    brought, moment, load = np.zeros(shape), np.zeros((shape[0], len(y), shape[2])), np.zeros((shape[0], len(y) - 1, shape[2]))
    for these in alike:
        here = np.flatnonzero(np.isin(ribs, these.ribs))
        if len(here):
            some = Acting(acting.y, acting.pressing[here], acting.turning[here], acting.surface[np.ix_(here, these.at)])
            brought[np.ix_(here, these.at)], moment[here], load[here] = _bend_alike(these, some, y)
    return brought, Bent(y, moment, load)


def _bend_alike(these: Fastened, acting: Acting, y: Floats) -> tuple[Floats, Floats, Floats]:
    """What is brought (R, S, C) [N], moments at `y` (R, T, C) [N m] and the load between (R, T-1, C) [N/m]; see `bend`.

    What fastenings bear is known from the continuous beam; shear and moment are then what has come together from the
    eave on. Beyond the outermost fastenings a rib bends less than over them: nothing is told there.
    """
    brought = these.shares(Spread(acting.y[None], acting.y[None])) @ acting.pressing
    brought += these.shares(Couples(acting.y[None])) @ acting.turning
    load, apart, stood = _even_load(these, acting.surface, y), np.diff(y)[:, None], np.searchsorted(y, acting.y)
    up = np.zeros((len(load), len(y), load.shape[2]))
    up[:, np.searchsorted(y, these.y)] = brought + these.borne @ acting.surface
    up[:, stood] -= acting.pressing
    up[:, 1:] -= load * apart
    steps = (np.cumsum(up, axis=1)[:, :-1] - load * apart / 2) * apart
    steps[:, stood] += acting.turning
    moment = np.zeros_like(up)
    np.cumsum(steps, axis=1, out=moment[:, 1:])
    within = (y >= these.y[0]) & (y <= these.y[-1])
    moment[:, ~within], load[:, ~(within[:-1] & within[1:])] = 0.0, 0.0
    return brought, moment, load


def _even_load(these: Fastened, surface: Floats, y: Floats) -> Floats:
    """What is spread evenly between each two places (R, T-1, C) [N/m]."""
    stretch = np.searchsorted(these.high[:-1], (y[:-1] + y[1:]) / 2)
    load: Floats = (surface / (these.high - these.low)[:, None])[:, stretch]
    return load

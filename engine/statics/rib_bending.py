"""Ribs bent between their fastenings: many ribs and combinations at a time, exact between the places looked at."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from engine.common.arrays import Floats, Ints
from engine.statics.continuous_beam import UnitCouples, UnitForces
from engine.statics.rib_supports import RibGroup

COUPLE_STEP = 1e-6
"""A couple makes the moment jump: it is looked at just beyond it too [m]."""


@dataclass(frozen=True, eq=False)
class RibActions:
    """What acts on R ribs in C combinations, toward the roof positive.

    `normal_forces` (R, L, C) [N] and `couples` (R, L, C) [N m], couples that push beyond their place and lift before it,
    at `y` (L,) [m]; `surface_force` (R, F, C) [N] on the stretch that each fastening holds.
    """

    y: Floats
    normal_forces: Floats
    couples: Floats
    surface_force: Floats

    @classmethod
    def surface_only(cls, surface_force: Floats) -> RibActions:
        """The air and bare snow alone."""
        nothing = np.zeros((len(surface_force), 0, surface_force.shape[2]))
        return cls(np.empty(0), nothing, nothing, surface_force)


@dataclass(frozen=True, eq=False)
class RibMoments:
    """Bending of R ribs: `moment` (R, T, C) [N m] at `y` (T,) [m], sagging positive, and the even `load` between (R, T-1, C) [N/m]."""

    y: Floats
    moment: Floats
    load: Floats

    def between(self, low: float, high: float) -> RibMoments:
        """A stretch of the ribs [m]."""
        first, end = np.searchsorted(self.y, low), np.searchsorted(self.y, high, side="right")
        return RibMoments(self.y[first:end], self.moment[:, first:end], self.load[:, first : end - 1])

    @cached_property
    def extremes(self) -> Floats:
        """The moments at `y`, and after them the extreme between each two (R, 2T-1, C) [N m]."""
        beyond = self._beyond
        between = self.moment[:, :-1] + (self._shear - self.load * beyond / 2) * beyond
        return np.concatenate([self.moment, between], axis=1)

    @property
    def positions(self) -> Floats:
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


@dataclass(frozen=True, eq=False)
class LoadedRibs:
    """Ribs (R,), by their numbers, under what acts on them: what reaches their fastenings and how they bend, worked out when asked for.

    `levels` (F,) [m]: where up the slope any are fastened; `rib_groups`: which are fastened where.
    """

    number: Ints
    levels: Floats
    rib_groups: tuple[RibGroup, ...]
    actions: RibActions

    @cached_property
    def reactions(self) -> Floats:
        """What `normal_forces` and `couples` bring to the fastenings (R, F, C) [N]."""
        reactions = np.zeros((len(self.number), len(self.levels), self.actions.surface_force.shape[2]))
        y = self.actions.y[None]
        for these, here in self._groups_here:
            pressed, turned = these.shares(UnitForces(y, y)), these.shares(UnitCouples(y))
            reactions[np.ix_(here, these.at)] = (
                pressed @ self.actions.normal_forces[here] + turned @ self.actions.couples[here]
            )
        return reactions

    @cached_property
    def rib_moments(self) -> RibMoments:
        """How they bend: looked at on fastenings, where their stretches end, and on both sides of what stands at `acting.y`."""
        ends = [end for these in self.rib_groups for end in (these.y, these.low, these.high)]
        y = np.unique(np.concatenate([self.actions.y, self.actions.y + COUPLE_STEP, *ends]))
        shape = len(self.number), len(y), self.actions.surface_force.shape[2]
        moment, load = np.zeros(shape), np.zeros((shape[0], shape[1] - 1, shape[2]))
        for these, here in self._groups_here:
            on_stretches, reactions = (
                self.actions.surface_force[np.ix_(here, these.at)],
                self.reactions[np.ix_(here, these.at)],
            )
            some = RibActions(
                self.actions.y, self.actions.normal_forces[here], self.actions.couples[here], on_stretches
            )
            moment[here], load[here] = _bend(these, some, reactions, y)
        return RibMoments(y, moment, load)

    @property
    def _groups_here(self) -> Iterator[tuple[RibGroup, Ints]]:
        """Those fastened alike, and which of ours they are."""
        for these in self.rib_groups:
            here = np.flatnonzero(np.isin(self.number, these.ribs))
            if len(here):
                yield these, here


def _bend(these: RibGroup, actions: RibActions, reactions: Floats, y: Floats) -> tuple[Floats, Floats]:
    """Moments of ribs fastened alike at `y` (R, T, C) [N m] and the load between (R, T-1, C) [N/m].

    What fastenings bear is known from the continuous beam; shear and moment are then what has come together from the
    eave on. Beyond the outermost fastenings a rib bends less than over them: nothing is told there.
    """
    load, apart, place_on_ribs = (
        _even_load(these, actions.surface_force, y),
        np.diff(y)[:, None],
        np.searchsorted(y, actions.y),
    )
    up = np.zeros((len(load), len(y), load.shape[2]))
    up[:, np.searchsorted(y, these.y)] = reactions + these.share_of_load @ actions.surface_force
    up[:, place_on_ribs] -= actions.normal_forces
    up[:, 1:] -= load * apart
    steps = (np.cumsum(up, axis=1)[:, :-1] - load * apart / 2) * apart
    steps[:, place_on_ribs] += actions.couples
    moment = np.zeros_like(up)
    np.cumsum(steps, axis=1, out=moment[:, 1:])
    within = (y >= these.y[0]) & (y <= these.y[-1])
    moment[:, ~within], load[:, ~(within[:-1] & within[1:])] = 0.0, 0.0
    return moment, load


def _even_load(these: RibGroup, surface_force: Floats, y: Floats) -> Floats:
    """What is spread evenly between each two places (R, T-1, C) [N/m]."""
    stretch = np.searchsorted(these.high[:-1], (y[:-1] + y[1:]) / 2)
    load: Floats = (surface_force / (these.high - these.low)[:, None])[:, stretch]
    return load

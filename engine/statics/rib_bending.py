"""Bending of ribs between their fastenings, for many ribs and load combinations at once.

Each rib is a continuous beam over its fastenings, so the reactions follow from the three-moment equation. With the
reactions known, shear and moment are running sums of everything that acts from the eave upward. The sums are taken at
every position where something changes: fastenings, ends of evenly loaded stretches, point forces and couples. Between
two such positions the load is even and the moment a parabola, whose vertex lies where the shear is zero. The moments
at the positions and at those vertices are therefore the exact extremes, without sampling.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from engine.common.arrays import Floats, Ints
from engine.statics.rib_supports import RibGroup

COUPLE_STEP = 1e-6
"""Distance beyond a couple at which the moment is taken again, because it jumps there [m]."""

RIBS_AT_A_TIME = 64
"""Number of ribs that are bent together where not all are needed at once."""


@dataclass(frozen=True, eq=False)
class RibActions:
    """Forces and couples on R ribs in C combinations, toward the roof positive.

    `normal_forces` (R, L, C) [N] and `couples` (R, L, C) [N m] act at `y` (L,) [m]; a couple pushes toward the roof
    beyond its position and lifts before it. `surface_force` (R, F, C) [N] is spread evenly over the stretch of panel
    that each fastening holds.
    """

    y: Floats
    normal_forces: Floats
    couples: Floats
    surface_force: Floats

    @classmethod
    def surface_only(cls, surface_force: Floats) -> RibActions:
        """Wind and snow on the roof surface (R, F, C) [N], without attachments."""
        nothing = np.zeros((len(surface_force), 0, surface_force.shape[2]))
        return cls(np.empty(0), nothing, nothing, surface_force)

    def on_group(self, rows: Ints, group: RibGroup) -> RibActions:
        """The actions on the ribs in `rows`, which belong to one group: its own fastening levels only."""
        surface_force = self.surface_force[np.ix_(rows, group.levels)]
        return RibActions(self.y, self.normal_forces[rows], self.couples[rows], surface_force)


@dataclass(eq=False)
class RibMoments:
    """Bending moments of R ribs: `moment` (R, T, C) [N m] at `y` (T,) [m], sagging positive.

    `load` (R, T-1, C) [N/m] is the even load between neighbouring positions. What follows from these is as large, and
    made anew whenever it is read.
    """

    y: Floats
    moment: Floats
    load: Floats

    def between(self, low: float, high: float) -> RibMoments:
        """The moments from `low` to `high` [m] up the slope only."""
        first, end = np.searchsorted(self.y, low), np.searchsorted(self.y, high, side="right")
        return RibMoments(self.y[first:end], self.moment[:, first:end], self.load[:, first : end - 1])

    @property
    def extremes(self) -> Floats:
        """Moments at `y`, then the extreme between each two neighbours (R, 2T-1, C) [N m]."""
        shear = self._shear
        vertex = self._vertex(shear)
        between = self.moment[:, :-1] + (shear - self.load * vertex / 2) * vertex
        return np.concatenate([self.moment, between], axis=1)

    @property
    def positions(self) -> Floats:
        """Positions of the extremes (2T-1,) [m]; those between two neighbours are given as their middle."""
        return np.concatenate([self.y, (self.y[:-1] + self.y[1:]) / 2])

    def position(self, rib: int, item: int, combination: int) -> float:
        """Exact position of one of the extremes [m]."""
        if item < len(self.y):
            return float(self.y[item])
        item -= len(self.y)
        here = RibMoments(
            self.y[item : item + 2], self.moment[[rib], item : item + 2], self.load[[rib], item : item + 1]
        )
        return float(self.y[item] + here._vertex(here._shear)[0, 0, combination])

    @property
    def _shear(self) -> Floats:
        """Shear just beyond each position but the last (R, T-1, C) [N]."""
        step = np.diff(self.y)[:, None]
        return np.diff(self.moment, axis=1) / step + self.load * step / 2

    def _vertex(self, shear: Floats) -> Floats:
        """Distance from each position to the zero of the shear (R, T-1, C) [m]; 0 if that is past the next one."""
        with np.errstate(divide="ignore", invalid="ignore"):
            distance = shear / self.load
        return np.where((distance > 0) & (distance < np.diff(self.y)[:, None]), distance, 0.0)


@dataclass(eq=False)
class LoadedRibs:
    """Ribs (R,), by their `number`, under loads; the reactions are computed on first use.

    `levels` (F,) [m] are the positions up the slope at which any rib is fastened, `rib_groups` the ribs with the same
    fastening positions.
    """

    number: Ints
    levels: Floats
    rib_groups: tuple[RibGroup, ...]
    actions: RibActions

    @cached_property
    def reactions(self) -> Floats:
        """Reactions of the fastenings to `normal_forces` and `couples` (R, F, C) [N]."""
        reactions = np.zeros((len(self.number), len(self.levels), self.actions.surface_force.shape[2]))
        for group, rows in self._groups(slice(0, len(self.number))):
            to_forces, to_couples = group.reactions_at(self.actions.y)
            reactions[np.ix_(rows, group.levels)] = (
                to_forces @ self.actions.normal_forces[rows] + to_couples @ self.actions.couples[rows]
            )
        return reactions

    @property
    def rib_moments(self) -> RibMoments:
        """Bending moments of all ribs, as `moments_of`."""
        return self.moments_of(slice(0, len(self.number)))

    @property
    def moments_in_parts(self) -> Iterator[tuple[Ints, RibMoments]]:
        """The numbers of a few ribs at a time, and their moments: those of all ribs of a large roof take much room."""
        for start in range(0, len(self.number), RIBS_AT_A_TIME):
            part = slice(start, start + RIBS_AT_A_TIME)
            yield self.number[part], self.moments_of(part)

    def moments_of(self, ribs: slice) -> RibMoments:
        """Bending moments of some of the ribs, at fastenings, ends of their stretches, and both sides of each couple.

        They are large and made anew whenever they are read.
        """
        stretches = [ends for group in self.rib_groups for ends in (group.y, group.low, group.high)]
        y = np.unique(np.concatenate([self.actions.y, self.actions.y + COUPLE_STEP, *stretches]))
        count, combinations = len(self.number[ribs]), self.actions.surface_force.shape[2]
        moment, load = np.zeros((count, len(y), combinations)), np.zeros((count, len(y) - 1, combinations))
        for group, rows in self._groups(ribs):
            of_these, reactions = rows - ribs.start, self.reactions[np.ix_(rows, group.levels)]
            moment[of_these], load[of_these] = _bend(group, self.actions.on_group(rows, group), reactions, y)
        return RibMoments(y, moment, load)

    def _groups(self, ribs: slice) -> Iterator[tuple[RibGroup, Ints]]:
        """Each rib group that has any of these ribs, with the rows of its ribs among all."""
        for group in self.rib_groups:
            rows = ribs.start + np.flatnonzero(np.isin(self.number[ribs], group.ribs))
            if len(rows):
                yield group, rows


def _bend(group: RibGroup, actions: RibActions, reactions: Floats, y: Floats) -> tuple[Floats, Floats]:
    """Moments of one group's ribs at `y` (R, T, C) [N m], and the even load between (R, T-1, C) [N/m].

    Beyond the outermost fastenings the moment only falls off toward the free end, so both are given as 0 there.

    Args:
        group: the ribs' fastenings.
        actions: forces and couples on the ribs.
        reactions: of the fastenings to forces and couples, without the surface force (R, S, C) [N].
        y: positions in rising order (T,) [m].
    """
    load = _even_load(group, actions.surface_force, y)
    step = np.diff(y)[:, None]
    actions_at = np.searchsorted(y, actions.y)
    shear_steps = np.zeros((len(load), len(y), load.shape[2]))
    shear_steps[:, np.searchsorted(y, group.y)] = reactions + group.share_of_load @ actions.surface_force
    shear_steps[:, actions_at] -= actions.normal_forces
    shear_steps[:, 1:] -= load * step
    moment_steps = (np.cumsum(shear_steps, axis=1)[:, :-1] - load * step / 2) * step
    moment_steps[:, actions_at] += actions.couples
    moment = np.zeros_like(shear_steps)
    np.cumsum(moment_steps, axis=1, out=moment[:, 1:])
    within = (y >= group.y[0]) & (y <= group.y[-1])
    moment[:, ~within] = 0.0
    load[:, ~(within[:-1] & within[1:])] = 0.0
    return moment, load


def _even_load(group: RibGroup, surface_force: Floats, y: Floats) -> Floats:
    """Surface load per length of rib between neighbouring positions `y` (R, T-1, C) [N/m]."""
    stretch = np.searchsorted(group.high[:-1], (y[:-1] + y[1:]) / 2)
    load: Floats = (surface_force / (group.high - group.low)[:, None])[:, stretch]
    return load

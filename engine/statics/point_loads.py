"""Equal continuous beams under point forces, many beams and load combinations at once.

The reactions follow from the three-moment equation for a unit force at each place. Shear and moment are then running
sums along the beam. Between two neighbouring stations nothing acts, so that the moment is linear there and its extremes
are at the stations: no sampling is needed.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np

from engine.common.arrays import Bools, Floats, Ints
from engine.common.tolerances import SUMMED_LENGTH
from engine.statics.continuous_beam import BeamResponse, UnitForces, solve_beams


@dataclass(eq=False)
class PointLoadedBeams:
    """N beams on the same supports (S,) [m] with forces (N, L, C) [N] at x (L,) [m], toward the roof positive."""

    supports: Floats
    x: Floats
    forces: Floats

    @cached_property
    def unit(self) -> BeamResponse:
        """One beam under a force of 1 at each place."""
        return solve_beams(self.supports[None], UnitForces(self.x[None], self.x[None]))

    @cached_property
    def reactions(self) -> Floats:
        """Reactions of the supports (N, S, C) [N]."""
        reactions: Floats = self.unit.reactions[0] @ self.forces
        return reactions

    @cached_property
    def stations(self) -> Floats:
        """Supports and places of forces in rising order (T,) [m], T = S + L."""
        return np.concatenate([self.supports, self.x])[self._order]

    @cached_property
    def moments(self) -> Floats:
        """Bending moments at the stations (N, T, C) [N m], sagging positive."""
        acting = np.concatenate([self.reactions, -self.forces], axis=1)[:, self._order]
        shear = np.cumsum(acting, axis=1)[:, :-1]
        moments = np.zeros_like(acting)
        np.cumsum(shear * np.diff(self.stations)[:, None], axis=1, out=moments[:, 1:])
        return moments

    @cached_property
    def over_support(self) -> Bools:
        """True for the stations that are supports (T,)."""
        is_support: Bools = self._order < len(self.supports)
        return is_support

    @cached_property
    def between(self) -> Bools:
        """True for the stations between two supports, clear of both (T,)."""
        nearest = np.abs(self.stations[:, None] - self.supports).min(axis=1)
        outside = (self.stations < self.supports[0]) | (self.stations > self.supports[-1])
        clear: Bools = (nearest > SUMMED_LENGTH) & ~outside
        return clear

    @cached_property
    def bay(self) -> Ints:
        """Number of the bay, from 0, in which each station lies (T,)."""
        bays = np.searchsorted(self.supports, self.stations, side="right") - 1
        return np.clip(bays, 0, len(self.supports) - 2)

    @cached_property
    def in_simple_spans(self) -> Floats:
        """Moments at the stations without those that the supports carry over (N, T, C) [N m].

        They are positive where the loads of a bay act down, negative where they act up, and 0 where it has none.
        """
        at_supports = self.moments[:, self.over_support]
        left, right = self.supports[self.bay], self.supports[self.bay + 1]
        part = ((self.stations - left) / (right - left))[:, None]
        return self.moments - at_supports[:, self.bay] * (1 - part) - at_supports[:, self.bay + 1] * part

    @cached_property
    def _order(self) -> Ints:
        return np.argsort(np.concatenate([self.supports, self.x]), kind="stable")

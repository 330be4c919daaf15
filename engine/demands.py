"""What every link is asked to carry, combination by combination: arrays with the last axis C."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from engine.arrays import Bools, Floats, Ints
from engine.bent import Bent
from engine.combination import Combination
from engine.roof_state import RoofState


@dataclass(frozen=True, eq=False)
class MemberDemands:
    """A set of lines alike: bending at stations, both axes, and midspan deflection.

    `y` (B,) [m], `strong` and `weak` (B, T, C) [N m], `stations` (T,) [m], `supports` (S,) [m],
    `sag_stiffness` (B, S-1, C): deflection times EI [N m³]. Places as in `SupportLines`.
    """

    y: Floats
    stations: Floats
    strong: Floats
    weak: Floats
    supports: Floats
    sag_stiffness: Floats

    @property
    def spans(self) -> Floats:
        """From support to support (S-1,) [m]."""
        return np.diff(self.supports)

    @property
    def middles(self) -> Floats:
        """The middle of each span (S-1,) [m]."""
        return (self.supports[:-1] + self.supports[1:]) / 2


@dataclass(frozen=True, eq=False)
class Demands:
    """Demands of one layout; positive toward the roof and down the slope.

    Points P, ribs R that carry points, fastenings F on each, clamps K, modules M,
    combinations C.
    """

    combinations: tuple[Combination, ...]
    roof: RoofState
    """The slope's every rib and level, with the modules on it and without."""
    dead_pressure: float
    module_pressure: Floats
    """(M, C) normal to the module [Pa]."""
    clamp: Floats
    """(K, C) force of one clamp, normal to the roof [N]."""
    clamp_place: Floats
    """(K, 2) x and y of the clamps [m]."""
    members: tuple[MemberDemands, ...]
    point_area: Floats
    """(P,) effective wind area [m²]."""
    point_normal: Floats
    """(P, C) [N]."""
    point_in_plane: Floats
    """(P, C) [N]."""
    point_across: Floats
    """(P, C) along the eave, across the rib [N]."""
    point_cases: Mapping[str, tuple[Floats, Floats]]
    """Load case → each point's forces normal to the roof and in its plane [N], (P,)."""
    rib: Ints
    """(R,) which ribs carry points."""
    bent: Bent
    """How the (R,) ribs bend with the array, as far as the bays beside it."""
    fastening_points: Floats
    """(R, F, C) what the points bring to each fastening [N]."""
    fastening_surface: Floats
    """(R, F, C) what the air above and below brings [N]."""
    panel_in_plane: Floats
    """(R, C) what collects at each panel's fixed point [N]."""
    bound: Floats
    """(C,) the least that some fastening must carry, however finely attachments are spread [N]."""

    @property
    def fastening_y(self) -> Floats:
        """(F,) levels up the slope at which ribs are fastened [m]."""
        return self.roof.fastening_y

    @property
    def held(self) -> Bools:
        """(R, F) whether a rib is fastened at a level; where it is not, nothing is brought there."""
        return self.roof.held[self.rib]

    @property
    def point_up(self) -> Floats:
        """(P,) the largest pull of each point in any combination [N]."""
        pull: Floats = np.maximum(-self.point_normal, 0.0).max(axis=1)
        return pull

    @property
    def point_down(self) -> Floats:
        """(P,) the largest push of each point in any combination [N]."""
        push: Floats = np.maximum(self.point_normal, 0.0).max(axis=1)
        return push

    @property
    def fastening(self) -> Floats:
        """(R, F, C) reaction of each fastening with the array in place [N]."""
        return self.fastening_points + self.fastening_surface

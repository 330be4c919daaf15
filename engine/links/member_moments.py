"""Moments of members by the strength that they meet: over supports, between them, and there under uplift.

Between supports a moment is held against the bay's own loads. Where they act down, a sagging moment compresses the
flange that the panel holds. Where they act up, a hogging moment compresses the flange below, which nothing holds. Any
other moment there is carried over from the supports, largest over them, and checked there with the members' laps.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from engine.common.arrays import Floats, Ints
from engine.common.combination import Combination
from engine.common.tolerances import NO_MOMENT
from engine.links.check import Location
from engine.links.ratios import DemandOverResistance, allowable_resistances
from engine.load_path.roof_members import RoofMembers
from engine.project.roof_member import AllowableMoments
from engine.statics.point_loads import PointLoadedBeams

OVER, BETWEEN, LIFTED = KINDS = ("over a support", "between supports", "between supports, uplift")


@dataclass(frozen=True, eq=False)
class MemberMoments:
    """Moments of members N, positive, at K items in combinations C: `demand` (N, K, C) [N m].

    Each item is a station of `beams`, `station` (K,), and one of `KINDS`, `kind` (K,) their numbers.
    """

    members: RoofMembers
    word: str
    beams: PointLoadedBeams
    station: Ints
    kind: Ints
    demand: Floats

    @classmethod
    def of(cls, members: RoofMembers, word: str, beams: PointLoadedBeams) -> MemberMoments:
        """The moments of all members, named by a `word`, with the array or without it."""
        over, between = np.flatnonzero(beams.over_support), np.flatnonzero(beams.between)
        inside, own = beams.moments[:, between], beams.in_simple_spans[:, between]
        demands = (
            np.abs(beams.moments[:, over]),
            np.where(own > -NO_MOMENT, np.maximum(inside, 0.0), 0.0),
            np.where(own < -NO_MOMENT, np.maximum(-inside, 0.0), 0.0),
        )
        stations = (over, between, between)
        kind = np.repeat(np.arange(len(KINDS)), [len(each) for each in stations])
        return cls(members, word, beams, np.concatenate(stations), kind, np.concatenate(demands, axis=1))

    def is_loaded(self, kind: str) -> bool:
        """True if there is a moment of this kind anywhere."""
        return bool(self.demand[:, self.kind == KINDS.index(kind)].max(initial=0.0) > NO_MOMENT)

    def ratios(self, allowable: AllowableMoments, combinations: tuple[Combination, ...]) -> DemandOverResistance:
        """Moments over the allowable ones; under uplift 0 where none is known."""
        by_kind = (allowable.support, allowable.midspan, np.inf if allowable.up is None else allowable.up)
        resistance = np.stack([allowable_resistances(each, combinations) for each in by_kind])
        return DemandOverResistance(self.demand, resistance[self.kind])

    def place(self, line: int, item: int) -> Location:
        """The place of an item on a member."""
        along, across = float(self.beams.stations[self.station[item]]), float(self.members.across[line])
        x, y = (across, along) if self.members.up_slope else (along, across)
        return Location(f"{self.word} {line + 1}, {KINDS[self.kind[item]]}", x, y)

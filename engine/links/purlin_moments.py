"""Moments of purlins by the strength that they meet: over frames, between them, and between them under uplift.

Between frames a moment is held against the bay's own loads. Where they act down, a sagging moment compresses the flange
that the panel holds. Where they act up, a hogging moment compresses the flange below, which nothing holds. Any other
moment there is carried over from the frames, is largest over them, and is checked there with the purlins' laps.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from engine.common.arrays import Floats, Ints
from engine.common.combination import Combination
from engine.common.tolerances import NO_MOMENT
from engine.links.check import Location
from engine.links.ratios import DemandOverResistance, allowable_resistances
from engine.load_path.purlins import Purlins
from engine.project.roof_member import AllowableMoments
from engine.statics.point_loads import PointLoadedBeams

OVER, BETWEEN, LIFTED = KINDS = ("over a frame", "between frames", "between frames, uplift")


@dataclass(frozen=True, eq=False)
class PurlinMoments:
    """Moments of purlins F, positive, at K items in combinations C: `demand` (F, K, C) [N m].

    Each item is a station of `beams`, `station` (K,), and one of `KINDS`, `kind` (K,) their numbers.
    """

    purlins: Purlins
    beams: PointLoadedBeams
    station: Ints
    kind: Ints
    demand: Floats

    @classmethod
    def of(cls, purlins: Purlins, beams: PointLoadedBeams) -> PurlinMoments:
        """The moments of all purlins, with the array or without it."""
        over, between = np.flatnonzero(beams.over_support), np.flatnonzero(beams.between)
        inside, own = beams.moments[:, between], beams.in_simple_spans[:, between]
        demands = (
            np.abs(beams.moments[:, over]),
            np.where(own > -NO_MOMENT, np.maximum(inside, 0.0), 0.0),
            np.where(own < -NO_MOMENT, np.maximum(-inside, 0.0), 0.0),
        )
        stations = (over, between, between)
        kind = np.repeat(np.arange(len(KINDS)), [len(each) for each in stations])
        return cls(purlins, beams, np.concatenate(stations), kind, np.concatenate(demands, axis=1))

    def is_loaded(self, kind: str) -> bool:
        """True if there is a moment of this kind anywhere."""
        return bool(self.demand[:, self.kind == KINDS.index(kind)].max(initial=0.0) > NO_MOMENT)

    def ratios(self, allowable: AllowableMoments, combinations: tuple[Combination, ...]) -> DemandOverResistance:
        """Moments over the allowable ones; under uplift 0 where none is known."""
        by_kind = (allowable.support, allowable.midspan, np.inf if allowable.up is None else allowable.up)
        resistance = np.stack([allowable_resistances(each, combinations) for each in by_kind])
        return DemandOverResistance(self.demand, resistance[self.kind])

    def place(self, line: int, item: int) -> Location:
        """The place of an item on a purlin."""
        x, y = float(self.beams.stations[self.station[item]]), float(self.purlins.y[line])
        return Location(f"purlin {line + 1}, {KINDS[self.kind[item]]}", x, y)

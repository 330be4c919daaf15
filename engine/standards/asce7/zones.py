"""Wind zones of cladding on a rectangular plan, ASCE 7 Figs. 30.3-2 and 30.3-5.

Distances are horizontal. A thing takes the worst zone that any part of it touches: every zone is
bounded by distances from edges, so the corner nearest the edges decides.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from engine.arrays import Bools, Floats, Ints
from engine.layout import Rectangles
from engine.roof import Building
from engine.standards.asce7.site import SEVEN_16
from engine.units import FOOT


@dataclass(frozen=True, eq=False)
class Edges:
    """Horizontal distances of things from the roof's edges [m], each (n,), of their nearest part.

    `far` is the far eave of a gable, the high edge of a single slope; `ridge` is infinite
    where there is none.
    """

    eave: Floats
    far: Floats
    rake: Floats
    ridge: Floats

    @property
    def along_plan(self) -> Floats:
        """From the nearest edge that runs along the eave."""
        return np.minimum(self.eave, self.far)


def edges(building: Building, places: Rectangles) -> Edges:
    """Distances of rectangles on the slope from every edge of the plan."""
    cosine = np.cos(np.radians(building.slope))
    eave, top = places.low * cosine, places.high * cosine
    ridge = building.width / 2 - top if building.roof_shape == "gable" else np.full(len(places), np.inf)
    rake = np.minimum(places.left, building.length - places.right)
    return Edges(eave, building.width - top, rake, ridge)


def strip_width(building: Building) -> float:
    """Distance a of the figures [m]: the least of 0.1 least width and 0.4 h, not below 0.04 least width or 3 ft."""
    least = min(building.length, building.width)
    return max(min(0.1 * least, 0.4 * building.mean_roof_height), 0.04 * least, 3 * FOOT)


def zones(edition: str, building: Building, places: Rectangles, names: tuple[str, ...]) -> Ints:
    """The worst zone each rectangle touches, as an index into the figure's zone names (mildest first)."""
    at = edges(building, places)
    touched = _touched(edition, building, at)
    worst = np.zeros(len(places), dtype=np.int64)
    for index, name in enumerate(names):
        if name in touched:
            worst[touched[name]] = index
    return worst


def _touched(edition: str, building: Building, at: Edges) -> dict[str, Bools]:
    shape, slope = building.roof_shape, building.slope
    if shape == "monoslope" and slope > 3:
        return _monoslope(slope, strip_width(building), at)
    if shape == "gable" and slope > 7:
        return _gable(edition, slope, strip_width(building), at)
    return low_slope(building.mean_roof_height, at)


def low_slope(h: float, at: Edges) -> dict[str, Bools]:
    """Fig. 30.3-2A: L-shaped corners 0.2h by 0.6h, strips 0.6h, then 1.2h; h mean roof height [m]."""
    near, far = np.minimum(at.along_plan, at.rake), np.maximum(at.along_plan, at.rake)
    return {"1": near < 1.2 * h, "2": near < 0.6 * h, "3": (near < 0.2 * h) & (far < 0.6 * h)}


def _gable(edition: str, slope: float, a: float, at: Edges) -> dict[str, Bools]:
    eave, rake, ridge = at.eave < a, at.rake < a, at.ridge < a
    if edition == SEVEN_16:
        return {"2e": eave, "2r": ridge, "2n": rake, "3e": eave & rake, "3r": ridge & rake}
    if slope <= 27:
        return {"2": rake | ridge, "3": ridge & rake}
    return {"2": rake, "3": eave & rake}


def _monoslope(slope: float, a: float, at: Edges) -> dict[str, Bools]:
    """Fig. 30.3-5A (seen once); 5B from memory, every doubt taken for the more negative zone."""
    edge = (at.eave < a) | (at.rake < a)
    high = at.far < 2 * a
    low_corner, high_corner = (at.eave < 2 * a) & (at.rake < 2 * a), high & (at.rake < 4 * a)
    if slope <= 10:
        return {"2": edge, "2'": high, "3": low_corner, "3'": high_corner}
    return {"2": edge | high, "3": low_corner | high_corner}

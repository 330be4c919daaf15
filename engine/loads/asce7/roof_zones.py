"""Wind zones of cladding on a rectangular plan, ASCE 7 Figs. 30.3-2 and 30.3-5.

Distances are horizontal. A thing takes the worst zone that any part of it touches: every zone is
bounded by distances from edges, so the corner nearest the edges decides.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from engine.common.arrays import Bools, Floats, Ints
from engine.loads.asce7.gcp_figures import LOW_SLOPE_ENDS
from engine.loads.asce7.site import SEVEN_16
from engine.mounting.layout import Rectangles
from engine.project.building import Building
from engine.units import FOOT

TOUCH = 1e-9
"""Nearer to a border than this is still outside it [m]: keeps figures such as 0.2 h from flickering."""

STAIRS = 2
"""Steps to a strip's width where a border beside a hip is drawn."""

MILLIMETRE = 0.001
"""Borders closer together than this are drawn as one [m]."""


@dataclass(frozen=True, eq=False)
class Edges:
    """Horizontal distances of things from the roof's edges [m], each (n,), of their nearest part.

    `far` is the far eave of a gable, the high edge of a single slope; `rake` is the plan's border on either
    side, a further eave on a hip roof; `ridge` and `hip` are infinite where there is none.
    """

    eave: Floats
    far: Floats
    rake: Floats
    ridge: Floats
    hip: Floats

    @property
    def along(self) -> Floats:
        """From the nearest edge that runs along the eave."""
        return np.minimum(self.eave, self.far)


def edges(building: Building, places: Rectangles) -> Edges:
    """Distances of rectangles on the slope from every edge of the plan."""
    cosine = np.cos(np.radians(building.slope))
    eave, top = places.low * cosine, places.high * cosine
    nowhere = np.full(len(places), np.inf)
    ridge = building.run - top if building.has_ridge else nowhere
    rake = np.minimum(places.left, building.length - places.right)
    hip = (rake - top) / np.sqrt(2) if building.roof_shape == "hip" else nowhere
    return Edges(eave, building.width - top, rake, ridge, hip)


def strip_width(building: Building) -> float:
    """Distance a of the figures [m]: the least of 0.1 least width and 0.4 h, not below 0.04 least width or 3 ft."""
    first_minimum = min(building.length, building.width)
    return max(min(0.1 * first_minimum, 0.4 * building.mean_roof_height), 0.04 * first_minimum, 3 * FOOT)


def regions(building: Building) -> Rectangles:
    """Rectangles that cover the slope and that no zone's border crosses: cut wherever some figure may change zone.

    Borders beside a hip run askew: there they are stairs of `STAIRS` steps to a strip, each step in its worst zone.
    """
    a, h, cosine = strip_width(building), building.mean_roof_height, np.cos(np.radians(building.slope))
    borders = np.array([a, 2 * a, 4 * a, 0.2 * h, 0.6 * h, 1.2 * h])
    stairs = np.arange(0.0, building.run, a / STAIRS) if building.roof_shape == "hip" else borders
    x = _cuts(building.length, borders, building.length - borders, stairs, building.length - stairs)
    y = _cuts(building.run, borders, building.run - borders, building.width - borders, stairs) / cosine
    left, low = (np.ravel(sides) for sides in np.meshgrid(x[:-1], y[:-1], indexing="ij"))
    right, high = (np.ravel(sides) for sides in np.meshgrid(x[1:], y[1:], indexing="ij"))
    on_slope = np.maximum(building.top_at(left), building.top_at(right)) > low + MILLIMETRE
    return Rectangles(left[on_slope], low[on_slope], right[on_slope], high[on_slope])


def _cuts(length: float, *borders: Floats) -> Floats:
    """Where a length is cut by borders, both ends included [m]; cuts closer than a millimetre are one."""
    within = np.sort(np.concatenate(borders))
    within = within[(within > MILLIMETRE) & (within < length - MILLIMETRE)]
    return np.concatenate([[0.0], within[np.diff(within, prepend=0.0) > MILLIMETRE], [length]])


def zones(edition: str, building: Building, places: Rectangles, names: tuple[str, ...]) -> Ints:
    """The worst zone each rectangle touches, as an index into the figure's zone names (mildest first)."""
    touched = _touched(edition, building, edges(building, places))
    worst = np.zeros(len(places), dtype=np.int64)
    for index, name in enumerate(names):
        if name in touched:
            worst[touched[name]] = index
    return worst


def _touched(edition: str, building: Building, at: Edges) -> Mapping[str, Bools]:
    shape, slope, a = building.roof_shape, building.slope, strip_width(building)
    if slope <= LOW_SLOPE_ENDS[shape] + 1e-9:
        return low_slope(building.mean_roof_height, at)
    if shape == "monoslope":
        return monoslope_to_10(a, at) if slope <= 10 + 1e-9 else monoslope_to_30(a, at)
    if shape == "hip":
        return hip_22(a, at)
    if edition == SEVEN_16:
        return gable_16(a, at)
    return gable_22_to_27(a, at) if slope <= 27 + 1e-9 else gable_22_to_45(a, at)


def low_slope(h: float, at: Edges) -> Mapping[str, Bools]:
    """Fig. 30.3-2A: L-shaped corners 0.2h by 0.6h, strips 0.6h, then 1.2h; h mean roof height [m]."""
    near, far = np.minimum(at.along, at.rake), np.maximum(at.along, at.rake)
    return {
        "1": _within(near, 1.2 * h),
        "2": _within(near, 0.6 * h),
        "3": _within(near, 0.2 * h) & _within(far, 0.6 * h),
    }


def gable_16(a: float, at: Edges) -> Mapping[str, Bools]:
    """Figs. 30.3-2B to 2D of 7-16: strips a [m] at eave (2e), rake (2n) and ridge (2r), their crossings 3e and 3r."""
    eave, rake, ridge = _within(at.eave, a), _within(at.rake, a), _within(at.ridge, a)
    return {"2e": eave, "2n": rake, "2r": ridge, "3e": eave & rake, "3r": ridge & rake}


def gable_22_to_27(a: float, at: Edges) -> Mapping[str, Bools]:
    """Figs. 30.3-2B and 2C of 7-22: rake and ridge strips a [m] are 2, their crossings 3; the eave is 1."""
    rake, ridge = _within(at.rake, a), _within(at.ridge, a)
    return {"2": rake | ridge, "3": rake & ridge}


def gable_22_to_45(a: float, at: Edges) -> Mapping[str, Bools]:
    """Fig. 30.3-2D of 7-22: rake strips a [m] are 2, their crossings with the eave strip 3."""
    eave, rake = _within(at.eave, a), _within(at.rake, a)
    return {"2": rake, "3": eave & rake}


def hip_22(a: float, at: Edges) -> Mapping[str, Bools]:
    """Figs. 30.3-2E to 2G of 7-22: the eave strip a [m] is 3, strips a on each side of ridge and hips are 2.

    Notes:
        Seen once, in words. A strip beside a hip is taken a wide at right angles to it, the wider reading.
    """
    return {"2": _within(at.ridge, a) | _within(at.hip, a), "3": _within(at.eave, a)}


def monoslope_to_10(a: float, at: Edges) -> Mapping[str, Bools]:
    """Fig. 30.3-5A: high edge 2a deep 2', its corners 4a long 3', low corners 2a by 2a 3, strips a else 2; a [m].

    Notes:
        Seen once. What touches both 2' and 3, of which neither is the worse at every area, touches 3' too.
    """
    edge, high = _within(at.eave, a) | _within(at.rake, a), _within(at.far, 2 * a)
    low_corner, high_corner = _within(at.eave, 2 * a) & _within(at.rake, 2 * a), high & _within(at.rake, 4 * a)
    return {"2": edge, "2'": high, "3": low_corner, "3'": high_corner}


def monoslope_to_30(a: float, at: Edges) -> Mapping[str, Bools]:
    """Fig. 30.3-5B, from memory: the outlines of 5A, every doubt taken for the more negative zone; a [m]."""
    shallow = monoslope_to_10(a, at)
    return {"2": shallow["2"] | shallow["2'"], "3": shallow["3"] | shallow["3'"]}


def _within(distance: Floats, reach: float) -> Bools:
    inside: Bools = distance < reach - TOUCH
    return inside

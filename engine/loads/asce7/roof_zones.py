"""Wind zones of cladding on a rectangular plan, ASCE 7 Figs. 30.3-2 and 30.3-5.

Distances are horizontal. Of all zones that a rectangle touches the largest suction counts for all of it. A rectangle
may be listed in a zone that it does not touch only if a zone that it touches has at least that suction at every area.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

import numpy as np

from engine.common.arrays import Bools, Floats, Ints
from engine.common.calculation import CalculationStep, Term
from engine.common.tolerances import MILLIMETRE, SAME_ANGLE, SAME_LENGTH
from engine.loads.asce7.gcp_figures import LOW_SLOPE_ENDS, last_touched
from engine.loads.asce7.references import clause
from engine.loads.asce7.site import SEVEN_16
from engine.mounting.layout import Rectangles
from engine.project.building import Building
from engine.units import FOOT

STEPS_PER_STRIP = 2
"""Steps per strip width with which a zone border along a hip is drawn."""


@dataclass(frozen=True, eq=False)
class Edges:
    """Smallest horizontal distances of rectangles from the edges of the roof [m], each (n,).

    `far` is the far eave of a gable and the high edge of one slope. `rake` is the nearer side of the plan, which is an
    eave on a hip roof. `ridge` and `hip` are infinite on a roof without them. `upper` is the largest distance from the
    eave.
    """

    eave: Floats
    far: Floats
    rake: Floats
    ridge: Floats
    hip: Floats
    upper: Floats

    @property
    def along(self) -> Floats:
        """Distance from the nearer of the two edges along x."""
        return np.minimum(self.eave, self.far)


def edges(building: Building, places: Rectangles) -> Edges:
    """Distances of rectangles on the slope from every edge of the plan."""
    cosine = np.cos(np.radians(building.slope))
    eave, top = places.low * cosine, places.high * cosine
    nowhere = np.full(len(places), np.inf)
    ridge = building.run - top if building.has_ridge else nowhere
    rake = np.minimum(places.left, building.length - places.right)
    hip = (rake - top) / np.sqrt(2) if building.roof_shape == "hip" else nowhere
    return Edges(eave, building.width - top, rake, ridge, hip, top)


def strip_width(building: Building) -> float:
    """Strip width a of the figures [m]: min(0.1 least width, 0.4 h), at least 0.04 least width and 3 ft.

    The least width is that between the walls; the strips are measured from the outer edges of the roof.
    """
    least_width = min(building.between_walls)
    return max(min(0.1 * least_width, 0.4 * building.mean_roof_height), 0.04 * least_width, 3 * FOOT)


def width_steps(edition: str, building: Building) -> Iterator[CalculationStep]:
    """Steps to the widths of strips and corners on the plan [ft], of the figure for this roof."""
    h = Term(building.mean_roof_height / FOOT, "ft")
    if building.slope <= LOW_SLOPE_ENDS[building.roof_shape] + SAME_ANGLE:
        source = clause(edition, "Fig. 30.3-2A")
        for part, meaning in ((0.2, "arms of corner 3"), (0.6, "strip 2, length of corner 3"), (1.2, "to zone 1'")):
            result = Term(part * h.value, "ft")
            yield CalculationStep("b", f"width from the roof edge: {meaning}", result, f"{part} * h", {"h": h}, source)
        return
    least = Term(min(building.between_walls) / FOOT, "ft")
    equation, result = "max(min(0.1 * L, 0.4 * h), 0.04 * L, 3)", Term(strip_width(building) / FOOT, "ft")
    meaning, source = "strip width of the figures, L the least width", clause(edition, "Figs. 30.3-2 and 30.3-5")
    yield CalculationStep("a", meaning, result, equation, {"L": least, "h": h}, source)


def regions(building: Building) -> Rectangles:
    """Rectangles that cover the slope, cut at every possible border of a zone.

    A border along a hip is drawn in steps, `STEPS_PER_STRIP` per strip width; each step has its worst zone.
    """
    a, h, cosine = strip_width(building), building.mean_roof_height, np.cos(np.radians(building.slope))
    borders = np.array([a, 2 * a, 4 * a, 0.2 * h, 0.6 * h, 1.2 * h])
    steps = np.arange(0.0, building.run, a / STEPS_PER_STRIP) if building.roof_shape == "hip" else borders
    x = _cuts(building.length, borders, building.length - borders, steps, building.length - steps)
    y = _cuts(building.run, borders, building.run - borders, building.width - borders, steps) / cosine
    left, low = (np.ravel(sides) for sides in np.meshgrid(x[:-1], y[:-1], indexing="ij"))
    right, high = (np.ravel(sides) for sides in np.meshgrid(x[1:], y[1:], indexing="ij"))
    on_slope = np.maximum(building.top_at(left), building.top_at(right)) > low + MILLIMETRE
    return Rectangles(left[on_slope], low[on_slope], right[on_slope], high[on_slope])


def _cuts(length: float, *borders: Floats) -> Floats:
    """Cuts of a length at the borders, with both ends [m]; cuts within a millimetre are one."""
    within = np.sort(np.concatenate(borders))
    within = within[(within > MILLIMETRE) & (within < length - MILLIMETRE)]
    return np.concatenate([[0.0], within[np.diff(within, prepend=0.0) > MILLIMETRE], [length]])


def zones(edition: str, building: Building, places: Rectangles, names: tuple[str, ...]) -> Ints:
    """The zone of each rectangle for labels: of those it touches the last in the figure's order, an index (n,)."""
    return last_touched(touched_zones(edition, building, places, names))


def touched_zones(edition: str, building: Building, places: Rectangles, names: tuple[str, ...]) -> Bools:
    """True for each zone of the figure that a rectangle touches (n, zones); the first zone is always one of them."""
    by_name = _touched(edition, building, edges(building, places))
    everywhere = np.ones(len(places), dtype=bool)
    return np.stack(
        [by_name.get(name, np.zeros_like(everywhere)) if i else everywhere for i, name in enumerate(names)], 1
    )


def _touched(edition: str, building: Building, at: Edges) -> Mapping[str, Bools]:
    shape, slope, a = building.roof_shape, building.slope, strip_width(building)
    if slope <= LOW_SLOPE_ENDS[shape] + SAME_ANGLE:
        return low_slope(building.mean_roof_height, at)
    if shape == "monoslope":
        return monoslope_to_10(a, at) if slope <= 10 + SAME_ANGLE else monoslope_to_30(a, at)
    if shape == "hip":
        return hip_22(a, at)
    if edition == SEVEN_16:
        return gable_16(a, at)
    return gable_22_to_27(a, at) if slope <= 27 + SAME_ANGLE else gable_22_to_45(a, at)


def low_slope(h: float, at: Edges) -> Mapping[str, Bools]:
    """Fig. 30.3-2A: L-shaped corners 0.2h by 0.6h, strips 0.6h, then 1.2h; h mean roof height [m]."""
    near, far = np.minimum(at.along, at.rake), np.maximum(at.along, at.rake)
    return {
        "1": _within(near, 1.2 * h),
        "2": _within(near, 0.6 * h),
        "3": _within(near, 0.2 * h) & _within(far, 0.6 * h),
    }


def gable_16(a: float, at: Edges) -> Mapping[str, Bools]:
    """Figs. 30.3-2B to 2D of 7-16: strips a [m] at eave (2e), rake (2n) and ridge (2r), their corners 3e and 3r."""
    eave, rake, ridge = _within(at.eave, a), _within(at.rake, a), _within(at.ridge, a)
    return {"2e": eave, "2n": rake, "2r": ridge, "3e": eave & rake, "3r": ridge & rake}


def gable_22_to_27(a: float, at: Edges) -> Mapping[str, Bools]:
    """Figs. 30.3-2B and 2C of 7-22: rake and ridge strips a [m] are 2, their corners 3; the eave is 1."""
    rake, ridge = _within(at.rake, a), _within(at.ridge, a)
    return {"2": rake | ridge, "3": rake & ridge}


def gable_22_to_45(a: float, at: Edges) -> Mapping[str, Bools]:
    """Fig. 30.3-2D of 7-22: rake strips a [m] are 2, their corners with the eave strip 3."""
    eave, rake = _within(at.eave, a), _within(at.rake, a)
    return {"2": rake, "3": eave & rake}


def hip_22(a: float, at: Edges) -> Mapping[str, Bools]:
    """Figs. 30.3-2E to 2G of 7-22: the eave strip a [m] is 3, strips a on each side of ridge and hips are 2.

    Notes:
        Seen once, in words. The strip along a hip is a wide at right angles to the hip, the wider reading.
    """
    return {"2": _within(at.ridge, a) | _within(at.hip, a), "3": _within(at.eave, a)}


def monoslope_to_10(a: float, at: Edges) -> Mapping[str, Bools]:
    """Fig. 30.3-5A: high strip 2a and rakes 2a are 2', high corners 4a long 3', low corners 2a by 2a 3, low strip a 2.

    Args:
        a: strip width [m].
        at: distances of the rectangles.

    Notes:
        The curves of 2' and 3 cross, so a rectangle inside a low corner must not count as 2' too.
    """
    high, rake = _within(at.far, 2 * a), _within(at.rake, 2 * a)
    beyond_low_corner = at.upper > 2 * a + SAME_LENGTH
    return {
        "2": _within(at.eave, a),
        "2'": high | (rake & beyond_low_corner),
        "3": _within(at.eave, 2 * a) & rake,
        "3'": high & _within(at.rake, 4 * a),
    }


def monoslope_to_30(a: float, at: Edges) -> Mapping[str, Bools]:
    """Fig. 30.3-5B: high strip 2a, low strip a and rakes a are 2, high corners 4a long 3; a [m]."""
    high = _within(at.far, 2 * a)
    return {"2": high | _within(at.eave, a) | _within(at.rake, a), "3": high & _within(at.rake, 4 * a)}


def _within(distance: Floats, reach: float) -> Bools:
    inside: Bools = distance < reach - SAME_LENGTH  # a border at 0.2 h must not flicker with rounding
    return inside

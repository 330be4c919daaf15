"""Exposed modules of an array, ASCE 7 §29.4.3 and §29.4.4: modules near an exposed edge of the array.

An edge is exposed if it is more than half the roof height from the edge of the roof and more than a given gap from the
next module (from memory). There are two readings. The safe one counts every edge of every group and takes Lp as the
longer side of the module. The literal one keeps the half roof height and takes Lp as the module's size up the slope.
"""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np

from engine.common.arrays import Bools, Floats, Ints
from engine.common.calculation import CalculationStep, Recorder, Term
from engine.common.tolerances import SAME_LENGTH
from engine.loads.asce7.net_pressure import UP
from engine.loads.asce7.references import memory
from engine.mounting.layout import Field, Rectangles
from engine.mounting.neighbours import clear_distances, free_sides, pairs_within
from engine.project.building import Building
from engine.units import FOOT

REACH = 1.5
"""Width of the exposed strip along an exposed edge, in Lp."""

FLUSH_GAP = 4 * FOOT
"""Largest clear distance between modules of one group [m], §29.4.4."""

EDGE_FACTOR = 1.5


def group_gap(highest: float) -> float:
    """Largest clear distance between tilted modules of one group: max(4 h2, 4 ft), §29.4.3; `highest` is h2 [m]."""
    return max(4 * highest, FLUSH_GAP)


def edge_factor(case: str, exposed: Bools) -> Floats:
    """γE, §29.4.3 and §29.4.4: 1.5 for uplift on an exposed module, 1.0 otherwise and for downward load."""
    return np.where(exposed & (case == UP), EDGE_FACTOR, 1.0)


def record_edge_factor(edition: str, number: str, gamma_e: Term, record: Recorder) -> None:
    """Record γE; its value was seen, the definition of an exposed edge is from memory."""
    meaning = "uplift near an exposed edge" if gamma_e.value > 1 else "away from exposed edges, or down load"
    record(CalculationStep("gammaE", meaning, gamma_e, "", {}, memory(edition, number)))


def exposed_modules(field: Field, building: Building, *, literal: bool, gap: float) -> Bools:
    """True for each module with any part within 1.5 Lp of an exposed edge (M,).

    Args:
        field: the modules, of one size.
        building: gives the edges of the roof and the mean height h.
        literal: use the literal reading instead of the safe one.
        gap: largest clear distance between neighbours [m].
    """
    at = field.outlines
    reach = REACH * (field.attitude.chord if literal else field.attitude.long_side)
    module, other = pairs_within(at, reach)
    found = np.zeros(field.modules, dtype=bool)
    for side, without_neighbour in free_sides(at, gap, field.gap).items():
        far = _from_roof_edge(field, building, side) > building.mean_roof_height / 2
        free = without_neighbour & far if literal else without_neighbour
        near = free[other] & (_distance(at, module, other, side) <= reach + SAME_LENGTH)
        found |= free
        found[module[near]] = True
    return found


def _distance(at: Rectangles, module: Ints, other: Ints, side: str) -> Floats:
    """Distance of modules from one side of another module (n,) [m]."""
    left, right, low, high = at.left[other], at.right[other], at.low[other], at.high[other]
    left, right = (right if side == "right" else left), (left if side == "left" else right)
    low, high = (high if side == "high" else low), (low if side == "low" else high)
    along, up = clear_distances(at.subset(module), Rectangles(left, low, right, high))
    return np.hypot(np.maximum(along, 0.0), np.maximum(up, 0.0))


def _from_roof_edge(field: Field, building: Building, side: str) -> Floats:
    """Horizontal distance of one side of each module from the roof edge on that side (M,) [m]; a ridge is no edge."""
    cosine = float(np.cos(np.radians(building.slope)))
    at = field.outlines
    distances: Mapping[str, Floats] = {
        "low": at.low * cosine,
        "high": building.width - at.high * cosine,
        "left": at.left,
        "right": building.length - at.right,
    }
    return distances[side]

"""Drifts along the edges of an array, ASCE 7 §7.8: beside tilted rows, and in thin snow beside flush arrays."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from engine.common.arrays import Bools, Floats, group_nearby
from engine.common.tolerances import SAME_PLACE, SET_OUT
from engine.loads.asce7.references import clause
from engine.loads.asce7.site import SEVEN_22
from engine.loads.asce7.snow.step_drift import Snowpack, Step, windward_profiles
from engine.loads.asce7.snow.surcharge import Surcharge, plan_of
from engine.mounting.layout import Field, Rectangles
from engine.mounting.neighbours import free_sides, unbroken
from engine.project.building import Building
from engine.units import FOOT, PSF

LONG_SIDE = 15.0
"""Shorter sides of a projection have no drift [ft], §7.8."""

CLEAR_BENEATH = 2.0
"""Height of a row's bottom above the balanced snow from which it has no drift [ft], §7.8."""

LITTLE_SNOW, SHORT_FETCH = 10.0, 100.0
"""Ground snow [psf] and fetch [ft] up to which 7-22 asks for no drift at an array (seen once)."""

PARALLEL = 2.0
"""Tilts up to this are those of a flush array [deg], §29.4.4."""


@dataclass(frozen=True)
class _Side:
    """One side of a module: its name, its axis and its direction."""

    name: str
    along_eave: bool
    outward: int


LOW, HIGH, LEFT, RIGHT = (
    _Side("low", False, -1),
    _Side("high", False, 1),
    _Side("left", True, -1),
    _Side("right", True, 1),
)


def array_drifts(pack: Snowpack, building: Building, field: Field) -> Iterator[Surcharge]:
    """Drifts beside the field's rows, or beside a flush array; only on sides that rise above the balanced snow.

    Notes:
        A row is as long as its unbroken sequence of modules. A flush array is judged as a whole: a short side of a
        long array counts (loadpath's choice, safe). 2 ft of clearance is measured from the deepest balanced snow, hc
        from the least (safe). Other rows upwind do not shorten the fetch (safe).
    """
    attitude = field.attitude
    tilted = abs(attitude.tilt) > PARALLEL
    if min(attitude.low, attitude.high) / FOOT - pack.deepest >= CLEAR_BENEATH:
        return
    for side in (LOW, HIGH) if tilted else (LOW, HIGH, LEFT, RIGHT):
        top = _top(field, side) / FOOT
        if pack.leaves(top):
            yield from _along(pack, building, field, side, top, whole=not tilted)


def _top(field: Field, side: _Side) -> float:
    """Height of the modules' edge on one side above the roof [m]."""
    attitude = field.attitude
    if side.along_eave:
        return max(attitude.low, attitude.high)
    return attitude.low if (side is LOW) == (attitude.tilt >= 0) else attitude.high


def _along(
    pack: Snowpack, building: Building, field: Field, side: _Side, top: float, *, whole: bool
) -> Iterator[Surcharge]:
    """Drifts along the edges of one side; `whole`: the array is one projection, not a row at a time."""
    edition, plan = pack.site.standard, plan_of(field.outlines, building.slope)
    low, high = (plan.low, plan.high) if side.along_eave else (plan.left, plan.right)
    everything = float(high.max() - low.min())
    name = "the array's top" if whole else "the row's edge"
    for face, ends in _edges(field, side, _face(plan, side), low, high):
        fetch = _fetch(building, side, face)
        waived = edition == SEVEN_22 and pack.site.ground_snow / PSF <= LITTLE_SNOW and fetch <= SHORT_FETCH
        if (everything if whole else ends[1] - ends[0]) < LONG_SIDE or waived:
            continue
        step = Step(top, fetch, clause(edition, "§7.8"), name)
        for profile in windward_profiles(pack, step):
            yield Surcharge(profile, side.along_eave, side.outward, face, ends)


def _face(plan: Rectangles, side: _Side) -> Floats:
    """Positions of one side of modules on plan (M,) [ft]."""
    return {LOW: plan.low, HIGH: plan.high, LEFT: plan.left, RIGHT: plan.right}[side]


def _edges(
    field: Field, side: _Side, face: Floats, low: Floats, high: Floats
) -> Iterator[tuple[float, tuple[float, float]]]:
    """Unbroken edges of one side: position, and the two ends across it [ft]."""
    number = np.flatnonzero(_open(field, side))
    if not len(number):
        return
    _, line = group_nearby(face[number] * FOOT, SAME_PLACE)
    sequence = unbroken(line, low[number] * FOOT, high[number] * FOOT, field.gap + SET_OUT)
    for each in range(int(sequence.max()) + 1):
        edge = number[sequence == each]
        yield float(face[edge[0]]), (float(low[edge].min()), float(high[edge].max()))


def _open(field: Field, side: _Side) -> Bools:
    """True for each module with no flush neighbour on that side (M,); the sides of tilted rows are always open."""
    if abs(field.attitude.tilt) > PARALLEL:
        return np.ones(field.modules, dtype=bool)
    return free_sides(field.outlines, field.gap + SET_OUT, field.gap)[side.name]


def _fetch(building: Building, side: _Side, face: float) -> float:
    """lu: the longer of the roof on either side of the edge, over the ridge too (safe), horizontally [ft]."""
    whole = (building.length if side.along_eave else building.width) / FOOT
    return max(face, whole - face)

"""The roof around a field, before any layout: fastenings, what covers them, what the air asks of them."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from engine.arrays import Floats
from engine.beam import Spread, respond
from engine.combination import Combination
from engine.job import Job
from engine.layout import Field, Rectangles
from engine.loads import Loads

STATIONS_PER_BAY = 20
"""How closely a bay is searched for its largest moment: a spread load's peak is missed by < 0.5 %."""


@dataclass(frozen=True, eq=False)
class RoofState:
    """Every rib Q of the slope with its fastenings F, in every combination C.

    `fastening_y` (F,) [m], each with its tributary stretch from `low` to `high` (F,) [m]; `covered`
    (Q, F) part of each tributary area under modules [-]; `surface` (Q, F, C) what the air and bare
    snow bring to each tributary area with the array in place [N]; `bare` (Q, F, C) the same
    without the array; `bare_moment` (Q, T, C) its bending of every rib at `station_y` (T,), on a solid
    deck from uplift alone [N m]; `snow_in_plane` (Q, C) bare snow's push down the slope [N].
    """

    ribs: Floats
    fastening_y: Floats
    low: Floats
    high: Floats
    covered: Floats
    surface: Floats
    bare: Floats
    bare_moment: Floats
    station_y: Floats
    snow_in_plane: Floats


def factors(combinations: tuple[Combination, ...], case: str) -> Floats:
    """A case's factor in every combination, (C,)."""
    return np.array([combination.factors.get(case, 0.0) for combination in combinations])


def roof_state(job: Job, field: Field, loads: Loads) -> RoofState:
    """Look at every fastening of the slope, with the field on it and without.

    Surface pressures go to fastenings by tributary area, as in the uplift test that a fastening's
    strength comes from (a stated choice); only the array's point loads go by the continuous beam.
    """
    ribs, supports = job.roof.ribs(job.building), job.roof.supports(job.building)
    tributary = _tributaries(job, ribs, supports)
    shape = (len(ribs), len(supports))
    area = ((tributary.right - tributary.left) * (tributary.high - tributary.low)).reshape(shape)
    covered = _overlap(field.outlines, tributary, shape) / area
    combinations = loads.combinations
    slope = np.radians(job.building.slope)

    surface = np.zeros((*shape, len(combinations)))
    bare = np.zeros_like(surface)
    for case in loads.wind_cases:
        factor = factors(combinations, case)
        alone = loads.bare_wind(case, tributary).reshape(shape) * area
        beneath = loads.inside_wind(case) * covered * area
        bare += alone[..., None] * factor
        surface += (alone * (1 - covered) + beneath)[..., None] * factor
    snow_in_plane = np.zeros((len(ribs), len(combinations)))
    for case in loads.snow_cases:
        factor = factors(combinations, case)
        vertical = loads.bare_snow(case, tributary).reshape(shape) * np.cos(slope) * area
        bare += (vertical * np.cos(slope))[..., None] * factor
        surface += (vertical * np.cos(slope) * (1 - covered))[..., None] * factor
        snow_in_plane += (vertical * np.sin(slope) * (1 - covered)).sum(axis=1)[:, None] * factor

    low, high = tributary.low[: shape[1]], tributary.high[: shape[1]]
    stations = bay_stations(supports)
    spread = respond(supports[None], Spread(low[None], high[None]), stations[None])
    bare_moment = spread.moments[0] @ bent_by(job, bare)
    return RoofState(ribs, supports, low, high, covered, surface, bare, bare_moment, stations, snow_in_plane)


def bay_stations(fastenings: Floats) -> Floats:
    """Where moments are looked at within each bay, fastenings included [m]."""
    within = np.linspace(fastenings[:-1], fastenings[1:], STATIONS_PER_BAY, endpoint=False).ravel()
    return np.sort(np.append(within, fastenings[-1]))


def bent_by(job: Job, load: Floats) -> Floats:
    """The part of a load that a rib carries: on a solid deck the panel bears what presses down."""
    return np.minimum(load, 0.0) if job.roof.solid_deck else load


def _tributaries(job: Job, ribs: Floats, supports: Floats) -> Rectangles:
    """Each fastening's tributary rectangle, rib by rib."""
    half = job.roof.rib_spacing / 2
    left, right = np.maximum(ribs - half, 0.0), np.minimum(ribs + half, job.building.length)
    middles = (supports[:-1] + supports[1:]) / 2
    low = np.concatenate([[0.0], middles])
    high = np.concatenate([middles, [job.building.slope_length]])
    count = len(supports)
    return Rectangles(np.repeat(left, count), np.tile(low, len(ribs)), np.repeat(right, count), np.tile(high, len(ribs)))


def _overlap(outlines: Rectangles, tributary: Rectangles, shape: tuple[int, int]) -> Floats:
    """Area of modules over each tributary rectangle [m²]: lengths shared in x times lengths shared in y."""
    left, right = tributary.left.reshape(shape)[:, 0], tributary.right.reshape(shape)[:, 0]
    low, high = tributary.low[: shape[1]], tributary.high[: shape[1]]
    along = np.minimum(outlines.right, right[:, None]) - np.maximum(outlines.left, left[:, None])
    up = np.minimum(outlines.high, high[:, None]) - np.maximum(outlines.low, low[:, None])
    shared: Floats = np.maximum(along, 0.0) @ np.maximum(up, 0.0).T
    return shared

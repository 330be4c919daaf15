"""The roof around a field, before any layout: fastenings, what covers them, what the air asks of them."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from engine.common.arrays import Bools, Floats
from engine.common.combination import Combination
from engine.loads.interface import Loads
from engine.mounting.layout import Field, Rectangles
from engine.project.job import Job
from engine.statics.rib_bending import Acting, Bent, Ribs
from engine.statics.rib_supports import Fastened, fastened


@dataclass(frozen=True, eq=False)
class RoofState:
    """Every rib Q of the slope and every level F at which ribs are fastened, in every combination C.

    `fastening_y` (F,) [m]; `alike`: which ribs are fastened where, and `held` (Q, F) the same as yes and no:
    nothing is brought to a level where a rib is not fastened. `area` (Q, F) tributary to each fastening [m²],
    `covered` (Q, F) the part of it under modules [-]; `surface` (Q, F, C) what the air and bare
    snow bring to each tributary area with the array in place [N]; `bare` (Q, F, C) the same
    without the array; `bare_bent` its bending of every rib, on a solid
    deck from uplift alone; `beside_in_plane` (Q, C) what each panel's own weight and the snow beside the modules push down
    the slope, `bare_in_plane` (Q, C) what they do without modules [N].
    """

    ribs: Floats
    fastening_y: Floats
    alike: tuple[Fastened, ...]
    held: Bools
    area: Floats
    covered: Floats
    surface: Floats
    bare: Floats
    bare_bent: Bent
    beside_in_plane: Floats
    bare_in_plane: Floats


def factors(combinations: tuple[Combination, ...], case: str) -> Floats:
    """A case's factor in every combination, (C,)."""
    return np.array([combination.factors.get(case, 0.0) for combination in combinations])


def roof_state(job: Job, field: Field, loads: Loads) -> RoofState:
    """Look at every fastening of the slope, with the field on it and without.

    Surface pressures go to fastenings by tributary area, as in the uplift test that a fastening's
    strength comes from (a stated choice); only the array's point loads go by the continuous beam.
    """
    ribs, (levels, alike) = job.roof.ribs(job.building), fastened(job)
    shape = (len(ribs), len(levels))
    low, high = _stretches(alike, shape)
    held = high > low
    left, right = _strips(job, ribs)
    area = (right - left)[:, None] * (high - low)
    covered = _overlap(field.outlines, left, right, low, high) / np.where(held, area, 1.0)
    tributary = Rectangles(*(np.broadcast_to(side, shape)[held] for side in (left[:, None], low, right[:, None], high)))
    combinations = loads.combinations
    slope = np.radians(job.building.slope)

    surface = np.zeros((*shape, len(combinations)))
    bare = np.zeros_like(surface)
    for case in loads.wind_cases:
        factor = factors(combinations, case)
        alone = _spread(loads.bare_wind(case, tributary), held) * area
        beneath = loads.inside_wind(case) * covered * area
        bare += alone[..., None] * factor
        surface += (alone * (1 - covered) + beneath)[..., None] * factor
    beside_in_plane = _own_weight(job, loads, area.sum(axis=1))
    bare_in_plane = beside_in_plane.copy()
    for case in loads.snow_cases:
        factor = factors(combinations, case)
        vertical = _spread(loads.bare_snow(case, tributary), held) * np.cos(slope) * area
        bare += (vertical * np.cos(slope))[..., None] * factor
        surface += (vertical * np.cos(slope) * (1 - covered))[..., None] * factor
        beside_in_plane += (vertical * np.sin(slope) * (1 - covered)).sum(axis=1)[:, None] * factor
        bare_in_plane += (vertical * np.sin(slope)).sum(axis=1)[:, None] * factor

    bare_bent = Ribs(np.arange(len(ribs)), levels, alike, Acting.air(bent_by(job, bare))).bent
    return RoofState(ribs, levels, alike, held, area, covered, surface, bare, bare_bent, beside_in_plane, bare_in_plane)


def _own_weight(job: Job, loads: Loads, area: Floats) -> Floats:
    """What the weight of panels of some area (Q,) [m²], and an earthquake's part of it, push down the slope (Q, C) [N]."""
    slope, pushed = np.radians(job.building.slope), np.zeros(len(loads.combinations))
    for case, part in loads.weight_cases.items():
        pushed += (part.downward * np.sin(slope) + part.toward_eave * np.cos(slope)) * factors(loads.combinations, case)
    return job.roof.panel.weight * area[:, None] * pushed


def bent_by(job: Job, load: Floats) -> Floats:
    """The part of a load that a rib carries: on a solid deck the panel bears what presses down."""
    return np.minimum(load, 0.0) if job.roof.solid_deck else load


def _stretches(alike: tuple[Fastened, ...], shape: tuple[int, int]) -> tuple[Floats, Floats]:
    """From where to where each fastening holds its panel (Q, F) [m]; nothing where there is none."""
    low, high = np.zeros(shape), np.zeros(shape)
    for these in alike:
        low[np.ix_(these.ribs, these.at)], high[np.ix_(these.ribs, these.at)] = these.low, these.high
    return low, high


def _strips(job: Job, ribs: Floats) -> tuple[Floats, Floats]:
    """Each rib's strip of the roof along x (Q,) [m]."""
    half = job.roof.rib_spacing / 2
    return np.maximum(ribs - half, 0.0), np.minimum(ribs + half, job.building.length)


def _spread(values: Floats, held: Bools) -> Floats:
    """Values of the fastenings there are, at their ribs and levels (Q, F)."""
    spread = np.zeros(held.shape)
    spread[held] = values
    return spread


def _overlap(outlines: Rectangles, left: Floats, right: Floats, low: Floats, high: Floats) -> Floats:
    """Area of modules over each tributary rectangle (Q, F) [m²]: lengths shared in x times lengths shared in y."""
    along = np.maximum(np.minimum(outlines.right, right[:, None]) - np.maximum(outlines.left, left[:, None]), 0.0)
    shared = np.zeros_like(low)
    alike, rib = np.unique(np.concatenate([low, high], axis=1), axis=0, return_inverse=True)
    for number, stretch in enumerate(alike):
        bottom, top = np.split(stretch[:, None], 2)
        up = np.maximum(np.minimum(outlines.high, top) - np.maximum(outlines.low, bottom), 0.0)
        shared[rib == number] = along[rib == number] @ up.T
    return shared

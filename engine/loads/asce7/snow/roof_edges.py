"""Drifts and sliding snow along the sides of the slope: parapets, ASCE 7 §7.8, and higher roofs, §7.7 and §7.9."""

from __future__ import annotations

from collections.abc import Iterator

from engine.loads.asce7.references import clause
from engine.loads.asce7.snow.sliding import slides, sliding_profile
from engine.loads.asce7.snow.step_drift import Snowpack, Step, leeward_profiles, windward_profiles
from engine.loads.asce7.snow.surcharge import Profile, Surcharge
from engine.project.building import Building
from engine.project.higher_roof import EAVE, LEFT_RAKE, RIDGE, RIGHT_RAKE, SIDES, HigherRoof
from engine.units import FOOT

ROOF_THERMAL = 1.2
"""Least Ct of a higher roof, whose warmth is not an input (loadpath's choice, safe unless it covers a freezer)."""


def parapet_drifts(pack: Snowpack, building: Building) -> Iterator[Surcharge]:
    """Drifts at parapets on all edges of the slope, the ridge excepted; lu is the whole roof upwind (safe)."""
    for side in SIDES:
        if side == RIDGE and building.has_ridge:
            continue
        step = Step(
            building.parapet_height / FOOT, _own_length(building, side), clause(pack.site.standard, "§7.8"), "a parapet"
        )
        for profile in windward_profiles(pack, step):
            yield _at_side(building, side, profile)


def leeward_drifts(pack: Snowpack, building: Building) -> Iterator[Surcharge]:
    """Drifts of snow blown off higher roofs."""
    for roof in building.higher_roofs:
        step = _wall(pack, roof, roof.upwind_length / FOOT)
        for profile in leeward_profiles(pack, step, roof.distance / FOOT):
            yield _at_side(building, roof.side, profile)


def windward_drifts(pack: Snowpack, building: Building) -> Iterator[Surcharge]:
    """Drifts of snow blown over this roof against higher ones; at a distance only what reaches this roof."""
    for roof in building.higher_roofs:
        step = _wall(pack, roof, _own_length(building, roof.side))
        for profile in windward_profiles(pack, step, at_wall=True):
            yield _at_side(building, roof.side, profile, roof.distance / FOOT)


def sliding_snow(pack: Snowpack, building: Building, thermal_factor: float) -> Iterator[Surcharge]:
    """Snow that slides off higher roofs; `thermal_factor`: Ct of this roof, the least for the higher ones too."""
    for roof in building.higher_roofs:
        if slides(roof) and roof.ridge_distance is not None:
            profile = sliding_profile(pack.site, roof.ridge_distance, max(thermal_factor, ROOF_THERMAL))
            yield _at_side(building, roof.side, profile, roof.distance / FOOT)


def _wall(pack: Snowpack, roof: HigherRoof, fetch: float) -> Step:
    return Step(roof.height / FOOT, fetch, clause(pack.site.standard, "§7.7.1"), f"the higher roof at the {roof.side}")


def _own_length(building: Building, side: str) -> float:
    """Length of this roof at right angles to a side [ft]; over the ridge, but not beyond a wall at the ridge."""
    if side in (LEFT_RAKE, RIGHT_RAKE):
        return building.length / FOOT
    return (building.run if side == RIDGE else building.width) / FOOT


def _at_side(building: Building, side: str, profile: Profile, gap: float = 0.0) -> Surcharge:
    """A profile along the whole of one side, falling off into the roof."""
    run, length = building.run / FOOT, building.length / FOOT
    along_eave, outward, face = {
        EAVE: (False, 1, 0.0),
        RIDGE: (False, -1, run),
        LEFT_RAKE: (True, 1, 0.0),
        RIGHT_RAKE: (True, -1, length),
    }[side]
    return Surcharge(profile, along_eave, outward, face, (0.0, run if along_eave else length), gap)

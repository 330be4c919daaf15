"""Remarks on the loads for the reader."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from types import MappingProxyType

import numpy as np

from engine.loads.asce7 import snow
from engine.loads.asce7.array_wind import ModuleWind
from engine.loads.asce7.net_pressure import DOWN, MIN_PRESSURE, UP, NetPressure
from engine.loads.asce7.site import SEVEN_22, Site
from engine.loads.interface import Remark
from engine.mounting.layout import Field
from engine.project.building import Building
from engine.project.job import Job
from engine.project.overhang import OPEN
from engine.units import FOOT, PSF, both

SURCHARGES: Mapping[str, tuple[str, str]] = MappingProxyType(
    {
        snow.ARRAY: ("snow_drift", "drifts at the edges of the array (§7.8) add"),
        snow.PARAPET: ("snow_drift_parapet", "drifts at the parapet (§7.8) add"),
        snow.STEP: ("snow_drift_step", "drifts beside the higher roof (§7.7.1) add"),
        snow.LEEWARD: ("snow_drift_lee", "drifts of snow blown off the higher roof (§7.7.1) add"),
        snow.WINDWARD: ("snow_drift_wind", "drifts of snow blown against the higher roof (§7.7.1) add"),
        snow.SLIDING: ("snow_sliding", "snow sliding off the higher roof (§7.9) adds"),
    }
)
"""Case → code of its remark, and the beginning of its sentence."""

TORNADO_CATEGORIES = ("III", "IV")
"""Risk categories with tornado loads in 7-22, §32.1.1."""


def wind_remarks(
    site: Site, building: Building, field: Field, wind: ModuleWind, net_pressure: NetPressure
) -> Iterator[Remark]:
    """Remarks on the wind on modules."""
    yield from wind.remarks
    if site.standard == SEVEN_22 and site.risk_category in TORNADO_CATEGORIES:
        text = (
            f"tornado loads (chapter 32) not computed: 7-22 has them for risk category {site.risk_category} "
            "in the tornado-prone region; the engineer adds them"
        )
        yield Remark("tornado", "caution", text)
    if building.overhang.exists:
        yield _overhang(building)
    if building.roof_shape == "hip":
        text = "the wind zones of hip roofs were seen in one public source only: check them against the printed figures"
        yield Remark("hip_zones", "caution", text)
    if wind.outside:
        return
    if field.modules > 1 and wind.exposed.all():
        reading = "safe" if site.array_edges == "safe" else "literal"
        yield Remark("all_exposed", "note", f"all modules count as exposed at an edge of the array ({reading} reading)")
    yield from _minimum_governs(field, wind, net_pressure)


def _overhang(building: Building) -> Remark:
    """Loads that the overhangs of the roof add, and those left out there."""
    overhang = building.overhang
    sides = [("eave", overhang.eave), ("high edge", overhang.high_edge), ("rakes", overhang.rake)]
    sizes = " and ".join(f"{both(size, 'length')} at the {side}" for side, size in sides if size > 0)
    below = "the open soffit pushes the panel up" if overhang.soffit == OPEN else "the soffit is closed"
    text = f"the roof reaches {sizes} beyond the walls: there the wind counts on both faces, and {below}; "
    if overhang.attachments:
        return Remark("overhang", "caution", text + "attachments may stand there, but what holds it up is not checked")
    return Remark("overhang", "note", text + "no attachment stands there")


def _minimum_governs(field: Field, wind: ModuleWind, net_pressure: NetPressure) -> Iterator[Remark]:
    """The modules with the minimum wind at their own area; the larger areas of attachments are in their own steps."""
    every, area = np.arange(field.modules), np.full(field.modules, field.area / FOOT**2)
    for case, direction in ((UP, "uplift"), (DOWN, "down load")):
        low = np.abs(net_pressure.reference_pressure * wind.coefficient(case, every, area)) < MIN_PRESSURE
        if low.any():
            count = f"all {field.modules}" if low.all() else f"{int(low.sum())} of {field.modules}"
            minimum = both(MIN_PRESSURE * PSF, "pressure")
            code = f"floor_{case.replace(' ', '_').lower()}"
            yield Remark(code, "note", f"the {minimum} minimum wind governs {direction} on {count} modules")


def snow_remarks(
    site: Site, job: Job, field: Field, surcharges: Mapping[str, tuple[snow.Surcharge, ...]]
) -> Iterator[Remark]:
    """Remarks on snow: drifts and sliding snow, loads that are not computed, and choices on the safe side."""
    building = job.building
    if site.ground_snow <= 0:
        return
    for case, found in surcharges.items():
        yield _surcharge(case, found, building, field)
    if not building.higher_roofs:
        text = (
            "no higher roof is stated: if one is within 20 ft (6.1 m), add it under building.higher_roofs, "
            "for its drifts (§7.7) and sliding snow (§7.9)"
        )
        yield Remark("snow_higher_roof", "note", text)
    if building.roof_shape == "hip" and snow.has_unbalanced(building):
        text = "snow drifts over the hips not computed, only behind the ridge (§7.6.1): the engineer adds them"
        yield Remark("snow_drift_hip", "caution", text)
    if snow.has_unbalanced(building):
        yield from _ridge_drift(site, building, field)
    if site.standard == SEVEN_22 and building.thermal == "heated" and site.roof_thermal_resistance is None:
        text = (
            "site.roof_thermal_resistance is not set: Ct of the heated roof is 1.2, the safe end of Table 7.3-3; "
            "set it to use the table"
        )
        yield Remark("snow_thermal", "note", text)


def _surcharge(case: str, found: tuple[snow.Surcharge, ...], building: Building, field: Field) -> Remark:
    """Largest pressure of a case's surcharges, its width, and the number of modules under it."""
    code, beginning = SURCHARGES[case]
    highest = max(found, key=lambda surcharge: (surcharge.profile.start, surcharge.profile.width)).profile
    under = int((snow.mean_of_all(found, snow.plan_of(field.outlines, building.slope)) > 0).sum())
    size, width = both(highest.start * PSF, "pressure"), highest.width * FOOT
    reach = "to the end of the roof" if width > building.run else f"over {both(width, 'length')}"
    text = f"{beginning} up to {size} {reach}, on {under} of {field.modules} modules and the roof beside them"
    if any(surcharge.profile.disputed for surcharge in found):
        text += "; public sources differ on a drift that fills its step: the larger counts"
    return Remark(code, "note", text)


def _ridge_drift(site: Site, building: Building, field: Field) -> Iterator[Remark]:
    """Size of the drift behind the ridge and the number of modules under it, if there are any."""
    surcharge, reach = snow.ridge_drift(site, building.slope, building.run)
    to_ridge = (building.slope_length - field.outlines.high) * math.cos(math.radians(building.slope)) / FOOT
    under_drift = int((to_ridge < reach).sum())
    narrow = snow.is_narrow(building)
    if not under_drift and not narrow:
        return
    size, length = both(surcharge * PSF, "pressure"), both(reach * FOOT, "length")
    text = (
        f"unbalanced snow (§7.6.1) adds {size} over {length} behind the ridge, "
        f"on {under_drift} of {field.modules} modules"
    )
    if narrow:
        text += "; on this narrow gable the full ground snow on one slope is a second case: the larger counts"
    yield Remark("snow_unbalanced", "note", text)

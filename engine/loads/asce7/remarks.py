"""What the reader of these loads must know, in plain sentences."""

from __future__ import annotations

import math
from collections.abc import Iterator

import numpy as np

from engine.loads.asce7 import array_flush, snow
from engine.loads.asce7.array_wind import ModuleWind
from engine.loads.asce7.net_pressure import DOWN, MIN_PRESSURE, UP, NetPressure
from engine.loads.asce7.site import SEVEN_22, Site
from engine.loads.interface import Remark
from engine.mounting.layout import Field
from engine.project.building import Building
from engine.project.job import Job
from engine.units import FOOT, PSF, both

LONG_ROW = 15 * FOOT
"""Rows longer than this gather drifts, §7.8 [m]."""

CLEAR_BENEATH = 2 * FOOT
"""Snow blows through beneath rows at least this high, §7.8 [m]."""


TORNADOES_COUNT = ("III", "IV")
"""Risk categories of which 7-22 asks for tornado loads, §32.1.1."""


def wind_remarks(
    site: Site, building: Building, field: Field, wind: ModuleWind, net_pressure: NetPressure
) -> Iterator[Remark]:
    """Of wind on the modules."""
    yield from wind.remarks
    if site.standard == SEVEN_22 and site.risk_category in TORNADOES_COUNT:
        words = f"tornado loads (chapter 32), which 7-22 asks of risk category {site.risk_category} in the tornado-prone region: not computed"
        yield Remark("tornado", "caution", words)
    if building.roof_shape == "hip":
        words = "which zones a hip roof has, and how wide, was seen in one public source only: check them against the printed figures"
        yield Remark("hip_zones", "caution", words)
    if wind.outside:
        return
    if field.modules > 1 and wind.exposed.all():
        reading = "every edge of the array counts" if site.array_edges == "safe" else "read to the letter"
        yield Remark("all_exposed", "note", f"every module counts as exposed at an edge of the array ({reading})")
    yield from _floored(field, wind, net_pressure)


def _floored(field: Field, wind: ModuleWind, net_pressure: NetPressure) -> Iterator[Remark]:
    """At a module's own area: where larger areas bring the floor in, the steps of that point show it."""
    every, area = np.arange(field.modules), np.full(field.modules, field.area / FOOT**2)
    for case, way in ((UP, "uplift"), (DOWN, "downward wind")):
        low = np.abs(net_pressure.reference_pressure * wind.coefficient(case, every, area)) < MIN_PRESSURE
        if low.any():
            who = "every module" if low.all() else f"{int(low.sum())} of {field.modules} modules"
            yield Remark(
                f"floor_{case.replace(' ', '_').lower()}",
                "note",
                f"the floor of {both(MIN_PRESSURE * PSF, 'pressure')} governs {way} on {who}",
            )


def snow_remarks(site: Site, job: Job, field: Field) -> Iterator[Remark]:
    """Of snow: what is not computed, and what is taken on the safe side."""
    building, attitude = job.building, field.attitude
    if site.ground_snow <= 0:
        return
    tilted, row = (
        abs(attitude.tilt) > array_flush.MAX_TILT,
        float(field.outlines.right.max() - field.outlines.left.min()),
    )
    if tilted and row > LONG_ROW and attitude.low < CLEAR_BENEATH:
        yield Remark("snow_drift", "caution", "snow drifts against tilted rows longer than 15 ft (§7.8): not computed")
    words = "snow that drifts from a higher roof nearby (§7.7), or slides off it (§7.9), is not covered: no such roof can be described"
    yield Remark("snow_higher_roof", "note", words)
    if building.parapet_height > 0:
        yield Remark("snow_drift_parapet", "caution", "snow drifts at parapets (§7.8): not computed")
    if building.roof_shape == "hip" and snow.has_unbalanced(building):
        yield Remark(
            "snow_drift_hip",
            "caution",
            "unbalanced snow is taken behind the ridge (§7.6.1); what drifts over the hips is not computed",
        )
    if snow.has_unbalanced(building):
        yield _ridge_drift(site, building, field)
    if site.standard == SEVEN_22 and building.thermal == "heated" and site.roof_thermal_resistance is None:
        words = "the heated roof's thermal resistance is not stated: Ct of the bare roof is taken as 1.2, the safe end of Table 7.3-3"
        yield Remark("snow_thermal", "note", words)


def _ridge_drift(site: Site, building: Building, field: Field) -> Remark:
    """How large the drift behind the ridge is, and how many modules it touches."""
    surcharge, reach = snow.ridge_drift(site, building.slope, building.run)
    to_ridge = (building.slope_length - field.outlines.high) * math.cos(math.radians(building.slope)) / FOOT
    touched = int((to_ridge < reach).sum())
    size, length = both(surcharge * PSF, "pressure"), both(reach * FOOT, "length")
    words = f"unbalanced snow (§7.6.1) adds {size} over {length} behind the ridge; {touched} of {field.modules} modules lie in it"
    if snow.is_narrow(building):
        words += ". So narrow a gable may carry all of the ground's snow on one side instead: the larger of both is taken at each place"
    return Remark("snow_unbalanced", "note", words)

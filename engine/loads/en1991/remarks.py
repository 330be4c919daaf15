"""Remarks on the loads for the reader."""

from __future__ import annotations

from collections.abc import Iterator

from engine.loads.en1991.array_wind import ArrayWind
from engine.loads.en1991.peak_velocity_pressure import height_of_roof, is_flat
from engine.loads.en1991.site import Site
from engine.loads.interface import Remark
from engine.mounting.layout import Field
from engine.project.building import Building
from engine.units import both

NEARLY_FIVE = 4.0
"""From this slope on a roof that counts as flat may really have 5 deg [deg] (judgement)."""


def remarks(site: Site, building: Building, field: Field, wind: ArrayWind) -> Iterator[Remark]:
    """Remarks on the wind, on snow, and on the national values."""
    yield from wind.remarks
    text = (
        "recommended values of EN 1991 used: check the national annex of the place, "
        "several have other coefficients and factors"
    )
    yield Remark("national", "caution", text)
    top = both(height_of_roof(building), "length")
    text = (
        f"the top of the building counts as {top}, building.mean_roof_height and half the rise: the eave's is too low"
    )
    yield Remark("height", "note", text)
    if building.slope >= NEARLY_FIVE and is_flat(building):
        text = (
            f"the slope of {building.slope:.1f} deg counts as flat; from 5 deg on other zones apply with suction up to "
            "a quarter larger: measure the slope"
        )
        yield Remark("nearly_five", "caution", text)
    if site.ground_snow > 0:
        where = "rows of modules" if field.attitude.tilt else "parapets"
        text = f"exceptional snow and drifts, such as those at {where}, not computed: the engineer adds them"
        yield Remark("snow_drift", "note", text)

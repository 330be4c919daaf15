"""Sites, buildings and zones by EN 1991 that tests share."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from engine.loads.en1991.coefficients import Coefficient
from engine.loads.en1991.roof_zones import SlopeZones, Zone
from engine.loads.en1991.site import Site
from engine.project.building import Building

SITE = {
    "standard": "EN 1991",
    "national": "recommended",
    "consequence_class": "CC2",
    "wind_speed": "25 m/s",
    "terrain": "II",
    "ground_snow": "0.65 kPa",
    "snow_exposure": "normal",
    "cp_net": "cautious fallback",
}


def site(**changes: object) -> Site:
    return Site.model_validate(SITE | changes)


def building(shape: str, slope: float, length: float, width: float, height: float, **changes: object) -> Building:
    """A building whose height is that of its top [m], as EN 1991 has it."""
    run = width / 2 if shape == "gable" else width
    mean = float(height - run * np.tan(np.radians(slope)) / 2)
    plain = {
        "length": f"{length} m",
        "width": f"{width} m",
        "mean_roof_height": f"{mean!r} m",
        "roof_shape": shape,
        "slope": f"{slope} deg",
    }
    return Building.model_validate(plain | changes)


@dataclass(frozen=True)
class Winds:
    """The zones of a building, by name, wind and sign."""

    of: Building

    def zones(self, name: str, wind: str = "") -> list[Zone]:
        return [zone for zone in SlopeZones.of(self.of).zones if zone.name == name and wind in zone.wind]

    def pair(self, name: str, wind: str = "", *, down: bool = False) -> tuple[float, float]:
        """cpe,10 and cpe,1 of a zone: of its suction, or of its pressure."""
        found: list[Coefficient] = [zone.coefficient for zone in self.zones(name, wind)]
        return (max if down else min)((each.pair for each in found), key=lambda pair: pair[0])

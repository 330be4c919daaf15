"""Snow, ASCE 7 chapter 7: balanced, minimum, with rain, and unbalanced on gables.

Pressures are of horizontal projection, in psf.
"""

from engine.loads.asce7.snow.balanced import flat_roof_snow, minimum_snow, rain_on_snow, slope_factor, sloped_snow
from engine.loads.asce7.snow.cases import Surface, cases, on_places
from engine.loads.asce7.snow.drift import density, drift_height, has_unbalanced, is_narrow, ridge_drift
from engine.loads.asce7.snow.thermal import heated_thermal_factor, roof_thermal_factor

__all__ = [
    "Surface",
    "cases",
    "density",
    "drift_height",
    "flat_roof_snow",
    "has_unbalanced",
    "heated_thermal_factor",
    "is_narrow",
    "minimum_snow",
    "on_places",
    "rain_on_snow",
    "ridge_drift",
    "roof_thermal_factor",
    "slope_factor",
    "sloped_snow",
]

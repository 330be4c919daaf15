"""Snow, ASCE 7 chapter 7: balanced, minimum, with rain, unbalanced on gables, drifts and sliding snow.

Pressures are of horizontal projection, in psf.
"""

from engine.loads.asce7.snow.balanced import flat_roof_snow, minimum_snow, rain_on_snow, slope_factor, sloped_snow
from engine.loads.asce7.snow.cases import BALANCED, Surface, cases, on_places
from engine.loads.asce7.snow.drift import density, drift_height, has_unbalanced, is_narrow, ridge_drift
from engine.loads.asce7.snow.sliding import slides, sliding_profile
from engine.loads.asce7.snow.step_drift import Snowpack, Step, leeward_profiles, windward_profiles
from engine.loads.asce7.snow.surcharge import Profile, Surcharge, largest_of_all, mean_of_all, plan_of
from engine.loads.asce7.snow.surcharge_cases import (
    ARRAY,
    LEEWARD,
    PARAPET,
    SLIDING,
    STEP,
    WINDWARD,
    snowpack,
    surcharge_cases,
    with_surcharge,
    without_array,
)
from engine.loads.asce7.snow.thermal import heated_thermal_factor, roof_thermal_factor

__all__ = [
    "ARRAY",
    "BALANCED",
    "LEEWARD",
    "PARAPET",
    "SLIDING",
    "STEP",
    "WINDWARD",
    "Profile",
    "Snowpack",
    "Step",
    "Surcharge",
    "Surface",
    "cases",
    "density",
    "drift_height",
    "flat_roof_snow",
    "has_unbalanced",
    "heated_thermal_factor",
    "is_narrow",
    "largest_of_all",
    "leeward_profiles",
    "mean_of_all",
    "minimum_snow",
    "on_places",
    "plan_of",
    "rain_on_snow",
    "ridge_drift",
    "roof_thermal_factor",
    "slides",
    "sliding_profile",
    "slope_factor",
    "sloped_snow",
    "snowpack",
    "surcharge_cases",
    "windward_profiles",
    "with_surcharge",
    "without_array",
]

"""Generated roofs, arrays and hardware for property tests.

A few hundred jobs, the same in every run; thousands of new ones with `--hypothesis-profile thousands`.
"""

from __future__ import annotations

from typing import Any

from hypothesis import HealthCheck, assume, settings
from hypothesis import strategies as st

from engine.common.errors import InputError
from engine.comparison.compare import Comparison, compare
from support import scenario_of
from support.balance import checked_columns

Changes = dict[str, Any]

THOUSANDS = settings.default.max_examples > 100


def cases(few: int) -> settings:
    """Settings of a test with a `few` generated cases, or as many as the profile has."""
    return settings(
        max_examples=settings.default.max_examples if THOUSANDS else few,
        derandomize=not THOUSANDS,
        deadline=None,
        suppress_health_check=[HealthCheck.too_slow, HealthCheck.filter_too_much],
    )


def lengths(low: int, high: int, unit: str) -> st.SearchStrategy[str]:
    """Lengths from low to high in steps of a tenth."""
    return st.integers(low * 10, high * 10).map(lambda tenths: f"{tenths / 10} {unit}")


STRUCTURE = {
    "hardware__bracket": "structure",
    "roof__support_spacing": "12 in",
    "module__clamp_zone": ["150 mm", "600 mm"],
}
DECK = {"roof__support": "wood deck", "roof__member": None}
RAFTERS = DECK | {
    "hardware__bracket": "rafter",
    "hardware__place": "pan",
    "hardware__attachment_uplift": {"lag": 1, "size": "5/16 in", "thread": "2 in", "specific_gravity": 0.42},
}
EUROPEAN = {"site__wind_speed_source": "the test", "building__enclosure": "enclosed"}
"""A job by EN 1991, at any wind speed."""

TERRAINS = {"B": "III", "C": "II", "D": "0"}
"""Exposure category of ASCE 7 → a terrain category of EN 1991."""

SITE_OF_BOTH = ("site__wind_speed", "site__ground_snow")
"""Inputs of the site that both standards have."""

ROOFS = st.sampled_from(
    [
        ("kestrel_yard", {}),
        ("heron_depot", {"array__keep_clear": None}),
        ("sparrow_lane", {}),
        ("wren_workshop", {}),
        ("wren_workshop", STRUCTURE),
        ("finch_shed", {}),
        ("plover_terrace", {}),
        ("swallow_cottage", DECK),
        ("swallow_cottage", RAFTERS),
        ("dunlin_hall", EUROPEAN),
        ("dunlin_hall", {**EUROPEAN, "site__cp_net": "cautious fallback"}),
    ]
)
SPACINGS = st.sampled_from(["fewest", "rail span", "1 ribs", "1.5 ribs", "2 ribs", "3 ribs"])
STAGGERING = st.sampled_from(["in line", "staggered"])
CHANGES = st.fixed_dictionaries(
    {
        "building__length": st.integers(55, 90).map("{} ft".format),
        "building__width": st.integers(40, 80).map("{} ft".format),
        "array__rows": st.integers(1, 3),
        "array__columns": st.integers(1, 5),
    },
    optional={
        "site__standard": st.sampled_from(["ASCE 7-16", "ASCE 7-22"]),
        "site__wind_speed": st.integers(85, 150).map("{} mph".format),
        "site__exposure": st.sampled_from("BCD"),
        "site__ground_snow": st.integers(0, 60).map("{} psf".format),
        "site__seismic_sds": st.sampled_from([0.2, 0.8, 1.6]),
        "site__array_edges": st.sampled_from(["safe", "literal"]),
        "building__slope": (st.integers(0, 70) | st.integers(0, 400)).map(lambda tenths: f"{tenths / 10} deg"),
        "building__mean_roof_height": st.integers(12, 60).map("{} ft".format),
        "building__roof_shape": st.sampled_from(["gable", "monoslope", "hip"]),
        "building__parapet_height": st.sampled_from(["0 ft", "2 ft", "4 ft"]),
        "building__enclosure": st.sampled_from(["enclosed", "partially enclosed"]),
        "roof__rib_spacing": lengths(12, 30, "in"),
        "roof__first_rib": lengths(0, 12, "in"),
        "roof__support_spacing": lengths(2, 5, "ft"),
        "roof__first_support": lengths(0, 1, "ft"),
        "roof__support": st.sampled_from(["purlin", "wood deck"]),
        "module__mass": st.integers(12, 40).map("{} kg".format),
        "array__origin": st.tuples(lengths(3, 25, "ft"), lengths(3, 12, "ft")).map(list),
        "array__gap": lengths(0, 2, "in"),
        "array__height_above_roof": lengths(5, 10, "in"),
        "array__keep_clear": st.just([{"at": ["12 ft", "9 ft"], "size": ["3 ft", "3 ft"], "name": "hatch"}]),
        "hardware__attachment_height": lengths(0, 4, "in"),
        "hardware__clip_clearance": st.just("3 in"),
        "hardware__rail__longest_run": lengths(8, 20, "ft"),
        "hardware__rack_beam__longest_run": lengths(8, 20, "ft"),
        "methods__rail__spacing": SPACINGS,
        "methods__rail__runs": st.sampled_from(["along the eave", "up the slope"]),
        "methods__rail__rails_per_row": st.sampled_from([2, 3]),
        "methods__rail__rail_place": st.sampled_from(["middle", "outer", "toward eave"]),
        "methods__rail__lines": STAGGERING,
        "methods__tilted_rack__spacing": SPACINGS,
        "methods__tilted_rack__tilt": st.integers(3, 30).map("{} deg".format),
        "methods__tilted_rack__net_coefficient": st.sampled_from([0.6, 1.4]),
        "methods__tilted_rack__low_side": st.sampled_from(["eave", "ridge"]),
        "methods__tilted_rack__lines": STAGGERING,
        "methods__direct__spacing": st.sampled_from(["fewest", "2 per edge", "3 per edge"]),
    },
)


def _changed(job: tuple[tuple[str, Changes], Changes]) -> tuple[str, Changes]:
    """A roof with the changes that its load standard knows."""
    (name, of_roof), changes = job
    if name != "dunlin_hall":
        return name, {**changes, **of_roof}
    fitting = {key: value for key, value in changes.items() if not key.startswith("site__") or key in SITE_OF_BOTH}
    if "site__exposure" in changes:
        fitting["site__terrain"] = TERRAINS[changes["site__exposure"]]
    if fitting.get("building__roof_shape") == "hip":
        fitting["building__roof_shape"] = "monoslope"
    return name, {**fitting, **of_roof}


JOBS = st.tuples(ROOFS, CHANGES).map(_changed)
"""Name of a bundled scenario, and the inputs changed in it."""

EVERY_RIB: Changes = {
    "methods__rail__spacing": "1 ribs",
    "methods__tilted_rack__spacing": "1 ribs",
    "methods__direct__spacing": "2 per edge",
}
FEWEST: Changes = dict.fromkeys(EVERY_RIB, "fewest")


def comparison_of(name: str, changes: Changes, **more: object) -> Comparison:
    """Comparison of a generated job with `more` inputs changed; jobs that the reader refuses are skipped."""
    try:
        return compare(scenario_of(name, **{**changes, **more}))
    except InputError:
        assume(False)
        raise


def utilisations(comparison: Comparison) -> dict[tuple[str, str], float]:
    """Method and link → utilisation."""
    return {
        (column.id, check.link): check.utilisation
        for column in checked_columns(comparison)
        for check in column.checks.values()
        if check.utilisation is not None
    }

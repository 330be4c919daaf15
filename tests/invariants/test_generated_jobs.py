"""The same laws on roofs, arrays and hardware that nobody drew: a few dozen here, thousands with `--hypothesis-profile thousands`."""

from __future__ import annotations

import pytest
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st

from balance import EVERYTHING, followed
from engine.comparison import Comparison, compare
from engine.errors import InputError
from engine.units import FOOT
from support import scenario_of

GENERATED = settings(
    max_examples=settings.default.max_examples // 10,
    deadline=None,
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.filter_too_much],
)
NAMES = ("kestrel_yard", "heron_depot", "sparrow_lane", "wren_workshop", "plover_terrace")


def lengths(low: int, high: int, unit: str) -> st.SearchStrategy[str]:
    return st.integers(low * 10, high * 10).map(lambda tenths: f"{tenths / 10} {unit}")


CHANGES = st.fixed_dictionaries(
    {},
    optional={
        "site__standard": st.sampled_from(["ASCE 7-16", "ASCE 7-22"]),
        "site__wind_speed": st.integers(85, 150).map("{} mph".format),
        "site__exposure": st.sampled_from("BCD"),
        "site__ground_snow": st.integers(0, 60).map("{} psf".format),
        "building__slope": st.integers(0, 400).map(lambda tenths: f"{tenths / 10} deg"),
        "building__mean_roof_height": st.integers(12, 60).map("{} ft".format),
        "building__roof_shape": st.sampled_from(["gable", "monoslope", "hip"]),
        "building__parapet_height": st.sampled_from(["0 ft", "2 ft", "4 ft"]),
        "methods__rail__runs": st.sampled_from(["along the eave", "up the slope"]),
        "roof__rib_spacing": lengths(12, 30, "in"),
        "roof__first_rib": lengths(0, 12, "in"),
        "roof__support_spacing": lengths(2, 5, "ft"),
        "roof__first_support": lengths(0, 1, "ft"),
        "roof__support": st.sampled_from(["purlin", "wood deck"]),
        "module__mass": st.integers(12, 40).map("{} kg".format),
        "array__origin": st.tuples(lengths(3, 30, "ft"), lengths(3, 15, "ft")).map(list),
        "array__gap": lengths(0, 4, "in"),
        "array__height_above_roof": lengths(5, 10, "in"),
        "methods__rail__rails_per_row": st.sampled_from([2, 3]),
        "methods__tilted_rack__tilt": st.integers(3, 30).map("{} deg".format),
        "methods__tilted_rack__low_side": st.sampled_from(["eave", "ridge"]),
        "methods__direct__spacing": st.sampled_from(["fewest", "2 per edge", "3 per edge"]),
    },
)
SIZES = {
    "building__length": st.integers(45, 70).map("{} ft".format),
    "building__width": st.integers(30, 50).map("{} ft".format),
    "array__rows": st.integers(1, 3),
    "array__columns": st.integers(1, 5),
}


def comparison_of(name: str, **changes: object) -> Comparison:
    """A generated job compared; what the reader refuses is no job."""
    try:
        return compare(scenario_of(name, **changes))
    except InputError:
        assume(False)
        raise


@given(st.sampled_from(NAMES), CHANGES, st.fixed_dictionaries(SIZES))
@GENERATED
def test_balance_of_any_job(name: str, changes: dict[str, object], size: dict[str, object]) -> None:
    comparison = comparison_of(name, **changes, **size)
    for check in EVERYTHING:
        check(comparison)


def used(comparison: Comparison) -> dict[tuple[str, str], float]:
    """Method and link → utilisation."""
    return {
        (column.id, check.link): check.utilisation
        for column in followed(comparison)
        for check in column.links
        if check.utilisation is not None
    }


EVERY_RIB = {"methods__rail__spacing": "1 ribs", "methods__tilted_rack__spacing": "1 ribs", "methods__direct__spacing": "2 per edge"}


@given(st.sampled_from(NAMES), CHANGES, st.fixed_dictionaries(SIZES), st.integers(85, 140), st.integers(1, 40))
@GENERATED
def test_what_the_wind_lifts_more_wind_never_lifts_less(
    name: str, changes: dict[str, object], size: dict[str, object], speed: int, more: int
) -> None:
    """At fixed spacings, wherever an uplift combination governs; wind that presses down may relieve a pull."""
    job = {**changes, **size, **EVERY_RIB}
    calm = comparison_of(name, **{**job, "site__wind_speed": f"{speed} mph"})
    windy = used(comparison_of(name, **{**job, "site__wind_speed": f"{speed + more} mph"}))
    for column in followed(calm):
        for check in column.links:
            if check.link in ("clamp", "roof_fastening") and check.utilisation is not None and "W up" in check.combination:
                assert windy[column.id, check.link] >= check.utilisation - 1e-9, (column.id, check.link)


@given(st.sampled_from(NAMES), CHANGES, st.fixed_dictionaries(SIZES), st.integers(50, 90), st.floats(5, 15), st.integers(30, 60))
@GENERATED
def test_the_unit_a_length_is_written_in_changes_nothing(
    name: str, changes: dict[str, object], size: dict[str, object], length: int, x: float, ribs: int
) -> None:
    """One foot is 0.3048 m, exactly (NIST Special Publication 811, B.8)."""
    feet = {"building__length": f"{length} ft", "array__origin": [f"{x} ft", "12 ft"], "roof__rib_spacing": f"{ribs / 3} in"}
    metric = {
        "building__length": f"{length * FOOT!r} m",
        "array__origin": [f"{x * FOOT!r} m", f"{12 * FOOT!r} m"],
        "roof__rib_spacing": f"{ribs / 3 * 25.4!r} mm",
    }
    one, other = (used(comparison_of(name, **{**changes, **size, **EVERY_RIB, **written})) for written in (feet, metric))
    assert one == pytest.approx(other, rel=1e-6)


@given(st.integers(30, 60), st.integers(20, 96), st.fixed_dictionaries(SIZES), st.integers(0, 30), st.integers(4, 60))
@GENERATED
def test_the_mirror_image_of_any_field_on_any_ribs(ribs: int, spacing: int, size: dict[str, int], slope: int, tenths: int) -> None:
    """Ribs lie evenly from rake to rake; a rack on every rib, and its image as far from the right rake."""
    module, gap = 1.722 / FOOT, 0.5 / 12
    length, wide = ribs * spacing / 48, size["array__columns"] * (module + gap) - gap
    left = tenths / 10
    assume(left + wide < length)
    job = {
        **size,
        **EVERY_RIB,
        "building__slope": f"{slope} deg",
        "roof__rib_spacing": f"{spacing / 4} in",
        "building__length": f"{length!r} ft",
    }
    one, image = (used(comparison_of("kestrel_yard", **job, array__origin=[f"{at!r} ft", "12 ft"])) for at in (left, length - left - wide))
    for key, before in one.items():
        if key[0] == "tilted_rack":
            assert image[key] == pytest.approx(before, rel=1e-6, abs=1e-9), key


def test_a_clamp_that_a_far_load_relieves_has_an_area() -> None:
    """Rails up the slope under one column, which no job above has. Shares keep their sign; an effective wind area cannot."""
    small = {"building__length": "45 ft", "building__width": "30 ft", "array__rows": 2, "array__columns": 1}
    up = {"methods__rail__runs": "up the slope", "array__origin": ["5.1 ft", "6 ft"]}
    compare(scenario_of("sparrow_lane", **small, **up), ("rail",))

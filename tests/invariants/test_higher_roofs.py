"""Laws of snow beside a higher roof, on generated jobs: it never relieves a link, and no snow means no change."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from support.balance import CHECKS, checked_designs
from support.generated import EVERY_RIB, JOBS, Changes, cases, comparison_of, utilisations

HIGHER = st.fixed_dictionaries(
    {
        "side": st.sampled_from(["eave", "ridge", "left rake", "right rake"]),
        "height": st.integers(1, 20).map("{} ft".format),
        "upwind_length": st.integers(20, 200).map("{} ft".format),
        "distance": st.sampled_from(["0 ft", "0 ft", "6 ft"]),
        "slope": st.integers(0, 45).map("{} deg".format),
        "ridge_distance": st.just("20 ft"),
        "slippery": st.booleans(),
    }
)


@given(JOBS, HIGHER)
@cases(12)
def test_a_higher_roof_never_lowers_a_utilisation(job: tuple[str, Changes], higher: dict[str, object]) -> None:
    (name, changes) = job
    plain = comparison_of(name, {**changes, **EVERY_RIB})
    beside = comparison_of(name, {**changes, **EVERY_RIB}, building__higher_roofs=[higher])
    before, after = utilisations(plain), utilisations(beside)
    for link, utilisation in before.items():
        assert after[link] >= utilisation - 1e-9, link


@given(JOBS, HIGHER)
@cases(6)
def test_its_loads_leave_the_load_path_at_every_link(job: tuple[str, Changes], higher: dict[str, object]) -> None:
    (name, changes) = job
    comparison = comparison_of(name, {**changes, **EVERY_RIB}, building__higher_roofs=[higher])
    for check in CHECKS:
        check(comparison)


@given(JOBS, HIGHER)
@cases(5)
def test_without_snow_it_changes_nothing(job: tuple[str, Changes], higher: dict[str, object]) -> None:
    (name, changes) = job
    dry = {**changes, **EVERY_RIB, "site__ground_snow": "0 psf"}
    plain, beside = comparison_of(name, dry), comparison_of(name, dry, building__higher_roofs=[higher])
    for (_, one), (_, other) in zip(checked_designs(plain), checked_designs(beside), strict=True):
        np.testing.assert_array_equal(one.module_pressure, other.module_pressure)
    assert utilisations(plain) == pytest.approx(utilisations(beside))

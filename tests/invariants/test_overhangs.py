"""Laws of overhangs, on generated jobs: more suction on them, equilibrium, symmetry, and no attachment unasked."""

from __future__ import annotations

import numpy as np
from hypothesis import assume, given
from hypothesis import strategies as st

from engine.common.arrays import Floats
from engine.comparison.compare import Comparison
from engine.units import FOOT
from support.balance import CHECKS, checked_designs
from support.generated import EVERY_RIB, JOBS, Changes, cases, comparison_of

OVERHANG = st.fixed_dictionaries(
    {
        "eave": st.integers(1, 5).map("{} ft".format),
        "rake": st.integers(0, 5).map("{} ft".format),
        "soffit": st.sampled_from(["open", "closed"]),
    }
)
WIDE: Changes = {
    **EVERY_RIB,
    "building__parapet_height": "0 ft",
    "building__length": "90 ft",
    "building__width": "80 ft",
}


def overhang_of(changes: Changes, overhang: Changes) -> Changes:
    """No rake on a hip roof."""
    return overhang | {"rake": "0 ft"} if changes.get("building__roof_shape") == "hip" else overhang


@given(JOBS, OVERHANG, st.booleans())
@cases(10)
def test_loads_leave_the_load_path_at_every_link(job: tuple[str, Changes], overhang: Changes, allowed: bool) -> None:
    (name, changes) = job
    given_ = {**overhang_of(changes, overhang), "attachments": allowed}
    comparison = comparison_of(name, {**changes, **WIDE}, building__overhang=given_)
    for check in CHECKS:
        check(comparison)


@given(JOBS, OVERHANG)
@cases(10)
def test_no_attachment_stands_beyond_a_wall(job: tuple[str, Changes], overhang: Changes) -> None:
    (name, changes) = job
    comparison = comparison_of(name, {**changes, **WIDE}, building__overhang=overhang_of(changes, overhang))
    found = list(checked_designs(comparison))
    assume(found)
    for _, demands in found:
        building, at = demands.job.building, demands.layout.attachments
        assert not building.overhangs_at(at.x, at.y, at.x, at.y).any()


@given(JOBS, OVERHANG)
@cases(10)
def test_it_never_lowers_the_suction_on_a_fastening(job: tuple[str, Changes], overhang: Changes) -> None:
    """Against the same roof and the same zones; the walls' distance sets the width of strips, which is held here."""
    (name, changes) = job
    given_ = {**overhang_of(changes, overhang), "attachments": True}
    same_strips = {**changes, **WIDE, "building__mean_roof_height": "12 ft", "building__length": "120 ft"}
    plain = comparison_of(name, {**same_strips, "building__width": "120 ft"})
    hangs = comparison_of(name, {**same_strips, "building__width": "120 ft"}, building__overhang=given_)
    assume(suctions(plain))
    for calm, more in zip(suctions(plain), suctions(hangs), strict=True):
        assert (more <= calm + 1e-9).all()
        # Up to 7 deg the figure's curve for overhangs begins at the roof's own coefficient.
        assert (more < calm - 1e-9).any() or hangs.scenario.job.building.slope <= 7


def suctions(comparison: Comparison) -> list[Floats]:
    """Uplift on every fastening without the array (Q, F) [N], of each method that was checked."""
    return [demands.roof.cases_alone["W up"] for _, demands in checked_designs(comparison)]


@given(JOBS, OVERHANG)
@cases(6)
def test_left_and_right_are_alike(job: tuple[str, Changes], overhang: Changes) -> None:
    (name, changes) = job
    given_ = overhang_of(changes, overhang)
    length = 90 * FOOT
    even = {**changes, **WIDE, "roof__rib_spacing": "24 in", "roof__first_rib": "12 in"}
    comparison = comparison_of(name, even, building__overhang=given_)
    for _, demands in checked_designs(comparison):
        roof = demands.roof
        assert np.allclose(roof.ribs, length - roof.ribs[::-1])
        np.testing.assert_allclose(roof.without_array, roof.without_array[::-1], atol=1e-6)

"""Symmetry: the mirror image of a job has the mirror image of its results."""

from __future__ import annotations

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from engine.comparison.compare import Comparison, compare
from engine.comparison.figures import value_of
from engine.units import FOOT
from support import scenario_of
from support.generated import EVERY_RIB, JOBS, Changes, cases, comparison_of, utilisations

SQUARE: Changes = {
    "array__gap": "0.5 in",
    "module__clamp_zone": ["150 mm", "600 mm"],
    "module__edge_support": ["100 mm", "600 mm"],
    "hardware__rail__longest_run": None,
    "hardware__rack_beam__longest_run": None,
}
"""Square modules give all methods fields of equal width; runs are not divided, because that begins at the left."""


@given(
    JOBS,
    st.sampled_from(["1 ribs", "1.5 ribs", "2 ribs", "3 ribs", "fewest"]),
    st.integers(24, 50),
    st.integers(96, 192),
    st.integers(1200, 1800),
    st.integers(40, 250),
)
@cases(200)
def test_the_mirror_image_of_any_job_has_the_same_utilisations(
    job: tuple[str, Changes], step: str, bays: int, eighths: int, side: int, tenths: int
) -> None:
    """Ribs are evenly spaced from rake to rake.

    At every rib all utilisations agree; at wider spacings, with ribs left over, and at those that the search finds, the
    numbers of attachments agree.
    Where no pattern holds, the least overloaded is shown, and patterns are counted from the left: on an even number of
    seams its image may be another one, with another number of attachments.
    Staggered rails up the slope alternate from the left rake on, so that an image may begin with the other pattern:
    here they are in line.
    """
    (name, changes), module, gap = job, side / 1000 / FOOT, 0.5 / 12
    length, wide, left = bays * eighths / 96, changes["array__columns"] * (module + gap) - gap, tenths / 10
    assume(left + wide < length)
    same = {
        **changes,
        **SQUARE,
        **EVERY_RIB,
        "methods__rail__spacing": step,
        "methods__tilted_rack__spacing": step,
    }
    if step == "fewest":
        same["methods__direct__spacing"] = step
    same |= {"roof__first_rib": "0 in", "roof__rib_spacing": f"{eighths / 8} in", "building__length": f"{length!r} ft"}
    same |= {"module__length": f"{side} mm", "module__width": f"{side} mm"}
    if same.get("methods__rail__runs") == "up the slope":
        same["methods__rail__lines"] = "in line"

    def at(left: float, hatch: float, rafter: float) -> Changes:
        clear = [{"at": [f"{hatch!r} ft", "9 ft"], "size": ["3 ft", "3 ft"], "name": "hatch"}]
        rafters = {"roof__rafters__first": f"{rafter!r} ft"} if same.get("hardware__bracket") == "rafter" else {}
        return {"array__origin": [f"{left!r} ft", "6 ft"], "array__keep_clear": clear, **rafters}

    hatch, rafter = left + wide - 2, 22.5 / 12  # rafters 2 ft apart
    one, image = (
        comparison_of(name, same, **at(*places))
        for places in ((left, hatch, rafter), (length - left - wide, length - hatch - 3, (length - rafter) % 2))
    )
    for column, mirrored in zip(one.columns, image.columns, strict=True):
        assert (column.status, value_of(column, "modules")) == (mirrored.status, value_of(mirrored, "modules")), (
            column.id
        )
        if column.status.nothing_over:
            assert value_of(column, "attachments") == value_of(mirrored, "attachments"), column.id
    if step == "1 ribs":
        assert utilisations(one) == pytest.approx(utilisations(image), rel=1e-6, abs=1e-9)
        assert _within_tolerance(one) == pytest.approx(_within_tolerance(image), rel=1e-6, abs=1e-9)


def _within_tolerance(comparison: Comparison) -> list[float]:
    """Largest utilisation of each method that holds, set out inaccurately."""
    return [column.within_tolerance.utilisation for column in comparison.columns if column.within_tolerance]


@pytest.mark.parametrize("edition", ["ASCE 7-16", "ASCE 7-22"])
def test_the_mirror_image_of_a_large_roof_has_the_same_utilisations(edition: str) -> None:
    """24 columns at 41.3 ft from the left rake, and from the right one.

    Rails are left out: their portrait field has another width.
    """
    wide = 24 * 1722 / 304.8 + 23 * 0.5 / 12
    stated = {"site__standard": edition, "methods__direct__spacing": "3 per edge"}
    left, right = (
        compare(scenario_of(**stated, array__origin=[f"{place:.6f} ft", "15.5 ft"]), ("tilted_rack", "direct"))
        for place in (41.3, 220 - 41.3 - wide)
    )
    assert [value_of(column, "attachments") for column in left.columns] == [
        value_of(column, "attachments") for column in right.columns
    ]
    assert utilisations(left) == pytest.approx(utilisations(right), rel=1e-6)
    assert _within_tolerance(left) == pytest.approx(_within_tolerance(right), rel=1e-6)

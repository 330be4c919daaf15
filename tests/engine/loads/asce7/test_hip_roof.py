"""Hip roofs: panels end at the hip, modules lie on one slope, and what is near a hip is told so. Geometry is the outside check."""

from __future__ import annotations

import math

import numpy as np
import pytest

from engine.common.errors import InputError
from engine.comparison.compare import Column, Comparison, compare
from engine.comparison.figures import value_of
from engine.comparison.roof_plan import plan
from engine.statics.rib_supports import group_ribs
from support import scenario_of

FOOT = 0.3048
HIP = {
    "building__roof_shape": "hip",
    "site__standard": "ASCE 7-22",
    "building__slope": "4:12",
    "array__columns": 14,
    "roof__fixed_point": {"in_plane": {"allowable": "1500 lb"}},
}
COSINE = 3 / math.sqrt(10)


def compared(**changes: object) -> Comparison:
    return compare(scenario_of(**{**HIP, "array__origin": ["70 ft", "15.5 ft"], **changes}), ("rail", "direct"))


def direct(**changes: object) -> Column:
    return compared(**changes).columns[1]


def test_panels_end_at_the_hip() -> None:
    """220 by 110 ft, seams every 2 ft: the one 20 ft from the corner is 20 / cos ft long, its last clip 6 in short of the hip."""
    job = scenario_of(**HIP).job
    levels, rib_groups = group_ribs(job)
    ribs = job.roof.ribs(job.building)
    (tenth,) = (these for these in rib_groups if 10 in these.ribs)
    assert ribs[10] == pytest.approx(20 * FOOT)
    np.testing.assert_array_equal(tenth.ribs, [10, 100])
    assert tenth.high[-1] == pytest.approx(20 / COSINE * FOOT, abs=1e-5)
    np.testing.assert_allclose(tenth.y / FOOT, [1, 6, 11, 16, 20 / COSINE - 0.5], atol=1e-5)
    np.testing.assert_allclose(levels[tenth.levels], tenth.y, atol=2e-6)
    is_fastened = sum(float((these.high[-1]) * len(these.ribs)) for these in rib_groups) * 2 * FOOT
    trapezoid = (220 + 110) / 2 * 55 / COSINE * FOOT**2
    assert is_fastened == pytest.approx(trapezoid, rel=0.002)


def test_seams_that_end_at_the_hip_are_followed_with_their_own_clips() -> None:
    """Forces and moments along every seam, those under the hip among them."""
    column = direct(array__origin=["32 ft", "3 ft"], array__rows=5)
    assert column.design
    assert column.design.candidate
    demands, attachments = column.design.candidate.demands, column.design.layout.attachments
    assert len({tuple(is_fastened) for is_fastened in demands.is_fastened}) > 3
    for row, rib in enumerate(demands.rib):
        here = attachments.rib == rib
        brought, normal = demands.fastening_from_attachments[row], demands.attachment_normal[here]
        np.testing.assert_allclose(brought.sum(axis=0), normal.sum(axis=0), rtol=1e-9, atol=1e-6)
        turned = (attachments.y[here, None] * normal - attachments.height * demands.attachment_in_plane[here]).sum(
            axis=0
        )
        np.testing.assert_allclose((demands.fastening_y[:, None] * brought).sum(axis=0), turned, rtol=1e-9, atol=1e-6)
        assert not brought[~demands.is_fastened[row]].any()


WIDE = (14 * 1722 + 13 * 12.7) / 304.8
"""Width of 14 modules side by side [ft]."""


@pytest.mark.parametrize("origin", [30.0, 220 - 30 - WIDE], ids=["left", "right"])
def test_modules_beyond_a_hip_are_refused_by_how_far(origin: float) -> None:
    """The upper outer corner of six rows from 15.5 ft: 37.93 ft up, so the hip is 37.93 cos ft from the corner there."""
    column = direct(array__origin=[f"{origin:.9f} ft", "15.5 ft"])
    assert column.status == "refused"
    high = 15.5 + (6 * 1134 + 5 * 12.7) / 304.8
    beyond = (high * COSINE - 30) / math.hypot(1, COSINE)
    assert f"reaches {beyond:.2f} ft" in column.flags[0].text
    assert "beyond the hip" in column.flags[0].text


@pytest.mark.parametrize("origin", [4.0, 220 - 4 - WIDE], ids=["left", "right"])
def test_panels_too_short_for_two_clips_at_a_hip_are_refused(origin: float) -> None:
    """One row along the eave, 4 ft from the hip's foot: the panel there is 4 / cos = 4.22 ft long.

    Two clips need the first 1 ft, the last 6 in and a quarter of their 12 ft, 4.50 ft in all. The row itself is 3.72 ft
    deep and lies on the slope.
    """
    clips = {"roof__support_spacing": "12 ft", "roof__fastening__uplift": {"allowable": "390 lb"}}
    column = direct(array__origin=[f"{origin:.9f} ft", "0 ft"], array__rows=1, **clips)
    assert column.status == "refused"
    words = column.flags[0].text
    assert f"Panels under the array end at the hip, {4 / COSINE:.2f} ft" in words
    assert "two fastenings need 4.50 ft" in words


def test_too_near_the_hip_is_outside_the_clause() -> None:
    """§29.4.4 asks for twice the height from edge, ridge and hip."""
    high = 15.5 + (6 * 1134 + 5 * 12.7) / 304.8
    column = direct(array__origin=[f"{high * COSINE + 0.5:.3f} ft", "15.5 ft"])
    assert column.status == "outside scope"
    assert "from the left hip, the minimum is" in column.flags[0].text


def test_setbacks_count_from_the_hip() -> None:
    texts = [flag.text for flag in direct(array__setbacks={"rakes": "30 ft"}).flags if flag.code == "setback"]
    assert len(texts) == 1
    assert "nearer to the hips than the stated setback of 30.00 ft" in texts[0]


def test_its_mirror_image_asks_the_same() -> None:
    left, right = (direct(array__origin=[f"{x:.9f} ft", "15.5 ft"]) for x in (50.3, 220 - 50.3 - WIDE))
    assert value_of(left, "bare_roof_utilisation") == pytest.approx(value_of(right, "bare_roof_utilisation"))
    for check, image in zip(left.checks.values(), right.checks.values(), strict=True):
        if check.utilisation is not None:
            assert image.utilisation == pytest.approx(check.utilisation, rel=1e-6), check.link


def test_what_was_seen_once_is_said() -> None:
    codes = {flag.code for flag in direct().flags}
    assert {"hip_zones", "snow_drift_hip"} <= codes
    scenario = scenario_of(**HIP)
    assert any("hip roofs" in reference.clause for reference in scenario.standard.unverified)


def test_the_older_edition_is_refused_with_the_reason() -> None:
    with pytest.raises(InputError, match="figures were seen in one source only"):
        compared(site__standard="ASCE 7-16")


def test_the_plan_shows_the_hips() -> None:
    """Zones cover the slope and, but for stairs along the hips, nothing beyond it."""
    comparison = compared()
    design = comparison.columns[1].design
    assert design
    drawn = plan(design)
    lines = np.column_stack([drawn.borders.x1, drawn.borders.y1, drawn.borders.x2, drawn.borders.y2]) / FOOT
    assert any(np.allclose(line, [0, 0, 55, 55 / COSINE]) for line in lines)
    assert any(np.allclose(line, [220, 0, 165, 55 / COSINE]) for line in lines)
    at = drawn.roof_zones.places
    area = float(((at.right - at.left) * (at.high - at.low)).sum()) / FOOT**2
    trapezoid = 165 * 55 / COSINE
    assert trapezoid < area < 1.06 * trapezoid

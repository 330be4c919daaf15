"""Arrays set out inaccurately: how far seams lie from their places, and the loads that follow, by hand."""

from __future__ import annotations

import numpy as np
import pytest

from engine import links
from engine.comparison.compare import compare
from engine.design.design import Design
from engine.design.elsewhere import (
    CORNERS,
    DRIFTED_CORNERS,
    SetOut,
    largest_drift,
    largest_offset,
    same_layout_at,
    set_out_at,
)
from engine.design.shared_roof import SharedRoof
from engine.units import FOOT, INCH
from support import scenario_of


def design_of(method: str, name: str = "kestrel_yard", **changes: object) -> Design:
    found = compare(scenario_of(name, **changes), (method,)).columns[0].design
    assert found
    return found


@pytest.mark.parametrize("along", [-1.0, -0.5, 0.5, 1.0])
def test_a_seam_is_off_by_the_tolerance_and_its_share_for_each_since_the_nearest_measured(along: float) -> None:
    """24 modules of 1,722 mm with gaps of 0.5 in from 40 ft on: seams are measured at both edges and in the middle.

    On the way from one of these to the next the drift grows for every 24 in up to midway, and shrinks again.
    """
    design = design_of("direct")
    left, wide = 40 * FOOT, 24 * 1.722 + 23 * 0.5 * INCH
    before = design.job.ribs
    off = along * INCH - (set_out_at((along, 0.0, along), design).ribs - before)
    measured = left + along * INCH + np.array([0.0, wide / 2, wide])
    since = np.abs(before[:, None] - measured).min(axis=1) / (24 * INCH)
    under = (before >= measured[0]) & (before <= measured[-1])
    np.testing.assert_allclose(off, along * (INCH + np.where(under, since, 0) * INCH / 16), rtol=0, atol=1e-12)
    assert largest_drift(design) == pytest.approx(wide / 4 / (24 * INCH) * INCH / 16)
    assert largest_offset(design) == pytest.approx(INCH + largest_drift(design))


def test_a_rail_on_two_seams_that_drift_has_the_reactions_of_the_lever_rule() -> None:
    """One module of 1,134 mm whose edge is 2.4 in left of a seam; its rails stand on this seam and on the next.

    Set out an inch to the right, with seams that drift 1 in each, the far seam has more of the load: the rail begins
    1.4 in left of the first seam. A quarter of 1,134 mm is 0.465 of 24 in, so midway between measured seams the drift is
    0.465 in.
    """
    small = {"array__rows": 1, "array__columns": 1, "array__origin": ["39.8 ft", "20 ft"]}
    stated = {"placement__tolerance_per_seam": "1 in", "methods__rail__spacing": "1 ribs"}
    design = design_of("rail", **small, **stated)
    there = same_layout_at(set_out_at((1.0, 0.0, 1.0), design), design, scenario_of().standard, SharedRoof())
    assert there

    long = 1134 / 25.4
    near, far = 1.4, 25.4
    quarter = long / 4
    near -= near / quarter * quarter / 24
    far -= (far - long / 2) / quarter * quarter / 24
    of_far = [(long / 2 - 2.4) / 24, (long / 2 - near) / (far - near)]
    np.testing.assert_allclose(np.unique(there.layout.attachments.x) / INCH, 12 * 39.8 + 1 + np.array([near, far]))
    used = [each.candidate.check(links.attachment.LINK).ratio for each in (design, there) if each.candidate]
    assert used[1] / used[0] == pytest.approx(of_far[1] / of_far[0], rel=1e-9)


@pytest.mark.parametrize("method", ["rail", "tilted_rack", "direct"])
def test_seams_that_drift_never_make_it_better(method: str) -> None:
    """Largest utilisation of one layout within its tolerance, with seams in their places and with more and more drift."""
    used = [
        compare(scenario_of(placement__tolerance_per_seam=f"{drift} in"), (method,)).columns[0].within_tolerance
        for drift in (0, 0.0625, 0.25, 1)
    ]
    exact, *drifted = (each.utilisation for each in used if each)
    assert exact <= min(drifted)


def test_seams_drift_and_the_ribs_of_sheets_do_not() -> None:
    sheets = design_of("rail", "finch_shed")
    assert not sheets.job.roof.floats
    assert largest_offset(sheets) == pytest.approx(INCH)
    assert set_out_at((1.0, 1.0, 1.0), sheets).seam_drift is None


@pytest.mark.parametrize(
    ("name", "method", "changes"),
    [
        ("kestrel_yard", "direct", {}),
        pytest.param(
            "kestrel_yard",
            "direct",
            {"array__origin": ["40 ft", "10 ft"], "placement__tolerance": "6 in"},
            id="modules in other zones",
        ),
        pytest.param(
            "kestrel_yard", "rail", {"placement__tolerance": "12 in"}, id="seams elsewhere with the same loads"
        ),
        pytest.param("finch_shed", "rail", {"methods__rail__runs": "up the slope"}, id="rails up the slope"),
        pytest.param("heron_depot", "tilted_rack", {}, id="snow that differs from place to place"),
        pytest.param("plover_terrace", "direct", {}, id="members whose spans are stated"),
    ],
)
def test_places_that_share_work_have_the_verdicts_they_have_alone(
    name: str, method: str, changes: dict[str, object]
) -> None:
    design, standard = design_of(method, name, **changes), scenario_of(name, **changes).standard
    shared = SetOut(design, standard, SharedRoof())
    for place in (*CORNERS, *DRIFTED_CORNERS):
        alone = same_layout_at(set_out_at(place, design), design, standard, SharedRoof())
        assert alone
        assert shared.verdict_at(place).status == alone.status
        assert shared.verdict_at(place).utilisation == pytest.approx(alone.verdict.utilisation, rel=1e-12)
        assert shared.verdict_at(place).component == alone.verdict.component

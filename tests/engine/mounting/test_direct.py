"""Modules mounted directly on ribs: choice of crossings for a long edge, by the statics of simple beams."""

from __future__ import annotations

import numpy as np
import pytest

from engine.mounting.direct import Direct, best_crossings
from engine.mounting.interface import Refusal
from engine.project.job import Job
from support import scenario_of

EDGE = {"module__length": "2 m", "module__edge_support": ["200 mm", "600 mm"]}


def job(**changes: object) -> Job:
    return scenario_of(**EDGE | changes).job


@pytest.mark.parametrize(
    ("ribs", "min_attachments", "expected"),
    [
        pytest.param([0.3, 0.5, 1.5], 2, [0.5, 1.5], id="halves rather than 5 to 7"),
        pytest.param([0.25, 0.35, 1.5, 1.7], 2, [0.25, 1.7], id="the middle of the edge nearest to theirs"),
        pytest.param([0.2, 0.6, 1.4, 1.8], 2, [0.2, 1.8], id="of equals the outermost"),
        pytest.param([0.1, 0.2, 1.8, 1.9], 2, [0.2, 1.8], id="no nearer to a corner than allowed"),
        pytest.param([0.6, 0.7, 1.3, 1.4], 2, [0.6, 1.4], id="no farther from it than allowed"),
        pytest.param([0.2, 0.6, 1.4, 1.8], 4, [0.2, 0.6, 1.4, 1.8], id="as many as asked for"),
        pytest.param([0.2, 0.6, 1.4, 1.8], 7, [0.2, 0.6, 1.4, 1.8], id="or as many as there are"),
        pytest.param([0.2, 0.58, 1.8], 3, [0.2, 1.8], id="two where a third would take next to nothing"),
        pytest.param([0.2, 0.6, 1.8], 3, [0.2, 0.6, 1.8], id="three where it takes a sixteenth"),
        pytest.param([0.2, 0.25, 1.8], 3, [0.2, 1.8], id="two where a third would be lifted"),
    ],
)
def test_crossings_with_the_most_even_shares_are_chosen(
    ribs: list[float], min_attachments: int, expected: list[float]
) -> None:
    """Of an even load of 2 m on two crossings at a and b the first carries (b - 1) / (b - a)."""
    at = np.array(ribs)
    chosen = best_crossings(job(), np.zeros(1), at, min_attachments)[0]
    assert not isinstance(chosen, Refusal)
    assert at[chosen].tolist() == expected
    moved = best_crossings(job(), np.full(1, 7.0), at + 7.0, min_attachments)[0]
    np.testing.assert_array_equal(moved, chosen)


@pytest.mark.parametrize(
    ("ribs", "crossed"),
    [([0.1, 0.7, 1.0, 1.9], 0), ([0.4], 1), ([0.3, 0.5], 2), ([0.1, 0.4, 0.5, 1.0], 2)],
)  # fmt: skip
def test_an_edge_held_by_no_two_crossings_is_refused(ribs: list[float], crossed: int) -> None:
    """Two at the same corner cannot hold it: one would be lifted."""
    refusal = best_crossings(job(), np.zeros(1), np.array(ribs), 3)[0]
    assert isinstance(refusal, Refusal)
    assert f"cross {crossed} seams" in refusal.reason
    assert "no two of which hold an edge" in refusal.reason


def test_of_too_many_choices_only_evenly_spread_ones_are_evaluated() -> None:
    """Eight of forty crossings can be chosen in 77 million ways; their gaps differ by one at most."""
    ribs = np.linspace(0.2, 1.8, 40)
    chosen = best_crossings(job(module__edge_support=["200 mm", "1000 mm"]), np.zeros(1), ribs, 8)[0]
    assert not isinstance(chosen, Refusal)
    gaps = np.diff(chosen)
    assert len(chosen) == 8
    assert gaps.max() - gaps.min() <= 1


@pytest.mark.parametrize(
    ("nearest", "is_allowed"), [("200 mm", True), ("695 mm", True), ("696 mm", False), ("900 mm", False)]
)
def test_an_edge_must_cross_two_ribs_in_its_supportable_length(nearest: str, is_allowed: bool) -> None:
    """Seams 24 in (0.6096 m) apart need 0.695 m or less at either end of an edge of 2 m."""
    assert (Direct().refusal_of_roof(job(module__edge_support=[nearest, "1000 mm"])) is None) == is_allowed


def test_candidate_spacings_end_at_the_ribs_an_edge_crosses() -> None:
    """1.6 m of edge over seams 24 in (0.61 m) apart: three crossings at most."""
    field = Direct().place_modules(job())
    assert not isinstance(field, Refusal)
    assert Direct().candidate_spacings(job(), field) == (2, 3)
    assert Direct().candidate_spacings(job(roof__rib_spacing="16 in"), field) == (2, 3, 4)
    assert Direct().candidate_spacings(job(roof__rib_spacing="0.5 m"), field) == (2, 3, 4)


@pytest.mark.parametrize(
    ("ribs", "min_attachments", "expected"),
    [
        pytest.param([0.3, 0.55, 1.5], 2, [0.55, 1.5], id="0.474 and 0.526, not 0.417 and 0.583: shares first"),
        pytest.param([0.3, 0.5, 1.4, 1.6], 2, [0.3, 1.6], id="0.538 of the load with 0.4 m rather than 0.5 with 0.6 m"),
        pytest.param([0.21, 0.59, 1.42], 2, [0.59, 1.42], id="0.653 with 0.58 m is not nearly 0.506 with 0.59 m"),
        pytest.param([0.4, 1.55, 1.78], 2, [0.4, 1.55], id="0.45 m inside the clamp zone, not 0.4 m with 0.22 m"),
        pytest.param([0.3, 0.7, 1.35], 2, [0.3, 1.35], id="0.667 rather than 0.538 with an overhang beyond a third"),
        pytest.param([0.7, 1.3], 2, [0.7, 1.3], id="beyond a third where there is no other choice"),
        pytest.param([0.25, 0.7, 1.0, 1.3, 1.7], 3, [0.25, 1.0, 1.7], id="three, none beyond a third"),
    ],
)
def test_of_nearly_equal_shares_the_shorter_overhang_is_chosen(
    ribs: list[float], min_attachments: int, expected: list[float]
) -> None:
    """Of two crossings at a and b of 2 m the one at b carries (1 - a) / (b - a); nearly equal is within 0.05 (judgement,
    no source). A third of the edge is 667 mm; the clamp zone is 250 mm to 500 mm from a corner."""
    at = np.array(ribs)
    chosen = best_crossings(job(module__edge_support=["200 mm", "1000 mm"]), np.zeros(1), at, min_attachments)[0]
    assert not isinstance(chosen, Refusal)
    assert at[chosen].tolist() == expected

"""Moments stated for a foot of width, as load tables state them, and the strip that one loaded seam bends."""

from __future__ import annotations

import numpy as np
import pytest

from engine.common.errors import InputError
from engine.comparison.compare import compare
from engine.project.job import Job
from engine.statics.continuous_beam import UnitForces, solve_beams
from engine.units import FOOT, POUND_FORCE
from support import scenario_of

FOOT_POUND = FOOT * POUND_FORCE
PER_FOOT = {
    "roof__panel__moments_for": "a foot of width",
    "roof__panel__moment_rib_compressed": "290 lb ft",
    "roof__panel__moment_pan_compressed": "201 lb ft",
}


def job(spacing: str, **changes: object) -> Job:
    test = {
        "tested_pressure": "70 psf",
        "tested_rib_spacing": spacing,
        "tested_fastening_spacing": "5 ft",
        "safety_factor": 2,
    }
    return scenario_of(roof__rib_spacing=spacing, roof__fastening__uplift=test, **PER_FOOT, **changes).job


def load_at_midspan(moment: float) -> float:
    """Point load at the middle of an interior 5 ft bay of a long continuous beam that gives a moment there [lb]."""
    supports = 5.0 * FOOT * np.arange(16.0)[None]
    middle = np.array([[7.5 * 5 * FOOT]])
    unit = float(solve_beams(supports, UnitForces(middle, middle)).moments(middle)[0, 0, 0])
    return moment / unit / POUND_FORCE


@pytest.mark.parametrize(("spacing", "down", "up"), [("12 in", 339, 235), ("24 in", 678, 470)])
def test_a_24_gauge_seam_of_one_cover_width(spacing: str, down: float, up: float) -> None:
    """290 and 201 lb ft a foot over one cover width: allowable loads at midspan of an interior bay, by hand.

    The hand calculation has 0.171 P L for the moment; 0.1708 is exact, which is 0.12 % apart.
    """
    roof = job(spacing).roof
    assert load_at_midspan(roof.moment_rib_compressed) == pytest.approx(down, rel=2e-3)
    assert load_at_midspan(roof.moment_pan_compressed) == pytest.approx(up, rel=2e-3)


def test_a_table_for_a_metre_of_width() -> None:
    """2.2 kN m a metre of width on seams 500 mm apart: 1.1 kN m a seam."""
    stated = {
        "moments_for": "a metre of width",
        "moment_rib_compressed": "2.2 kN m",
        "moment_pan_compressed": "1.6 kN m",
    }
    roof = scenario_of("dunlin_hall", **{f"roof__panel__{key}": value for key, value in stated.items()}).job.roof
    assert (roof.moment_rib_compressed, roof.moment_pan_compressed) == pytest.approx((1100, 800))


def test_no_more_than_24_in_bend_with_one_seam() -> None:
    """Judgement: farther from the seam the pan does not help; a 30 in panel counts as one of 24 in."""
    assert job("30 in").roof.moment_rib_compressed == pytest.approx(580 * FOOT_POUND)


def test_a_stated_width_counts() -> None:
    assert job("24 in", roof__panel__loaded_width="12 in").roof.moment_pan_compressed == pytest.approx(201 * FOOT_POUND)


def test_the_defaults_moments_for_a_foot_are_those_of_its_seams() -> None:
    """680 and 470 lb ft a seam, 24 in wide, are 340 and 235 lb ft a foot: the same utilisation."""
    per_foot = PER_FOOT | {
        "roof__panel__moment_rib_compressed": "340 lb ft",
        "roof__panel__moment_pan_compressed": "235 lb ft",
    }
    one, other = (compare(scenario_of(**changes), ("direct",)).columns[0] for changes in ({}, per_foot))
    assert one.checks["rib"].ratio == pytest.approx(other.checks["rib"].ratio)
    (text,) = (flag.text for flag in other.flags if flag.code == "even_load_table")
    assert "for a foot of width, on 24.00 in" in text
    assert "One loaded seam may carry less" in text


@pytest.mark.parametrize(
    ("changes", "sentence"),
    [
        ({"roof__panel__loaded_width": "12 in"}, "needs roof.panel.moments_for = 'a foot of width'"),
        (PER_FOOT | {"roof__rib_spacing": "12 in", "roof__panel__loaded_width": "16 in"}, "allowed is at most roof.rib_spacing"),
        ({"roof__panel__moments_for": "a metre"}, "allowed is 'one seam or rib' or 'a foot of width' or 'a metre of width'"),
    ],
)  # fmt: skip
def test_a_width_that_cannot_be_is_refused(changes: dict[str, object], sentence: str) -> None:
    with pytest.raises(InputError) as refused:
        scenario_of(**changes)
    assert any(sentence in str(problem) for problem in refused.value.problems)

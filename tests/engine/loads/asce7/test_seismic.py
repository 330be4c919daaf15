"""Earthquake on a rooftop array, ASCE 7 chapter 13, by hand (coefficients of rooftop arrays: from memory)."""

from __future__ import annotations

import math

import numpy as np
import pytest
from standards_fields import site

from engine.comparison.compare import compare
from engine.loads.asce7 import seismic
from engine.loads.asce7.combinations import combinations
from support import scenario_of


def test_7_16_at_the_roof_is_four_fifths() -> None:
    """0.4 x 1.0 x SDS x 3 / 1.5 = 0.80 SDS Wp; an importance of 1.5 gives 1.2."""
    assert seismic.horizontal_part(site(seismic_sds=1.0)) == pytest.approx(0.8)
    assert seismic.horizontal_part(site(seismic_sds=0.5, seismic_importance=1.5)) == pytest.approx(0.6)


def test_7_22_takes_the_users_amplification_within_the_bounds() -> None:
    edition = {"edition": "ASCE 7-22", "seismic_sds": 1.0}
    assert seismic.horizontal_part(site(**edition)) == pytest.approx(0.8)  # type: ignore[arg-type]
    assert seismic.horizontal_part(site(**edition, seismic_amplification=0.2)) == pytest.approx(0.3)  # type: ignore[arg-type]
    assert seismic.horizontal_part(site(**edition, seismic_amplification=9.0)) == pytest.approx(1.6)  # type: ignore[arg-type]


def test_no_earthquake_unless_stated() -> None:
    assert set(seismic.weight_cases(site())) == {"D"}
    assert not any("E" in each.name for each in combinations("ASCE 7-16", ("S",)))


def test_combinations_go_every_way_and_lift() -> None:
    """D + 0.7E, D + 0.525E + 0.75S, 0.6D + 0.7Eh - 0.7Ev: toward eave, ridge and along the eave."""
    names = [each.name for each in combinations("ASCE 7-16", ("S",), earthquake=True) if "E" in each.name]
    assert names[:3] == [
        "D + 0.7E to eave + 0.7Ev",
        "D + 0.75S + 0.525E to eave + 0.525Ev",
        "0.6D + 0.7E to eave - 0.7Ev",
    ]
    assert len(names) == 9
    in_22 = next(
        each for each in combinations("ASCE 7-22", ("S",), earthquake=True) if "S" in each.name and "E" in each.name
    )
    assert in_22.factors["S"] == pytest.approx(0.525)


def test_what_the_points_get_is_the_whole_weights_part() -> None:
    """SDS 1.0 on 1:12: 0.8 W toward the eave is 0.8 W cos along the slope and lifts by 0.8 W sin."""
    scenario = scenario_of(site__seismic_sds=1.0)
    for column in compare(scenario).columns:
        assert column.design
        assert column.design.candidate
        demands, weight = column.design.candidate.demands, column.design.bill.mass * 9.80665
        slope = math.atan(1 / 12)
        normal, in_plane = demands.attachment_cases["E to eave"]
        assert in_plane.sum() == pytest.approx(0.8 * weight * math.cos(slope), rel=1e-9)
        assert normal.sum() == pytest.approx(-0.8 * weight * math.sin(slope), rel=1e-9)
        assert demands.attachment_cases["Ev"][0].sum() == pytest.approx(0.2 * weight * math.cos(slope), rel=1e-9)
        across = next(n for n, each in enumerate(demands.combinations) if each.name.startswith("D + 0.7E across"))
        assert demands.attachment_across_force[:, across].sum() == pytest.approx(0.7 * 0.8 * weight, rel=1e-9)
        assert np.abs(demands.panel_in_plane).max() > 0


def test_load_across_the_seam_needs_its_own_strength() -> None:
    bare = compare(scenario_of(site__seismic_sds=1.5), ("direct",)).columns[0]
    assert bare.status == "incomplete"
    assert any("Attachment, across not checked: no strength across the seams" in flag.text for flag in bare.flags)
    stated = compare(
        scenario_of(site__seismic_sds=1.5, hardware={"attachment_across": {"allowable": "20 lb"}}), ("direct",)
    ).columns[0]
    assert not any("across the seams" in flag.text for flag in stated.flags)
    used = {check.link: check.utilisation for check in stated.checks.values()}
    assert used["attachment"] is not None
    assert used["attachment"] > 1

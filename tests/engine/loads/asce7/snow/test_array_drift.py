"""Drifts that an array makes itself: which edges, how long, what falls on rows, aisles and the roof."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from standards_fields import FLUSH, building, field, loads, on_module, on_roof, site, strip

from engine.common.calculation import CalculationStep
from engine.loads.asce7.field_loads import Asce7Loads
from engine.mounting.layout import Attitude, Field
from engine.units import FOOT, INCH, PSF
from support import assert_told

CASE = "S drift array"
LOW = Attitude(10.0, 0.5 * FOOT, 1.0 * FOOT, 3.0 * FOOT, 6.0 * FOOT)
HIGH = replace(LOW, high=1.775 * FOOT)
"""High edge at hc/hb .75: pg 25, heated, hb 17.5/17.25 ft; the low edge is buried."""


def rows(attitude: Attitude = HIGH, **changes: object) -> Field:
    return field(attitude=attitude, **{"rows": 3, "columns": 6, "gap": (0.05, 2.0), **changes})


def drifts(found: Asce7Loads) -> list[tuple[bool, int, float, tuple[float, float]]]:
    return [(each.along_eave, each.outward, each.face, each.ends) for each in found.surcharges.get(CASE, ())]


def codes(found: Asce7Loads) -> dict[str, str]:
    return {remark.code: remark.text for remark in found.remarks}


def test_rows_that_the_snow_buries_are_silent() -> None:
    """The default rack at 10 deg under 25 psf: 1.0 ft is lower than hb, so the clause asks for no drift."""
    found = loads(modules=rows(LOW))
    assert CASE not in found.snow_cases
    assert "snow_drift" not in codes(found)


def test_no_drift_without_snow() -> None:
    assert loads(site(ground_snow="0 psf"), modules=rows()).surcharges == {}


def test_the_high_edges_drift_and_the_low_ones_are_buried() -> None:
    """1:12 gable: positions on plan are y cos θ; three rows, 5 ft from row to row, faces toward the ridge."""
    found, cosine = drifts(loads(modules=rows())), np.cos(np.arctan(1 / 12))
    assert [edge[:2] for edge in found] == [(False, 1)] * 3
    assert [edge[2] for edge in found] == pytest.approx([(33 + 5 * row) * cosine for row in range(3)])
    assert [edge[3] for edge in found] == [pytest.approx((60.0, 60 + 5 * 6.05 + 6))] * 3
    turned = drifts(loads(modules=rows(replace(HIGH, tilt=-10.0))))
    assert [edge[:2] for edge in turned] == [(False, -1)] * 3
    assert [edge[2] for edge in turned] == pytest.approx([(30 + 5 * row) * cosine for row in range(3)])


def test_both_edges_drift_where_both_rise_above_the_snow() -> None:
    found = drifts(loads(modules=rows(replace(HIGH, low=1.5 * FOOT))))
    assert {edge[:2] for edge in found} == {(False, 1), (False, -1)}
    assert len(found) == 6


def test_rows_shorter_than_15_ft_have_none() -> None:
    assert CASE not in loads(modules=rows(columns=2)).snow_cases  # 12.05 ft
    assert CASE in loads(modules=rows(columns=3)).snow_cases  # 18.1 ft
    divided = rows(rows=1, columns=5, missing=frozenset({(0, 2)}))
    assert CASE not in loads(modules=divided).snow_cases  # two pieces of 12.05 ft


def test_rows_2_ft_above_the_balanced_snow_have_none() -> None:
    """Modules in the open have 21 psf, 1.217 ft deep: the bottom must be at 3.217 ft."""
    deep = 21 / 17.25
    for low, expected in ((deep + 1.99, True), (deep + 2.01, False)):
        raised = replace(HIGH, low=low * FOOT, high=(low + 0.5) * FOOT)
        assert (CASE in loads(modules=rows(raised)).snow_cases) == expected


def test_the_next_row_takes_the_mean_of_the_drift_over_it() -> None:
    """By hand, 7-16, hc .7605 ft: 13.12 psf over 6.084 ft. The next row lies 2 to 5 ft from the edge along the slope,
    1.993 to 4.983 ft on plan: 13.12 (1 - 3.488/6.084) = 5.60 psf. The lowest row has none, its own side is no face."""
    found = loads(modules=rows())
    added = [(on_module(found, CASE, module) - on_module(found, "S", module)) / PSF for module in (0, 6, 12)]
    hc = 1.775 - 17.5 / 17.25
    w, near, far = 8 * hc, 2 * 0.99655, 5 * 0.99655
    expected = 17.25 * hc * (1 - (near + far) / 2 / w)
    assert expected == pytest.approx(5.60, abs=0.01)
    assert added == pytest.approx([0.0, expected, expected], abs=1e-3)


def test_the_aisle_and_the_roof_above_the_array_take_it_too_but_not_the_roof_without_array() -> None:
    found = loads(modules=rows())
    above = strip(43, 43.5)
    above.left[:], above.right[:] = 70 * FOOT, 72 * FOOT
    for partly in (False, True):
        beside = found.snow_beside_modules(CASE, above, np.array([partly]))[0] - found.snow_on_roof("S", above)[0]
        hc = 1.775 - 17.5 / 17.25
        nearest = 0.0 if partly else 0.25 * 0.99655
        assert beside / PSF == pytest.approx(17.25 * hc * (1 - nearest / (8 * hc)), abs=1e-3)
    assert found.snow_on_roof(CASE, above) == pytest.approx(found.snow_on_roof("S", above))
    assert on_roof(found, CASE) == on_roof(found, "S")


def test_fetch_is_the_longer_side_of_the_roof_over_the_ridge() -> None:
    """120 ft wide, high edges at 33, 38 and 43 ft along the slope: 120 less that on plan."""
    found = loads(modules=rows(replace(HIGH, high=8 * FOOT, low=3 * FOOT)))
    steps = found.surcharges[CASE][-1].profile.steps
    (fetch,) = (step.terms["lu"].value for step in steps if step.symbol == "hd")
    assert fetch == pytest.approx(120 - 43 * 0.99655, abs=1e-3)


THIN = {"ground_snow": "5 psf"}


def flush(top: float = 10 * INCH, **changes: object) -> Field:
    return field(attitude=replace(FLUSH, low=top, high=top), **{"rows": 6, "columns": 6, **changes})


def test_a_flush_array_drifts_in_thin_snow_on_all_four_sides() -> None:
    """pg 5, top 10 in: hc .594 ft, 8.7 psf over 4.8 ft."""
    found = loads(site(**THIN), modules=flush())
    assert len(drifts(found)) == 4
    assert {edge[:2] for edge in drifts(found)} == {(False, 1), (False, -1), (True, 1), (True, -1)}
    profile = found.surcharges[CASE][0].profile
    assert (profile.start, profile.width) == pytest.approx((8.7, 4.75), abs=0.01)
    assert on_module(found, CASE, 7) == on_module(found, "S", 7)  # the array's own modules have none
    assert CASE not in loads(modules=flush()).snow_cases  # 25 psf bury it


def test_short_sides_of_a_flush_array_have_none() -> None:
    assert {edge[0] for edge in drifts(loads(site(**THIN), modules=flush(rows=4)))} == {False}  # 12.2 ft up the slope


def test_a_hole_in_a_flush_array_has_edges() -> None:
    found = drifts(loads(site(**THIN), modules=flush(missing=frozenset({(2, 2)}))))
    assert len(found) == 8


def test_7_22_waives_a_little_snow_on_a_short_roof() -> None:
    """pg ≤ 10 psf with lu ≤ 100 ft (seen once)."""
    short, long = (building(width=width, length="90 ft") for width in ("90 ft", "140 ft"))
    near = flush(at=(20.0, 5.0))
    assert CASE not in loads(site("ASCE 7-22", **THIN), short, near).snow_cases
    assert CASE in loads(site("ASCE 7-22", **THIN), long, near).snow_cases
    assert CASE in loads(site("ASCE 7-16", **THIN), short, near).snow_cases
    assert CASE in loads(site("ASCE 7-22", ground_snow="10.1 psf"), short, flush(2 * FOOT, at=(20.0, 5.0))).snow_cases


@pytest.mark.parametrize("edition", ["ASCE 7-16", "ASCE 7-22"])
def test_combinations_remarks_and_steps(edition: str) -> None:
    found = loads(site(edition, ground_snow="15 psf"), modules=rows())
    names = [combination.name for combination in found.combinations]
    assert ("D + S drift array" if edition == "ASCE 7-16" else "D + 0.7S drift array") in names
    assert sum(CASE in name for name in names) == 3
    text = codes(found)["snow_drift"]
    assert text.startswith("drifts at the edges of the array (§7.8) add up to ")
    assert "modules and the roof beside them" in text
    assert ("sources differ" in text) == (edition == "ASCE 7-22")
    steps = list[CalculationStep]()
    total = found.snow(CASE, np.array([6]), steps.append)[0]
    assert_told(steps)
    assert steps[-1].result.value * PSF == pytest.approx(total)
    assert {"gamma", "hb", "hc", "hd", "h", "w", "pd", "pmean", "psur"} <= {step.symbol for step in steps}


def test_many_at_once_and_one_by_one_agree() -> None:
    found = loads(modules=rows())
    together = found.snow(CASE, np.arange(18))
    assert together.tolist() == [found.snow(CASE, np.array([module]))[0] for module in range(18)]

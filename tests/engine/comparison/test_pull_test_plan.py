"""The pull-test plan: what it asks for is what the way of knowing a strength gives back."""

from __future__ import annotations

import math
from functools import cache

import numpy as np
import pytest

from engine.comparison.compare import Column, compare
from engine.comparison.pull_test_plan import INPUT, needed_resistances, pull_test_plan
from engine.strength import strength
from support import scenario_of

POUND = 4.4482216152605


@cache
def column_of(name: str, method: str) -> Column:
    column = compare(scenario_of(name), (method,)).columns[0]
    assert column.candidate
    return column


def plan_of(name: str, method: str):  # type: ignore[no-untyped-def]
    column = column_of(name, method)
    assert column.design
    assert column.candidate
    return pull_test_plan(column.design, column.candidate)


def test_the_mean_by_hand() -> None:
    """AISI S100-16 Eq. K2.1.1-2 with Mm 1.00, Fm Pm 1, beta 3.5, VM 0.10, VF 0.15, VP 0.065, VQ 0.21, and Omega 1.6/phi.

    C_P is 5.7 for three tests and (1 + 1/6) 5/3 = 1.944 for six. The formula is transcribed as in `test_statistics`.
    """
    plan = plan_of("kestrel_yard", "rail")
    assert plan.key == "pull_tests"
    for series, correction in zip(plan.series, (5.7, 1.9444444444), strict=True):
        scatter = math.sqrt(0.10**2 + 0.15**2 + correction * 0.065**2 + 0.21**2)
        omega = 1.6 / (1.52 * math.exp(-3.5 * scatter))
        assert series.connection == "other"
        assert series.mean == pytest.approx(plan.resistance * omega)
    assert [series.tests for series in plan.series] == [3, 6]


def test_the_needed_resistance_leaves_room_for_the_along_slope_load() -> None:
    """By hand at the attachment that needs most: uplift with prying over 1 - V/350 lb, in its own combination."""
    column = column_of("kestrel_yard", "rail")
    assert column.candidate
    demands = column.candidate.demands
    along = np.abs(demands.attachment_in_plane)
    pried = np.maximum(-demands.attachment_normal + along * demands.layout.attachments.height / (3 * 0.0254), 0)
    by_hand = (pried / (1 - along / (350 * POUND))).max(axis=1)
    np.testing.assert_allclose(needed_resistances(column.candidate), by_hand)
    assert by_hand.max() > demands.attachment_up.max()


@pytest.mark.parametrize(
    ("name", "method"), [("kestrel_yard", "rail"), ("wren_workshop", "direct"), ("dunlin_hall", "rail")]
)
def test_pulls_that_reach_the_mean_prove_what_is_needed(name: str, method: str) -> None:
    """The list written into the scenario, all pulls alike or with the planned scatter, gives the resistance back."""
    plan, column = plan_of(name, method), column_of(name, method)
    assert column.candidate
    combination = column.candidate.demands.combinations[0]
    for series in plan.series:
        pounds = series.mean / POUND
        if plan.key == "pull_tests":
            basis = {"pull_tests": [f"{pounds} lb"] * series.tests, "connection": series.connection}
        else:
            # two values symmetric about the mean, and the mean itself: coefficient of variation 0.10
            off = 0.10 * math.sqrt((series.tests - 1) / (2 * (series.tests // 2)))
            values = [1 + off, 1 - off] * (series.tests // 2) + [1.0] * (series.tests % 2)
            basis = {"characteristic_tests": [f"{pounds * value} lb" for value in values]}
        proven = scenario_of(name, **{INPUT.replace(".", "__"): basis}).job.hardware.attachment_uplift
        assert strength(proven).resistance(combination) == pytest.approx(plan.resistance, rel=1e-6)


def test_a_screw_that_fails_is_planned_for_only_where_there_are_screws() -> None:
    assert {series.connection for series in plan_of("kestrel_yard", "rail").series} == {"other"}
    assert {series.connection for series in plan_of("wren_workshop", "direct").series} == {"screw", "other"}
    assert plan_of("dunlin_hall", "rail").key == "characteristic_tests"


@pytest.mark.parametrize("name", ["kestrel_yard", "wren_workshop", "swallow_cottage"])
def test_places_are_alike_and_their_panels_apart(name: str) -> None:
    column, plan = column_of(name, "direct"), plan_of(name, "direct")
    assert column.design
    at, job = column.design.layout.attachments, column.design.job
    supports = job.roof.supports(job.building)
    for places in plan.places:
        chosen = np.array(places.numbers) - 1
        assert 0 < len(chosen) <= 6
        assert np.diff(np.sort(at.rib[chosen])).min() >= 2
        distance = np.abs(at.y[chosen][:, None] - supports).min(axis=1)
        if places.kind == "mid-bay":
            assert (distance > job.roof.support_spacing / 4).all()
        if places.kind == "near a purlin":
            assert (distance <= job.roof.support_spacing / 4).all()
    needed = needed_resistances(column.candidate)  # type: ignore[arg-type]
    first = {places.numbers[0] - 1 for places in plan.places}
    assert needed[list(first)].max() == needed.max()


def test_no_strength_is_asked_for_where_other_loads_alone_are_too_much() -> None:
    weak = scenario_of(hardware__attachment_in_plane={"allowable": "2 lb"})
    column = compare(weak, ("direct",)).columns[0]
    assert column.design
    assert column.candidate
    plan = pull_test_plan(column.design, column.candidate)
    assert (plan.resistance, plan.series) == (None, ())

"""Wind on modules: stated by zone, the cautious fallback, tilted rows."""

from __future__ import annotations

import numpy as np
import pytest

from engine.comparison.compare import compare
from engine.design.design import prepare
from engine.design.trial import DesignContext
from engine.loads.interface import Loads
from support import assert_told, scenario_of

STATED = {"F": -1.7, "G": -1.4, "H": -0.9, "I": -0.6, "J": -1.0}


def loads_of(method: str = "direct", **changes: object) -> Loads:
    scenario = scenario_of("dunlin_hall", **changes)
    (found,) = scenario.methods_named((method,))
    context = prepare(scenario.job, found, scenario.standard)
    assert isinstance(context, DesignContext)
    return context.loads


def coefficients(loads: Loads, case: str, area: float) -> np.ndarray:
    """Net coefficients of all modules, from their pressures over qp."""
    every = np.arange(len(loads.zone))
    steps: list = []
    pressure = loads.wind(case, every, np.full(len(every), area), steps.append)
    assert_told(steps)
    (qp,) = (step.result.value for step in steps if step.symbol == "qp")
    return pressure / qp


def test_stated_coefficients_by_zone_whatever_the_area() -> None:
    """At the corner of the hall: modules in F, G, H and I, each with the stated value of the worst zone it touches."""
    loads = loads_of(array__origin=["1 m", "1 m"])
    for area in (0.4, 5.0):
        found = coefficients(loads, "W up", area)
        assert set(found.round(9)) <= set(STATED.values())
        assert found[0] == pytest.approx(STATED["F"])
        assert found.max() == pytest.approx(STATED["H"])  # all lie within e/2 of the gable or on the windward slope


def test_the_fallback_by_hand() -> None:
    """6 deg, cpe,1 of F -2.45 and of H, wind on the eave, -1.11: x 1.2 under 2 m², at least 1.3; down at least 1.0."""
    loads = loads_of(array__origin=["1 m", "1 m"], site__cp_net="cautious fallback")
    small, large = coefficients(loads, "W up", 0.5), coefficients(loads, "W up", 10.0)
    assert small[0] == pytest.approx(-2.45 * 1.2)
    assert large[0] == pytest.approx(-1.62)  # cpe,10 of F: -1.7 to -0.9 on the windward slope
    assert small.max() == pytest.approx(-1.11 * 1.2)
    assert large.max() == pytest.approx(-1.3)
    assert coefficients(loads, "W down", 0.5) == pytest.approx(1.0)
    assert loads.unproven == "net coefficients from no standard"


def test_tilted_rows_have_no_wind_without_a_report() -> None:
    for cp_net in (None, "cautious fallback"):
        changes = {"site__cp_net": cp_net} if cp_net else {}
        (rack,) = compare(scenario_of("dunlin_hall", **changes), ("tilted_rack",)).columns
        assert rack.status == "outside scope"
    (rack,) = compare(scenario_of("dunlin_hall", methods__tilted_rack__net_coefficient=1.1), ("tilted_rack",)).columns
    assert rack.candidate
    assert "net coefficient 1.1 of the scenario" in " ".join(flag.text for flag in rack.flags)


def test_the_fallback_can_not_be_accepted() -> None:
    """Nobody shows it by a document in [accepted]: it is no link."""
    column = compare(scenario_of("dunlin_hall", site__cp_net="cautious fallback"), ("direct",)).columns[0]
    assert {entry.link for entry in column.unchecked.still_open} >= {"module_wind"}

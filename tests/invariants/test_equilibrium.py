"""Equilibrium of forces and moments by module and by rib.

For all scenarios, methods and combinations, and for generated jobs.
"""

from __future__ import annotations

from collections.abc import Callable

import pytest
from hypothesis import given

from engine.comparison.compare import Comparison, compare
from support import SCENARIOS, scenario_of
from support.balance import CHECKS, checked_columns
from support.generated import JOBS, Changes, cases, comparison_of

UP = {"methods__rail__runs": "up the slope", "module__clamp_zone": ["150 mm", "500 mm"], "array__columns": 6}
DRAWN: dict[str, tuple[str, dict[str, object]]] = {
    path.stem: (path.stem, {}) for path in sorted(SCENARIOS.glob("*.toml"))
} | {
    "closer fastenings at the edges": (
        "kestrel_yard",
        {"roof__edge_strip": "20 ft", "roof__edge_support_spacing": "2.5 ft", "array__origin": ["6 ft", "15.5 ft"]},
    ),
    "two rails up the slope": ("wren_workshop", UP),
    "three rails up the slope": (
        "wren_workshop",
        {**UP, "methods__rail__rails_per_row": 3, "methods__rail__step": "15 in"},
    ),
}


@pytest.fixture(scope="module", params=DRAWN)
def comparison(request: pytest.FixtureRequest) -> Comparison:
    name, changes = DRAWN[request.param]
    return compare(scenario_of(name, **changes))


def test_every_scenario_has_a_method_that_is_checked(comparison: Comparison) -> None:
    assert checked_columns(comparison)


@pytest.mark.parametrize("check", CHECKS, ids=lambda check: check.__name__)
def test_balance(check: Callable[[Comparison], None], comparison: Comparison) -> None:
    check(comparison)


@given(JOBS)
@cases(25)
def test_balance_of_any_job(job: tuple[str, Changes]) -> None:
    comparison = comparison_of(*job)
    for check in CHECKS:
        check(comparison)

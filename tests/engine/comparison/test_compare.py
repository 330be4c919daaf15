"""The comparison made anew from an earlier one: on other inputs with its layouts, at other prices with its designs."""

from __future__ import annotations

import pytest

from engine.comparison.compare import compare, compare_as_before, compare_priced_anew
from engine.comparison.record import comparison_record
from support import SCENARIOS, scenario_of

STATED = {
    "methods__rail__spacing": "2 ribs",
    "methods__tilted_rack__spacing": "2 ribs",
    "methods__direct__spacing": "2 per edge",
}
"""One spacing for each method, so that a search finds the same layouts on every input."""


@pytest.mark.parametrize("name", ["kestrel_yard", "sparrow_lane"])
@pytest.mark.parametrize("wind", ["80 mph", "120 mph"])
def test_stated_spacings_give_the_figures_of_a_whole_comparison(name: str, wind: str) -> None:
    """Sparrow Lane's rack is outside the scope of the standard: it is counted and priced as ever."""
    before, then = compare(scenario_of(name, **STATED)), scenario_of(name, **STATED, site__wind_speed=wind)
    again = compare_as_before(then, before)
    assert again
    for one, other in zip(
        comparison_record(again)["methods"], comparison_record(compare(then))["methods"], strict=True
    ):
        left_out = {"placement", "rail_span_limit_m", "roof_span_limit_m", "overspan", "overspan_basis", "flags"}
        assert {key: one[key] for key in one.keys() - left_out} == {key: other[key] for key in other.keys() - left_out}


def test_none_where_the_layouts_cannot_be_built_again() -> None:
    """Another method's options, a longer module, a roof that nobody has surveyed, another number of modules."""
    before = compare(scenario_of())
    for changes in (
        {"methods__rail__rails_per_row": 3},
        {"roof__first_rib": None},
        {"array__rows": 5},
        {"methods__direct__spacing": "3 per edge"},
    ):
        assert compare_as_before(scenario_of(**changes), before) is None


def test_chosen_methods_alone_are_laid_out_again() -> None:
    before = compare(scenario_of(), ("tilted_rack", "rail"))
    again = compare_as_before(scenario_of(site__wind_speed="90 mph"), before)
    assert again
    assert [column.id for column in again.columns] == [column.id for column in before.columns]


OTHER_PRICES = {
    "hardware__labour_rate": "77 / h",
    "hardware__parts__attachment": {"price": 9.25, "part_number": "A-17"},
    "hardware__spares": 3,
    "hardware__module_minutes": 20,
    "currency": "EUR",
    "title": "Another title",
}


@pytest.mark.parametrize("name", sorted(path.stem for path in SCENARIOS.glob("*.toml")))
def test_other_prices_give_the_figures_of_a_whole_comparison(name: str) -> None:
    before, then = compare(scenario_of(name)), scenario_of(name, **OTHER_PRICES)
    again = compare_priced_anew(then, before)
    assert again
    assert comparison_record(again) == comparison_record(compare(then))
    assert comparison_record(again) != comparison_record(before)


@pytest.mark.parametrize(
    "changes",
    [
        {"site__wind_speed": "106 mph"},
        {"hardware__parts__attachment": {"mass": "0.5 lb"}},
        {"methods__rail__rails_per_row": 3},
        {"placement__tolerance": "2 in"},
        {"accepted__module_frame": {"by": "the maker", "document": "letter", "date": "2026-11-02"}},
    ],
)
def test_nothing_is_priced_anew_where_a_check_may_differ(changes: dict[str, object]) -> None:
    assert compare_priced_anew(scenario_of(**changes), compare(scenario_of())) is None

"""The bills side by side: the parts of each figure add up to it, and bars are counted by their lengths."""

from __future__ import annotations

from collections import defaultdict

import pytest

from engine.comparison.bill_figures import bill_rows, cheapest, price_source
from engine.comparison.compare import Comparison, compare
from engine.comparison.figures import value_of
from support import scenario_of


@pytest.fixture(scope="module")
def comparison() -> Comparison:
    """With the frame's strength stated, the modules on seams hold, although two columns overhang by 704 mm."""
    return compare(scenario_of())


def figures(of: Comparison, column: int) -> dict[str, dict[str, float]]:
    """By group and label, those that a method has."""
    found: defaultdict[str, dict[str, float]] = defaultdict(dict)
    for row in bill_rows(of, "us"):
        value = row.value(of.columns[column])
        if value is not None:
            found[row.group][row.label(of.scenario.job)] = float(value)
    return found


@pytest.mark.parametrize("column", [0, 1, 2])
def test_parts_add_up_to_what_stands_in_all(comparison: Comparison, column: int) -> None:
    found = figures(comparison, column)
    in_all = found["totals"]
    assert sum(found["price, USD"].values()) == pytest.approx(in_all["hardware, USD"])
    assert sum(found["labour"].values()) == pytest.approx(in_all["labour"])
    assert sum(found["mass"].values()) == pytest.approx(in_all["mass"])
    assert in_all["labour, USD"] == pytest.approx(45 * in_all["labour"])
    assert in_all["total, USD"] == pytest.approx(in_all["hardware, USD"] + in_all["labour, USD"])
    assert in_all["USD per watt"] == pytest.approx(in_all["total, USD"] / (144 * 420))
    assert found["labour"]["modules"] > 0
    assert found["mass"]["modules"] == pytest.approx(144 * 21)


def test_bars_are_counted_by_length(comparison: Comparison) -> None:
    """32 rails of 9 x 1134 mm + 8 x 12.7 mm = 10.308 m, 33.82 ft, from stock of 14 ft: 80 stock lengths."""
    found = figures(comparison, 0)
    assert found["bars to cut"]["33.82 ft"] == 32
    assert found["bars to cut"]["offcut"] == pytest.approx(80 * 14 * 0.3048 - 32 * 10.3076)
    assert next(value for label, value in found["pieces"].items() if label.endswith("of 14.00 ft")) == 80
    assert "bars to cut" not in figures(comparison, 2)


def test_the_cheapest_has_the_smallest_total(comparison: Comparison) -> None:
    least = cheapest(comparison)
    assert least
    assert value_of(least, "total_cost") == min(value_of(column, "total_cost") or 0.0 for column in comparison.columns)


@pytest.mark.parametrize(("methods", "least"), [(("rail", "tilted_rack"), "tilted_rack"), (("rail",), "rail")])
def test_what_holds_is_cheapest_before_what_does_not(methods: tuple[str, ...], least: str) -> None:
    """Rails by their own span are over on this roof, and cost less than the rack, which holds."""
    found = cheapest(compare(scenario_of(methods__rail__spacing="rail span"), methods))
    assert found
    assert found.id == least


def test_prices_are_said_to_be_invented_until_all_are_stated(comparison: Comparison) -> None:
    assert price_source(comparison).startswith("Prices, minutes and labour rate are invented")
    own = compare(scenario_of(hardware={"labour_rate": "60 / h"}, methods__direct__spacing="2 per edge"), ("direct",))
    assert "that the scenario does not state" in price_source(own)


def test_a_method_without_a_bill_has_dashes() -> None:
    refused = compare(scenario_of(array__rows=9), ("tilted_rack",))
    job = refused.scenario.job
    row = next(row for row in bill_rows(refused, "si") if row.label(job) == "modules")
    assert row.cell(refused.columns[0], "si") == "–"

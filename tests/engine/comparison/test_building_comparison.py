"""Totals of a building of two slopes, and its best mix by trying every mix."""

from __future__ import annotations

import itertools

import pytest

from engine.comparison.building_comparison import SUMMED, BuildingComparison, compare_slopes
from engine.comparison.building_record import building_record
from engine.comparison.compare import compare
from engine.comparison.figures import value_of
from engine.loads import STANDARDS
from engine.mounting import METHODS
from engine.scenario.read import read_slopes
from support import tables_of


@pytest.fixture(scope="module")
def hall() -> BuildingComparison:
    """Lapwing Hall."""
    return compare_slopes(read_slopes(tables_of("lapwing_hall"), METHODS, STANDARDS))


def test_totals_are_the_sums_of_the_slopes_compared_one_by_one(hall: BuildingComparison) -> None:
    alone = [compare(scenario) for scenario in read_slopes(tables_of("lapwing_hall"), METHODS, STANDARDS)]
    for number, total in enumerate(hall.totals):
        for key in SUMMED:
            values = [value_of(comparison.columns[number], key) for comparison in alone]
            assert total.total(key) == pytest.approx(sum(values)), key  # type: ignore[arg-type]
        assert total.status == max((each.columns[number].status for each in alone), key=lambda status: status.rank)


def test_the_best_mix_has_the_fewest_attachments_of_all_that_hold(hall: BuildingComparison) -> None:
    """Of the nine mixes of three methods on two slopes, counted one by one; prices are placeholders here."""
    fewest = min(
        sum(int(value_of(column, "attachments")) for column in mix)  # type: ignore[arg-type]
        for mix in itertools.product(*(comparison.columns for comparison in hall.slopes))
        if all(column.holds_within_tolerance and column.status == "holds" for column in mix)
    )
    assert hall.best_mix
    assert hall.best_mix.total("attachments") == fewest
    assert [column.id for column in hall.best_mix.columns] == ["direct", "rail"]
    assert f"{fewest:,} attachments" in hall.answer
    assert "modules on seams on slope south and rails on slope north" in hall.answer


def test_the_record_holds_totals_slopes_and_the_mix(hall: BuildingComparison) -> None:
    record = building_record(hall)
    assert [each["name"] for each in record["slopes"]] == ["south", "north"]
    assert record["best_mix"]["methods"] == {"south": "direct", "north": "rail"}
    for total in record["methods"]:
        slopes = [each for slope in record["slopes"] for each in slope["methods"] if each["method"] == total["method"]]
        assert total["attachments"] == sum(each["attachments"] for each in slopes)
        assert total["weakest_utilisation"] == max(each["weakest_utilisation"] for each in slopes)
    assert {total["modules"] for total in record["methods"]} == {408}


def test_a_building_with_a_slope_that_fails_says_which() -> None:
    tables = tables_of("lapwing_hall")
    tables["slopes"][1]["roof"] = {"fastening": {"uplift": {"allowable": "150 lb"}}}
    found = compare_slopes(read_slopes(tables, METHODS, STANDARDS), ("rail", "direct"))
    assert found.answer == "No method holds on slope north."

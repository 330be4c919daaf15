"""The answer line: holds before incomplete before over, then cost, then attachments; what decided is said."""

from __future__ import annotations

from typing import Any

import pytest

from engine.comparison.answer import answer_line, choose
from engine.comparison.compare import Comparison, compare
from engine.comparison.figures import value_of
from engine.project.hardware import Parts
from support import scenario_of


def priced() -> dict[str, Any]:
    """Own prices of every part, a little off the invented ones."""
    parts = {name: {"price": getattr(Parts(), name).price + 0.01} for name in Parts.model_fields}
    return {
        "hardware__parts": parts,
        "hardware__rail": {"price": 52.01},
        "hardware__rack_beam": {"price": 52.01},
    }


def comparison_of(name: str = "kestrel_yard", **changes: object) -> Comparison:
    return compare(scenario_of(name, **changes))


def test_the_cheapest_of_those_that_hold_with_its_saving() -> None:
    """All three hold; modules on seams cost least, and the difference to the next is that of the two totals."""
    comparison = comparison_of(**priced())
    totals = {column.id: float(value_of(column, "total_cost") or 0) for column in comparison.columns}  # type: ignore[arg-type]
    line = answer_line(comparison, "us")
    assert line.startswith("Use modules on seams, 336 attachments, attachment 0.79")
    assert f"{totals['rail'] - totals['direct']:,.0f} less than rails" in line
    assert min(totals, key=lambda method: totals[method]) == "direct"


def test_placeholder_prices_do_not_decide() -> None:
    line = answer_line(comparison_of(), "us")
    assert line.startswith("Fewest attachments: rails, 320, clip 0.94.")
    assert "No clear winner on price: prices are placeholders" in line
    assert "USD" not in line


@pytest.mark.parametrize(("share", "winner"), [(1.04, "rail"), (1.06, "direct")])
def test_within_five_percent_the_fewest_attachments_decide(share: float, winner: str) -> None:
    """By hand: the price of 336 module hooks is set so that rails, with 320 attachments, cost 4 % more, or 6 %."""
    rails, rack, seams = (float(value_of(column, "total_cost") or 0) for column in comparison_of(**priced()).columns)  # type: ignore[arg-type]
    changes = priced()
    changes["hardware__parts"]["module_hook"]["price"] += (rails / share - seams) / 336
    comparison = comparison_of(**changes)
    choice = choose(comparison.columns)
    assert rack > rails
    assert choice
    assert choice.winner
    assert choice.winner.id == winner
    beginning = "Use modules" if winner == "direct" else "Fewest attachments within 5% of the lowest cost: rails, 320"
    assert answer_line(comparison, "us").startswith(beginning)


def test_one_method_alone_in_the_best_status_wins_and_the_others_are_named() -> None:
    line = answer_line(comparison_of("sparrow_lane"), "us")
    assert line.startswith("Use rails, 34 attachments, panel anchorage 0.99 (close).")
    assert "Not fully checked: modules on seams." in line
    assert line.endswith("Outside scope: tilted rack.")


def test_only_those_that_are_equal_are_said_to_be_equal() -> None:
    """Without rails, rack and modules on seams have 336 attachments each, at placeholder prices; with them rails have fewer."""
    line = answer_line(compare(scenario_of(), ("tilted_rack", "direct")), "us")
    assert line.startswith("No clear winner: tilted rack, 336 attachments")
    assert "modules on seams, 336 attachments" in line


def test_what_is_over_is_said_with_its_load() -> None:
    comparison = comparison_of(methods__rail__spacing="rail span")
    check = comparison.columns[0].controlling
    assert check
    assert check.demand
    pounds = check.demand / 4.4482216
    assert f"Over here: rails, clip {pounds:.0f} of 430 lb." in answer_line(comparison, "us")
    assert "No clear winner: tilted rack, 336 attachments" in answer_line(comparison, "us")


def test_incomplete_methods_name_who_has_to_agree() -> None:
    line = answer_line(comparison_of("swallow_cottage"), "us")
    assert line.startswith("Fewest attachments if the building engineer agrees: rails, 24, rafters")
    alone = answer_line(comparison_of("wren_workshop"), "us")
    assert alone.startswith("If the module maker, the roof maker and the building engineer agree: modules on ribs")


def test_no_method_holds() -> None:
    comparison = comparison_of(site__wind_speed="160 mph")
    least = min(comparison.columns, key=lambda column: column.controlling.ratio if column.controlling else 9)
    assert answer_line(comparison, "si").startswith(f"No method holds here. Least over: {least.title}, clip")


def test_nothing_can_be_checked() -> None:
    comparison = compare(scenario_of("plover_terrace"), ("tilted_rack",))
    assert answer_line(comparison) == "No method can be checked here: tilted rack refused."

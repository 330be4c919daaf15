"""Travel by heat: figures of a handbook calculation, by hand, and where it is only reported."""

from __future__ import annotations

import pytest

from engine.comparison.compare import Column, compare
from engine.comparison.figures import figure_named, value_of
from engine.comparison.figures.utilisation import REPORTED
from engine.explain.find import explain_figure
from engine.project.heat import ALUMINIUM, EXPANSION, FAHRENHEIT, STEEL, lengthening
from engine.units import FOOT, INCH
from support import scenario_of


def column(method: str = "rail", name: str = "kestrel_yard", **changes: object) -> Column:
    return compare(scenario_of(name, **changes), (method,)).columns[0]


@pytest.mark.parametrize(
    ("expansion", "feet", "degrees", "inches"),
    [
        (EXPANSION[STEEL], 60, 180, 0.84),  # a panel of 60 ft: a text of the trade gives it clips of 1 in travel
        (EXPANSION[ALUMINIUM], 60, 180, 1.68),
        (EXPANSION[ALUMINIUM], 40 / 2, 100, 0.31),  # a rail of 40 ft, held in its middle
        (EXPANSION[ALUMINIUM] - EXPANSION[STEEL], 20, 100, 0.16),  # a rail of 20 ft along a panel
    ],
)
def test_lengths_by_hand(expansion: float, feet: float, degrees: float, inches: float) -> None:
    """6.5 and 13 millionths per degree Fahrenheit, times length, times range: hand calculation, to the printed digit."""
    assert lengthening(expansion, feet * FOOT, degrees * FAHRENHEIT) / INCH == pytest.approx(inches, abs=0.005)


def test_a_stated_travel_is_checked() -> None:
    """Kestrel Yard: clips from 1 ft to 54.69 ft from the eave; 54.69 x 12 x 6.5e-6 x 180 = 0.768 in of 1 in."""
    found = column(roof__fastening__travel="1 in").checks["panel_travel"]
    assert found.utilisation == pytest.approx(0.768, abs=0.001)
    assert found.combination == "heat"
    weak = column("direct", roof__fastening__travel="0.5 in")
    assert weak.checks["panel_travel"].utilisation == pytest.approx(1.536, abs=0.002)
    assert weak.status == "over"


def test_a_fixed_point_in_the_middle_halves_it() -> None:
    held = {"in_plane": {"allowable": "900 lb"}, "at": "middle"}
    found = column(roof__fastening__travel="1 in", roof__fixed_point=held).checks["panel_travel"]
    assert found.utilisation == pytest.approx(0.384, abs=0.001)


def test_without_a_stated_travel_it_is_only_reported() -> None:
    """The array does not change the panel's travel, so that it leaves no verdict incomplete."""
    found = column("direct")
    assert figure_named("panel_travel").cell(found, "us") == REPORTED
    assert "the panels move 0.77 in (20 mm) by heat" in found.checks["panel_travel"].note
    assert found.status == "holds"


def test_screwed_panels_do_not_travel() -> None:
    assert column("direct", "wren_workshop").checks["panel_travel"].note.startswith("no travel")


def test_a_rails_ends_move_half_its_length() -> None:
    """The longest run of the default rails, 36 / 4 columns of 1134 mm and gaps of half an inch."""
    found = column()
    assert found.design
    length = max(lines.length for lines in found.design.layout.lines)
    by_hand = 13e-6 * 180 * length / 2
    assert value_of(found, "rail_travel_m") == pytest.approx(by_hand)
    assert value_of(column("direct"), "rail_travel_m") is None


def test_why_leads_to_the_expansion_and_the_length() -> None:
    comparison = compare(scenario_of(roof__fastening__travel="1 in"), ("rail",))
    for key in ("panel_travel", "rail_travel_m"):
        steps = explain_figure(comparison, comparison.columns[0], figure_named(key), "us").steps
        assert {"alpha", "L"} <= {step.symbol for step in steps} | set(steps[0].terms)

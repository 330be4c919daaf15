"""The seam where a clamp holds it, by hand; and where nothing needs to be checked there."""

from __future__ import annotations

import pytest

from engine.comparison.compare import Column, compare
from engine.comparison.figure import Figure
from engine.comparison.figures import figure_named, value_of
from engine.explain.find import explain_figure
from engine.links import Check
from engine.units import POUND_FORCE
from support import scenario_of


def found(method: str = "direct", name: str = "kestrel_yard", **changes: object) -> tuple[Column, Check]:
    (column,) = compare(scenario_of(name, **changes), (method,)).columns
    return column, column.checks["rib_at_clamp"]


@pytest.mark.parametrize(("direction", "key"), [("up", "point_load_up_n"), ("down", "point_load_down_n")])
def test_the_largest_load_of_an_attachment_over_the_test_of_the_clamp(direction: str, key: str) -> None:
    """One direction is weak, so that it controls: its load is the largest uplift, or down load, of all attachments."""
    weak, strong = {"tested": "500 lb", "safety_factor": 2.5}, {"allowable": "9000 lb"}
    strengths = {"up": strong, "down": strong} | {direction: weak}
    column, check = found(
        methods__direct__spacing="2 per edge",
        roof__panel__at_clamp_uplift=strengths["up"],
        roof__panel__at_clamp_down=strengths["down"],
    )
    load = value_of(column, key)
    assert isinstance(load, float)
    assert check.demand == pytest.approx(load)
    assert check.resistance == pytest.approx(200 * POUND_FORCE)
    assert check.utilisation == pytest.approx(load / (200 * POUND_FORCE))
    assert check.place.name.endswith(f", {direction}")


def test_brackets_on_the_structure_load_no_rib() -> None:
    close = {"roof__support_spacing": "12 in", "module__clamp_zone": ["150 mm", "600 mm"]}
    _, check = found("rail", "wren_workshop", hardware__bracket="structure", **close)
    assert (check.utilisation, check.unchecked) == (None, ())
    assert check.note.startswith("needs no check: attachments stand on the structure")


def test_pulls_on_this_roof_include_its_rib() -> None:
    """Finch Shed's brackets were pulled on the roof until the rib tore; nobody pressed them."""
    _, check = found("rail", "finch_shed")
    assert [each.direction for each in check.unchecked] == ["down"]
    assert "pulled on this roof" in check.note


def test_why_leads_back_to_the_attachment() -> None:
    figure: Figure = figure_named("rib_at_clamp")
    weak = {"roof__panel__at_clamp_uplift": {"tested": "600 lb", "safety_factor": 2.5}}
    comparison = compare(scenario_of(**weak), ("direct",))
    steps = explain_figure(comparison, comparison.columns[0], figure, "us").steps
    symbols = [step.symbol for step in steps]
    assert symbols[:3] == ["used", "u_rib_at_clamp", "Ra"]
    assert "qh" in symbols

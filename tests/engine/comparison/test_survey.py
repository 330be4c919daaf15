"""The survey: every line names an input that exists, and nothing on it is invented."""

from __future__ import annotations

import pytest

from engine.comparison.survey import SECTIONS, keep_clear_paths, survey
from engine.loads import STANDARDS
from engine.mounting import METHODS
from engine.scenario.changed import changed
from engine.scenario.changes import laid_over
from engine.scenario.listing import ListedInput
from engine.scenario.read import fields_of, read_scenario, read_slopes
from engine.schema.introspection import nested_table
from engine.units import feet_and_inches
from support import scenario_of, tables_of

PATHS = [line.path for section in SECTIONS for line in section.lines]


@pytest.mark.parametrize("path", PATHS)
@pytest.mark.parametrize("standard", STANDARDS)
def test_every_line_names_an_input_of_the_scenario(path: str, standard: str) -> None:
    table, *steps = path.split(".")
    model = fields_of(METHODS, STANDARDS[standard])[table]
    for step in steps[:-1]:
        nested = nested_table(model.model_fields[step])
        assert nested
        model = nested
    assert model.model_fields[steps[-1]].description


def test_no_input_is_asked_for_twice() -> None:
    assert len(set(PATHS)) == len(PATHS)


def test_the_values_are_those_of_the_scenario() -> None:
    found = {each.line.path: each.input for _, lines in survey(scenario_of("kestrel_yard")) for each in lines}
    assert (found["roof.rib_spacing"].written, found["roof.rib_spacing"].stated) == ("24 in", True)
    assert found["roof.rib_spacing"].value == pytest.approx(0.6096)
    assert (found["building.parapet_height"].written, found["building.parapet_height"].stated) == ("0 ft", False)
    assert found["roof.first_bay"].written == "not set"


def test_sections_follow_the_roof() -> None:
    titles = {name: [title for title, _ in survey(scenario_of(name))] for name in ("kestrel_yard", "sparrow_lane")}
    assert "Rafters or joists under the deck" not in titles["kestrel_yard"]
    assert "Rafters or joists under the deck" in titles["sparrow_lane"]
    assert "Clip travel and panel anchorage" in titles["kestrel_yard"]


def test_a_panel_anchorage_that_is_not_set_is_still_asked_for() -> None:
    without = scenario_of("kestrel_yard", roof__fixed_point=None)
    found = {each.line.path: each.input for _, lines in survey(without) for each in lines}
    assert found["roof.fixed_point.at"].written == "not set"


LENGTHS = [
    each.input
    for _, lines in survey(scenario_of("kestrel_yard"))
    for each in lines
    if each.input.dimension in ("length", "small length")
]


@pytest.mark.parametrize("row", LENGTHS, ids=lambda row: row.path)
def test_a_tape_reading_goes_into_its_input(row: ListedInput) -> None:
    """Each length, read from a tape in feet and inches, is taken by the input that its line names."""
    assert row.value is not None
    entered = changed(scenario_of("kestrel_yard"), {tuple(row.path.split(".")): feet_and_inches(row.value)})
    found = {each.line.path: each.input for _, lines in survey(entered) for each in lines}[row.path]
    assert found.stated
    assert found.value == pytest.approx(row.value, abs=0.0254 / 16)


def test_inputs_of_one_slope_of_several_are_its_own() -> None:
    """The path on the sheet changes this slope alone."""
    tables = tables_of("lapwing_hall")
    north = read_scenario(tables, METHODS, STANDARDS, "north")
    lines = {each.line.path: each for _, lines in survey(north) for each in lines}
    assert lines["roof.first_rib"].path == "slopes.north.roof.first_rib"
    assert lines["papers.base_metal"].path == "papers.base_metal"
    assert lines["roof.support_spacing"].input.written == "4 ft"
    entered = laid_over(tables, {tuple(lines["roof.first_rib"].path.split(".")): "3 in"})
    south, north = read_slopes(entered, METHODS, STANDARDS)
    assert north.job.roof.first_rib == pytest.approx(3 * 0.0254)
    assert south.job.roof.first_rib == 0
    assert keep_clear_paths(south) == ["arrays.A.keep_clear", "arrays.B.keep_clear"]

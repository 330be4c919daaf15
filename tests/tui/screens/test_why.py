"""Why?: a sentence, then steps that fold, each of which leads to an input of the form."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from textual.widgets import Tree

from engine.comparison.compare import compare
from engine.comparison.figures import figure_named, table_figures
from engine.explain.find import explain_figure
from engine.explain.tree import Branch, tree_of
from support import SCENARIOS
from support.opened_app import SIZES, opened, seen, settled
from tui.model.inputs import Inputs
from tui.model.state import Question, State
from tui.render.why import why
from tui.screens.main import Main
from tui.widgets.form import Form


def every(branches: tuple[Branch, ...]) -> Iterator[Branch]:
    for branch in branches:
        yield branch
        yield from every(branch.behind)


def state_of(name: str) -> State:
    path = SCENARIOS / f"{name}.toml"
    inputs = Inputs(path, path.read_text(encoding="utf-8"))
    return State(inputs, compare(inputs.scenario()))


@pytest.mark.parametrize("name", ["kestrel_yard", "wren_workshop", "dunlin_hall", "heron_depot"])
def test_every_step_stands_once_and_leads_to_an_input_of_the_form(name: str) -> None:
    state = state_of(name)
    assert state.comparison is not None
    paths = {field.path for field in state.inputs.fields()}
    for column in state.comparison.columns:
        for figure in table_figures():
            steps = explain_figure(state.comparison, column, figure, "us").steps
            branches = tuple(every(why(state, Question(column.id, figure.key)).branches))
            assert sorted(branch.step.symbol for branch in branches) == sorted(step.symbol for step in steps)
            assert {branch.input for branch in branches} <= paths, figure.key


def test_the_steps_to_a_clip_lead_to_its_test_the_wind_and_the_modules() -> None:
    state = state_of("kestrel_yard")
    (root, *_) = branches = why(state, Question("rail", "roof_fastening")).branches
    found = {branch.step.symbol: branch.input for branch in every(branches)}
    assert found["Ra"] == found["Rn"] == ("roof", "fastening", "uplift")
    assert found["V"] == ("site", "wind_speed")
    assert found["Kz"] == ("building", "mean_roof_height")
    assert found["H"] == ("module", "mass")
    below = [branch.step.symbol for branch in root.behind]
    assert below == ["u_clip"]


def test_a_step_stands_under_the_first_that_uses_its_value() -> None:
    state = state_of("kestrel_yard")
    assert state.comparison is not None
    column = state.comparison.columns[0]
    steps = explain_figure(state.comparison, column, figure_named("status"), "us").steps
    parents = {
        id(child.step): branch.step for branch in every(tree_of(steps, (), ("title",))) for child in branch.behind
    }
    for step in steps:
        parent = parents.get(id(step))
        if parent is not None and parent.symbol not in ("u", "used"):
            assert any(abs(term.value - step.result.value) < 1e-9 for term in parent.terms.values())


@pytest.mark.app
@pytest.mark.parametrize("size", [*SIZES, (200, 55)])
async def test_the_tree_folds_shows_a_step_and_goes_to_its_input(size: tuple[int, int]) -> None:
    async with opened("kestrel_yard", size, "f", "end", "w") as (app, pilot):
        tree = app.screen.query_one(Tree)
        assert len(seen(app, "#text").splitlines()) == 1
        folded = tree.last_line
        await pilot.press("x")
        await settled(pilot)
        assert tree.last_line >= folded
        await pilot.press("x", "home")
        await settled(pilot)
        assert tree.last_line == len(tree.root.children) - 1
        await pilot.press("x")
        await settled(pilot)
        for node in list(tree._tree_nodes.values()):
            if node.data and node.data.step.symbol == "V":
                tree.move_cursor(node)
        await settled(pilot)
        assert "basic wind speed" in seen(app, "#step")
        assert "g: go to" in seen(app, "#step")
        await pilot.press("g")
        await settled(pilot)
        assert isinstance(app.screen, Main)
        selected = app.main.query_one(Form).selected
        assert selected is not None
        assert selected.path == ("site", "wind_speed")


@pytest.mark.app
async def test_a_click_on_a_step_folds_it() -> None:
    async with opened("kestrel_yard", (80, 24), "1", "w") as (app, pilot):
        tree = app.screen.query_one(Tree)
        before = tree.last_line
        await pilot.click(tree, offset=(6, 0))
        await settled(pilot)
        assert tree.last_line < before

"""The quick question on the screen: it answers while it is typed, and becomes a job."""

from __future__ import annotations

import pytest
from textual.pilot import Pilot
from textual.widgets import Input

from engine.comparison.compare import compare
from engine.loads import STANDARDS
from engine.mounting import METHODS
from engine.studies.quick import question_scenario, roof_loads
from engine.units import text
from support.opened_app import SIZES, opened, painted, seen, settled
from tui.screens.main import Main
from tui.screens.quick import Quick

pytestmark = pytest.mark.app

TYPED = {
    "modules": "24",
    "seams": "24",
    "purlins": "5 ft",
    "slope": "1:12",
    "height": "24",
    "wind": "105",
    "exposure": "b",
    "snow": "25",
}
VALUES = {**TYPED, "seams": "24 in", "height": "24 ft", "wind": "105 mph", "exposure": "B", "snow": "25 psf"}


async def answer(pilot: Pilot[None], **typed: str) -> None:
    """Type values into their fields."""
    for name, value in typed.items():
        field = pilot.app.screen.query_one(f"#{name}", Input)
        field.focus()
        field.value = ""
        await pilot.pause()
        await pilot.press(*("space" if letter == " " else letter for letter in value))
    await settled(pilot)


@pytest.mark.parametrize("size", SIZES)
async def test_it_answers_while_it_is_typed_and_becomes_a_job(size: tuple[int, int]) -> None:
    """Its figures are those of the same question on the command line; what is unknown is asked for in the form."""
    expected = roof_loads(compare(question_scenario(VALUES, METHODS, STANDARDS)))
    async with opened("kestrel_yard", size, "f4") as (app, pilot):
        assert isinstance(app.screen, Quick)
        assert "NOT A DESIGN" in painted(app)
        await answer(pilot, **TYPED)
        shown = seen(app, "#answer")
        for each in expected:
            assert each.column.title in shown
            assert text(each.with_array, "force", "us") in shown
        assert "Preliminary" in shown
        await pilot.press("enter")
        await settled(pilot)
        assert isinstance(app.screen, Main)
        inputs = app.document.inputs
        assert not inputs.path.exists()  # nothing is written unasked
        assert inputs.tables()["roof"]["rib_spacing"] == "24 in"
        missing = {problem.path for problem in app.state.problems}
        assert missing == {"roof.panel.moment_rib_compressed", "roof.panel.moment_pan_compressed"}


async def test_it_says_what_is_missing_and_what_is_wrong() -> None:
    async with opened("kestrel_yard", (80, 24), "f4") as (app, pilot):
        missing = "modules, seam spacing, purlin spacing, roof slope, roof height, wind speed, exposure, ground snow"
        assert seen(app, "#answer") == f"Still to be given: {missing}."
        await pilot.press("enter")
        assert app.screen.query_one("#modules", Input).has_focus
        await answer(pilot, wind="fast")
        wrong, left = seen(app, "#answer").split("\n")
        assert wrong.startswith("!! wind: 'fast' given")
        assert left == f"Still to be given: {missing.replace('wind speed, ', '')}."
        await answer(pilot, **{**TYPED, "wind": "fast", "also": "risk='III"})
        assert seen(app, "#answer") == "!! also: 'risk='III' given; close the quotation mark"
        await answer(pilot, also="risk=IX")
        risk, wind = seen(app, "#answer").split("\n")
        assert wind.startswith("!! wind: 'fast'")
        assert risk.startswith("!! risk: 'IX'")
        await pilot.press("enter")
        assert isinstance(app.screen, Quick)


async def test_what_was_typed_is_there_the_next_time() -> None:
    async with opened("kestrel_yard", (80, 24), "f4") as (app, pilot):
        await answer(pilot, modules="96", also="risk=III")
        await pilot.press("escape")
        await settled(pilot)
        assert isinstance(app.screen, Main)
        await pilot.press("f4")
        await settled(pilot)
        assert app.screen.query_one("#modules", Input).value == "96"
        assert app.screen.query_one("#also", Input).value == "risk=III"


async def test_another_standard_asks_its_own_values() -> None:
    async with opened("kestrel_yard", (80, 24), "f4") as (app, pilot):
        await answer(pilot, modules="96", standard="en")
        assert not app.screen.query("#exposure")
        assert app.screen.query_one("#terrain", Input)
        assert app.screen.query_one("#modules", Input).value == "96"
        assert app.screen.query_one("#standard", Input).has_focus
        assert app.screen.query_one("#seams", Input).placeholder == "mm"


async def test_it_begins_with_the_standard_of_the_open_file() -> None:
    async with opened("dunlin_hall", (80, 24), "f4") as (app, _):
        assert app.screen.query_one("#standard", Input).value == "EN 1991"
        assert app.screen.query_one("#terrain", Input)

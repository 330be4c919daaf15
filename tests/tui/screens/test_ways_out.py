"""The screen of ways out: the list, applying one and taking it back, and what it says where there is none."""

from __future__ import annotations

import pytest
from textual.widgets import OptionList

from engine.design.status import Status
from engine.studies.ways_out import NOTHING_HELPS
from support.opened_app import opened, settled
from tui.render.ways_out import NOTHING_OVER
from tui.screens.main import Main
from tui.screens.ways_out import WaysOutScreen
from tui.widgets.words import Words

pytestmark = pytest.mark.app


async def test_enter_applies_a_way_and_undo_takes_it_back() -> None:
    async with opened("wren_workshop", (80, 24)) as (app, pilot):
        await pilot.press("o")
        await settled(pilot)
        options = app.screen.query_one(OptionList)
        assert [each.id for each in options.options if each.id] == [
            "0",
            "1",
            "2",
        ]  # a move, a stronger screw, a row less
        assert str(options.get_option_at_index(0).prompt).startswith("RAILS: panel screws")
        await pilot.press("enter")
        await settled(pilot)
        assert isinstance(app.screen, Main)
        assert app.state.comparison
        assert app.state.comparison.column("rail").status == Status.INCOMPLETE
        assert app.document.is_unsaved
        await pilot.press("z")
        await settled(pilot)
        assert not app.document.is_unsaved
        assert app.state.comparison.column("rail").status == Status.OVER


async def test_other_units_are_shown_at_once_and_the_focus_stays() -> None:
    over = {("methods", "rail", "spacing"): "rail span"}
    async with opened("kestrel_yard", (80, 24), changes=over) as (app, pilot):
        await pilot.press("o")
        await settled(pilot)
        options = app.screen.query_one(OptionList)
        await pilot.press("down")
        focused = options.highlighted
        assert "lb of" in str(options.get_option_at_index(0).prompt)
        await pilot.press("u")
        await settled(pilot)
        assert "kN of" in str(options.get_option_at_index(0).prompt)
        assert options.highlighted == focused


@pytest.mark.parametrize(("name", "words"), [("sparrow_lane", NOTHING_OVER), ("heron_depot", NOTHING_HELPS)])
async def test_where_there_is_no_way_it_says_so(name: str, words: str) -> None:
    async with opened(name, (80, 24)) as (app, pilot):
        await pilot.press("o")
        await settled(pilot)
        assert isinstance(app.screen, WaysOutScreen)
        options = app.screen.query_one(OptionList)
        prompts = [str(options.get_option_at_index(number).prompt) for number in range(options.option_count)]
        shown = [str(app.screen.query_one("#about", Words).render()), *prompts]
        assert any(words in each for each in shown)
        await pilot.press("enter")
        assert isinstance(app.screen, WaysOutScreen)
        assert not app.document.is_unsaved

"""Drawing on the roof with the keyboard: the plan and the figures follow, and escape undoes all of it."""

from __future__ import annotations

import pytest

from support.opened_app import SIZES, opened, seen, settled
from tui.screens.draw import Draw
from tui.screens.main import Main
from tui.widgets.key_footer import KeyFooter
from tui.widgets.roof import RoofPane

pytestmark = pytest.mark.app

ORIGIN, ROWS, COLUMNS, AREAS = (("array", key) for key in ("origin", "rows", "columns", "keep_clear"))
NARROW_ZONE = {("module", "clamp_zone"): ["250 mm", "500 mm"], ("methods", "rail", "runs"): "up the slope"}
"""With these rails up the slope of Wren Workshop no rib lies in one of the clamp zones."""


@pytest.mark.parametrize("size", SIZES)
async def test_the_array_moves_by_a_module_a_seam_and_an_inch(size: tuple[int, int]) -> None:
    """Kestrel Yard: modules of 1722 mm with gaps of 1/2 in, seams every 24 in; the array begins at 40 ft."""
    async with opened("kestrel_yard", size, "d") as (app, pilot):
        assert isinstance(app.screen, Draw)
        for key, x in (
            ("right", "45 ft 8.3 in"),
            ("s", ""),
            ("left", "43 ft 8.3 in"),
            ("s", ""),
            ("left", "43 ft 7.3 in"),
        ):
            await pilot.press(key)
            if x:
                assert app.document.inputs.changes[ORIGIN][0] == x
        await settled(pilot)
        assert app.state.comparison is not None
        assert not app.state.is_stale
        assert "past seam 22" in " ".join(seen(app, "#words").split())
        await pilot.press("escape")
        await settled(pilot)
        assert isinstance(app.screen, Main)
        assert app.document.inputs.changes == {}


async def test_what_is_drawn_is_one_step_of_undo_and_the_figures_follow() -> None:
    async with opened("sparrow_lane", (140, 45), "d") as (app, pilot):
        before = app.state.comparison
        await pilot.press("less_than_sign", "minus")
        await settled(pilot)
        assert app.document.inputs.changes[ROWS] == 2
        assert app.document.inputs.changes[COLUMNS] == 4
        assert "8 modules in all" in " ".join(seen(app, "#words").split())
        assert app.state.comparison is not before
        await pilot.press("enter")
        assert isinstance(app.screen, Main)
        await pilot.press("z")
        assert app.document.inputs.changes == {}


async def test_a_keep_clear_area_is_placed_and_removed() -> None:
    async with opened("sparrow_lane", (80, 24), "d", "o") as (app, pilot):
        assert len(app.document.inputs.changes[AREAS]) == 1
        words = [key.word for key in app.screen.query_one(KeyFooter).keys]
        assert {"Remove", "Accept"} <= set(words)
        assert app.screen.query_one(KeyFooter).keys[-1].columns.stop <= 80
        await pilot.press("delete")
        assert app.document.inputs.scenario().job.keep_clear == ()
        await pilot.press("o", "enter", "tab", "right", "enter", "enter")
        await settled(pilot)
        assert isinstance(app.screen, Main)
        assert app.state.comparison is not None
        assert app.state.comparison.scenario.job.keep_clear[0].name == "skylight"


async def test_an_aisle_is_placed_moved_and_removed() -> None:
    async with opened("sparrow_lane", (80, 24), "d", "a") as (app, pilot):
        assert app.document.inputs.changes == {("array", "aisles"): [{"after_row": 1, "width": "3 ft"}]}
        await pilot.press("up", "plus")
        assert app.document.inputs.changes == {("array", "aisles"): [{"after_row": 2, "width": "4 ft"}]}
        assert "Aisle 1" in seen(app, "#words")
        assert {"Remove", "Accept"} <= {key.word for key in app.screen.query_one(KeyFooter).keys}
        await pilot.press("enter", "tab", "delete")
        assert app.document.inputs.scenario().job.arrays[0].aisles == ()


@pytest.mark.parametrize("size", SIZES)
async def test_a_refused_method_shows_the_miss_and_its_cure_is_on_a_key(size: tuple[int, int]) -> None:
    async with opened("wren_workshop", size, "d", changes=NARROW_ZONE) as (app, pilot):
        await settled(pilot)
        words = seen(app, "#words")
        assert "0.11 in" in words  # 1222 mm less 48 in
        assert {"█", "┃"} <= set(words)
        assert "c: run the rails along the eave under portrait modules, then it fits." in " ".join(words.split())
        assert "Cure" in {key.word for key in app.screen.query_one(KeyFooter).keys}
        await pilot.press("c")
        await settled(pilot)
        assert app.document.inputs.changes[("methods", "rail", "runs")] == "along the eave"
        assert app.state.comparison is not None
        assert app.state.comparison.columns[0].design is not None
        assert "Cure" not in {key.word for key in app.screen.query_one(KeyFooter).keys}


async def test_an_array_over_the_ridge_is_moved_back_by_a_key() -> None:
    async with opened("sparrow_lane", (140, 45), "d", *["up"] * 9) as (app, pilot):
        await settled(pilot)
        assert "toward the eave, then it fits." in " ".join(seen(app, "#words").split())
        await pilot.press("c")
        await settled(pilot)
        assert app.state.comparison is not None
        assert app.state.comparison.columns[0].design


async def test_a_module_is_left_out_and_put_back() -> None:
    async with opened("sparrow_lane", (140, 45), "d", "x", "right", "enter") as (app, pilot):
        await settled(pilot)
        assert "14 modules in all" in " ".join(seen(app, "#words").split())
        await pilot.press("enter")
        await settled(pilot)
        assert "15 modules in all" in " ".join(seen(app, "#words").split())


async def test_an_array_that_does_not_fit_says_why_and_the_cure() -> None:
    async with opened("sparrow_lane", (140, 45), "d", *["plus"] * 3) as (app, pilot):
        await settled(pilot)
        assert "Reduce the rows" in " ".join(seen(app, "#words").split())
        await pilot.press("escape")
        await settled(pilot)
        assert app.document.inputs.changes == {}


async def test_only_the_keys_of_the_drawing_act() -> None:
    async with opened("sparrow_lane", (80, 24), "d", "q", "z", "e", "b", "S", "p") as (app, _):
        assert isinstance(app.screen, Draw)
        words = {key.word for key in app.screen.query_one(KeyFooter).keys}
        assert words == {"Move", "Step", "Size", "Area", "Aisle", "Module", "Accept", "Cancel"}
        line = app.screen.query_one(KeyFooter).keys[-1]
        assert line.columns.stop <= 80


@pytest.mark.parametrize(
    ("size", "is_seen"), [((80, 24), False), ((120, 30), True), ((140, 45), True), ((200, 55), True)]
)
async def test_the_roof_is_in_sight_from_120_columns_on(size: tuple[int, int], is_seen: bool) -> None:
    async with opened("sparrow_lane", size) as (app, pilot):
        for keys in ((), ("i",), ("c",)):
            await pilot.press(*keys)
            await settled(pilot)
            roof = app.main.query_one(RoofPane)
            assert (roof.region.area > 0) == is_seen
            assert not is_seen or "ridge" in str(roof.render())


async def test_the_roof_follows_the_open_input_at_once() -> None:
    async with opened("sparrow_lane", (140, 45), "slash", *"array col", "enter", "enter") as (app, pilot):
        before = str(app.main.query_one(RoofPane).render())
        await pilot.press("3")
        after = str(app.main.query_one(RoofPane).render())
        assert after != before
        assert app.state.inputs.changes == {COLUMNS: 3}

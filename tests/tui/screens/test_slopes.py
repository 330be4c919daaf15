"""A building of several slopes in the app: one slope at a time, and the whole on a page of its own."""

from __future__ import annotations

from pathlib import Path

from textual.widgets import Input

from support import SCENARIOS
from support.opened_app import comparison, opened, seen, settled
from tui.app.app import LoadpathApp
from tui.model.inputs import Inputs


async def test_the_next_slope_is_a_key_away_and_its_figures_are_its_own() -> None:
    async with opened("lapwing_hall", (140, 45)) as (app, pilot):
        assert "slope south" in comparison(app)
        first = app.state.comparison
        await pilot.press("]")
        await settled(pilot)
        assert "slope north" in comparison(app)
        assert app.state.comparison is not first
        assert not app.document.is_unsaved
        await pilot.press("]")
        await settled(pilot)
        assert "slope south" in comparison(app)


async def test_the_whole_building_is_a_page_of_totals() -> None:
    async with opened("lapwing_hall", (80, 24), "B") as (app, _):
        page = seen(app, "#text")
        assert "WHOLE BUILDING" in page
        assert "modules on seams on slope south and rails on slope north" in " ".join(page.split())
        assert "Preliminary" in page


async def test_a_file_of_one_slope_has_no_such_keys() -> None:
    async with opened("kestrel_yard", (80, 24), "B", "]") as (app, _):
        assert app.screen is app.main
        assert {"next_slope", "building"}.isdisjoint(command.id for command in app.commands_on(app.main))


async def test_an_edit_of_one_slope_is_kept_while_another_is_shown() -> None:
    async with opened("lapwing_hall", (140, 45)) as (app, pilot):
        inputs = app.state.inputs
        (spacing,) = (each for each in inputs.fields() if each.path == ("slopes", "north", "roof", "support_spacing"))
        app.document.edit(inputs.edited(spacing, "3 ft"), inputs)
        app.show_document()
        await pilot.press("]")
        await settled(pilot)
        assert app.state.comparison
        assert round(app.state.comparison.scenario.job.roof.support_spacing / 0.3048, 6) == 3.0
        assert 'support_spacing = "3 ft"' in app.state.inputs.as_text(app.state.inputs.path)


async def test_the_export_has_all_slopes_whichever_is_shown(tmp_path: Path) -> None:
    path = SCENARIOS / "lapwing_hall.toml"
    app = LoadpathApp(Inputs(path, path.read_text(encoding="utf-8"), slope="north"), ("direct",))
    async with app.run_test(size=(80, 24)) as pilot:
        await settled(pilot)
        await pilot.press("e")
        await settled(pilot)
        app.screen.query_one(Input).value = str(tmp_path)
        await pilot.press("enter")
        await settled(pilot)
        assert app.screen is app.main
    assert {"south", "north", "report.pdf", "plan_direct.pdf", "bill.csv"} < {each.name for each in tmp_path.iterdir()}
    assert {"report.pdf", "installer_direct.pdf"} < {each.name for each in (tmp_path / "south").iterdir()}

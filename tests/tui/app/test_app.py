"""The app, driven by its keys. Conditions are waited for, never the clock."""

from __future__ import annotations

import threading
from collections.abc import AsyncIterator, Callable, Mapping, Sequence
from contextlib import asynccontextmanager
from itertools import takewhile
from pathlib import Path
from textwrap import wrap

import pytest
from textual.geometry import Region
from textual.pilot import Pilot
from textual.widgets import Input, Static

from engine.common.progress import ProgressListener
from engine.comparison.compare import compare
from engine.comparison.figure import UTILISATION
from engine.comparison.figures import loads, table_figures
from engine.comparison.figures.utilisation import limit_in_words
from engine.export.bundle import File
from support import SCENARIOS
from support.opened_app import comparison, figures, painted, seen, settled, why_seen
from tui.app.app import LoadpathApp
from tui.model.inputs import Inputs
from tui.model.state import Question, State
from tui.render import why as why_page
from tui.render.comparison import LABEL, LEGEND, OPEN, groups
from tui.render.styles import BEST
from tui.render.why import why
from tui.screens import headroom
from tui.screens.ask import Ask
from tui.screens.export import STOPPED, Export
from tui.screens.help import Help
from tui.screens.main import Main
from tui.screens.save import Save
from tui.storage.export_folder import write_export
from tui.widgets.comparison import ComparisonPane
from tui.widgets.comparison_area import ComparisonArea
from tui.widgets.inputs import InputsPane
from tui.widgets.picture import Picture
from tui.widgets.tiles import Tiles
from tui.widgets.words import Words

pytestmark = pytest.mark.app


SIZES = [(80, 24), (140, 45)]


def session(path: Path = SCENARIOS / "sparrow_lane.toml") -> Inputs:
    return Inputs(path, path.read_text(encoding="utf-8"))


@asynccontextmanager
async def open_app(size: tuple[int, int]) -> AsyncIterator[tuple[LoadpathApp, Pilot[None]]]:
    """The app on a bundled house, once its first comparison stands."""
    app = LoadpathApp(session())
    async with app.run_test(size=size) as pilot:
        await settled(pilot)
        yield app, pilot


def problems(app: LoadpathApp) -> str:
    return str(app.main.query_one("#problems", Static).render())


async def choose(pilot: Pilot[None], *path: str) -> None:
    """Go to an input by its path, as the arrow keys would."""
    await pilot.press("i")
    pilot.app.screen.query_one(InputsPane).form.select(path)
    await pilot.press("enter")


async def type_anew(pilot: Pilot[None], text: str) -> None:
    pilot.app.screen.query_one(InputsPane).editor.value = text
    await settled(pilot)


def cells_beside(text: str, label: str, columns: int) -> list[str]:
    """The cells of a row of the comparison, each read over all its lines."""
    lines = text.splitlines()
    heading = next(line for line in lines if line[:LABEL].strip() == LEGEND.strip(BEST).strip())
    cell = (len(heading) - LABEL) // columns
    begin, *more = wrap(label, LABEL - 1)
    first = next(number for number, line in enumerate(lines) if line.startswith(begin.ljust(LABEL)))
    rest = takewhile(lambda line: line.strip() and line[:LABEL].strip() in ("", *more), lines[first + 1 :])
    starts = range(LABEL, LABEL + columns * cell, cell)
    whole = [lines[first], *rest]
    return [" ".join(" ".join(line[start : start + cell] for line in whole).split()) for start in starts]


@pytest.mark.parametrize("size", SIZES)
async def test_every_figure_on_the_screen_is_the_comparisons(size: tuple[int, int]) -> None:
    async with open_app(size) as (app, pilot):
        answer = compare(app.state.inputs.scenario())
        await pilot.press("x")
        for system in ("us", "si"):
            text = figures(app)
            for row in table_figures():
                label = row.label(answer.scenario.job)
                cells = [" ".join(row.cell(column, system).split()) for column in answer.columns]
                assert cells_beside(text, label, len(cells)) == cells, label
            await pilot.press("u")
            await settled(pilot)


async def test_an_edit_is_followed_at_once_and_can_be_undone() -> None:
    async with open_app((200, 55)) as (app, pilot):
        calm = comparison(app)
        await choose(pilot, "site", "wind_speed")
        await type_anew(pilot, "170 mph")
        assert "wind speed 170 mph" in comparison(app)
        assert "OVER" in comparison(app)
        await pilot.press("enter", "z", "c")
        await settled(pilot)
        assert comparison(app) == calm
        await pilot.press("y")
        await settled(pilot)
        assert "wind speed 170 mph" in comparison(app)


async def test_wrong_text_keeps_the_last_good_comparison_and_says_what_is_wrong() -> None:
    async with open_app((80, 24)) as (app, pilot):
        calm = comparison(app)
        await choose(pilot, "roof", "rib_spacing")
        await type_anew(pilot, "16 psf")
        assert "spacing of the seams or ribs: '16 psf' given; write a length" in problems(app)
        assert comparison(app) == calm
        await pilot.press("enter")
        assert app.state.inputs.changes[("roof", "rib_spacing")] == "16 psf"
        await pilot.press("z")
        await settled(pilot)
        assert not app.state.problems
        assert app.main.query_one("#problems", Static).has_class("some") is False


async def test_inputs_of_every_table_can_be_reached_opened_and_left() -> None:
    async with open_app((80, 24)) as (app, pilot):
        await pilot.press("i")
        pane = app.main.query_one(InputsPane)
        fields = app.state.inputs.fields()
        for field in fields[::9]:
            pane.form.select(field.path)
            await pilot.press("enter")
            assert pane.editor.value == field.editable
            await pilot.press("escape")
        assert not app.state.inputs.changes
        assert len(fields) > 80
        assert all(field.info.description in field.help for field in fields)


async def test_typing_the_shown_value_again_changes_nothing() -> None:
    """What the form shows is what the file may say."""
    app = LoadpathApp(session())
    for field in app.state.inputs.fields():
        if field.shown:
            again = app.state.inputs.edited(field, field.shown)
            assert compare_key(again) == compare_key(app.state.inputs), field.path


def compare_key(of: Inputs) -> object:
    job = of.scenario().job
    return job, of.scenario().methods


async def test_a_bundled_scenario_is_saved_elsewhere_and_comments_stay(tmp_path: Path) -> None:
    app = LoadpathApp(session())
    before = (SCENARIOS / "sparrow_lane.toml").read_text(encoding="utf-8")
    async with app.run_test(size=(80, 24)) as pilot:
        await settled(pilot)
        await choose(pilot, "site", "wind_speed")
        await type_anew(pilot, "95 mph")
        await pilot.press("enter", "s")
        save = app.screen
        assert isinstance(save, Save)
        save.query_one(Input).value = str(SCENARIOS / "sparrow_lane.toml")
        await pilot.press("enter")
        assert "is not overwritten" in str(save.query_one(".wrong", Static).render())
        save.query_one(Input).value = str(tmp_path / "mine.toml")
        await pilot.press("enter")
        await settled(pilot)
        assert isinstance(app.screen, Main)
        assert not app.document.is_unsaved
    saved = (tmp_path / "mine.toml").read_text(encoding="utf-8")
    assert saved == before.replace('"110 mph"', '"95 mph"')
    assert (SCENARIOS / "sparrow_lane.toml").read_text(encoding="utf-8") == before


async def test_what_exists_is_replaced_only_when_asked_twice(tmp_path: Path) -> None:
    (tmp_path / "mine.toml").write_text("precious", encoding="utf-8")
    async with open_app((80, 24)) as (app, pilot):
        await pilot.press("s")
        app.screen.query_one(Input).value = str(tmp_path / "mine.toml")
        await pilot.press("enter")
        assert (tmp_path / "mine.toml").read_text(encoding="utf-8") == "precious"
        await pilot.press("enter")
        await settled(pilot)
    assert "Sparrow" in (tmp_path / "mine.toml").read_text(encoding="utf-8")


async def test_leaving_with_unsaved_changes_asks() -> None:
    async with open_app((80, 24)) as (app, pilot):
        await choose(pilot, "site", "wind_speed")
        await type_anew(pilot, "95 mph")
        await pilot.press("enter", "q")
        assert isinstance(app.screen, Ask)
        await pilot.press("escape")
        assert isinstance(app.screen, Main)
        assert app.document.is_unsaved
        await pilot.press("q", "down", "enter")
    assert app.return_code == 0


async def test_opening_another_scenario() -> None:
    async with open_app((140, 45)) as (app, pilot):
        assert app.state.system == "us"
        await pilot.press("ctrl+o", "down", "enter")
        await settled(pilot)
        assert "Dunlin Hall" in comparison(app)
        assert app.state.system == "si"  # as its load standard has it
        await pilot.press("ctrl+o", "tab")
        app.screen.query_one(Input).value = "nowhere.toml"
        await pilot.press("enter")
        assert "cannot be read" in str(app.screen.query_one(".wrong", Static).render())
        await pilot.press("escape")
        assert "Dunlin Hall" in comparison(app)


async def test_help_is_about_what_is_in_focus_and_lists_every_key() -> None:
    async with open_app((140, 45)) as (app, pilot):
        await pilot.press("question_mark")
        assert isinstance(app.screen, Help)
        text = str(app.screen.query_one(Static).render())
        for command in app.commands_on(app.main):
            assert command.help in text
        job = app.state.inputs.scenario().job
        for row in table_figures():
            assert row.help(job).removesuffix(f"; {limit_in_words(job)}") in text
        _nothing_twice(text)
        await pilot.press("escape", "i", "question_mark")
        assert "title of the job" in str(app.screen.query_one(Static).render())


@pytest.mark.parametrize("key", ["i", "p", "l", "b", "n", "w", "h"])
async def test_help_says_nothing_twice(key: str) -> None:
    async with open_app((140, 45)) as (app, pilot):
        await pilot.press(key, "question_mark")
        _nothing_twice(str(app.screen.query_one(Static).render()))


def _nothing_twice(text: str) -> None:
    said = [
        sentence.strip() for line in text.splitlines() for sentence in line.split(". ") if len(sentence.split()) > 3
    ]
    assert sorted(said) == sorted(set(said))


@pytest.mark.parametrize("size", [(1, 1), (20, 5), (40, 10), (300, 90)])
async def test_any_terminal_will_do(size: tuple[int, int]) -> None:
    """Into an input and out of it, to the comparison, to the help and back: the comparison is left in the other units."""
    async with open_app(size) as (app, pilot):
        await pilot.press("i", "enter", "escape", "c", "question_mark", "escape", "u")
        await settled(pilot)
        assert isinstance(app.screen, Main)
        assert (app.state.system, app.state.inputs.changes) == ("si", {})


async def test_a_title_is_text_and_never_markup(tmp_path: Path) -> None:
    path = tmp_path / "odd.toml"
    odd = "[red]=1+1[/] {x} [@click=app.quit]"
    path.write_text(
        (SCENARIOS / "sparrow_lane.toml").read_text(encoding="utf-8").replace("Sparrow Lane house (invented)", odd),
        encoding="utf-8",
    )
    app = LoadpathApp(session(path))
    async with app.run_test(size=(80, 24)) as pilot:
        await settled(pilot)
        assert odd in comparison(app)


async def test_a_late_comparison_is_dropped() -> None:
    """An old result that arrives after the session moved on must not be shown."""
    from tui.model.messages import Compared  # noqa: PLC0415

    async with open_app((80, 24)) as (app, pilot):
        calm, old = comparison(app), app.state.inputs
        late = compare(session(SCENARIOS / "heron_depot.toml").scenario())
        app.post_message(Compared(Inputs(old.path, old.text, {("site", "wind_speed"): "95 mph"}), late))
        await settled(pilot)
        assert comparison(app) == calm


@pytest.mark.parametrize("key", ["q", "ctrl+q"])
async def test_every_way_out_asks_about_unsaved_changes(key: str) -> None:
    async with open_app((80, 24)) as (app, pilot):
        await choose(pilot, "site", "wind_speed")
        await type_anew(pilot, "95 mph")
        await pilot.press("enter", key)
        await pilot.pause()
        assert isinstance(app.screen, Ask)


async def test_a_broken_file_opens_and_can_be_put_right(tmp_path: Path) -> None:
    path = tmp_path / "broken.toml"
    path.write_text(
        (SCENARIOS / "sparrow_lane.toml").read_text(encoding="utf-8").replace('"110 mph"', '"999 mph"'),
        encoding="utf-8",
    )
    app = LoadpathApp(session(path))
    async with app.run_test(size=(200, 55)) as pilot:
        await settled(pilot)
        assert "'999 mph' given; allowed is 60 mph to 300 mph" in problems(app)
        await choose(pilot, "site", "wind_speed")
        await type_anew(pilot, "110 mph")
        assert "wind speed 110 mph" in comparison(app)
        assert not app.state.problems


async def test_figures_from_before_a_wrong_input_are_marked_as_old() -> None:
    async with open_app((140, 45)) as (app, pilot):
        await choose(pilot, "site", "wind_speed")
        await type_anew(pilot, "fast")
        assert str(app.main.query_one("#place", Static).render()).startswith(" older inputs ")
        await type_anew(pilot, "95 mph")
        assert "older inputs" not in str(app.main.query_one("#place", Static).render())


@pytest.mark.parametrize(
    ("key", "words"),
    [("1", "rails: verdict"), ("a", "rails: verdict"), ("f", "rails: module 0.37")],
)
@pytest.mark.parametrize("size", SIZES)
async def test_why_opens_reads_and_closes(key: str, words: str, size: tuple[int, int]) -> None:
    async with open_app(size) as (app, pilot):
        await pilot.press(key, "w")
        await settled(pilot)
        assert str(app.screen.query_one("#text", Static).render()).startswith(words)
        await pilot.press("escape")
        assert isinstance(app.screen, Main)


@pytest.mark.parametrize("key", ["w", "h"])
async def test_a_reading_that_breaks_says_so_and_the_app_stays_open(key: str, monkeypatch: pytest.MonkeyPatch) -> None:
    def breaks(*_: object) -> None:
        raise RuntimeError

    monkeypatch.setattr(why_page, "why", breaks)
    monkeypatch.setattr(headroom, "headroom", breaks)
    async with open_app((80, 24)) as (app, pilot):
        await pilot.press(key)
        await settled(pilot)
        assert "Internal error: please report it" in painted(app)
        await pilot.press("escape")
        assert app.screen is app.main


async def test_every_screen_says_what_is_wrong_and_keeps_the_last_good_figures() -> None:
    async with open_app((80, 24)) as (app, pilot):
        await choose(pilot, "site", "wind_speed")
        await type_anew(pilot, "fast")
        await pilot.press("enter", "n")
        await settled(pilot)
        said = str(app.screen.query_one("#problems", Static).render())
        assert "'fast' given" in said
        assert "The figures shown are from older inputs." in said
        assert "every 3rd seam" in str(app.screen.query_one(Picture).render())


async def test_undo_and_units_work_on_every_screen_and_it_follows() -> None:
    async with open_app((140, 45)) as (app, pilot):
        await choose(pilot, "site", "wind_speed")
        await type_anew(pilot, "95 mph")
        await pilot.press("enter", "n")
        await settled(pilot)
        text = app.screen.query_one(Picture)
        windy = str(text.render())
        await pilot.press("z")
        await settled(pilot)
        calm = str(text.render())
        assert calm != windy
        await pilot.press("u")
        await settled(pilot)
        assert " kN" in str(text.render())


async def test_screens_give_way_to_one_another_and_escape_leads_back_to_the_comparison() -> None:
    async with open_app((80, 24)) as (app, pilot):
        await pilot.press("n", "n", "w", "n", "question_mark", "escape", "escape")
        assert isinstance(app.screen, Main)
        await pilot.press("n", "i")
        assert isinstance(app.screen, Main)
        assert app.screen.query_one(InputsPane).has_focus_within


async def test_a_baseline_is_kept_compared_with_and_dropped_by_one_key() -> None:
    async with open_app((200, 55)) as (app, pilot):
        await pilot.press("x")
        calm = comparison(app)
        before = app.state.comparison
        await pilot.press("k")
        assert before is app.state.baseline
        assert "baseline" in comparison(app)
        assert " more" not in comparison(app)
        await choose(pilot, "site", "wind_speed")
        await type_anew(pilot, "170 mph")
        assert before is not None
        assert app.state.comparison is not None
        for row in table_figures():
            changes = [row.change(column, before.column(column.id), "us") for column in app.state.comparison.columns]
            if set(changes) != {"same"}:
                cells = [row.cell(column, "us") for column in app.state.comparison.columns]
                shown_cells = cells_beside(figures(app), row.label(before.scenario.job), len(changes))
                assert shown_cells == [f"{cell} {change}" for cell, change in zip(cells, changes, strict=True)], row.key
        assert "wind speed 170 mph (+60 mph more)" in " ".join(comparison(app).split())
        await pilot.press("escape", "k", "z", "c")
        await settled(pilot)
        assert comparison(app) == calm


async def test_the_comparison_is_walked_figure_by_figure() -> None:
    async with open_app((80, 24)) as (app, pilot):
        assert app.state.comparison is not None
        pane, all_rows = app.main.query_one(ComparisonPane), table_figures()
        titles = [column.title for column in app.state.comparison.columns]
        await pilot.press("x", "home")
        for number, row in enumerate(all_rows[:-1]):
            assert pane.row is not None
            assert pane.row.key == row.key
            line = pane._sheet.entries[number].line
            assert pane.scroll_y + 1 <= line < pane.scroll_y + pane.size.height, row.key
            heads = str(pane.query_one("#heads", Static).render())
            assert [title for title in titles if title in heads] == titles
            await pilot.press("down")
        await pilot.press("end", "down", "pagedown", "home")
        assert pane.scroll_y == 0
        await pilot.press("right", "right", "right", "left")
        assert app.main.question() == Question("tilted_rack", "status")


def open_groups(app: LoadpathApp) -> list[str]:
    return [line.strip(f"{OPEN} ─") for line in figures(app).splitlines() if line.startswith(OPEN)]


@pytest.mark.parametrize("size", SIZES)
async def test_groups_fold_and_the_cursor_goes_to_what_is_in_sight(size: tuple[int, int]) -> None:
    async with open_app(size) as (app, pilot):
        pane = app.main.query_one(ComparisonPane)
        assert (open_groups(app), pane.row and pane.row.key) == ([UTILISATION], "module")
        await pilot.press("up")
        assert (pane.row, app.main.question().row) == (None, "")
        await pilot.press("enter")
        await settled(pilot)
        assert (open_groups(app), pane.row and pane.row.key) == ([loads.GROUP, UTILISATION], "point_load_up_n")
        await pilot.press("space")
        await settled(pilot)
        assert (open_groups(app), pane.row) == ([UTILISATION], None)
        await pilot.press("down", "down", "space")
        await settled(pilot)
        assert (open_groups(app), pane.row) == ([], None)
        await pilot.press("x", "end")
        await settled(pilot)
        assert (tuple(open_groups(app)), pane.row and pane.row.key) == (groups(), table_figures()[-1].key)
        await pilot.press("x")
        await settled(pilot)
        assert (open_groups(app), pane.row) == ([], None)
        assert pane.scroll_y <= pane._sheet.entries[-1].line < pane.scroll_y + pane.size.height


async def test_groups_fold_only_while_the_figures_are_in_focus() -> None:
    async with open_app((140, 45)) as (app, pilot):
        await pilot.press("2", "space", "x")
        await settled(pilot)
        assert open_groups(app) == [UTILISATION]


@pytest.mark.parametrize("size", SIZES)
async def test_every_pane_has_a_key_in_its_title_that_leads_to_it(size: tuple[int, int]) -> None:
    async with open_app(size) as (app, pilot):
        for pane in app.main.query_one(ComparisonArea).query(".pane"):
            if pane.display:
                await pilot.press(str(pane.border_title)[0])
                assert app.main.focused is pane
        assert app.state.comparison is not None
        for number, column in enumerate(app.state.comparison.columns, start=1):
            await pilot.press(str(number))
            await settled(pilot)
            assert app.main.focused is app.main.query_one(Tiles)
            assert f"━ {number} {column.title} ━" in comparison(app)
            assert app.main.question() == Question(column.id)
        await pilot.press("right", "left")
        assert app.main.question().method == app.state.comparison.columns[1].id
        await pilot.press("down")
        assert app.main.focused is app.main.query_one(ComparisonPane)


async def test_a_click_finds_the_row_under_it_where_the_figures_are_scrolled() -> None:
    async with open_app((80, 24)) as (app, pilot):
        pane = app.main.query_one(ComparisonPane)
        await pilot.press("x", "end")
        await settled(pilot)
        assert pane.scroll_y > 0
        number = next(n for n, entry in enumerate(pane._sheet.entries) if entry.line > pane.scroll_y + 3)
        line = pane._sheet.entries[number].line
        await pilot.click(pane, offset=(30, line - int(pane.scroll_y) + 1))  # below the line above the pane
        assert pane.row is pane._sheet.entries[number].figure


async def test_a_click_does_what_the_keys_do() -> None:
    async with open_app((140, 45)) as (app, pilot):
        pane, tiles = app.main.query_one(ComparisonPane), app.main.query_one(Tiles)
        await pilot.click(tiles, offset=(80, 3))
        assert (app.main.focused, app.main.question().method) == (tiles, "direct")
        clip = next(entry for entry in pane._sheet.entries if entry.figure and entry.figure.key == "roof_fastening")
        await pilot.click(pane.query(Words).first(), offset=(3, clip.line))
        assert (app.main.focused, app.main.question().row) == (pane, "roof_fastening")
        await pilot.click(pane.query(Words).first(), offset=(3, pane._sheet.entries[0].line))
        await settled(pilot)
        assert open_groups(app)[0] == pane._sheet.entries[0].group


async def test_methods_are_gone_through_where_no_tile_was_drawn_for_lack_of_room() -> None:
    async with open_app((69, 24)) as (app, pilot):
        methods = [column.id for column in app.state.comparison.columns] if app.state.comparison else []
        app.main.query_one(Tiles).action_turn(1)
        await settled(pilot)
        assert app.main.question().method == methods[1]


@pytest.mark.parametrize(("width", "is_enough"), [(69, False), (70, True)])
async def test_too_narrow_a_terminal_is_told_so(width: int, is_enough: bool) -> None:
    async with open_app((width, 24)) as (app, _):
        words = str(app.main.query_one(ComparisonPane).query_one(Static).render())
        assert words.startswith("The comparison needs 70 columns") != is_enough
        assert app.main.query_one(Tiles).display == is_enough
        assert max(map(len, words.splitlines())) <= width or not is_enough


async def test_a_page_on_shows_the_line_after_the_last_one_below_the_names_that_stay() -> None:
    async with open_app((80, 24)) as (app, pilot):
        pane = app.main.query_one(ComparisonPane)
        heads, room = pane.query_one("#heads", Static), pane.scrollable_content_region
        await pilot.press("pagedown")
        assert heads.region == Region(room.x, room.y, room.width, 1)
        assert pane.scroll_y == room.height - 1
        await pilot.press("pageup")
        assert pane.scroll_y == 0


@pytest.mark.parametrize(
    ("scenario", "only"), [("kestrel_yard", ()), ("plover_terrace", ("tilted_rack",)), ("sparrow_lane", ("direct",))]
)
async def test_the_first_screen_says_how_many_warnings_there_are_and_a_key_leads_to_them(
    scenario: str, only: tuple[str, ...]
) -> None:
    """Several on the yard, one of the method that is refused, none of the one that holds."""
    app = LoadpathApp(session(SCENARIOS / f"{scenario}.toml"), only)
    async with app.run_test(size=(80, 24)) as pilot:
        await settled(pilot)
        assert app.state.comparison
        count = sum(flag.severity == "warning" for column in app.state.comparison.columns for flag in column.flags)
        said = {0: "", 1: ", 1 warning (N)"}.get(count, f", {count} warnings (N)")
        pane = app.main.query_one(ComparisonPane)
        assert str(pane.border_title) == f"f Figures{said}"
        await pilot.press("N")
        await settled(pilot)
        assert pane.scroll_y == pane._sheet.notes


@pytest.mark.parametrize("size", SIZES)
async def test_finding_out_why_from_the_figure_back_to_the_wind_speed(size: tuple[int, int]) -> None:
    """The job "find why": walk to the clip's figure, open it, read it in either system, come back to the same figure."""
    async with open_app(size) as (app, pilot):
        pane = app.main.query_one(ComparisonPane)
        while pane.row is not None and pane.row.key != "roof_fastening":
            await pilot.press("down")
        await pilot.press("right", "right", "enter")
        await settled(pilot)
        told = why_seen(app)
        assert told.startswith("modules on seams: clip 0.")
        assert told.index("utilisation of the clip") < told.index("V = 110 mph")
        assert "ASCE 7-16 " in told
        await pilot.press("u")
        await settled(pilot)
        assert "V = 110 mph [49.2 m/s]" in why_seen(app)
        await pilot.press("escape")
        assert app.screen is app.main
        assert app.main.question().row == "roof_fastening"


async def test_every_figure_answers_why() -> None:
    state = State(session(), compare(session().scenario()))
    assert state.comparison is not None
    for row in table_figures():
        for column in state.comparison.columns:
            assert why(state, Question(column.id, row.key)).sentence.startswith(
                f"{column.title}: {row.label(state.comparison.scenario.job)} {row.cell(column, 'us')}"
            ), row.key


def test_what_is_no_figure_of_the_comparison_is_not_answered_with_another() -> None:
    state = State(session(), compare(session().scenario()))
    with pytest.raises(KeyError):
        why(state, Question("rail", "no such figure"))
    assert why(state, Question("rail")).sentence == why(state, Question("rail", "status")).sentence


async def test_escape_takes_back_what_was_typed_and_redo_brings_it_again() -> None:
    async with open_app((140, 45)) as (app, pilot):
        calm = comparison(app)
        await choose(pilot, "site", "wind_speed")
        await type_anew(pilot, "170 mph")
        assert comparison(app) != calm
        await pilot.press("escape", "c")
        await settled(pilot)
        assert comparison(app) == calm
        assert not app.document.is_unsaved
        await pilot.press("y")
        await settled(pilot)
        assert "wind speed 170 mph" in comparison(app)


@pytest.mark.parametrize("size", SIZES)
async def test_what_is_wrong_is_said_once_below_the_field(size: tuple[int, int]) -> None:
    async with open_app(size) as (app, pilot):
        await choose(pilot, "roof", "rib_spacing")
        await type_anew(pilot, "16 psf")
        pane, wrong = app.main.query_one(InputsPane), app.main.query_one("#problems", Static)
        said = "'16 psf' given; write a length with its unit"
        assert str(wrong.render()).startswith(f"!! spacing of the seams or ribs: {said}")
        assert [said in str(each.render()) for each in app.screen.query(Static)].count(True) == 1
        await pilot.press("enter")
        assert "! spacing of the seams" in str(pane.form.query_one(Static).render())
        await pilot.press("z")
        await settled(pilot)
        assert not wrong.display


async def test_what_is_wrong_with_the_input_looked_at_comes_first() -> None:
    names = {
        ("roof", "rib_spacing"): "spacing of the seams or ribs",
        ("site", "wind_speed"): "basic wind speed",
        ("array", "rows"): "rows up the slope",
    }
    async with open_app((80, 24)) as (app, pilot):
        for path, name in names.items():
            await choose(pilot, *path)
            await type_anew(pilot, "fast")
            assert problems(app).startswith(f"!! {name}: 'fast' given")
            await pilot.press("enter")
        await choose(pilot, "site", "wind_speed")
        await pilot.press("escape")
        assert problems(app).startswith("!! basic wind speed: 'fast' given")
        for name in names.values():
            assert problems(app).count(f"!! {name}") == 1


async def test_an_input_is_found_by_part_of_its_name() -> None:
    async with open_app((80, 24)) as (app, pilot):
        await pilot.press("slash", *"hardware clamp u", "enter")
        form = app.main.query_one(InputsPane).form
        every = len(app.state.inputs.fields())
        field = form.selected
        assert field is not None
        assert field.path == ("hardware", "clamp_uplift")
        assert [line.field.path for line in form.lines if line.field and not line.depth] == [field.path]
        await pilot.press("escape")
        assert form.selected == field
        assert len({line.group for line in form.lines}) > 10
        assert every > 80
        await pilot.press("slash", *"screws at one")
        assert form.selected is not None
        assert form.selected.path == ("roof", "fastening", "uplift")
        await pilot.press("escape", "slash", *"no such thing")
        assert not form.lines
        await pilot.press("enter", "enter", "escape", "escape")
        assert app.main.focused is app.main.query_one(ComparisonPane)


async def test_undo_has_no_limit() -> None:
    async with open_app((80, 24)) as (app, pilot):
        first = app.state.inputs
        for number in range(12):
            await choose(pilot, "site", "wind_speed")
            pilot.app.screen.query_one(InputsPane).editor.value = f"{100 + number} mph"
            await pilot.press("enter")
        last = app.state.inputs
        await pilot.press(*["z"] * 12)
        assert app.state.inputs == first
        await pilot.press(*["y"] * 12)
        assert app.state.inputs == last


async def test_export_asks_for_a_folder_and_before_it_replaces(tmp_path: Path) -> None:
    async with open_app((80, 24)) as (app, pilot):
        await pilot.press("e")
        await settled(pilot)
        assert isinstance(app.screen, Export)
        app.screen.query_one(Input).value = str(tmp_path / "out")
        await pilot.press("enter")
        await settled(pilot)
        assert app.screen is app.main
        written = {path.name: path.read_bytes() for path in (tmp_path / "out").iterdir()}
        assert {"report.html", "comparison.xlsx", "plan_rail.dxf"} <= set(written)
        (tmp_path / "out" / "report.html").write_text("precious", encoding="utf-8")
        await pilot.press("e")
        await settled(pilot)
        app.screen.query_one(Input).value = str(tmp_path / "out")
        await pilot.press("enter")
        await settled(pilot)
        assert "enter again" in str(app.screen.query_one(".wrong", Static).render())
        assert (tmp_path / "out" / "report.html").read_text(encoding="utf-8") == "precious"
        await pilot.press("enter")
        await settled(pilot)
        assert {path.name: path.read_bytes() for path in (tmp_path / "out").iterdir()} == written


async def until(pilot: Pilot[None], holds: Callable[[], bool]) -> None:
    """Wait; the test's own timeout ends what never holds."""
    while not holds():
        await pilot.pause(0.01)


@pytest.mark.parametrize("exists", [True, False])
async def test_escape_stops_an_export_between_two_files_and_the_folder_is_as_it_was(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, exists: bool
) -> None:
    folder, files = tmp_path / "new" / "out", {"report.html": "precious"} if exists else {}
    for name, text in files.items():
        folder.mkdir(parents=True)
        (folder / name).write_text(text, encoding="utf-8")
    is_cancelled = threading.Event()

    def write(export: Mapping[str, Sequence[File]], folder: Path, tell: ProgressListener, *, overwrite: bool) -> int:
        def wait(words: str) -> None:  # files that are remembered would all be written before the key comes
            tell(words)
            if words.startswith("2 of "):
                assert is_cancelled.wait(60)

        return write_export(export, folder, wait, overwrite=overwrite)

    monkeypatch.setattr("tui.screens.export.write_export", write)
    async with open_app((80, 24)) as (app, pilot):
        await pilot.press("e")
        await settled(pilot)
        app.screen.query_one(Input).value = str(folder)
        await pilot.press("enter")
        if exists:
            await until(pilot, lambda: "press enter again" in seen(app, ".wrong"))
            await pilot.press("enter")
        await until(pilot, lambda: "1 of " in seen(app, "#progress"))
        await pilot.press("escape")
        is_cancelled.set()
        await until(pilot, lambda: bool(seen(app, ".wrong")))
        assert seen(app, ".wrong") == STOPPED
        assert {path.name: path.read_text() for path in tmp_path.rglob("*.*")} == files
        assert (tmp_path / "new").exists() == exists
        await pilot.press("escape")
        assert app.screen is app.main


async def test_a_folder_that_cannot_be_written_may_be_given_anew(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("", encoding="utf-8")
    async with open_app((80, 24)) as (app, pilot):
        await pilot.press("e")
        await settled(pilot)
        app.screen.query_one(Input).value = str(tmp_path / "file")
        await pilot.press("enter")
        await settled(pilot)
        assert "cannot be made a folder" in str(app.screen.query_one(".wrong", Static).render())
        assert not app.screen.query_one(Input).disabled

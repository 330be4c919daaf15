"""Text painted line by line looks as the framework's own widget paints the whole of it, at the price of what changes."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace

import pytest
from textual.app import App, ComposeResult
from textual.containers import Horizontal, VerticalScroll
from textual.content import Content
from textual.geometry import Offset, Region
from textual.selection import Selection
from textual.strip import Strip
from textual.widgets import Static

from support.opened_app import SIZES, opened, settled
from tui.widgets.comparison import ComparisonPane
from tui.widgets.text_lines import TextLines

pytestmark = pytest.mark.app

LONG = "a sentence that is too long for one row of the screen and goes on below it, more than once"
TEXTS = [
    ["one", "two", "three"],
    ["one", "2", "three"],
    ["one", LONG, "three", "", "five"],
    ["one", LONG.replace("long", "wide"), "three", "", "five"],
    ["屋根の上のモジュール, 屋根の上のモジュール, 屋根の上のモジュール", "tab\tstop", LONG, "é̂ü"],
    ["屋根の下のモジュール, 屋根の上のモジュール, 屋根の上のモジュール", "tab\tend", LONG, "é̂ü"],
    [f"{number} of forty" for number in range(40)],
    [f"{number} of {'FORTY' if number % 7 == 0 else 'forty'}" for number in range(40)],
    [""],
    [],
]


def lines_of(texts: Sequence[str]) -> list[Content]:
    """Some of the words are coloured."""
    return [Content(text[:3]) + Content.styled(text[3:], "$text-error bold reverse") for text in texts] or [Content("")]


class BothWays(App[None]):
    """The same text twice: as one piece on the left, line by line on the right."""

    CSS = "VerticalScroll { width: 1fr; scrollbar-gutter: stable; } VerticalScroll > * { padding: 0 2 1 1; }"

    def compose(self) -> ComposeResult:
        with Horizontal():
            with VerticalScroll():
                yield Static()
            with VerticalScroll():
                yield TextLines()

    def show(self, lines: list[Content]) -> None:
        self.query(Static).first().update(Content("\n").join(lines))
        self.query_one(TextLines).show_lines(lines)

    def assert_same_cells(self) -> None:
        width = self.size.width // 2
        strips = self.screen._compositor.render_strips()
        assert [cells(strip.crop(0, width)) for strip in strips] == [cells(strip.crop(width)) for strip in strips]


def cells(strip: Strip) -> list[tuple[str, str]]:
    """Letter and look of each cell."""
    return [(letter, str(style)) for text, style, _ in strip for letter in text]


async def test_every_cell_is_as_the_framework_paints_it() -> None:
    app = BothWays()
    async with app.run_test(size=(82, 20)) as pilot:
        for texts in TEXTS:
            app.show(lines_of(texts))
            await pilot.pause()
            app.assert_same_cells()
        app.show(lines_of(TEXTS[3]))
        await pilot.pause()
        app.register_theme(replace(app.current_theme, name="green errors", error="#00ff00"))
        app.theme = "green errors"
        await pilot.pause()
        app.assert_same_cells()
        app.theme = "textual-light"
        await pilot.pause()
        app.assert_same_cells()
        await pilot.resize_terminal(40, 12)
        await pilot.pause()
        app.assert_same_cells()
        app.screen.selections = {widget: Selection(Offset(5, 0), Offset(9, 3)) for widget in app.query(Static)}
        await pilot.pause()
        app.assert_same_cells()
        app.show(lines_of(TEXTS[2]))
        await pilot.pause()
        app.assert_same_cells()
        app.screen.clear_selection()
        await pilot.pause()
        app.assert_same_cells()


async def test_without_colours_the_cells_are_the_same_too(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("NO_COLOR", "1")
    app = BothWays()
    async with app.run_test(size=(82, 20)) as pilot:
        for texts in TEXTS[2:4]:
            app.show(lines_of(texts))
            await pilot.pause()
            app.assert_same_cells()


async def test_the_mouse_selects_the_letters_under_it() -> None:
    app = BothWays()
    async with app.run_test(size=(82, 20)) as pilot:
        text = app.query_one(TextLines)
        for texts in TEXTS[2:4]:  # of the second one, only one line is painted anew
            app.show(lines_of(texts))
            await pilot.pause()
            below = next(y for y in range(20) if "three" in text.render_line(y).text)
            await pilot.mouse_down(text, offset=Offset(2, below))
            await pilot.hover(text, offset=Offset(4, below + 2))
            await pilot.mouse_up(text, offset=Offset(4, below + 2))
            assert app.screen.get_selected_text() == "hree\n\nfive"
            app.screen.clear_selection()


@pytest.fixture
def painted(monkeypatch: pytest.MonkeyPatch) -> list[int]:
    """The rows of all texts that are painted."""
    rows: list[int] = []
    paint: Callable[[TextLines, int], Strip] = TextLines.render_line

    def counted(self: TextLines, y: int) -> Strip:
        rows.append(y)
        return paint(self, y)

    monkeypatch.setattr(TextLines, "render_line", counted)
    return rows


@pytest.mark.parametrize("size", SIZES)
async def test_an_arrow_paints_the_row_it_leaves_and_the_row_it_enters(
    size: tuple[int, int], painted: list[int]
) -> None:
    async with opened("kestrel_yard", size) as (app, pilot):
        pane, layouts = app.main.query_one(ComparisonPane), list[object]()
        starts = [entry.line for entry in pane._sheet.entries][pane._number :]
        app.screen.screen_layout_refresh_signal.subscribe(app.screen, layouts.append)
        for number in range(3):
            painted.clear()
            await pilot.press("down")
            await settled(pilot)
            assert set(starts[number : number + 2]) <= set(painted) <= set(range(starts[number], starts[number + 2]))
            assert len(painted) == len(set(painted))
        assert not layouts


async def test_scrolling_paints_the_rows_that_come_into_sight(painted: list[int]) -> None:
    async with opened("kestrel_yard", (80, 24)) as (app, pilot):
        pane = app.main.query_one(ComparisonPane)
        await pilot.press("end")
        await settled(pilot)
        top = pane.scroll_y
        painted.clear()
        await pilot.press("down")
        await settled(pilot)
        assert len(painted) == pane.scroll_y - top > 0


async def test_the_same_text_again_paints_nothing(painted: list[int]) -> None:
    app = BothWays()
    async with app.run_test() as pilot:
        for _ in range(2):
            painted.clear()
            app.query_one(TextLines).show_lines(lines_of(TEXTS[0]))
            await pilot.pause()
        assert not painted
        assert app.query_one(TextLines).region == Region(40, 0, 38, 4)

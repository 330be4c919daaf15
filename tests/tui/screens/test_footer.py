"""The footer: every key is painted where the mouse finds it."""

from __future__ import annotations

import pytest
from rich.style import Style
from textual.pilot import Pilot

from support.opened_app import opened, settled
from tui.model.commands import COMMANDS
from tui.screens.bill import BillScreen
from tui.screens.main import Main
from tui.widgets.key_footer import KeyFooter, KeyLine, ShownKey


def shown_key(pilot: Pilot[None], word: str) -> ShownKey:
    return next(key for key in pilot.app.screen.query_one(KeyFooter).keys if key.word == word)


def backgrounds(line: KeyLine, columns: range) -> set[object]:
    """Background colours painted under these columns."""
    cells = [style or Style() for text, style, _ in line.render_line(0) for _ in text]
    return {cells[column].bgcolor for column in columns}


async def test_every_key_is_painted_in_its_columns() -> None:
    async with opened("sparrow_lane", (140, 45)) as (app, _):
        line = app.screen.query_one(KeyLine)
        words = line.render_line(0).text
        assert " ".join(key.word for key in line.keys) == "Fold Inputs Plan Draw Path Bill Study Ways Why? Help"
        for key in line.keys:
            assert words[key.columns.start : key.columns.stop] == f" {key.sign} {key.word} "


async def test_a_click_on_a_key_is_the_key() -> None:
    async with opened("sparrow_lane", (80, 24)) as (app, pilot):
        bill = shown_key(pilot, "Bill").columns
        for column, opens_bill in (
            (bill.start - 1, False),
            (bill.start, True),
            (bill.stop - 1, True),
            (bill.stop, False),
        ):
            await pilot.click(KeyLine, offset=(column, 0))
            await settled(pilot)
            assert isinstance(app.screen, BillScreen) == opens_bill
            await pilot.press("c")
            assert isinstance(app.screen, Main)


async def test_the_key_under_the_pointer_is_marked_and_explained() -> None:
    async with opened("sparrow_lane", (80, 24)) as (app, pilot):
        line, bill, plan = app.screen.query_one(KeyLine), shown_key(pilot, "Bill"), shown_key(pilot, "Plan")
        calm = backgrounds(line, plan.columns)
        await pilot.hover(KeyLine, offset=(bill.columns.start, 0))
        assert not backgrounds(line, bill.columns) & calm
        assert backgrounds(line, plan.columns) == calm
        assert line.tooltip == next(command.help for command in COMMANDS if command.id == "bill")
        await pilot.hover(KeyLine, offset=(plan.columns.start, 0))
        assert backgrounds(line, bill.columns) == calm
        assert line.tooltip == next(command.help for command in COMMANDS if command.id == "roof_plan")
        await pilot.hover()
        assert backgrounds(line, plan.columns) == calm


@pytest.mark.parametrize(
    "keys", [(), ("i",), ("d",), ("p",), ("l",), ("n",), ("b",), ("o",), ("w",), ("slash", "enter", "enter")]
)
async def test_no_key_is_cut_off_at_80_columns(keys: tuple[str, ...]) -> None:
    async with opened("sparrow_lane", (80, 24), *keys) as (app, pilot):
        await settled(pilot)
        assert app.screen.query_one(KeyFooter).keys[-1].columns.stop <= 80

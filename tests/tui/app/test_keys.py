"""Keys of one's own in the app."""

from __future__ import annotations

from pathlib import Path

import pytest
from textual.widgets import Static

from support.opened_app import opened, settled
from tui.app.app import LoadpathApp
from tui.screens.bill import BillScreen
from tui.screens.help import Help
from tui.screens.main import Main
from tui.screens.roof_plan import RoofPlan
from tui.storage import user_state
from tui.widgets.key_footer import KeyFooter

pytestmark = pytest.mark.app


def write_keys(folder: Path, text: str) -> None:
    folder.mkdir(exist_ok=True)
    (folder / "keys.toml").write_text(text, encoding="utf-8")


def help_text(app: LoadpathApp) -> str:
    assert isinstance(app.screen, Help)
    return str(app.screen.query_one(Static).render())


def notices(app: LoadpathApp) -> list[str]:
    return [notice.message for notice in app._notifications]


async def test_a_command_moves_to_the_key_of_the_users_file(own_folder: Path) -> None:
    write_keys(own_folder, 'bill = "f5"\nfind = "ctrl+f"\nattachment_after = "j"\n')
    async with opened("sparrow_lane", (80, 24), "b") as (app, pilot):
        assert isinstance(app.screen, Main), "the default key is free"
        assert not notices(app)
        await pilot.press("f5")
        assert isinstance(app.screen, BillScreen)
        await pilot.press("p")
        await settled(pilot)
        assert isinstance(app.screen, RoofPlan)
        before = app.screen.selected
        await pilot.press("j")
        assert app.screen.selected == before + 1


async def test_help_and_footer_show_the_keys_as_they_are_bound(own_folder: Path) -> None:
    write_keys(own_folder, 'bill = "f5"\nundo = "ctrl+z"\n')
    async with opened("sparrow_lane", (140, 45)) as (app, pilot):
        keys = {key.word: key.sign for key in app.screen.query_one(KeyFooter).keys}
        assert keys["Bill"] == "f5"
        await pilot.press("question_mark")
        lines = help_text(app).splitlines()
        assert any(line.split()[:1] == ["f5"] and line.endswith("bill") for line in lines)
        assert any(line.split()[:1] == ["^z"] and line.endswith("undo") for line in lines)
        assert str(user_state.keys_file()) in help_text(app).replace("\n", "")


@pytest.mark.parametrize("text", ['undoo = "x"', 'undo = "y"', "undo = ", "undo = 5", 'undo = "enter"'])
async def test_a_wrong_file_is_named_in_one_sentence_and_the_defaults_apply(text: str, own_folder: Path) -> None:
    write_keys(own_folder, text)
    async with opened("sparrow_lane", (80, 24)) as (app, pilot):
        (sentence,) = notices(app)
        assert sentence.startswith(f"The default keys apply, {own_folder / 'keys.toml'} is wrong: ")
        await pilot.press("b")
        assert isinstance(app.screen, BillScreen)

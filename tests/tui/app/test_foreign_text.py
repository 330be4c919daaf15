"""Names, keys and values that would steer a terminal, on every screen: they are painted as escapes."""

from __future__ import annotations

from pathlib import Path

import pytest

from support import SCENARIOS
from support.foreign_text import EVIL, IN_TOML, steering_in
from support.opened_app import painted, settled
from tui.app.app import ALL_COMMANDS, LoadpathApp
from tui.model.inputs import Inputs
from tui.screens.ask import Ask
from tui.screens.main import Main
from tui.storage import user_state

pytestmark = pytest.mark.app

SPOILT = {
    "good values": lambda text: text,
    "a value": lambda text: text.replace('"110 mph"', f'"{IN_TOML}"'),
    "a key": lambda text: text.replace("[site]", f'[site]\n"{IN_TOML}" = 3'),
}


@pytest.mark.parametrize("spoilt", SPOILT)
async def test_no_screen_paints_a_letter_that_steers_the_terminal(spoilt: str, tmp_path: Path) -> None:
    """The file's name is spoilt too, so that it is in headings, dialogs, notices and the list of recent files."""
    path = tmp_path / f"{EVIL}.toml"
    text = (SCENARIOS / "sparrow_lane.toml").read_text(encoding="utf-8")
    path.write_text(SPOILT[spoilt](text), encoding="utf-8")
    user_state.add_recent(path)
    app = LoadpathApp(Inputs.of_file(path))
    async with app.run_test(size=(140, 45)) as pilot:
        await settled(pilot)
        assert_safe(app)
        assert r"\u0001\u0002" in painted(app)
        for command in ALL_COMMANDS:
            if command.id == "quit":
                continue
            await pilot.press(command.keys[0])
            await settled(pilot)
            assert_safe(app)
            while not isinstance(app.screen, Main):
                await pilot.press("escape")
                await pilot.pause()


def assert_safe(app: LoadpathApp) -> None:
    assert not steering_in(painted(app)), type(app.screen).__name__


async def test_a_question_and_a_notice_about_such_a_file(tmp_path: Path) -> None:
    path = tmp_path / f"{EVIL}.toml"
    path.write_text((SCENARIOS / "sparrow_lane.toml").read_text(encoding="utf-8"), encoding="utf-8")
    app = LoadpathApp(Inputs.of_file(path))
    async with app.run_test(size=(140, 45)) as pilot:
        await settled(pilot)
        app.notify(f"Saved as {path}", markup=False)
        app.push_screen(Ask(f"Discard {path.name}?", {"yes": f"yes, {path.name}"}))
        await settled(pilot)
        shown = painted(app)
        assert shown.count(r"\u001b") >= 2
        assert not steering_in(shown)


async def test_every_control_is_shown_where_a_name_or_a_value_is(tmp_path: Path) -> None:
    """Not only those that steer: a bell, a backspace or a line break in a value is shown as what it is, in one row."""
    path = tmp_path / "a\a\b\n\rz.toml"
    text = (SCENARIOS / "sparrow_lane.toml").read_text(encoding="utf-8").replace('"110 mph"', r'"a\u0007\b\n\rz"')
    path.write_text(text, encoding="utf-8")
    app = LoadpathApp(Inputs.of_file(path))
    async with app.run_test(size=(140, 45)) as pilot:
        await settled(pilot)
        await pilot.press("i")
        await settled(pilot)
        shown = painted(app)
        assert r"a\u0007\u0008\u000a\u000dz.toml" in shown
        rows = [row for row in shown.split("\n") if "basic wind speed" in row]
        assert any(r" a\u0007\u0008\u000a" in row for row in rows)  # the input; the sentence on what is wrong names it

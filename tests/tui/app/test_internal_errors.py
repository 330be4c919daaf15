"""An internal error loses nothing, ends with one sentence and exit code 70, and shows no traceback."""

from __future__ import annotations

import os
import sys
from pathlib import Path

import pytest
from textual.pilot import Pilot
from textual.widgets import Static

from engine.common.errors import InputError, Problem
from support import SCENARIOS
from support.opened_app import opened, settled
from support.terminal import in_a_terminal
from tui.app import compute
from tui.app.app import LoadpathApp
from tui.app.edits import KEEP_AFTER
from tui.app.endings import InternalError
from tui.model.exit_codes import Exit
from tui.model.inputs import Inputs
from tui.model.messages import InputEdited
from tui.model.recovery import find_recovered_work
from tui.screens.bill import BillScreen
from tui.storage import user_state

pytestmark = pytest.mark.app

WIND = ("site", "wind_speed")


def fails(*_: object, **__: object) -> None:
    raise KeyError("nowhere")


async def change_wind_speed(app: LoadpathApp, pilot: Pilot[None], typed: str = "95 mph") -> None:
    before = app.document.inputs
    field = next(field for field in before.fields() if field.path == WIND)
    app.post_message(InputEdited(before.edited(field, typed), before))
    await pilot.pause()


def sparrow_lane() -> LoadpathApp:
    return LoadpathApp(Inputs.of_file(SCENARIOS / "sparrow_lane.toml"))


async def edit_and_press(app: LoadpathApp, *keys: str, typed: str = "95 mph", pause: float = 0.0) -> None:
    async with app.run_test(size=(80, 24)) as pilot:
        await settled(pilot)
        await change_wind_speed(app, pilot, typed)
        await pilot.press(*keys)
        await pilot.pause(pause)
        await settled(pilot)


@pytest.mark.parametrize(
    ("owner", "name"), [(LoadpathApp, "action_bill"), (BillScreen, "draw"), (BillScreen, "on_mount")]
)
async def test_an_error_in_the_app_or_in_a_screen_keeps_the_work(
    owner: type, name: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(owner, name, fails)
    app = sparrow_lane()
    with pytest.raises(InternalError) as ending:
        await edit_and_press(app, "b")
    assert app.return_code == Exit.INTERNAL_ERROR
    sentence = str(ending.value)
    assert sentence.startswith("Internal error: please report it, with this text: KeyError: 'nowhere' at test_internal")
    assert "unsaved changes are kept" in sentence
    work = find_recovered_work()
    assert work is not None
    assert work.inputs.changes == {WIND: "95 mph"}


async def test_an_error_in_a_worker_ends_the_app_in_the_same_way(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(LoadpathApp, "_keep", fails)
    app = sparrow_lane()
    with pytest.raises(InternalError, match="KeyError"):
        await edit_and_press(app, pause=2 * KEEP_AFTER)
    assert app.return_code == Exit.INTERNAL_ERROR
    assert find_recovered_work() is not None


async def test_without_unsaved_changes_nothing_is_said_about_them(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(LoadpathApp, "action_bill", fails)
    with pytest.raises(InternalError) as ending:
        await edit_and_press(sparrow_lane(), "b", typed="110 mph")
    assert "unsaved changes" not in str(ending.value)
    assert find_recovered_work() is None


async def test_a_comparison_that_fails_is_a_sentence_and_the_app_stays_open(monkeypatch: pytest.MonkeyPatch) -> None:
    async with opened("sparrow_lane", (80, 24)) as (app, pilot):
        monkeypatch.setattr(compute, "compare", fails)
        await change_wind_speed(app, pilot)
        await settled(pilot)
        (problem,) = app.state.problems
        assert str(problem).startswith("Internal error: please report it, with this text: KeyError")
        assert app.state.is_stale
        await pilot.press("b")
        assert isinstance(app.screen, BillScreen)


async def test_no_mistake_in_a_file_ends_the_app(tmp_path: Path) -> None:
    """A field whose table is no table in the file can be opened, typed into, undone and saved."""
    path = tmp_path / "odd.toml"
    path.write_text('roof = "none"\n', encoding="utf-8")
    app = LoadpathApp(Inputs.of_file(path))
    async with app.run_test(size=(80, 24)) as pilot:
        await settled(pilot)
        assert app.state.problems
        await pilot.press(
            "slash", *"rib sp", "enter", "enter", "7", "tab", "7", "enter", "z", "y", "s", "enter", "enter"
        )
        await settled(pilot)
        assert "'roof' is not a table" in str(app.screen.query_one(".wrong", Static).render())
    assert path.read_text(encoding="utf-8") == 'roof = "none"\n'


async def test_a_file_that_cannot_be_saved_is_a_sentence(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    path = tmp_path / "mine.toml"
    path.write_text((SCENARIOS / "sparrow_lane.toml").read_text(encoding="utf-8"), encoding="utf-8")
    app = LoadpathApp(Inputs.of_file(path))
    async with app.run_test(size=(80, 24)) as pilot:
        await change_wind_speed(app, pilot)

        def refuses() -> None:
            raise InputError([Problem(str(path), "cannot be written (disk full)")])

        monkeypatch.setattr(app.document, "save", refuses)
        await pilot.press("s")
        await settled(pilot)
        assert [notice.message for notice in app._notifications] == [
            f"Not saved: {path}: cannot be written (disk full)"
        ]
        assert app.document.is_unsaved


@pytest.mark.skipif(os.name == "nt", reason="drives the real command through a pseudo-terminal")
def test_the_process_ends_with_70_one_sentence_and_no_traceback(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The real command in a terminal, with a fault in one of its commands."""
    program = (
        "import sys; from tui.app.app import LoadpathApp; from tui.cli.main import main\n"
        "def fails(app): raise KeyError('nowhere')\n"
        "LoadpathApp.action_bill = fails\n"
        "sys.exit(main(['open', 'sparrow_lane', '--set', 'site.wind_speed=\"97 mph\"']))"
    )
    with in_a_terminal([sys.executable, "-c", program], tmp_path) as terminal:
        terminal.read_until_seen(b"verdict")
        terminal.type(b"/wind sp\r\r95 mph\rb")
        assert terminal.read_until_ended() == Exit.INTERNAL_ERROR
    said = terminal.seen.decode(errors="replace")
    assert said.count("Internal error: please report it") == 1
    assert "Traceback" not in said
    monkeypatch.setattr(user_state, "folder", lambda: tmp_path / "loadpath")
    work = find_recovered_work()
    assert work is not None
    assert work.inputs.changes == {WIND: "95 mph"}

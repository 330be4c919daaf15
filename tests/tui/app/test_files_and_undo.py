"""Nothing typed is lost: saving, recent files, and recovery after the process was killed."""

from __future__ import annotations

import os
import re
import signal
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import replace
from pathlib import Path

import pytest
from textual.css.query import NoMatches
from textual.pilot import Pilot
from textual.widgets import Input, OptionList, Static

from engine.common.safe_text import safe_text
from engine.comparison.compare import compare
from engine.scenario.changes import REMOVED
from support import SCENARIOS, scenario_of
from support.opened_app import opened, seen, settled
from support.terminal import PATIENCE, Terminal, in_a_terminal
from tui.app import edits
from tui.app.app import LoadpathApp
from tui.app.edits import KEEP_AFTER
from tui.model.inputs import Inputs
from tui.model.messages import InputEdited
from tui.model.recovery import RecoveryFile, find_recovered_work
from tui.screens.ask import Ask
from tui.screens.open import Open
from tui.screens.save import Save
from tui.storage import user_state

pytestmark = pytest.mark.app

ON_LINUX = pytest.mark.skipif(sys.platform != "linux", reason="drives the real command through a pseudo-terminal")


@pytest.fixture
def mine(tmp_path: Path) -> Path:
    """A scenario of one's own."""
    path = tmp_path / "mine.toml"
    path.write_text((SCENARIOS / "sparrow_lane.toml").read_text(encoding="utf-8"), encoding="utf-8")
    return path


def of(path: Path) -> Inputs:
    return Inputs(path, path.read_text(encoding="utf-8"))


async def edit(app: LoadpathApp, pilot: Pilot[None], path: tuple[str, ...], typed: str) -> None:
    before = app.state.inputs
    field = next(field for field in before.fields() if field.path == path)
    app.post_message(InputEdited(before.edited(field, typed), before))
    await settled(pilot)


async def until_kept(folder: Path, pilot: Pilot[None]) -> Path:
    deadline = time.monotonic() + 20
    while not (found := list(folder.glob("unsaved-*.toml"))):
        assert time.monotonic() < deadline
        await pilot.pause(0.05)
    return found[0]


async def test_opening_changing_and_saving_from_start_to_end(mine: Path, own_folder: Path) -> None:
    """The job "open, change, save"."""
    app = LoadpathApp(of(SCENARIOS / "kestrel_yard.toml"))
    async with app.run_test(size=(80, 24)) as pilot:
        await settled(pilot)
        await pilot.press("ctrl+o", "tab", *str(mine), "enter")
        await settled(pilot)
        await pilot.press("slash", *"wind sp", "enter", "enter", *"95 mph", "enter", "s")
        await settled(pilot)
        assert not app.document.is_unsaved
        assert 'wind_speed = "95 mph"' in mine.read_text(encoding="utf-8")
        assert not list(own_folder.glob("unsaved-*.toml"))
        await pilot.press("z")
        await settled(pilot)
        assert app.state.inputs.changes == {("site", "wind_speed"): "110 mph"}
        await pilot.press("y", "q")
    assert app.return_code == 0
    assert user_state.recent() == [mine]


async def test_where_nothing_can_be_kept_it_says_so_once(mine: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A file stands where the folder should: what is typed is in nobody's keeping until it is saved."""
    monkeypatch.setattr(user_state, "folder", lambda: mine / "kept")
    app = LoadpathApp(of(mine))
    async with app.run_test(size=(80, 24), notifications=True) as pilot:
        await settled(pilot)
        for typed in ("95 mph", "97 mph"):
            await edit(app, pilot, ("site", "wind_speed"), typed)
            await pilot.pause(2 * KEEP_AFTER)
            await app.workers.wait_for_complete()
        said = [notice.message for notice in app._notifications if "cannot be written" in notice.message]
    assert said == [f"{mine / 'kept'} cannot be written: save often, unsaved changes are lost if loadpath ends."]


SCREENS = ["c", "i", "p", "l", "b", "n", "w", "h"]


def read_on(app: LoadpathApp) -> str:
    """All that stands on the topmost screen."""
    shown = [each for each in app.screen.query(Static) if each.display and each.region.area]
    return "\n".join(str(each.render()) for each in shown)


def figures_on(app: LoadpathApp) -> list[str]:
    """Figures with two decimals, as results have and inputs have not."""
    return re.findall(r"\d\.\d\d", read_on(app))


@pytest.mark.parametrize("key", SCREENS)
async def test_a_bad_file_has_no_figures_and_none_of_the_file_before(key: str, mine: Path) -> None:
    mine.write_text(mine.read_text(encoding="utf-8").replace('"110 mph"', '"55"'), encoding="utf-8")
    async with opened("finch_shed", (140, 45)) as (app, pilot):
        app.files.take(of(mine))
        await settled(pilot)
        await pilot.press(key)
        await settled(pilot)
        said = read_on(app)
        assert "'55' given" in said
        assert app.state.no_figures_reason.startswith("No figures")
        assert app.state.no_figures_reason in said
        assert "computing" not in said
        assert not [column.title for column in compare(scenario_of("finch_shed")).columns if column.title in said]


@pytest.mark.parametrize("key", SCREENS)
async def test_a_screen_left_open_drops_the_figures_of_the_file_before(key: str, mine: Path) -> None:
    mine.write_text(mine.read_text(encoding="utf-8").replace('"110 mph"', '"55"'), encoding="utf-8")
    async with opened("finch_shed", (140, 45), key) as (app, pilot):
        assert figures_on(app)
        app.files.take(of(mine))
        await settled(pilot)
        assert app.state.no_figures_reason in read_on(app)
        assert not figures_on(app)
        await pilot.press(*["right", "down", "x", "v", "w", "escape"])
        app.files.take(of(SCENARIOS / "sparrow_lane.toml"))
        await settled(pilot)
        assert app.state.no_figures_reason not in read_on(app)
        assert figures_on(app)


async def test_recent_files_are_offered(mine: Path) -> None:
    user_state.add_recent(mine)
    user_state.add_recent(SCENARIOS / "sparrow_lane.toml")
    app = LoadpathApp(of(SCENARIOS / "kestrel_yard.toml"))
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("ctrl+o")
        assert isinstance(app.screen, Open)
        assert str(mine) in [option.id for option in app.screen.query_one(OptionList).options]
        await pilot.press("end", "enter")
        await settled(pilot)
        assert app.state.inputs.path == mine


def test_a_recent_file_that_cannot_be_looked_at_is_not_offered(mine: Path) -> None:
    user_state.write(user_state.folder() / "recent.toml", {"files": ["/" + "x" * 300, str(mine)]})
    assert user_state.recent() == [mine]


async def test_a_file_that_somebody_else_changed_is_not_written_over_at_once(mine: Path) -> None:
    app = LoadpathApp(of(mine))
    async with app.run_test(size=(80, 24)) as pilot:
        await edit(app, pilot, ("site", "wind_speed"), "95 mph")
        mine.write_text(mine.read_text(encoding="utf-8") + "# theirs\n", encoding="utf-8")
        await pilot.press("s")
        assert isinstance(app.screen, Save)
        assert str(app.screen.query_one(".wrong", Static).render()) == f"{mine} has changed since it was opened"
        await pilot.press("enter")
        assert "# theirs" in mine.read_text(encoding="utf-8")
        await pilot.press("enter")
        await settled(pilot)
    assert "# theirs" not in mine.read_text(encoding="utf-8")


@pytest.mark.parametrize("key", ["s", "S"])
async def test_a_wrong_input_is_saved_over_a_file_only_when_asked_twice(key: str, mine: Path) -> None:
    good, app = mine.read_text(encoding="utf-8"), LoadpathApp(of(mine))
    async with app.run_test(size=(80, 24)) as pilot:
        await settled(pilot)
        await pilot.press("slash", *"wind sp", "enter", "enter", *"55", "enter", key)
        assert isinstance(app.screen, Save)
        await pilot.press("enter")
        assert "some input is wrong; press enter again to replace it" in seen(app, ".wrong")
        assert mine.read_text(encoding="utf-8") == good
        await pilot.press("enter")
        await settled(pilot)
        assert 'wind_speed = "55 mph"' in mine.read_text(encoding="utf-8")
        assert not app.document.is_unsaved


async def test_what_was_mended_is_saved_without_a_question(mine: Path) -> None:
    app = LoadpathApp(of(mine))
    async with app.run_test(size=(80, 24)) as pilot:
        await settled(pilot)
        await edit(app, pilot, ("site", "wind_speed"), "55")
        before = app.state.inputs
        field = next(field for field in before.fields() if field.path == ("site", "wind_speed"))
        app.post_message(InputEdited(before.edited(field, "95 mph"), before))
        await pilot.press("s")
        assert app.screen is app.main
        assert 'wind_speed = "95 mph"' in mine.read_text(encoding="utf-8")


@pytest.mark.parametrize("key", ["ctrl+o", "S", "e"])
@pytest.mark.parametrize(
    ("typed", "why"),
    [
        ("~nobody-of-that-name/x.toml", "could not determine home directory"),
        ("x" * 300, "file name too long"),
        ("a\0b", "embedded null byte"),
    ],
)
async def test_a_path_that_cannot_be_is_refused_in_one_sentence(key: str, typed: str, why: str) -> None:
    async with opened("sparrow_lane", (80, 24), key) as (app, pilot):
        field = app.screen.query_one(Input)
        field.value = typed
        field.focus()
        await pilot.press("enter")
        await settled(pilot)
        said = seen(app, ".wrong")
        assert said.startswith(safe_text(typed))
        assert why in said
        assert not field.disabled


async def test_save_as_asks_for_a_name(mine: Path, tmp_path: Path) -> None:
    app = LoadpathApp(of(mine))
    async with app.run_test(size=(80, 24)) as pilot:
        await edit(app, pilot, ("site", "wind_speed"), "95 mph")
        await pilot.press("S", "end", *["backspace"] * len("mine.toml"), *"other.toml", "enter")
        await settled(pilot)
        assert app.state.inputs.path == tmp_path / "other.toml"
        await pilot.press("z")
        await settled(pilot)
        assert app.state.inputs.path == tmp_path / "other.toml"


@pytest.mark.parametrize(
    ("answer", "keys"), [("restore", ["enter"]), ("later", ["down", "enter"]), ("delete", ["down", "down", "enter"])]
)
async def test_unsaved_work_of_an_app_that_ended_is_offered(
    answer: str, keys: list[str], mine: Path, own_folder: Path
) -> None:
    kept = RecoveryFile()
    kept.write(replace(of(mine), changes={("site", "wind_speed"): "fast", ("roof", "first_rib"): REMOVED}))
    app = LoadpathApp(of(SCENARIOS / "kestrel_yard.toml"))
    async with app.run_test(size=(80, 24)) as pilot:
        await settled(pilot)
        assert isinstance(app.screen, Ask)
        await pilot.press(*keys)
        await settled(pilot)
        assert kept.path.exists() == (answer == "later")
        if answer == "restore":
            assert app.state.inputs.changes == {("site", "wind_speed"): "fast", ("roof", "first_rib"): REMOVED}
            assert app.document.is_unsaved
            await until_kept(own_folder, pilot)
            await pilot.press("z")
            assert not app.document.is_unsaved
        else:
            assert app.state.inputs.path.name == "kestrel_yard.toml"


async def test_dropping_changes_on_purpose_leaves_nothing_behind(mine: Path, own_folder: Path) -> None:
    app = LoadpathApp(of(mine))
    async with app.run_test(size=(80, 24)) as pilot:
        await edit(app, pilot, ("site", "wind_speed"), "95 mph")
        await until_kept(own_folder, pilot)
        await pilot.press("q", "down", "enter")
    assert not list(own_folder.glob("unsaved-*.toml"))
    assert find_recovered_work() is None


async def test_taking_every_change_back_leaves_nothing_to_recover(mine: Path, own_folder: Path) -> None:
    app = LoadpathApp(of(mine))
    async with app.run_test(size=(80, 24)) as pilot:
        await edit(app, pilot, ("site", "wind_speed"), "95 mph")
        kept_file = await until_kept(own_folder, pilot)
        await pilot.press("z")
        deadline = time.monotonic() + 20
        while kept_file.exists():
            assert time.monotonic() < deadline
            await pilot.pause(0.05)


async def test_a_folder_that_cannot_be_written_is_no_obstacle(mine: Path, own_folder: Path) -> None:
    own_folder.write_text("a file where the folder should be", encoding="utf-8")
    app = LoadpathApp(of(mine))
    async with app.run_test(size=(80, 24)) as pilot:
        await edit(app, pilot, ("site", "wind_speed"), "95 mph")
        await pilot.pause(0.5)
        await pilot.press("s")
        await settled(pilot)
        assert not app.document.is_unsaved


@contextmanager
def edited_in_a_terminal(mine: Path, state: Path) -> Iterator[Terminal]:
    """The app in a terminal, with an edit that was kept but not saved; all keys came at once."""

    def is_kept() -> bool:
        return any(b'"39 m/s"' in file.read_bytes() for file in (state / "loadpath").glob("unsaved-*.toml"))

    with in_a_terminal([sys.executable, "-m", "tui.cli.main", "open", str(mine)], state) as terminal:
        terminal.read_until_seen(b"verdict")
        terminal.type(b"/wind sp\r\r39 m/s\r")
        terminal.read_until(is_kept)
        yield terminal


def assert_edit_was_kept(mine: Path, state: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(user_state, "folder", lambda: state / "loadpath")
    left = find_recovered_work()
    assert left is not None
    assert left.inputs.path == mine
    assert left.inputs.changes == {("site", "wind_speed"): "39 m/s"}


@ON_LINUX
def test_a_killed_app_loses_nothing(mine: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    state = tmp_path / "state"
    with edited_in_a_terminal(mine, state) as terminal:
        terminal.process.send_signal(signal.SIGKILL)
    assert_edit_was_kept(mine, state, monkeypatch)


@ON_LINUX
@pytest.mark.parametrize("number", [signal.SIGTERM, signal.SIGHUP, signal.SIGINT])
def test_an_app_ended_from_outside_keeps_the_work_and_restores_the_terminal(
    number: int, mine: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Sequences: `?1049l` leaves the second screen, `?25h` shows the cursor, `?1000l` ends mouse reports (xterm)."""
    state = tmp_path / "state"
    with edited_in_a_terminal(mine, state) as terminal:
        terminal.process.send_signal(number)
        assert terminal.read_until_ended() == 128 + number
        for sequence in (b"\x1b[?1049l", b"\x1b[?25h", b"\x1b[?1000l"):
            assert sequence in terminal.seen
    assert_edit_was_kept(mine, state, monkeypatch)


@ON_LINUX
@pytest.mark.parametrize("is_told", [True, False], ids=["by a signal", "silently"])
def test_an_app_whose_terminal_is_closed_keeps_the_work(
    is_told: bool, mine: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Only the terminal of a session tells by SIGHUP that it is closed."""
    state = tmp_path / "state"
    with edited_in_a_terminal(mine, state) as terminal:
        terminal.close()
        if is_told:
            terminal.process.send_signal(signal.SIGHUP)
        assert terminal.process.wait(PATIENCE) == 128 + signal.SIGHUP
    assert_edit_was_kept(mine, state, monkeypatch)


@ON_LINUX
@pytest.mark.parametrize("where", ["log", "closed"])
def test_an_app_without_stderr_is_painted_on_the_terminal_alone(where: str, mine: Path, tmp_path: Path) -> None:
    """The framework paints on standard error: into `2>log`, and nowhere after `2>&-`."""
    command, log = [sys.executable, "-m", "tui.cli.main", "open", str(mine)], tmp_path / "log"
    if where == "closed":
        command = ["sh", "-c", 'exec "$@" 2>&-', "sh", *command]
    with log.open("wb") as file, in_a_terminal(command, tmp_path / "state", stderr=file.fileno()) as terminal:
        terminal.read_until_seen(b"verdict")
        terminal.type(b"q")
        assert terminal.read_until_ended() == 0
    assert log.read_bytes() == b""


async def test_a_signal_keeps_what_was_just_changed(mine: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(edits, "KEEP_AFTER", 600)
    app = LoadpathApp(of(mine))
    async with app.run_test(size=(80, 24)) as pilot:
        await edit(app, pilot, ("site", "wind_speed"), "95 mph")
        assert find_recovered_work() is None
        os.kill(os.getpid(), signal.SIGTERM)
        await pilot.pause()
    assert app.return_code == 128 + signal.SIGTERM
    left = find_recovered_work()
    assert left is not None
    assert left.inputs.changes == {("site", "wind_speed"): "95 mph"}


async def test_what_is_typed_while_the_app_closes_is_no_error() -> None:
    """The message about a key may come when the screens are already taken down."""
    async with opened("sparrow_lane", (80, 24)) as (app, _):
        main, state = app.main, app.state
    assert not main.is_running
    with pytest.raises(NoMatches):
        main.show(state)
    app._screen_stacks["_default"] = [main]
    app.update(method="rail")
    assert app.state.method == "rail"


async def test_units_and_theme_are_as_they_were_last(own_folder: Path) -> None:
    async with opened("sparrow_lane", (80, 24), "u", "t") as (app, _):
        assert (app.state.system, app.theme) == ("si", user_state.LIGHT)
    async with opened("sparrow_lane", (80, 24)) as (app, pilot):
        assert (app.state.system, app.theme) == ("si", user_state.LIGHT)
        await pilot.press("u")
    async with opened("sparrow_lane", (80, 24)) as (app, _):
        assert (app.state.system, app.theme) == ("us", user_state.LIGHT)
    assert [path.name for path in own_folder.iterdir()] == ["display.toml"]


async def test_units_that_are_asked_for_win_and_are_not_kept() -> None:
    user_state.save_display_settings(user_state.DisplaySettings("si"))
    app = LoadpathApp(of(SCENARIOS / "sparrow_lane.toml"), system="us")
    async with app.run_test(size=(80, 24)) as pilot:
        await settled(pilot)
        assert app.state.system == "us"
        await pilot.press("t")
    assert user_state.display_settings() == user_state.DisplaySettings("si", user_state.LIGHT)


@pytest.mark.parametrize(
    "broken",
    [
        b"",
        b"system = ",
        b"\xff",
        b"system = 5\ntheme = ['textual-light']",
        b"system = 'metric'\ntheme = 'no such theme'",
    ],
)
async def test_what_is_broken_in_the_folder_is_as_good_as_not_there(own_folder: Path, broken: bytes) -> None:
    own_folder.mkdir()
    for name in ("display.toml", "recent.toml", "unsaved-1-x.toml"):
        (own_folder / name).write_bytes(broken or b"files = 5\nchanges = 5\n")
    async with opened("sparrow_lane", (80, 24), "ctrl+o") as (app, _):
        assert user_state.display_settings() == user_state.DisplaySettings()
        assert isinstance(app.screen, Open)
        assert not app.screen.recent


async def test_where_nothing_can_be_kept_the_app_goes_on(own_folder: Path) -> None:
    own_folder.write_text("a file where the folder should be", encoding="utf-8")
    async with opened("sparrow_lane", (80, 24), "u", "t") as (app, _):
        assert (app.state.system, app.theme) == ("si", user_state.LIGHT)

"""Internal errors end in one sentence, and text of others never steers the terminal."""

from __future__ import annotations

import json
import os
import re
import sys
from pathlib import Path

import pytest

from engine.export.stamp import Stamp
from support import SCENARIOS
from tui.cli import batch, read_options
from tui.cli.formats import Request
from tui.cli.main import main
from tui.model.exit_codes import Exit
from tui.storage.export_folder import date_of

STEERING = re.compile("[\x00-\x09\x0b-\x1f\x7f-\x9f\u200b-\u200f\u2028-\u202e\u2066-\u2069\ufeff]")
EVIL = "\x1b[31m\x9b2J\u202e\u200bevil"
COMMANDS = (
    "compare",
    "check",
    "explain",
    "study",
    "headroom",
    "sensitivity",
    "ways",
    "place",
    "open",
    "handout",
    "lesson",
)


@pytest.fixture
def broken(monkeypatch: pytest.MonkeyPatch) -> None:
    def fail(*_: object) -> None:
        raise ZeroDivisionError("nought \x1b[31m\nsecond line " + "x" * 5000)

    monkeypatch.setattr(read_options, "scenarios_at", fail)
    monkeypatch.setattr(batch, "scenarios_of", fail)


@pytest.mark.usefixtures("broken")
@pytest.mark.parametrize("command", ["compare", "study", "explain", "headroom", "sensitivity", "ways", "place"])
def test_an_internal_error_is_one_sentence_and_a_code_of_its_own(
    command: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main([command, "sparrow_lane"]) == 70
    out, err = capsys.readouterr()
    assert out == ""
    assert err.startswith(
        "Internal error: please report it, with this text: ZeroDivisionError: nought \\u001b[31m second"
    )
    assert re.search(r"x at test_safety\.py:\d+\n$", err)
    assert len(err.splitlines()) == 1
    assert len(err) < 600


@pytest.mark.parametrize(("failure", "code"), [(OSError(28, "no space"), 2), (OSError(2, "not there", "a file"), 70)])
def test_only_the_terminals_own_errors_are_said_of_it(
    failure: OSError, code: int, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    def fail(*_: object) -> None:
        raise failure

    monkeypatch.setattr(read_options, "scenarios_at", fail)
    assert main(["study", "sparrow_lane"]) == code
    assert len(capsys.readouterr().err.splitlines()) == 1


def test_without_stderr_the_answer_is_the_same(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr(sys, "stderr", None)
    assert main(["compare", "sparrow_lane", "--method", "direct"]) == 0
    assert "modules on seams" in capsys.readouterr().out


@pytest.mark.usefixtures("broken")
def test_an_internal_error_in_one_of_many_files_is_the_code_of_all(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["compare", "sparrow_lane", "heron_depot"]) == 70
    assert capsys.readouterr().err.count("Internal error") == 2
    outcome = batch.outcome("sparrow_lane", Request((), (), "json", Stamp(date_of(None))))
    assert outcome.code is Exit.INTERNAL_ERROR


@pytest.mark.parametrize("command", COMMANDS)
@pytest.mark.parametrize("terminal", [False, True], ids=["piped", "terminal"])
def test_a_title_a_key_and_a_value_that_would_steer_a_terminal(
    command: str, terminal: bool, capsys: pytest.CaptureFixture[str], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(sys.stdout, "isatty", lambda: terminal)
    escaped = json.dumps(EVIL)
    text = (SCENARIOS / "sparrow_lane.toml").read_text(encoding="utf-8")
    for number, evil in enumerate(
        (
            re.sub(r"(?m)^title = .*$", lambda _: f"title = {escaped}", text),
            f"{escaped} = 3\n{text}",
            text.replace('"110 mph"', escaped),
            text.replace("[site]", f"[site]\n{escaped} = {escaped}"),
        )
    ):
        path = tmp_path / f"{number}.toml"
        path.write_text(evil, encoding="utf-8")
        code = main([command, str(path)])
        out, err = capsys.readouterr()
        assert code == 2
        assert not STEERING.search(out + err)


@pytest.mark.parametrize("command", COMMANDS)
def test_a_name_that_would_steer_a_terminal(command: str, capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    for name in (EVIL, str(tmp_path / f"{EVIL}\n.toml")):
        assert main([command, name]) == 2
        out, err = capsys.readouterr()
        assert r"\u001b[31m" in err or command in ("open", "lesson")
        assert not STEERING.search(out + err)


def test_a_good_file_with_such_a_name(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    path = tmp_path / f"{EVIL}.toml"
    path.write_text((SCENARIOS / "sparrow_lane.toml").read_text(encoding="utf-8"), encoding="utf-8")
    output = tmp_path / f"{EVIL}.json"
    assert main(["check", str(path)]) == 0
    assert main(["compare", str(path), "sparrow_lane", "--method", "direct", "-o", str(output)]) == 0
    assert main(["export", str(path), str(tmp_path / f"{EVIL} out"), "--method", "direct"]) == 0
    out, err = capsys.readouterr()
    assert not STEERING.search(out + err)
    assert output.is_file()


@pytest.mark.parametrize(
    "arguments",
    [
        (EVIL,),
        ("compare", "--set", f"{EVIL}=3"),
        ("compare", "--set", f"site.wind_speed={EVIL}"),
        ("compare", "--set", EVIL),
        ("compare", "--method", EVIL),
        ("compare", "--date", EVIL),
        ("compare", "--units", EVIL),
        ("compare", f"--{EVIL}"),
        ("explain", "--point", EVIL),
        ("new", f"/no/{EVIL}"),
    ],
)
def test_an_argument_that_would_steer_a_terminal(
    arguments: tuple[str, ...], capsys: pytest.CaptureFixture[str]
) -> None:
    try:
        code = main(arguments)
    except SystemExit as left:
        code = left.code  # type: ignore[assignment]
    out, err = capsys.readouterr()
    assert code == 2
    assert not STEERING.search(out + err)


def test_json_for_a_program_keeps_names_as_they_are(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    path = tmp_path / "a\u202eb.toml"
    path.write_text((SCENARIOS / "sparrow_lane.toml").read_text(encoding="utf-8"), encoding="utf-8")
    assert main(["compare", str(path), "sparrow_lane", "--method", "direct", "--format", "json"]) == 0
    lines = capsys.readouterr().out.splitlines()
    assert [json.loads(line)["file"] for line in lines] == [str(path), "sparrow_lane"]


@pytest.mark.parametrize(
    ("arguments", "hint"),
    [
        (["comapre"], "did you mean `loadpath compare`?"),
        (["zzz"], "`loadpath --help` lists them"),
        (["pyproject.toml"], "write `loadpath open pyproject.toml`"),
    ],
)
def test_an_unknown_command_gets_a_hint(
    arguments: list[str], hint: str, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(SCENARIOS.parent)
    with pytest.raises(SystemExit) as refused:
        main(arguments)
    assert refused.value.code == 2
    assert capsys.readouterr().err.strip().endswith(hint)


def test_an_unknown_option_names_its_command(capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit) as refused:
        main(["compare", "--frmat", "json"])
    assert refused.value.code == 2
    assert capsys.readouterr().err == "loadpath compare: unknown: --frmat; see `loadpath compare --help`\n"


def test_a_misspelled_scenario_gets_a_hint(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["compare", "kestrl_yard"]) == 2
    assert "did you mean kestrel_yard?" in capsys.readouterr().err
    assert main(["study", "nothing_like_it"]) == 2
    assert "`loadpath scenarios` lists" in capsys.readouterr().err


def test_text_goes_to_a_pipe_in_a_fixed_width(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setitem(os.environ, "COLUMNS", "40")
    assert main(["compare", "sparrow_lane"]) == 0
    assert 80 < max(map(len, capsys.readouterr().out.splitlines())) <= 100


def test_text_fits_the_terminal(capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(os.environ, "COLUMNS", "44")
    monkeypatch.setattr(sys.stdout, "isatty", lambda: True)
    for command in ("compare", "study", "headroom", "sensitivity", "ways", "place"):
        assert main([command, "sparrow_lane", "--method", "rail"]) == 0
        out = capsys.readouterr().out
        assert "\x1b" not in out
        if command != "sensitivity":
            assert max(map(len, out.splitlines())) <= 44, command

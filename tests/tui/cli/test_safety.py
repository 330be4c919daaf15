"""Internal errors end in one sentence, and text of others never steers the terminal."""

from __future__ import annotations

import contextlib
import io
import json
import os
import re
import subprocess
import sys
from pathlib import Path

import pytest

from engine.export.stamp import Stamp
from support import SCENARIOS
from support.foreign_text import EVIL, IN_TOML, steering_in
from tui.cli import batch, read_options
from tui.cli.formats import Request
from tui.cli.main import NAMES, main
from tui.model.exit_codes import Exit
from tui.storage.export_folder import date_of

READERS = [name for name in NAMES if name not in ("new", "quick", "scenarios", "lessons", "schema")]
"""Commands that read a file; a new command is among them."""

FURTHER = {"export": ("/nonexistent/folder",)}
"""Arguments that a command needs besides the file."""


@pytest.fixture
def broken(monkeypatch: pytest.MonkeyPatch) -> None:
    def fail(*_: object) -> None:
        raise ZeroDivisionError("nought \x1b[31m\nsecond line " + "x" * 5000)

    monkeypatch.setattr(read_options, "scenarios_of", fail)
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
    assert re.search(r"x at test_safety\.py:\d+\. Please send .*internal_errors\.log too\n$", err)
    assert len(err.splitlines()) == 1
    assert len(err) < 600


@pytest.mark.parametrize(("failure", "code"), [(OSError(28, "no space"), 2), (OSError(2, "not there", "a file"), 70)])
def test_only_the_terminals_own_errors_are_said_of_it(
    failure: OSError, code: int, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    def fail(*_: object) -> None:
        raise failure

    monkeypatch.setattr(read_options, "scenarios_of", fail)
    assert main(["study", "sparrow_lane"]) == code
    assert len(capsys.readouterr().err.splitlines()) == 1


def test_without_stderr_the_answer_is_the_same(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr(sys, "stderr", None)
    assert main(["compare", "sparrow_lane", "--method", "direct"]) == 0
    assert "modules on seams" in capsys.readouterr().out


@pytest.mark.skipif(os.name == "nt", reason="Windows has no /dev/full")
@pytest.mark.parametrize("stderr", ["2>/dev/full", "2>&-"])
@pytest.mark.parametrize(
    ("arguments", "code"),
    [("compare sparrow_lane nothing --method direct", 2), ("compare nothing", 2), ("compare --bogus", 2)],
)
def test_messages_that_cannot_be_written_change_no_exit_code(stderr: str, arguments: str, code: int) -> None:
    command = f"{sys.executable} -m tui.cli.main {arguments} {stderr}"
    answer = subprocess.run(command, shell=True, stdout=subprocess.PIPE, text=True, check=False)
    assert answer.returncode == code
    assert ("modules on seams" in answer.stdout) == ("sparrow_lane" in arguments)


def test_an_export_whose_progress_cannot_be_written_is_done(tmp_path: Path) -> None:
    command = f"{sys.executable} -m tui.cli.main export sparrow_lane {tmp_path} --method direct 2>/dev/full"
    assert subprocess.run(command, shell=True, check=False).returncode == 0
    assert (tmp_path / "report.html").is_file()


@pytest.mark.usefixtures("broken")
def test_an_internal_error_in_one_of_many_files_is_the_code_of_all(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["compare", "sparrow_lane", "heron_depot"]) == 70
    assert capsys.readouterr().err.count("Internal error") == 2
    outcome = batch.outcome("sparrow_lane", Request((), (), "json", Stamp(date_of(None))))
    assert outcome.code is Exit.INTERNAL_ERROR


@pytest.mark.parametrize("command", READERS)
@pytest.mark.parametrize("terminal", [False, True], ids=["piped", "terminal"])
def test_a_title_a_key_and_a_value_that_would_steer_a_terminal(
    command: str, terminal: bool, capsys: pytest.CaptureFixture[str], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(sys.stdout, "isatty", lambda: terminal)
    escaped = f'"{IN_TOML}"'
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
        assert run(command, str(path), *FURTHER.get(command, ())) == 2
        out, err = capsys.readouterr()
        assert not steering_in(out + err)


@pytest.mark.parametrize("command", READERS)
def test_a_name_that_would_steer_a_terminal(command: str, capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    for name in (EVIL, str(tmp_path / f"{EVIL}\n.toml")):
        assert run(command, name, *FURTHER.get(command, ())) == 2
        out, err = capsys.readouterr()
        assert r"\u001b" in err or command in ("open", "lesson")
        assert not steering_in(out + err)


def test_a_good_file_with_such_a_name(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    path = tmp_path / f"{EVIL}.toml"
    path.write_text((SCENARIOS / "sparrow_lane.toml").read_text(encoding="utf-8"), encoding="utf-8")
    output = tmp_path / f"{EVIL}.json"
    assert main(["check", str(path)]) == 0
    assert main(["compare", str(path), "sparrow_lane", "--method", "direct", "-o", str(output)]) == 0
    assert main(["export", str(path), str(tmp_path / f"{EVIL} out"), "--method", "direct"]) == 0
    out, err = capsys.readouterr()
    assert not steering_in(out + err)
    assert output.is_file()


def run(*arguments: str) -> int:
    """Exit code of a command, whether it returns it or leaves with it."""
    try:
        return main(arguments)
    except SystemExit as left:
        return int(left.code or 0)


def options_of(command: str) -> list[str]:
    """Every option of a command that takes a value, as its help lists them."""
    with contextlib.redirect_stdout(io.StringIO()) as printed, contextlib.suppress(SystemExit):
        main([command, "--help"])
    return re.findall(r"(?m)^  (-[-a-z]+) (?!  )(?:[A-Z{])", printed.getvalue())


@pytest.mark.parametrize("command", NAMES)
def test_an_argument_that_would_steer_a_terminal(
    command: str, capsys: pytest.CaptureFixture[str], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """As a word, as an option, and as the value of every option there is."""
    monkeypatch.chdir(tmp_path)  # for some commands the word is a file to write
    cases = [(EVIL,), (f"--{EVIL}",), *((option, EVIL) for option in options_of(command) if option != "-o")]
    if "--set" in options_of(command):
        cases += [("--set", f"{EVIL}=3"), ("--set", f"site.wind_speed={EVIL}"), ("--set", f'title="{IN_TOML}"')]
    for case in cases:
        run(command, *case)
        out, err = capsys.readouterr()
        assert not steering_in(out + err), case
    assert run(EVIL) == 2
    assert not steering_in("".join(capsys.readouterr()))


@pytest.mark.parametrize("command", ["compare --format {}", "compare --bogus={}", "schema {}", "export x --for {}"])
def test_a_word_of_thousands_of_letters_is_cut(command: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert run(*command.format("9" * 5000).split()) == 2
    (line,) = capsys.readouterr().err.splitlines()
    assert "9" * 40 in line
    assert len(line) < 400
    assert line.endswith("--help`")


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

"""Many files by folder and by list: each once, in the order given, and one sentence about whatever is no list."""

from __future__ import annotations

import io
import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

from support import SCENARIOS
from tui.cli.main import main
from tui.storage import paths

SMALL = (SCENARIOS / "sparrow_lane.toml").read_text(encoding="utf-8")
COMPARE = ("compare", "--method", "direct", "--format", "json")


@pytest.fixture
def roofs(tmp_path: Path) -> Path:
    """A folder with two roofs, and with what is none: a text, a hidden file, and a folder with a third roof."""
    folder = tmp_path / "roofs"
    (folder / "more.toml").mkdir(parents=True)
    for name in ("b.toml", "a.toml", "notes.txt", ".a.toml", "more.toml/c.toml"):
        (folder / name).write_text(SMALL, encoding="utf-8")
    return folder


def compared(capsys: pytest.CaptureFixture[str]) -> list[str]:
    return [json.loads(line)["file"] for line in capsys.readouterr().out.splitlines()]


def test_a_folder_stands_for_the_scenarios_directly_in_it(roofs: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main([*COMPARE, str(roofs)]) == 0
    assert compared(capsys) == [str(roofs / "a.toml"), str(roofs / "b.toml")]


def test_a_list_follows_the_files_and_no_file_comes_twice(roofs: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Not by another name of its folder, nor by a link."""
    b, link, list_ = roofs / "b.toml", roofs / "link.toml", roofs / "list"
    link.symlink_to(b)
    list_.write_bytes(f"\ufeff{roofs}/../roofs/a.toml\r\n\n \n{link}\nsparrow_lane\n{roofs}".encode())
    assert main([*COMPARE, str(b), "--files-from", str(list_)]) == 0
    assert compared(capsys) == [str(b), f"{roofs}/../roofs/a.toml", "sparrow_lane"]


def test_a_list_comes_through_standard_input(roofs: Path) -> None:
    command = [sys.executable, "-m", "tui.cli.main", *COMPARE, "--files-from", "-"]
    found = subprocess.run(command, input=os.fsencode(roofs / "b.toml"), capture_output=True, check=True)
    assert json.loads(found.stdout)["file"] == str(roofs / "b.toml")


@pytest.mark.parametrize(
    ("content", "words"),
    [
        (b"", "lists no file; write one path a line"),
        (b"\n \r\n", "lists no file; write one path a line"),
        (b"a.toml\0b.toml\n", "line 1 has a NUL character; write one path a line, in UTF-8"),
        (b"a.toml\n" + b"x" * 5000, "line 2 is longer than 4,096 bytes; write one path a line"),
        (b"\n" * 100_001, "more than 100,000 lines; divide it into several runs"),
    ],
    ids=["empty", "blank", "NUL", "endless line", "endless"],
)
def test_what_is_no_list(content: bytes, words: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = tmp_path / "list"
    path.write_bytes(content)
    assert main([*COMPARE, "--files-from", str(path)]) == 2
    assert capsys.readouterr() == ("", f"{path}: {words}\n")


@pytest.mark.skipif(sys.platform != "linux", reason="pipes and devices as Linux has them")
def test_what_cannot_be_read_as_a_list(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    pipe = tmp_path / "pipe"
    os.mkfifo(pipe)
    for given, words in {
        tmp_path: "cannot be read (is a directory)",
        tmp_path / "nowhere": "cannot be read (no such file or directory)",
        Path("/dev/zero"): "cannot be read (a device, not a file)",
        pipe: "lists no file; write one path a line",
    }.items():
        assert main([*COMPARE, "--files-from", str(given)]) == 2
        assert capsys.readouterr() == ("", f"{given}: {words}\n")


def test_a_closed_standard_input_is_no_list(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr(sys, "stdin", None)
    assert main([*COMPARE, "--files-from", "-"]) == 2
    assert "standard input is closed" in capsys.readouterr().err


def test_an_endless_list_is_read_to_a_limit() -> None:
    endless = io.BytesIO(b"x" * 1_000_000)
    with pytest.raises(paths.InputError, match="line 1 is longer"):
        paths.paths_in(endless, "list")
    assert endless.tell() <= paths.MAX_LINE + 1


def test_a_folder_without_scenarios(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main([*COMPARE, str(tmp_path)]) == 2
    assert capsys.readouterr().err == f"{tmp_path}: has no *.toml file directly in it; name a folder that has\n"


def test_nothing_is_written_over_a_file_of_a_folder_or_over_a_list(
    roofs: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    list_ = roofs / "list"
    list_.write_text("sparrow_lane", encoding="utf-8")
    for output in (roofs / "a.toml", list_):
        before = output.read_bytes()
        assert main([*COMPARE, str(roofs), "--files-from", str(list_), "-o", str(output), "--overwrite"]) == 2
        assert "which is an input" in capsys.readouterr().err
        assert output.read_bytes() == before


def test_a_page_holds_one_scenario_and_an_empty_name_is_no_folder(
    roofs: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["compare", str(roofs), "--format", "html"]) == 2
    assert "html holds one scenario" in capsys.readouterr().err
    assert main([*COMPARE, "", "nowhere.toml"]) == 2
    assert "FILE: an empty name given" in capsys.readouterr().err

"""The process is killed at every step of writing: every file is the old one or the new one, never half."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

from tui.storage import atomic_write

KILLED = Path(__file__).parents[2] / "tools" / "killed_while_writing.py"


def states_of(folder: Path, way: str) -> list[list[str]]:
    """What both files held after a kill at every step, and after none."""
    answer = subprocess.run([sys.executable, KILLED, folder, way], capture_output=True, text=True, check=True)
    states: list[list[str]] = json.loads(answer.stdout)
    assert len(states) > 20, "every line of the writer is a step"
    return states


@pytest.mark.skipif(not hasattr(os, "fork"), reason="each step is a forked child")
@pytest.mark.parametrize(
    ("way", "whole"),
    [("all_at_once", ["old", "new"]), ("part_by_part", ["old", "new"]), ("line_by_line", ["old", "a part", "all"])],
)
def test_old_or_new_never_half(way: str, whole: list[str], tmp_path: Path) -> None:
    states = states_of(tmp_path, way)
    assert states[0] == [whole[0], whole[0]]
    assert states[-1] == [whole[-1], whole[-1]]
    for first, second in states:
        assert first in whole
        assert second in whole
    for before, after in zip(states, states[1:], strict=False):
        assert [whole.index(each) for each in before] <= [whole.index(each) for each in after], "nothing goes back"
    others = {path.name for path in tmp_path.iterdir()} - {"first.toml", "second.toml"}
    assert all(name.startswith((".first.toml.", ".second.toml.")) for name in others), (
        "at most hidden temporaries are left"
    )


@pytest.mark.skipif(sys.platform != "linux", reason="only Linux exchanges two folders in one step")
def test_a_folder_is_never_mixed_and_what_a_kill_leaves_is_removed(tmp_path: Path) -> None:
    folder = tmp_path / "export"
    folder.mkdir()
    (folder / "mine.txt").write_text("mine", encoding="utf-8")
    states = states_of(folder, "as_a_folder")
    assert {tuple(state) for state in states} == {("old", "old"), ("new", "new")}
    assert [path.name for path in tmp_path.iterdir()] == ["export"]
    assert sorted(path.name for path in folder.iterdir()) == ["first.toml", "mine.txt", "second.toml"]
    assert (folder / "mine.txt").read_text(encoding="utf-8") == "mine"


@pytest.mark.skipif(sys.platform != "linux", reason="only Linux exchanges two folders in one step")
def test_the_folders_of_slopes_are_replaced_together(tmp_path: Path) -> None:
    folder = tmp_path / "export"
    (folder / "north").mkdir(parents=True)
    (folder / "north" / "mine.txt").write_text("mine", encoding="utf-8")
    states = states_of(folder, "with_folders_below")
    assert {tuple(state) for state in states} == {("old", "old"), ("new", "new")}
    assert [path.name for path in tmp_path.iterdir()] == ["export"]
    found = sorted(str(path.relative_to(folder)) for path in folder.rglob("*") if path.is_file())
    assert found == ["north/first.toml", "north/mine.txt", "south/second.toml"]
    assert (folder / "north" / "mine.txt").read_text(encoding="utf-8") == "mine"


@pytest.mark.parametrize("obstacle", ["a folder in it", "no exchange"])
def test_where_folders_cannot_be_exchanged_its_files_are_replaced(
    obstacle: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    folder = tmp_path / "export"
    (folder / "below").mkdir(parents=True)
    (folder / "below" / "mine.txt").write_text("mine", encoding="utf-8")
    if obstacle == "no exchange":
        (folder / "below" / "mine.txt").rename(folder / "mine.txt")
        (folder / "below").rmdir()
        monkeypatch.setattr(atomic_write, "RENAME_EXCHANGE", 1 << 20)
    (folder / "first.toml").write_bytes(b"old")
    atomic_write.write_folder(folder, {"first.toml": b"new", "second.toml": b"new"}, overwrite=True)
    assert [(folder / name).read_bytes() for name in ("first.toml", "second.toml")] == [b"new", b"new"]
    assert len(list(folder.iterdir())) == 3
    assert [path.name for path in tmp_path.iterdir()] == ["export"]


def test_what_a_killed_process_left_is_removed_and_what_a_running_one_writes_is_not(tmp_path: Path) -> None:
    ended = subprocess.Popen([sys.executable, "-c", ""])
    ended.wait()
    left, running, other = (
        tmp_path / f".a.toml.{name}" for name in (f"{ended.pid}-abc", f"{os.getppid()}-abc", "backup")
    )
    for path in (left, running, other):
        path.write_text("x", encoding="utf-8")
    atomic_write.write_text(tmp_path / "a.toml", "new", overwrite=False)
    assert sorted(tmp_path.iterdir()) == sorted([tmp_path / "a.toml", running, other])

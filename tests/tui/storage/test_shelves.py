"""Shelves as files: where they are looked for, and every file of others that could do harm refused in one sentence."""

from __future__ import annotations

from pathlib import Path

import pytest

from engine.common.errors import InputError
from tui.storage import shelves

EMPTY = "format = 1\nmodules = {}\n"


@pytest.fixture(autouse=True)
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A user's folder of parts of this test's own."""
    own = tmp_path / "config" / "parts"
    own.mkdir(parents=True)
    monkeypatch.setattr(shelves, "folder", lambda: own)
    return own


def written(path: Path, text: str = EMPTY) -> Path:
    path.write_text(text, encoding="utf-8")
    return path


def used(tmp_path: Path, *names: object) -> list[str]:
    return [shelf.name for shelf in shelves.shelves_of({"use": list(names)}, tmp_path / "job.toml")]


def refused(tmp_path: Path, names: object) -> tuple[str, str]:
    with pytest.raises(InputError) as wrong:
        shelves.shelves_of({"use": names}, tmp_path / "job.toml")
    (problem,) = wrong.value.problems
    return problem.path, problem.message


def test_a_shelf_is_found_beside_the_file_then_in_the_user_s_folder_then_among_the_bundled(
    tmp_path: Path, folder: Path
) -> None:
    written(folder / "parts.toml", EMPTY + 'title = "mine"')
    assert used(tmp_path, "parts.toml", "invented_parts.toml") == ["parts.toml", "invented_parts.toml"]
    (found,) = shelves.shelves_of({"use": "parts.toml"}, tmp_path / "job.toml")
    assert found.tables["title"] == "mine"
    written(tmp_path / "parts.toml", EMPTY + 'title = "beside"')
    (found,) = shelves.shelves_of({"use": "parts.toml"}, tmp_path / "job.toml")
    assert found.tables["title"] == "beside"


def test_a_changed_shelf_is_read_anew(tmp_path: Path) -> None:
    path = written(tmp_path / "parts.toml")
    assert shelves.shelves_of({"use": "parts.toml"}, tmp_path / "job.toml")[0].tables["modules"] == {}
    written(path, 'format = 1\nmodules.A = { mass = "3 kg" }\n')
    assert shelves.shelves_of({"use": "parts.toml"}, tmp_path / "job.toml")[0].tables["modules"] != {}


def test_a_shelf_may_use_others_each_is_read_once(tmp_path: Path) -> None:
    written(tmp_path / "a.toml", 'use = ["b.toml", "c.toml"]\n' + EMPTY)
    written(tmp_path / "b.toml", 'use = "c.toml"\n' + EMPTY)
    written(tmp_path / "c.toml")
    assert used(tmp_path, "a.toml") == ["a.toml", "b.toml", "c.toml"]


def test_shelves_that_use_one_another_are_refused(tmp_path: Path) -> None:
    written(tmp_path / "a.toml", 'use = "b.toml"\n' + EMPTY)
    written(tmp_path / "b.toml", 'use = "a.toml"\n' + EMPTY)
    sentence = "'a.toml' given, which leads back to itself: a.toml uses b.toml uses a.toml"
    assert refused(tmp_path, ["a.toml"]) == ("b.toml: use", sentence)


def test_a_missing_shelf_is_refused_with_the_nearest_name(tmp_path: Path, folder: Path) -> None:
    written(tmp_path / "parts.toml")
    place = f"no such file beside job.toml, in {folder} or among the bundled shelves"
    assert refused(tmp_path, "part.toml") == ("use", f"'part.toml' given; {place}; did you mean 'parts.toml'?")
    assert refused(tmp_path, ["zzz.toml"]) == ("use", f"'zzz.toml' given; {place}")


@pytest.mark.parametrize(
    ("names", "sentence"),
    [
        (3, '3 given; write a word in quotes, or a list such as ["parts.toml"]'),
        ("/etc/passwd", "'/etc/passwd' given; write the name of a file that ends in .toml"),
        ("~", "'~' given; write the name of a file that ends in .toml"),
    ],
)
def test_what_is_no_name_of_a_shelf_is_refused(tmp_path: Path, names: object, sentence: str) -> None:
    assert refused(tmp_path, names) == ("use", sentence)


def test_files_of_others_are_read_within_limits(tmp_path: Path) -> None:
    """A device that never ends, a huge file, text that is no TOML, and one shelf too many."""
    (tmp_path / "zero.toml").symlink_to("/dev/zero")
    assert refused(tmp_path, "zero.toml")[1].endswith("cannot be read (a device, not a file)")
    written(tmp_path / "huge.toml", "#" * 2_000_001)
    assert "larger than 2,000,000 bytes" in refused(tmp_path, "huge.toml")[1]
    written(tmp_path / "no.toml", "modules = ")
    assert refused(tmp_path, "no.toml")[1].startswith("no.toml: not TOML (")
    names = [written(tmp_path / f"s{number}.toml").name for number in range(shelves.MAX_SHELVES + 1)]
    assert refused(tmp_path, names)[1] == "'s20.toml' given; allowed are 20 shelves for a scenario"


def test_names_of_shelves_as_a_file_elsewhere_writes_them(tmp_path: Path, folder: Path) -> None:
    """Shelves beside the file are named by their path from there; those found from anywhere keep their names."""
    written(tmp_path / "parts.toml")
    written(folder / "mine.toml")
    (tmp_path / "jobs").mkdir()
    tables = {"use": ["parts.toml", "mine.toml", "invented_parts.toml"]}
    here, there = tmp_path / "job.toml", tmp_path / "jobs" / "job.toml"
    assert shelves.names_seen_from(tables, here, here) is None
    moved = shelves.names_seen_from(tables, here, there)
    assert moved == ["../parts.toml", "mine.toml", "invented_parts.toml"]
    assert shelves.shelves_of({"use": moved}, there) == shelves.shelves_of(tables, here)

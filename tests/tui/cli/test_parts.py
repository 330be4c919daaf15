"""Shelves on the command line: listed and checked, used by scenarios, and followed when they change."""

from __future__ import annotations

import json
import math
import sys
import tomllib
from pathlib import Path
from types import SimpleNamespace

import pandas as pd
import pytest

from support import SCENARIOS
from tui.cli.main import main
from tui.storage import shelves

BUNDLED = SCENARIOS / "parts" / "invented_parts.toml"


@pytest.fixture(autouse=True)
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setattr(shelves, "folder", lambda: tmp_path / "config")
    return tmp_path / "config"


@pytest.fixture
def job(tmp_path: Path) -> Path:
    """The default job, with its module from a shelf beside it."""
    (tmp_path / "parts.toml").write_bytes(BUNDLED.read_bytes())
    before, _, rest = (SCENARIOS / "kestrel_yard.toml").read_text(encoding="utf-8").partition("[module]\n")
    own = 'use = ["parts.toml"]\n\n[site]\n'
    text = before.replace("[site]\n", own) + '[module]\nfrom = "M420"\n\n[array]\n' + rest.partition("[array]\n")[2]
    path = tmp_path / "job.toml"
    path.write_text(text, encoding="utf-8")
    return path


def run(capsys: pytest.CaptureFixture[str], *arguments: object) -> tuple[int, str, str]:
    code = main([str(each) for each in arguments])
    out, err = capsys.readouterr()
    return code, out, err


def test_parts_lists_the_shelves_there_are(capsys: pytest.CaptureFixture[str], folder: Path) -> None:
    folder.mkdir()
    (folder / "mine.toml").write_text('format = 1\nmodules.A = { mass = "3 kg" }\n', encoding="utf-8")
    code, out, err = run(capsys, "parts")
    assert (code, err) == (0, f"your folder of parts is {folder}\n")
    assert f"{folder / 'mine.toml'}: fine\n  modules.A: 1 value; no source stated\n{BUNDLED}: fine\n" in out
    assert "  modules.M420: 9 values; invented for loadpath, no product\n" in out
    assert (
        run(capsys, "parts", "invented_parts")[1] == run(capsys, "check", BUNDLED)[1] == out[out.index(str(BUNDLED)) :]
    )


def test_parts_reports_all_that_is_wrong(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    wrong = tmp_path / "wrong.toml"
    wrong.write_text('format = 1\nmodules."A\\u001b[2J" = { from = "B", mas = 3 }\n', encoding="utf-8")
    code, out, err = run(capsys, "parts", wrong, SCENARIOS / "kestrel_yard.toml")
    assert (code, out) == (2, "")
    assert "\x1b" not in err
    assert "modules.A\\u001b[2J.from: a control character or line break given" in err
    assert "no shelf: it has none of the tables modules, roofs" in err


def test_a_job_from_a_shelf_has_the_figures_of_the_job_written_out(
    capsys: pytest.CaptureFixture[str], job: Path
) -> None:
    """And where its values come from is in the JSON and in `check`."""
    one, other = (
        json.loads(run(capsys, "compare", each, "--method", "direct", "--format", "json")[1])
        for each in ("kestrel_yard", job)
    )
    assert one["sources"] == []
    assert {each["shelf"] for each in other["sources"]} == {"parts.toml"}
    assert one["methods"] == other["methods"]
    code, out, _ = run(capsys, "check", job)
    assert code == 0
    assert "\n  'M420' in parts.toml: invented for loadpath, no product: module.rating_up, module.rating_down\n" in out
    assert "\n  file, no source stated: " in out


def test_check_offers_the_newer_spelling_and_rewrites_nothing(
    capsys: pytest.CaptureFixture[str], job: Path, tmp_path: Path
) -> None:
    """A file with [array] is read as one with a single entry of [[arrays]]."""
    text = job.read_text(encoding="utf-8")
    code, out, _ = run(capsys, "check", job)
    assert (code, job.read_text(encoding="utf-8")) == (0, text)
    assert '  [array]: may be written [[arrays]] with name = "A"' in out
    newer = tmp_path / "newer.toml"
    newer.write_text(text.replace("[array]\n", '[[arrays]]\nname = "A"\n'), encoding="utf-8")
    assert "[array]" not in run(capsys, "check", newer)[1]
    one, other = (
        json.loads(run(capsys, "compare", each, "--method", "direct", "--format", "json")[1])["methods"]
        for each in (job, newer)
    )
    assert one == other


def test_a_long_run_is_done_again_where_a_shelf_has_changed(
    capsys: pytest.CaptureFixture[str], job: Path, tmp_path: Path
) -> None:
    log, shelf = tmp_path / "log.jsonl", tmp_path / "parts.toml"
    resume = ("compare", job, "--method", "direct", "--format", "json", "--resume", "-o", log)
    for lines in (1, 1):
        assert run(capsys, *resume)[0] == 0
        assert len(log.read_text(encoding="utf-8").splitlines()) == lines
    shelf.write_text(shelf.read_text(encoding="utf-8").replace("21 kg", "22 kg"), encoding="utf-8")
    assert run(capsys, *resume)[0] == 0
    assert len(log.read_text(encoding="utf-8").splitlines()) == 2


def test_set_takes_another_entry(capsys: pytest.CaptureFixture[str], job: Path) -> None:
    code, _, err = run(capsys, "compare", job, "--set", "module.from=M42")
    assert (code, err) == (
        2,
        "module.from: 'M42' given; [modules] of parts.toml has no such entry; did you mean 'M420'?\n",
    )


def test_an_entry_from_the_list_of_a_general_library(
    capsys: pytest.CaptureFixture[str], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The shape of the list is pvlib 0.16's: a column a module, sides in metres, some of them unknown."""
    listed = pd.DataFrame(
        {
            "Made_up_420": {"STC": 420.3, "Length": 1.134, "Width": 1.722},
            "Old_one": {"STC": 175.0, "Length": math.nan, "Width": math.nan},
        }
    )
    library = SimpleNamespace(pvsystem=SimpleNamespace(retrieve_sam=lambda name: listed), __version__="0.16.1")
    monkeypatch.setitem(sys.modules, "pvlib", library)
    code, out, err = run(capsys, "parts", "--module", "Made_up_420")
    assert code == 0
    assert err == (
        "not in the list, state them from the data sheet: thickness, mass, clamp_zone, edge_support, and the ratings\n"
    )
    assert '[modules."Made_up_420"]\nsource = "CEC module list in pvlib 0.16.1"\n' in out
    assert "# thickness is required\n" in out
    shelf = tmp_path / "parts.toml"
    shelf.write_text(f"format = 1\n{out}", encoding="utf-8")
    assert tomllib.loads(shelf.read_text(encoding="utf-8"))["modules"]["Made_up_420"] | {"source": ""} == {
        "source": "", "length": "1722 mm", "width": "1134 mm", "power": "420 W",
    }  # fmt: skip
    assert run(capsys, "parts", shelf)[0] == 0
    assert 'power = "175 W"' in run(capsys, "parts", "--module", "Old_one")[1]
    assert "# length is required" in run(capsys, "parts", "--module", "Old_one")[1]
    code, _, err = run(capsys, "parts", "--module", "Made_up_42")
    assert (code, err) == (
        2,
        "--module: 'Made_up_42' given; the list has no such module; did you mean 'Made_up_420'?\n",
    )
    monkeypatch.setitem(sys.modules, "pvlib", None)
    assert "which is not installed" in run(capsys, "parts", "--module", "Made_up_420")[2]

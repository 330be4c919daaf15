"""The command line: exit codes, streams, formats, changes, files."""

from __future__ import annotations

import errno
import hashlib
import html
import io
import json
import os
import re
import subprocess
import sys
import tomllib
from pathlib import Path

import openpyxl
import pandas as pd
import pytest

from engine.comparison import compare
from engine.units import number
from support import SCENARIOS
from tui.cli import output as messages
from tui.cli.commands import COMMANDS
from tui.cli.main import main
from tui.model.exit_codes import Exit

KEYS = {
    "method", "title", "status", "modules", "power_w", "attachments", "attachments_minimum", "runs", "attachments_per_module", "point_load_up_n",
    "point_load_down_n", "fastening_utilisation", "bare_roof_utilisation", "weakest_link", "weakest_utilisation", "links", "rail_span_limit_m",
    "roof_span_limit_m", "overspan", "overspan_basis", "penetrations", "mass_kg", "dead_load_pa", "hardware_cost", "labour_hours", "total_cost", "cost_per_watt",
    "bill", "flags",
}  # fmt: skip


def run(capsys: pytest.CaptureFixture[str], *arguments: str) -> tuple[int, str, str]:
    code = main(arguments)
    out, err = capsys.readouterr()
    return code, out, err


def test_without_a_terminal_the_comparison_is_printed(capsys: pytest.CaptureFixture[str]) -> None:
    code, out, err = run(capsys)
    assert (code, err) == (0, "")
    assert "Kestrel Yard" in out
    assert "HOLDS 0.94: clip" in out
    assert max(map(len, out.splitlines())) <= 100


def test_json_is_the_contract(capsys: pytest.CaptureFixture[str]) -> None:
    code, out, _ = run(capsys, "compare", "--format", "json")
    answer = json.loads(out)
    assert code == 0
    assert {"format", "title", "standard", "cautions", "loads", "methods"} <= set(answer)
    assert [method["method"] for method in answer["methods"]] == ["rail", "tilted_rack", "direct"]
    for method in answer["methods"]:
        assert set(method) >= KEYS
        for link in method["links"]:
            assert {"link", "demand", "resistance", "unit", "utilisation", "combination", "where"} <= set(link)
            if link["utilisation"] is not None:
                loads = link["parts"] or [link]
                assert link["utilisation"] == pytest.approx(sum(load["demand"] / load["resistance"] for load in loads))


def test_a_number_that_cannot_be_had_is_null_and_a_flag_says_why(capsys: pytest.CaptureFixture[str]) -> None:
    _, out, _ = run(capsys, "compare", "sparrow_lane", "--format", "json")
    rack = json.loads(out)["methods"][1]
    assert rack["status"] == "outside scope"
    assert rack["fastening_utilisation"] is None
    assert rack["attachments"] == rack["attachments_minimum"]
    assert any("26.57 deg" in flag["text"] and "7.00 deg" in flag["text"] for flag in rack["flags"])


@pytest.mark.parametrize("system", ["us", "si"])
def test_csv_through_pandas_equals_the_json(capsys: pytest.CaptureFixture[str], system: str) -> None:
    _, out, _ = run(capsys, "compare", "--format", "csv", "--units", system)
    frame = pd.read_csv(io.StringIO(out), comment="#").set_index("figure")
    _, out, _ = run(capsys, "compare", "--format", "json")
    for method in json.loads(out)["methods"]:
        column = frame[method["method"]]
        assert int(column["attachments"]) == method["attachments"]
        assert float(column["largest uplift"]) == pytest.approx(number(method["point_load_up_n"], "force", system))  # type: ignore[arg-type]
        assert float(column["clip"]) == pytest.approx(method["fastening_utilisation"])
        assert float(column["total, USD"]) == pytest.approx(method["total_cost"])
        assert float(column["mass"]) == pytest.approx(number(method["mass_kg"], "mass", system))  # type: ignore[arg-type]


def test_several_files_give_json_lines_and_the_good_ones_are_done(
    capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    bad = tmp_path / "bad.toml"
    bad.write_text("format = 1\n")
    code, out, err = run(capsys, "compare", "sparrow_lane", str(bad), "heron_depot", "--format", "json")
    assert code == 2
    assert [json.loads(line)["title"].split(" (")[0] for line in out.splitlines()] == [
        "Sparrow Lane house",
        "Heron Depot",
    ]
    assert "bad.toml" in err


def test_strict(capsys: pytest.CaptureFixture[str]) -> None:
    by_span = ("--set", 'methods.rail.spacing="rail span"')
    assert run(capsys, "compare", "--strict")[0] == 0
    assert run(capsys, "compare", "--strict", *by_span)[0] == 1
    assert run(capsys, "compare", "--strict", "--method", "direct", *by_span)[0] == 0
    assert run(capsys, "compare", "--strict", "--method", "rail", "--set", 'site.wind_speed="90 mph"')[0] == 0


def test_the_readme_names_every_exit_code() -> None:
    said = (SCENARIOS.parent / "README.md").read_text(encoding="utf-8").partition("Exit codes:")[2].partition(".\n")[0]
    assert [int(code) for code in re.findall(r"\d+", said)] == sorted(Exit)


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ('site.wind_sped="130 mph"', "did you mean 'wind_speed'"),
        ("site.wind_speed", "PATH=VALUE"),
        ("=3", "PATH=VALUE"),
        ("site..x=3", "PATH=VALUE"),
        ("title.x=3", "not a table"),
        ("array.rows=nan", "whole number"),
        ("array.rows=6\ncolumns=3", "whole number"),
        ("hardware.module_minutes=inf", "allowed is"),
        ("module=3", "write a table"),
    ],
)
def test_wrong_changes(capsys: pytest.CaptureFixture[str], change: str, words: str) -> None:
    code, out, err = run(capsys, "compare", "--set", change)
    assert (code, out) == (2, "")
    assert words in err
    assert "Traceback" not in err


def test_a_change_replaces(capsys: pytest.CaptureFixture[str]) -> None:
    _, out, _ = run(
        capsys, "compare", "--set", "methods.direct.spacing=3 per edge", "--method", "direct", "--format", "json"
    )
    (direct,) = json.loads(out)["methods"]
    assert direct["spacing"] == "3 per edge"
    assert direct["attachments"] > 336


def test_output_is_not_overwritten_unless_asked(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    path = tmp_path / "out.md"
    assert run(capsys, "compare", "--format", "md", "-o", str(path))[0] == 0
    first = path.read_text(encoding="utf-8")
    assert first.startswith("# Kestrel")
    code, _, err = run(capsys, "compare", "--format", "json", "-o", str(path))
    assert code == 2
    assert "exists" in err
    assert path.read_text(encoding="utf-8") == first
    assert run(capsys, "compare", "--format", "json", "-o", str(path), "--overwrite")[0] == 0
    assert json.loads(path.read_text(encoding="utf-8"))["format"] == 1
    assert [file.name for file in tmp_path.iterdir()] == ["out.md"]


@pytest.mark.parametrize("command", ["compare", "study", "headroom", "sensitivity", "ways", "place"])
def test_no_answer_is_written_over_what_it_is_made_from(
    capsys: pytest.CaptureFixture[str], tmp_path: Path, command: str
) -> None:
    """Whatever the output is called: by its own name, through a link, or as one of many inputs."""
    text = (SCENARIOS / "finch_shed.toml").read_text(encoding="utf-8")
    mine, link = tmp_path / "mine.toml", tmp_path / "link.toml"
    mine.write_text(text, encoding="utf-8")
    link.symlink_to(mine)
    for output in (mine, link):
        words = f"-o: '{output}' given, which is an input; give another name\n"
        assert run(capsys, command, str(mine), "-o", str(output), "--overwrite") == (2, "", words)
    if command == "compare":
        assert run(capsys, command, "heron_depot", str(mine), "-o", str(mine), "--overwrite")[0] == 2
        assert run(capsys, command, str(mine), "--format", "json", "-o", str(mine), "--resume")[0] == 2
    assert mine.read_text(encoding="utf-8") == text


def test_no_page_is_written_over_its_lesson_or_scenario(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    lesson, roof = tmp_path / "lesson.toml", tmp_path / "roof.toml"
    text = (SCENARIOS / "lessons" / "weakest_link.toml").read_text(encoding="utf-8")
    lesson.write_text(text.replace('"kestrel_yard"', '"roof.toml"'), encoding="utf-8")
    roof.write_text((SCENARIOS / "kestrel_yard.toml").read_text(encoding="utf-8"), encoding="utf-8")
    for output in (lesson, roof):
        before = output.read_bytes()
        code, _, err = run(capsys, "handout", str(lesson), "-o", str(output), "--overwrite")
        assert (code, err.count("which is an input")) == (2, 1)
        assert output.read_bytes() == before


def test_no_file_of_loadpaths_own_is_written_over(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    """Asked with a name that is none, so that nothing would be lost."""
    for own in (SCENARIOS / "finch_shed.toml", SCENARIOS / "lessons" / "rail_span.toml"):
        code, _, err = run(capsys, "compare", str(tmp_path / "nothing.toml"), "-o", str(own), "--overwrite")
        assert (code, err.count("which is an input")) == (2, 1)


def test_a_folder_that_is_not_there_gives_one_sentence(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    code, _, err = run(capsys, "compare", "-o", str(tmp_path / "no" / "out.txt"))
    assert code == 2
    assert len(err.splitlines()) == 1
    assert "cannot be written" in err


@pytest.mark.parametrize(
    "content",
    [b"", b"\xff\xfe\x00", b"not toml at all [", b"a" * 3_000_000, b"format = 1\n" + b"x=[" * 3000],
    ids=["empty", "binary", "words", "huge", "deep"],
)
def test_files_that_are_no_scenarios(capsys: pytest.CaptureFixture[str], tmp_path: Path, content: bytes) -> None:
    path = tmp_path / "x.toml"
    path.write_bytes(content)
    code, out, err = run(capsys, "compare", str(path))
    assert (code, out) == (2, "")
    assert err.strip()
    assert "Traceback" not in err


def test_a_folder_or_nothing_as_a_file(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    for path in (tmp_path, tmp_path / "nothing.toml"):
        code, _, err = run(capsys, "compare", str(path))
        assert code == 2
        assert err.count(str(path)) == 1


def test_the_template_passes_as_it_stands_and_documents_every_key(
    capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    path = tmp_path / "mine.toml"
    assert run(capsys, "new", str(path))[0] == 0
    code, out, _ = run(capsys, "check", str(path))
    assert code == 0
    assert "roof uplift test to 86.0 psf" in out
    text = path.read_text(encoding="utf-8")
    live = re.sub(r"(?m)^# (?=\[|[a-z_]+ = )", "", text)
    path.write_text(live, encoding="utf-8")
    assert tomllib.loads(live)["hardware"]["rail"]["stock_length"] == "14 ft"
    assert run(capsys, "check", str(path))[0] == 0, "every default, written out, is accepted too"


def test_check_says_everything_about_every_file(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    bad = tmp_path / "bad.toml"
    bad.write_text(
        (SCENARIOS / "sparrow_lane.toml").read_text().replace('"110 mph"', '"110"').replace("16 in", "16 psf")
    )
    code, out, err = run(capsys, "check", str(SCENARIOS / "heron_depot.toml"), str(bad))
    assert code == 2
    assert "heron_depot.toml: fine" in out
    assert "site.wind_speed" in err
    assert "roof.rib_spacing" in err


def test_scenarios_are_listed(capsys: pytest.CaptureFixture[str]) -> None:
    _, out, _ = run(capsys, "scenarios")
    assert out.splitlines()[0].startswith("kestrel_yard")
    assert len(out.splitlines()) == len(list(SCENARIOS.glob("*.toml")))


def test_explain_goes_back_to_the_wind_speed(capsys: pytest.CaptureFixture[str]) -> None:
    code, out, _ = run(capsys, "explain", "--method", "direct")
    assert code == 0
    for words in ("V = 105 mph", "GCp", "Kz = 0.657", "u_clip", "from memory", "Fall protection"):
        assert words in out
    code, _, err = run(capsys, "explain", "--method", "direct", "--point", "9999")
    assert code == 2
    assert "1 to 336" in err
    assert run(capsys, "explain", "--point", "zero")[0] == 2


def test_unknown_methods_and_commands(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(capsys, "compare", "--method", "rails")[0] == 2
    with pytest.raises(SystemExit) as refused:
        main(["compare", "--units", "metric"])
    assert refused.value.code == 2


@pytest.mark.parametrize(
    "arguments",
    [["--version"], ["--help"], *([command.__name__.rpartition(".")[2], "--help"] for command in COMMANDS)],
    ids=" ".join,
)
def test_help_and_version_load_nothing_heavy(arguments: list[str]) -> None:
    """A cold interpreter: the command line's first answers, also about each command, import no library."""
    heavy = "{'numpy', 'textual', 'pydantic', 'pandas', 'tomlkit', 'platformdirs'}"
    code = f"import sys; from tui.cli.main import main\ntry: main({arguments})\nexcept SystemExit: pass\nprint({heavy} & set(sys.modules))"
    answer = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert answer.stdout.splitlines()[-1] == "set()"


def test_comparing_loads_no_screen_and_no_pandas() -> None:
    code = "import sys; from tui.cli.main import main\nmain(['compare', '--format', 'json'])\nprint({'textual', 'rich', 'pandas'} & set(sys.modules))"
    answer = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert answer.stdout.splitlines()[-1] == "set()"


def test_a_closed_pipe_is_no_error() -> None:
    answer = subprocess.run(
        f"{sys.executable} -m tui.cli.main compare --format json | head -c 10",
        shell=True,
        capture_output=True,
        text=True,
        check=False,
    )
    assert "Traceback" not in answer.stderr
    assert "Error" not in answer.stderr


def test_a_read_only_folder(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    tmp_path.chmod(0o500)
    folder = Path("/proc") if os.geteuid() == 0 else tmp_path  # root may write anywhere but there
    code, _, err = run(capsys, "compare", "-o", str(folder / "out.txt"))
    assert code == 2
    assert "cannot be written" in err


def test_only_ordinary_files_are_written_over_and_links_are_followed(
    capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    pipe, target, link = tmp_path / "pipe", tmp_path / "target.md", tmp_path / "link.md"
    os.mkfifo(pipe)
    code, _, err = run(capsys, "compare", "-o", str(pipe), "--overwrite")
    assert code == 2
    assert "not an ordinary file" in err
    assert not pipe.is_file()
    target.write_text("old", encoding="utf-8")
    link.symlink_to(target)
    assert run(capsys, "compare", "--format", "md", "-o", str(link), "--overwrite")[0] == 0
    assert link.is_symlink()
    assert target.read_text(encoding="utf-8").startswith("# Kestrel")


def test_a_name_no_file_can_have_is_not_taken_for_a_closed_terminal(
    capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    code, out, err = run(capsys, "compare", "sparrow_lane", "-o", str(tmp_path / ("x" * 300)))
    assert (code, out) == (2, "")
    assert err.strip().endswith("xxx: cannot be a file here (file name too long)")
    assert "terminal" not in err


def test_a_byte_order_mark_is_no_trouble(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    path = tmp_path / "bom.toml"
    path.write_text((SCENARIOS / "sparrow_lane.toml").read_text(encoding="utf-8"), encoding="utf-8-sig")
    assert run(capsys, "check", str(path))[0] == 0


def test_a_full_disk_behind_the_pipe_is_one_sentence() -> None:
    answer = subprocess.run(
        f"{sys.executable} -m tui.cli.main compare > /dev/full", shell=True, capture_output=True, text=True, check=False
    )
    assert answer.returncode == 2
    assert answer.stderr.startswith("cannot write to the terminal or pipe")


def test_a_pipe_of_few_letters_gets_question_marks() -> None:
    command = [sys.executable, "-m", "tui.cli.main", "compare", "--set", 'title="שלום"']
    answer = subprocess.run(command, capture_output=True, check=False, env=os.environ | {"PYTHONIOENCODING": "ascii"})
    assert answer.returncode == 0
    assert answer.stdout.startswith(b"????")


def test_columns_never_run_together(capsys: pytest.CaptureFixture[str]) -> None:
    _, out, _ = run(
        capsys, "compare", "--set", "site.seismic_sds=4", "--set", 'roof.fixed_point.in_plane={ allowable = "40 lb" }'
    )
    line = next(line for line in out.splitlines() if line.startswith("controlling"))
    assert len(re.findall(r"  +\S", line)) == 3


def test_the_study_in_both_forms(capsys: pytest.CaptureFixture[str]) -> None:
    """By hand a clip carries 635 lb at every 4th seam (`test_hand_calculation`), of 430 lb or of less."""
    code, out, _ = run(capsys, "study", "--method", "rail")
    assert code == 0
    assert "1.48*" in out
    assert "Fall protection" in out
    _, out, _ = run(capsys, "study", "--method", "rail", "--format", "json")
    (rail,) = json.loads(out)["studies"]
    assert rail["rail_span_limit_m"] == pytest.approx(8 * 0.3048)
    assert rail["roof_span_limit_m"] == pytest.approx(4 * 0.3048)
    assert (rail["overspan"], rail["overspan_basis"]) == (pytest.approx(2.0), "spans")
    weaker = ("--set", 'roof.fastening.uplift={ allowable = "350 lb" }')
    _, out, _ = run(capsys, "study", "--method", "rail", "--format", "json", *weaker)
    (rail,) = json.loads(out)["studies"]
    assert rail["roof_span_limit_m"] is None
    assert (rail["overspan"], rail["overspan_basis"]) == (pytest.approx(1.81, abs=5e-3), "load")


def test_export_writes_everything_and_says_so(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    folder = tmp_path / "new" / "folder"
    code, out, err = run(
        capsys, "export", "sparrow_lane", str(folder), "--method", "rail", "--date", "2026-03-04", "--units", "si"
    )
    assert (code, out) == (0, "")
    names = {path.name for path in folder.iterdir()}
    assert {"comparison.xlsx", "attachments_rail.csv", "plan_rail.dxf"} <= names
    assert err.splitlines()[0] == f"1 of {len(names)}: README.txt"
    assert err.splitlines()[-1] == f"{len(names)} files written to {folder}"
    assert json.loads((folder / "comparison.json").read_text(encoding="utf-8"))["date"] == "2026-03-04"


def test_export_writes_only_what_a_reader_needs(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    command = ("export", "sparrow_lane", str(tmp_path), "--method", "rail", "--for", "estimator")
    assert run(capsys, *command)[0] == 0
    names = {path.name for path in tmp_path.iterdir()}
    assert {"README.txt", "bill.csv", "bill.xlsx"} < names
    assert not any("plan" in name or "report" in name for name in names)
    assert run(capsys, *command, "--overwrite", "--for", "drafter")[0] == 0
    assert {"bill.csv", "plan_rail.dxf"} < {path.name for path in tmp_path.iterdir()}
    with pytest.raises(SystemExit, match="2"):
        main(["export", "sparrow_lane", str(tmp_path), "--for", "roofer"])
    assert "invalid choice: 'roofer' (choose from" in capsys.readouterr().err


def test_export_of_a_building_has_a_folder_a_slope_and_files_of_all(
    capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    command = ("export", "lapwing_hall", str(tmp_path), "--method", "direct")
    assert run(capsys, *command, "--for", "estimator")[0] == 0
    of_all = {"README.txt", "answer.html", "answer.pdf", "totals.xlsx", "totals.csv", "bill.csv"}
    assert {path.name for path in tmp_path.iterdir()} == {"north", "south"} | of_all
    assert {"README.txt", "bill.csv", "bill.xlsx"} < {path.name for path in (tmp_path / "north").iterdir()}
    (tmp_path / "bill.csv").write_text("precious", encoding="utf-8")
    assert run(capsys, *command, "--for", "drafter", "--overwrite")[0] == 0
    assert (tmp_path / "bill.csv").read_text(encoding="utf-8") == "precious"
    assert {"plan_direct.svg", "plan_direct.pdf"} < {path.name for path in tmp_path.iterdir()}
    code, _, err = run(capsys, *command, "--for", "estimator")
    assert (code, "README.txt: exists, as do" in err) == (2, True)


def test_an_export_of_a_building_that_is_interrupted_leaves_all_slopes_as_they_were(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    command = ("export", "lapwing_hall", str(tmp_path), "--method", "direct", "--for", "estimator", "--overwrite")
    assert main((*command, "--date", "2026-01-01")) == 0
    before = {path: path.read_bytes() for path in tmp_path.rglob("*") if path.is_file()}

    def interrupt(words: str) -> None:
        if "north" in words:  # the files of all slopes and of the first are made, the second's are not
            raise KeyboardInterrupt

    monkeypatch.setattr(messages, "say", interrupt)
    assert main((*command, "--date", "2026-01-02")) == 130
    assert {path: path.read_bytes() for path in tmp_path.rglob("*") if path.is_file()} == before


def test_the_export_names_its_file_its_digest_and_what_was_changed(
    capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    change = 'site.wind_speed="112 mph"'
    assert run(capsys, "export", "sparrow_lane", str(tmp_path), "--method", "direct", "--set", change)[0] == 0
    digest = hashlib.sha256((SCENARIOS / "sparrow_lane.toml").read_bytes()).hexdigest()
    page = html.unescape((tmp_path / "report.html").read_text(encoding="utf-8"))
    for words in ("sparrow_lane.toml", digest, change):
        assert f"<dd>{words}</dd>" in page


def test_export_replaces_only_when_asked(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    precious = tmp_path / "plan_rail.svg"
    precious.write_text("precious", encoding="utf-8")
    code, _, err = run(capsys, "export", "sparrow_lane", str(tmp_path), "--method", "rail")
    assert code == 2
    assert err.splitlines() == [f"{precious}: exists; give another folder, or --overwrite"]
    assert [path.name for path in tmp_path.iterdir()] == ["plan_rail.svg"]
    assert run(capsys, "export", "sparrow_lane", str(tmp_path), "--method", "rail", "--overwrite")[0] == 0
    assert precious.read_text(encoding="utf-8").startswith("<svg")


def test_export_names_what_an_earlier_one_left(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    """Named and left alone: nobody knows whose they are. What has no such name is not spoken of."""
    (tmp_path / "notes.csv").write_text("mine", encoding="utf-8")
    assert run(capsys, "export", "sparrow_lane", str(tmp_path), "--method", "rail")[0] == 0
    before = {path.name for path in tmp_path.iterdir()}
    code, out, err = run(capsys, "export", "sparrow_lane", str(tmp_path), "--method", "direct", "--overwrite")
    left = ", ".join(sorted(name for name in before if "_rail" in name))
    assert {"attachments_rail.csv", "installer_rail.html", "plan_rail.dxf"} < set(left.split(", "))
    assert (code, out, err.splitlines()[-1]) == (0, "", f"not part of this export, but in {tmp_path}: {left}")
    assert before < {path.name for path in tmp_path.iterdir()}


def test_a_full_disk_leaves_what_was_there(
    capsys: pytest.CaptureFixture[str], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The disk fills up at the last file: none is replaced, no temporary file stays."""
    arguments = ("export", "sparrow_lane", str(tmp_path), "--method", "rail", "--overwrite", "--date")
    assert run(capsys, *arguments, "2026-03-04")[0] == 0
    before = {path.name: path.read_bytes() for path in tmp_path.iterdir()}
    synced = 0

    def full(descriptor: int) -> None:
        nonlocal synced
        synced += 1
        if synced >= len(before):
            raise OSError(errno.ENOSPC, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    code, _, err = run(capsys, *arguments, "2026-03-05")
    assert code == 2
    assert "no space left on device" in err.splitlines()[-1]
    assert {path.name: path.read_bytes() for path in tmp_path.iterdir()} == before


def test_a_folder_that_cannot_be_made_gives_one_sentence_before_any_work(
    capsys: pytest.CaptureFixture[str], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def computes(*_: object) -> None:
        pytest.fail("work that is lost")

    monkeypatch.setattr(compare, "compare", computes)
    (tmp_path / "file").write_text("", encoding="utf-8")
    for folder in (tmp_path / "file", tmp_path / "file" / "below"):
        code, _, err = run(capsys, "export", "sparrow_lane", str(folder), "--method", "rail")
        assert (code, len(err.splitlines())) == (2, 1)
        assert err.startswith(f"{folder}: ")
    code, _, err = run(capsys, "export", str(tmp_path / "out"), "--date", "tomorrow")
    assert (code, err) == (2, "--date: 'tomorrow' given; write a day as YYYY-MM-DD\n")


def test_export_of_a_scenario_without_a_folder_is_refused(
    capsys: pytest.CaptureFixture[str], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """One name alone is the folder, unless it names a scenario, its own or one that comes with loadpath."""
    monkeypatch.chdir(tmp_path)
    (tmp_path / "mine.toml").write_text((SCENARIOS / "finch_shed.toml").read_text(encoding="utf-8"), encoding="utf-8")
    for name in ("finch_shed", "mine.toml"):
        words = f"DIR: '{name}' is a scenario, not a folder; write `loadpath export {name} DIR`\n"
        assert run(capsys, "export", name) == (2, "", words)
    assert [path.name for path in tmp_path.iterdir()] == ["mine.toml"]
    assert run(capsys, "export", "out", "--method", "direct")[0] == 0
    assert "Kestrel" in (tmp_path / "out" / "comparison.md").read_text(encoding="utf-8")


@pytest.mark.parametrize(
    "arguments", [("export", "finch_shed", ""), ("compare", "finch_shed", "-o", " "), ("new", ""), ("check", "")]
)
def test_an_empty_name_is_not_the_current_folder(
    capsys: pytest.CaptureFixture[str], tmp_path: Path, monkeypatch: pytest.MonkeyPatch, arguments: tuple[str, ...]
) -> None:
    monkeypatch.chdir(tmp_path)
    with pytest.raises(SystemExit) as refused:
        main(arguments)
    assert refused.value.code == 2
    assert "an empty name given" in capsys.readouterr().err.splitlines()[-1]


def test_a_folder_hides_no_bundled_scenario(
    capsys: pytest.CaptureFixture[str], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    (tmp_path / "finch_shed").mkdir()
    code, out, _ = run(capsys, "compare", "finch_shed", "--method", "direct")
    assert (code, out.split(" (")[0]) == (0, "Finch Shed")


def test_pages_and_workbooks_of_a_comparison(capsysbinary: pytest.CaptureFixture[bytes], tmp_path: Path) -> None:
    assert main(["compare", "--format", "xlsx"]) == 0
    assert capsysbinary.readouterr().out.startswith(b"PK")
    assert main(["compare", "--format", "html", "-o", str(tmp_path / "x.html")]) == 0
    assert (tmp_path / "x.html").read_bytes().startswith(b"<!DOCTYPE html>")
    assert main(["compare", "sparrow_lane", "heron_depot", "--format", "html"]) == 2
    assert b"one scenario" in capsysbinary.readouterr().err


QUESTION = [
    *("modules=24", "seams=24 in", "purlins=5 ft", "slope=1:12"),
    *("height=24 ft", "wind=105 mph", "exposure=B", "snow=25 psf"),
]


def test_a_quick_question_in_both_forms(capsys: pytest.CaptureFixture[str]) -> None:
    code, written, _ = run(capsys, "quick", *QUESTION, "--format", "json")
    assert code == 0
    found = {each["method"]: each for each in json.loads(written)["quick"]}
    _, out, _ = run(capsys, "quick", *QUESTION)
    assert out.startswith("NOT A DESIGN")
    assert f"{found['direct']['clip_uplift_with_array_n'] / 4.4482216:.0f} lb" in out
    assert f"{found['direct']['attachments_minimum']}" in out


@pytest.mark.parametrize(
    ("values", "words"),
    [
        (["nonsense"], "NAME=VALUE: 'nonsense' given; write a name, = and a value, such as wind='105 mph'"),
        (["wined=105 mph"], "wined: unknown; did you mean 'wind'?"),
        ([*QUESTION[1:]], "modules: missing: number of modules"),
        (["modules=0", *QUESTION[1:]], "modules: '0' given; write a whole number from 1 on"),
        ([*QUESTION, "wind=1005 mph"], "wind: '1005 mph' given; allowed is 60 mph to 300 mph"),
        ([*QUESTION, "slope=steep"], "slope: 'steep' given; write an angle with its unit"),
        ([*QUESTION, "length=far"], "length: 'far' given; write a length with its unit"),
    ],
)
def test_a_wrong_value_of_a_question_is_named(
    capsys: pytest.CaptureFixture[str], values: list[str], words: str
) -> None:
    code, out, err = run(capsys, "quick", *values)
    assert (code, out) == (2, "")
    assert words in err


@pytest.mark.parametrize("study", ["study", "headroom", "place", "ways"])
def test_a_study_names_its_standard_and_says_where_wind_comes_from_no_standard(
    capsys: pytest.CaptureFixture[str], study: str
) -> None:
    few = ("--method", "direct", "--set", "array.rows=1", "--set", "array.columns=2")
    fallback = ("--set", 'site.cp_net="cautious fallback"', "--set", 'placement.step="500 mm"')
    code, out, _ = run(capsys, study, "dunlin_hall", *few, *fallback)
    assert code == 0
    assert out.splitlines()[1] == "EN 1991, partial factors, design resistances, recommended values"
    assert "Wind on modules: net coefficients from no standard." in out.splitlines()
    _, written, _ = run(capsys, study, "dunlin_hall", *few, *fallback, "--format", "json")
    assert json.loads(written)["cautions"][0] == "Wind on modules: net coefficients from no standard."
    _, out, _ = run(capsys, study, "dunlin_hall", *few, "--set", 'placement.step="500 mm"')
    assert "no standard" not in out


def test_a_question_is_saved_as_a_scenario_that_says_what_is_missing(
    capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    path = tmp_path / "asked.toml"
    assert run(capsys, "quick", *QUESTION, "-o", str(path))[0] == 0
    code, _, err = run(capsys, "check", str(path))
    assert code == 2
    assert [line.split(": ")[1] for line in err.splitlines()] == [
        "roof.panel.moment_rib_compressed",
        "roof.panel.moment_pan_compressed",
    ]


def test_the_placement_map_in_both_forms(capsys: pytest.CaptureFixture[str]) -> None:
    """Two moves along the eave and one up the slope; the highest row of the map is printed first."""
    window = ("--set", 'placement.window=["9 in", "4 ft"]', "--set", 'placement.step="4.5 in"', "--method", "direct")
    code, written, _ = run(capsys, "place", "finch_shed", *window, "--format", "json")
    (found,) = json.loads(written)["placement"]["methods"]
    assert len(found["places"]) == len(found["along"]["places_m"]) * len(found["up"]["places_m"]) == 2 * 10
    assert code == 0
    _, out, _ = run(capsys, "place", "finch_shed", *window)
    assert "MODULES ON RIBS" in out
    rows = [line.split() for line in out.splitlines() if line.startswith(("+", "-", "0"))]
    counts = [[str(place["attachments"]) for place in found["places"][start : start + 2]] for start in range(0, 20, 2)]
    assert [row[1:] for row in rows] == counts[::-1]
    assert (rows[0][0], rows[-1][0]) == ("+18", "-22.5")


OVER = (
    *("sparrow_lane", "--method", "rail", "--set", "array.rows=1", "--set", "methods.rail.spacing=rail span"),
    *("--set", 'placement.window=["1 in", "1 in"]'),
)
"""A short row whose rails are over at their own span, and which may not be moved."""


def test_ways_out_in_both_forms_and_applied(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    """Applied to the file, comments kept, each way gives what was promised."""
    code, out, _ = run(capsys, "ways", *OVER)
    assert code == 0
    assert out.splitlines()[3].startswith("RAILS: attachment 1.38 of allowable")
    assert "Preliminary" in out
    code, written, _ = run(capsys, "ways", *OVER, "--format", "json")
    (found,) = json.loads(written)["ways_out"]
    assert found["method"] == "rail"
    assert found["ways_out"]
    for place, way in enumerate(found["ways_out"], 1):
        assert f"{place}. {way['text'][0].upper()}{way['text'][1:]}." in " ".join(out.split())
        path = tmp_path / f"{place}.toml"
        assert run(capsys, "ways", *OVER, "--apply", str(place), "-o", str(path))[0] == 0
        assert "# " in path.read_text(encoding="utf-8")
        code, after, _ = run(capsys, "compare", str(path), "--method", "rail", "--format", "json")
        (method,) = json.loads(after)["methods"]
        assert {key: method[key] for key in way["result"]} == way["result"]


def test_ways_out_beside_the_comparison_only_on_request(capsys: pytest.CaptureFixture[str]) -> None:
    """They take seconds: null says that they were not searched, an empty list that there is none or none is needed."""
    _, written, _ = run(capsys, "ways", *OVER, "--format", "json")
    (alone,) = json.loads(written)["ways_out"]
    for options, expected in (((), None), (("--ways",), alone["ways_out"])):
        code, out, _ = run(capsys, "compare", *OVER, "--format", "json", *options)
        assert code == 0
        assert json.loads(out)["methods"][0]["ways_out"] == expected
    _, out, _ = run(capsys, "compare", *OVER, "--ways")
    assert f"1. {alone['ways_out'][0]['text'].capitalize()}" in " ".join(out.partition("Ways out:")[2].split())
    code, out, err = run(capsys, "compare", *OVER, "--ways", "--format", "csv")
    assert (code, out) == (2, "")
    assert "--ways: given with --format csv; choose text or json, or the report of loadpath export" in err


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (["--apply", "1"], "--apply: writes a scenario; name its file with -o PATH"),
        (["--apply", "9", "-o", "x.toml"], "--apply: 9 given; allowed is none: there is no way out"),
    ],
)
def test_a_way_that_cannot_be_applied(capsys: pytest.CaptureFixture[str], arguments: list[str], words: str) -> None:
    code, out, err = run(capsys, "ways", "sparrow_lane", "--method", "rail", *arguments)
    assert (code, out) == (2, "")
    assert words in err


@pytest.mark.parametrize("written", ["0", "-1", "x", "", "1.5", "9" * 5000, "²"])
def test_the_number_of_a_way_is_a_whole_number(capsys: pytest.CaptureFixture[str], written: str) -> None:
    with pytest.raises(SystemExit, match="2"):
        main(["ways", f"--apply={written}"])
    assert f"'{written[:40]}' given; give a whole number from 1 on" in capsys.readouterr().err


@pytest.mark.parametrize("name", ["headroom", "sensitivity"])
def test_what_if_in_both_forms(capsys: pytest.CaptureFixture[str], name: str) -> None:
    code, out, _ = run(capsys, name, "sparrow_lane", "--method", "direct")
    assert code == 0
    assert "wind speed" in out
    assert "Preliminary" in out
    code, written, _ = run(capsys, name, "sparrow_lane", "--method", "direct", "--format", "json")
    assert code == 0
    (found,) = json.loads(written)[name]
    assert found["method"] == "direct"
    if name == "sensitivity":
        wind = next(effect for effect in found["effects"] if effect["input"] == "site.wind_speed")
        used = " … ".join(f"{wind[way]['weakest_utilisation']:.2f}" for way in ("down", "up"))
        assert re.search(rf"^wind speed +± 10% +{used} ", out, re.MULTILINE)
    code, _, err = run(capsys, name, "sparrow_lane", "--set", 'site.wind_speed="fast"')
    assert code == 2
    assert "site.wind_speed" in err


@pytest.mark.skipif(sys.platform == "win32", reason="links need rights there")
@pytest.mark.parametrize("arguments", [("compare", "-o", "{}"), ("export", "kestrel_yard", "{}"), ("compare", "{}")])
def test_a_link_to_itself_is_refused_in_one_sentence(
    arguments: tuple[str, ...], tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    loop = tmp_path / "loop"
    loop.symlink_to(loop)
    try:
        code = main([word.format(loop) for word in arguments])
    except SystemExit as left:
        code = left.code  # type: ignore[assignment]
    said = capsys.readouterr().err
    assert code == 2
    assert f"{loop}: " in said
    assert "Internal error" not in said


# -- what nobody has checked is said where a hurried reader looks ---------------------------------


def test_the_first_lines_say_what_is_not_checked(capsys: pytest.CaptureFixture[str]) -> None:
    """The screws' 279 lb of 211 lb, and a little shear: `test_panel_screws_show_uplift_and_shear`."""
    _, out, _ = run(capsys, "compare", "wren_workshop")
    first = " ".join(" ".join(out.splitlines()[1:8]).split())
    assert "rails: OVER 1.33: panel screws. Not checked: rib at the bracket (roof maker); purlins (building" in first
    assert "placeholder strengths" in first


@pytest.mark.parametrize(("scenario", "method", "code"), [("kestrel_yard", "direct", 0), ("finch_shed", "rail", 1)])
def test_strict_fails_where_a_method_is_incomplete(
    capsys: pytest.CaptureFixture[str], scenario: str, method: str, code: int
) -> None:
    """Kestrel Yard's modules on seams are complete; nobody pressed Finch Shed's brackets down."""
    assert run(capsys, "compare", scenario, "--method", method, "--strict")[0] == code
    assert run(capsys, "compare", scenario, "--method", method)[0] == 0


def test_json_names_each_open_link_its_owner_and_the_document(capsys: pytest.CaptureFixture[str]) -> None:
    _, out, _ = run(capsys, "compare", "finch_shed", "--method", "rail", "--format", "json")
    (method,) = json.loads(out)["methods"]
    assert method["status"] == "incomplete"
    opened = [(each["link"], each["direction"], each["owner"]) for each in method["unchecked"]]
    assert opened == [
        ("rib_at_clamp", "down", "roof maker"),
        ("roof_member", "up", "building engineer"),
        ("roof_member", "down", "building engineer"),
    ]
    assert all(each["reason"] and each["document"] for each in method["unchecked"])
    assert "hardware.attachment_down" in method["placeholders"]
    assert "hardware.attachment_uplift" not in method["placeholders"]  # pulled on site


def test_a_new_scenario_of_a_named_standard(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    path = tmp_path / "hall.toml"
    assert run(capsys, "new", "--standard", "EN 1991", str(path))[0] == 0
    assert run(capsys, "check", str(path))[0] == 0
    assert 'standard = "EN 1991"' in path.read_text(encoding="utf-8")
    code, _, err = run(capsys, "new", "--standard", "EN 1999")
    assert code == 2
    assert "'EN 1999' given; allowed is 'ASCE 7-16' or 'ASCE 7-22' or 'EN 1991'" in err


def test_units_are_those_of_the_load_standard(capsys: pytest.CaptureFixture[str]) -> None:
    """Unless others are asked for; of several files each has its own."""
    both = run(capsys, "compare", "kestrel_yard", "dunlin_hall", "--method", "direct")[1]
    american, european = both.split("Dunlin Hall")
    assert "lb" in american
    assert "kN" not in american.split("modules on seams:")[1].split("!")[0]
    assert "kN" in european
    assert "wind velocity 56 mph" in run(capsys, "compare", "dunlin_hall", "--method", "direct", "--units", "us")[1]
    assert "m/s" in run(capsys, "headroom", "dunlin_hall", "--method", "rail")[1]


def test_a_new_scenario_accepts_nothing(capsys: pytest.CaptureFixture[str]) -> None:
    """The example's engineer has not seen the user's purlins."""
    _, out, _ = run(capsys, "new")
    assert tomllib.loads(out)["accepted"] == {}
    assert "# roof_member is not set" in out


def test_a_building_shows_its_totals_then_each_slope(capsys: pytest.CaptureFixture[str]) -> None:
    code, out, _ = run(capsys, "compare", "lapwing_hall", "--method", "direct")
    assert code == 0
    assert out.index("WHOLE BUILDING") < out.index("slope south\n") < out.index("slope north\n")
    assert "996" in out[: out.index("slope south\n")]
    _, north, _ = run(capsys, "compare", "lapwing_hall", "--slope", "north", "--method", "direct")
    assert north.startswith("Lapwing Hall (invented), slope north")
    assert "WHOLE BUILDING" not in north
    _, out, _ = run(capsys, "compare", "lapwing_hall", "--method", "direct", "--format", "json")
    assert [slope["name"] for slope in json.loads(out)["slopes"]] == ["south", "north"]


def test_a_building_has_its_totals_in_every_format(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    command = ("compare", "lapwing_hall", "--method", "direct", "--format")
    for name in ("html", "md", "csv"):
        code, out, _ = run(capsys, *command, name)
        assert code == 0
        assert "996" in out
        assert "north" in out
    assert run(capsys, *command, "xlsx", "-o", str(tmp_path / "totals.xlsx"))[0] == 0
    rows = list(openpyxl.load_workbook(tmp_path / "totals.xlsx")["totals"].values)
    assert [row[1] for row in rows[1:4]] == ["south", "north", "all slopes"]


@pytest.mark.parametrize(
    ("arguments", "sentence"),
    [
        (("study", "lapwing_hall"), "--slope: missing; the file has several slopes, allowed is 'south' or 'north'"),
        (("compare", "lapwing_hall", "--slope", "west"), "--slope: 'west' given; allowed is 'south' or 'north'"),
        (("compare", "--slope", "west"), "--slope: 'west' given; the file has no [[slopes]]"),
    ],
)
def test_a_slope_that_is_missing_or_unknown_is_refused(
    capsys: pytest.CaptureFixture[str], arguments: tuple[str, ...], sentence: str
) -> None:
    code, out, err = run(capsys, *arguments)
    assert (code, out) == (2, "")
    assert sentence in err


def test_a_building_is_exported_slope_by_slope(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    code, _, err = run(capsys, "export", "lapwing_hall", str(tmp_path), "--method", "direct")
    assert code == 0, err
    for slope in ("south", "north"):
        record = json.loads((tmp_path / slope / "comparison.json").read_text(encoding="utf-8"))
        assert record["title"] == f"Lapwing Hall (invented), slope {slope}"

"""Lessons on the command line: listed, checked, begun from a template."""

from __future__ import annotations

import io
import re
from pathlib import Path

import pytest

from support import SCENARIOS
from tui.cli.main import main
from tui.storage.paths import bundled_lessons


def run(capsys: pytest.CaptureFixture[str], *arguments: str) -> tuple[int, str, str]:
    code = main(arguments)
    out, err = capsys.readouterr()
    return code, out, err


def test_every_lesson_is_listed(capsys: pytest.CaptureFixture[str]) -> None:
    code, out, _ = run(capsys, "lessons")
    assert code == 0
    assert [line.split()[0] for line in out.splitlines() if not line.startswith(" ")] == [
        path.stem for path in bundled_lessons()
    ]
    assert "How often? (10 minutes)" in out
    assert max(map(len, out.splitlines())) <= 80


def test_lessons_and_scenarios_are_checked_alike(capsys: pytest.CaptureFixture[str]) -> None:
    code, out, err = run(capsys, "check", *map(str, bundled_lessons()), str(SCENARIOS / "finch_shed.toml"))
    assert (code, err) == (0, "")
    assert out.count(": fine") == len(bundled_lessons()) + 1
    assert "step 2, A column of modules: 8" in out


def test_check_takes_the_names_of_both_kinds(capsys: pytest.CaptureFixture[str]) -> None:
    code, out, err = run(capsys, "check", "kestrel_yard", "rail_span")
    assert (code, err) == (0, "")
    assert [line for line in out.splitlines() if line.endswith(": fine")] == ["kestrel_yard: fine", "rail_span: fine"]
    assert "clip, uplift: roof uplift test" in out
    assert "step 2, " in out


@pytest.mark.parametrize("command", ["compare", "study", "export"])
@pytest.mark.parametrize(
    "name", ["rail_span", str(SCENARIOS / "lessons" / "rail_span.toml")], ids=["its name", "its file"]
)
def test_a_lesson_where_a_scenario_is_wanted_is_one_sentence(
    capsys: pytest.CaptureFixture[str], tmp_path: Path, command: str, name: str
) -> None:
    words = "rail_span.toml: a lesson, not a scenario; open it with `loadpath lesson`\n"
    assert run(capsys, command, name, *([str(tmp_path)] if command == "export" else [])) == (2, "", words)


@pytest.mark.parametrize("name", ["kestrel_yard", str(SCENARIOS / "kestrel_yard.toml")], ids=["its name", "its file"])
def test_a_scenario_where_a_lesson_is_wanted_is_one_sentence(capsys: pytest.CaptureFixture[str], name: str) -> None:
    code, out, err = run(capsys, "handout", name)
    assert (code, out, len(err.splitlines())) == (2, "", 1)
    assert err.startswith("kestrel_yard.toml: no lesson: it has no steps")


def test_a_lesson_without_a_terminal_says_what_answers_instead(capsys: pytest.CaptureFixture[str]) -> None:
    code, out, err = run(capsys, "lesson", "rail_span")
    instead = "loadpath check rail_span"
    assert (code, out, err) == (2, "", f"the app needs a terminal; `{instead}` prints the lesson's answers\n")
    assert run(capsys, *instead.split()[1:])[0] == 0


def test_a_wrong_lesson_says_everything_that_is_wrong(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    text = (SCENARIOS / "lessons" / "how_often.toml").read_text(encoding="utf-8")
    path = tmp_path / "mine.toml"
    path.write_text(
        text.replace('screen = "compare"', 'screen = "cinema"').replace("minutes = 10", ""), encoding="utf-8"
    )
    code, out, err = run(capsys, "check", str(path))
    assert (code, out) == (2, "")
    assert len(err.splitlines()) == text.count('screen = "compare"')
    assert all(line.startswith(f"{path}: steps.") and "'cinema' given" in line for line in err.splitlines())
    path.write_text(
        text.replace("methods.direct.attachments_minimum", "methods.direct.attachment_minimum"), encoding="utf-8"
    )
    assert "steps.4.question: there is no figure" in run(capsys, "check", str(path))[2]


def test_a_lesson_may_be_about_a_file_beside_it(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    lesson = (
        (SCENARIOS / "lessons" / "weakest_link.toml")
        .read_text(encoding="utf-8")
        .replace('"kestrel_yard"', '"my roof.toml"')
    )
    path = tmp_path / "mine.toml"
    path.write_text(lesson, encoding="utf-8")
    assert "scenario: my roof.toml: cannot be read" in run(capsys, "check", str(path))[2]
    roof = tmp_path / "my roof.toml"
    roof.write_text((SCENARIOS / "kestrel_yard.toml").read_text(encoding="utf-8"), encoding="utf-8")
    assert run(capsys, "check", str(path))[0] == 0
    roof.write_text("format = 1\n", encoding="utf-8")
    assert "scenario: title: missing" in run(capsys, "check", str(path))[2]


def test_the_template_of_a_lesson_passes_its_own_check(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    path = tmp_path / "mine.toml"
    code, _, err = run(capsys, "new", "--lesson", str(path))
    assert code == 0
    assert "loadpath check" in err
    assert run(capsys, "check", str(path))[0] == 0
    text = path.read_text(encoding="utf-8")
    for key in (
        "title",
        "about",
        "scenario",
        "minutes",
        "set",
        "recall",
        "words",
        "screen",
        "reveal",
        "asks",
        "answer",
        "options",
        "pick",
        "needs",
        "picture",
        "ruler",
        "remember",
        "too_low",
        "too_high",
        "replies",
    ):
        assert re.search(rf"^(# )?{key} = |^# {key} is not set", text, re.MULTILINE), key
    assert max(map(len, text.splitlines())) <= 120
    assert run(capsys, "new", "--lesson")[1] == text


def test_a_lesson_on_a_scenario_of_ones_own(capsys: pytest.CaptureFixture[str]) -> None:
    """Every question with its answer and wording; where a step does not hold, one line says why, and the code is 2."""
    code, out, err = run(capsys, "check", "rail_span", "--on", "finch_shed")
    assert (code, err) == (2, "")
    lines = out.splitlines()
    assert lines[0] == "rail_span on finch_shed: does not hold in every step"
    assert lines[1] == "  steps.1.needs: does not hold here: inputs.roof.kind is standing seam, it is exposed fastener"
    assert lines[2] == "  step 2, Fewer attachments: 16"
    assert "    asked: How many attachments are left?" in lines
    assert any(line.startswith("    said: 16 attachments.") for line in lines)


def test_a_lesson_on_its_own_scenario_holds(capsys: pytest.CaptureFixture[str]) -> None:
    code, out, err = run(capsys, "check", "edges", "--on", "kestrel_yard")
    assert (code, err) == (0, "")
    assert out.startswith("edges on kestrel_yard: holds\n")
    assert run(capsys, "check", "rail_span", "--on", "magpie_annex")[0] == 0
    assert "    said: 0.74: it holds." in out


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (("kestrel_yard", "--on", "finch_shed"), "kestrel_yard.toml: no lesson"),
        (("rail_span", "--on", "no_such_roof"), "cannot be read"),
        (("rail_span", "--on", "how_often"), "a lesson, not a scenario"),
    ],
)
def test_what_is_no_lesson_or_no_scenario_is_one_sentence(
    capsys: pytest.CaptureFixture[str], arguments: tuple[str, ...], words: str
) -> None:
    code, out, err = run(capsys, "check", *arguments)
    assert (code, out, len(err.splitlines())) == (2, "", 1)
    assert words in err


@pytest.mark.parametrize(
    ("name", "words"),
    [
        ("methods.rail.links.rail", "is not a single figure: add .utilisation"),
        (
            "studies.rail.spacings.every seam.links.rail.utilisation",
            "studies.rail.spacings.every seam.links.rail is one figure by itself, leave .utilisation out",
        ),
        ("explain.rail.rib.Q", "'Q' is unknown; allowed are"),
        ("explain.rail.rob.M", "'rob' is unknown; did you mean 'rib'?"),
        ("methods.rail.attachments / methods.rail.title", "a ratio needs two numbers"),
    ],
)
def test_a_wrong_figure_is_one_friendly_line(
    capsys: pytest.CaptureFixture[str], tmp_path: Path, name: str, words: str
) -> None:
    path = tmp_path / "mine.toml"
    path.write_text(
        f'format = 1\ntitle = "T"\nabout = "-"\nscenario = "kestrel_yard"\n[[steps]]\ntitle = "One"\nwords = "{{{name}}}"\n',
        encoding="utf-8",
    )
    code, _, err = run(capsys, "check", str(path))
    assert (code, len(err.splitlines())) == (2, 1)
    assert words in err


def test_a_lesson_as_text_takes_a_guess_a_line(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    """A word is refused, then 8 ft guessed of 12 ft; an empty line is no guess, and so is the end of the input."""
    monkeypatch.setattr("sys.stdin", io.StringIO("far\n8\n\n167\n4\n"))
    code, out, err = run(capsys, "lesson", "rail_span", "--text")
    assert code == 0
    assert err == "'far' given; write a length with its unit, such as '5 ft', '16 in' or '1.2 m'\n"
    assert max(map(len, out.splitlines())) <= 80
    step, _, rest = out.partition("the class's guess, in ft\n")
    assert "How far apart may the attachments be" in step
    assert "12.00 ft" not in step
    assert "guess 8.00 ft  7 of 10 points\n  Not far: 33 % too low." in rest
    assert "guess none\nanswer 128" in rest
    assert "guess 167 lb  5 of 10 points\n  2.0 times too low." in rest
    assert "  3  the seam:  0.85\n  4  the clip:  1.59\n\nguess the clip  10 of 10 points\n  Right." in rest
    assert "To remember\n1. The rail spans 12.00 ft; the roof allows 4.00 ft." in rest
    assert rest.endswith("Points: 22 of 50\n\n")


def test_a_lesson_as_text_in_metric_units(capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("sys.stdin", io.StringIO("3.658\n"))
    _, out, _ = run(capsys, "lesson", "rail_span", "--text", "--units", "si")
    out = " ".join(out.split())
    assert "Seams are 610 mm apart" in out
    assert "guess 3.658 m 10 of 10 points" in out
    assert not re.search(r"\d (ft|in|lb|mph)\b", out)


def test_a_lesson_on_a_european_job_has_its_words_and_units(capsys: pytest.CaptureFixture[str]) -> None:
    code, out, err = run(capsys, "check", "edges", "--on", "dunlin_hall")
    assert (code, err) == (0, "")
    assert "over its design resistance: at 1.00" in out
    assert "allowable" not in out
    assert "the largest uplift of one attachment is 0.67 kN" in out
    assert not re.search(r"\d (ft|in|lb|mph)\b", out)

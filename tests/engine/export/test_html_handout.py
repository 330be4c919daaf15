"""The handout of a lesson: questions first, answers on a page of their own, and no words become markup."""

from __future__ import annotations

import datetime
import re
from html.parser import HTMLParser
from pathlib import Path

import pytest

from engine.comparison.compare import CAUTIONS, compare
from engine.export.html_handout import handout
from engine.export.stamp import Stamp
from tui.cli.main import main
from tui.model.lesson_run import open_lesson, path_of
from tui.storage.paths import bundled_lessons

STAMP = Stamp(datetime.date(2024, 2, 29))


def page_of(path: Path, stamp: Stamp = STAMP) -> str:
    taught = open_lesson(path)
    return handout(taught.answered_lesson, compare(taught.inputs.scenario()), stamp, taught.pictures)


def text_of(page: str) -> str:
    """What a reader sees."""
    parser = HTMLParser(convert_charrefs=True)
    seen: list[str] = []
    parser.handle_data = seen.append  # type: ignore[method-assign]
    parser.feed(re.sub(r"<style>.*?</style>", "", page, flags=re.DOTALL))
    return " ".join(" ".join(seen).split())


@pytest.mark.parametrize("path", bundled_lessons(), ids=lambda path: path.stem)
def test_questions_come_first_and_answers_on_a_page_of_their_own(path: Path) -> None:
    page = page_of(path)
    assert '<h2 class="page">Answers</h2>' in page
    first, _, second = text_of(page).partition(" Answers ")
    for stop in open_lesson(path).answered_lesson.stops:
        for words in (stop.words("us") + "\n" + stop.reveal("us")).split("\n"):
            assert words in second
        if stop.step.question is None or stop.answer is None:
            continue
        assert stop.step.question.asks in first
        assert f"{stop.step.question.asks} {stop.answer.text('us')} " in second
        assert " ".join(stop.lead("us").split()) in first
        for words in [*stop.words("us").removesuffix(stop.lead("us")).split("\n"), *stop.reveal("us").split("\n")]:
            assert not words or words not in first
    assert all(caution in first for caution in CAUTIONS)
    assert not re.search(r"(src|href)=|url\(|@import", page), "nothing is fetched from elsewhere"


@pytest.mark.parametrize("path", bundled_lessons(), ids=lambda path: path.stem)
def test_no_answer_stands_among_the_questions(path: Path) -> None:
    """Of figures long enough to be told from those of the roof."""
    questions = text_of(page_of(path)).partition(" Answers ")[0].partition(" Questions ")[2]
    answers = [
        stop.answer.text("us")
        for stop in open_lesson(path).answered_lesson.stops
        if stop.answer and not stop.answer.option
    ]
    assert any(len(answer) > 2 for answer in answers)
    assert [answer for answer in answers if len(answer) > 2 and answer in questions] == []


def test_what_was_found_before_is_said_first_and_not_asked_with() -> None:
    stop = open_lesson(path_of("rail_span")).answered_lesson.stops[4]
    assert stop.words("us") == f"The rail spans 12.00 ft from attachment to attachment.\n{stop.lead('us')}"
    assert "12.00 ft" not in stop.lead("us")


def test_figures_follow_the_units_asked_for() -> None:
    path = next(path for path in bundled_lessons() if path.stem == "rail_span")
    assert "my guess, in ft" in text_of(page_of(path))
    metric = text_of(page_of(path, Stamp(STAMP.date, "si")))
    assert "my guess, in m " in metric
    assert "3.658 m" in metric


@pytest.mark.parametrize("path", bundled_lessons(), ids=lambda path: path.stem)
def test_no_unit_of_the_other_system_is_left(path: Path) -> None:
    """Inputs too: "24 in" reads "610 mm" in SI; "468 in all" is no length."""
    us, si = (text_of(page_of(path, Stamp(STAMP.date, system))) for system in ("us", "si"))
    assert not re.findall(r"\d (?:ft|in(?! all| place)|lb|psf|mph|lb ft)\b", si.partition(" Questions ")[2])
    assert not re.findall(r"\d (?:m|mm|kN|kPa|m/s|kN m|kg)\b", us.partition(" Questions ")[2])


def test_the_row_is_drawn_beside_the_question_without_attachments_or_loads_and_with_them_beside_the_answer() -> None:
    """How far apart they are is asked on the same page: 12 ft, six seams."""
    page = page_of(path_of("rail_span"))
    asked, _, answered = page.partition('<h2 class="page">Answers</h2>')
    for part, arrows in ((asked, False), (answered, True)):
        assert part.count('<svg class="elevation"') == 1
        drawing = part[part.index("<svg") : part.index("</svg>")]
        assert ("<polyline" in drawing) == arrows
        assert ("334 lb" in drawing) == arrows
        assert ('class="held"' in drawing) == arrows
        assert "attachments</text>" in drawing


@pytest.mark.parametrize("path", bundled_lessons(), ids=lambda path: path.stem)
def test_every_handout_has_a_row_to_draw_on_and_the_same_rows_with_answers(path: Path) -> None:
    asked, _, answered = page_of(path).partition('<h2 class="page">Answers</h2>')
    assert asked.count('<svg class="elevation"') == answered.count('<svg class="elevation"') >= 1
    assert asked.count("Draw in the attachments") == asked.count("<svg")


def test_words_never_become_markup(tmp_path: Path) -> None:
    odd = "<script>alert(1)</script> <b onclick=x> {{ 7 * 7 }} {% raw %} & '"
    path = tmp_path / "odd.toml"
    path.write_text(
        f'format = 1\ntitle = "{odd[:75]}"\nabout = "{odd}"\nscenario = "sparrow_lane"\n[[steps]]\ntitle = "{odd[:75]}"\nscreen = "bill"\n'
        f'words = "{odd.replace("{", "(")}"\nreveal = "{odd.replace("{", "(")}"\n'
        f'question = {{ asks = "{odd}", answer = "methods.rail.status", options = {{ "{odd[:75]}" = "holds", "no" = "over" }} }}\n',
        encoding="utf-8",
    )
    page = page_of(path)
    assert "<script" not in page
    assert "<b onclick" not in page
    assert "49" not in page
    assert odd in text_of(page)


def test_the_command_writes_the_page(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    target = tmp_path / "page.html"
    asked = ("handout", "how_often", "--date", "2024-02-29")
    assert main([*asked, "-o", str(target)]) == 0
    assert main([*asked, "-o", str(target)]) == 2
    assert "--overwrite" in capsys.readouterr().err
    assert main(asked) == 0
    assert capsys.readouterr().out == target.read_text(encoding="utf-8")
    assert main(["handout", "no_such_lesson"]) == 2
    assert "cannot be read" in capsys.readouterr().err

"""Lessons: files read with every problem at once, and answers that come from figures, never from the file."""

from __future__ import annotations

import tomllib
from copy import deepcopy
from typing import Any

import pytest

from engine.common.errors import InputError
from engine.lessons.all_figures import all_figures
from engine.lessons.answers import AnsweredLesson, answer_lesson
from engine.lessons.figures import FigureLookup
from engine.lessons.file import Changes, is_lesson, read_lesson
from support import Tables, laid_over, scenario_of

LESSON = """
format = 1
title = "Counting"
about = "One counts."
scenario = "kestrel_yard"
set = { "array.rows" = 3 }

[[steps]]
title = "First"
words = "There are {inputs.array.rows} rows."
question = { asks = "How many points?", answer = "methods.direct.attachments" }
reveal = "Of {methods.direct.mass_kg}, seams {inputs.roof.rib_spacing} apart."

[[steps]]
title = "Second"
set = { "array.columns" = 2, "methods.rail.spacing" = "4 ribs" }
words = "Before {before.methods.direct.attachments}."
question = { asks = "Which?", pick = "largest", options = { "rails" = "methods.rail.mass_kg", "seams" = "methods.direct.mass_kg" } }

[[steps]]
title = "Third"
set = { "methods.rail.spacing" = "4 ribs" }
words = "Does it hold?"
question = { asks = "Well?", answer = "methods.rail.status", options = { "yes" = "holds", "no" = "over" } }
"""


@pytest.fixture
def written() -> Tables:
    return tomllib.loads(LESSON)


def walked(written: Tables, scenario: str = "kestrel_yard", **differs: object) -> AnsweredLesson:
    """A lesson walked on a bundled scenario in which some inputs differ."""

    def figures_at(changes: Changes) -> FigureLookup:
        laid = differs | {"__".join(path): value for path, value in changes.items()}
        return all_figures(scenario_of(scenario, **laid))

    return answer_lesson(read_lesson(written), figures_at)


def step(written: Tables, number: int, **changes: object) -> Tables:
    """The lesson with one step changed; None takes a key away."""
    changed = deepcopy(written)
    changed["steps"][number - 1] = laid_over(changed["steps"][number - 1], **changes)
    return changed


def test_a_lesson_is_computed_step_by_step(written: Tables) -> None:
    """Counted by hand: 24 columns of 3 modules stand on 24 x 2 x (3 + 1) points, 2 columns on 16."""
    first, second, third = walked(written).stops
    assert first.answer
    assert first.answer.text("us") == "192"
    assert first.words("us") == "There are 3 rows."
    assert first.reveal("si").endswith("kg, seams 610 mm apart.")
    assert first.reveal("us").endswith("lb, seams 24 in apart.")
    assert second.words("us") == "Before 192."
    assert second.answer
    assert second.answer.option == "rails"
    assert second.find("methods.direct.attachments").value == 16
    assert third.answer
    assert third.answer.option == "no"


def test_another_scenario_gives_other_answers(written: Tables) -> None:
    """With clips twice as strong and no snow the far-spaced rail holds; with the house's roof fewer points are asked for."""
    strong = {
        "tested_pressure": "140 psf",
        "tested_rib_spacing": "24 in",
        "tested_fastening_spacing": "5 ft",
        "safety_factor": 2.0,
    }
    calm = walked(written, roof__fastening__uplift=strong, site__ground_snow="0 psf")
    assert [stop.answer.text("us") for stop in calm.stops if stop.answer] == ["192", "rails", "yes"]
    house = walked(step(written, 3, words="-", question=None), "sparrow_lane")
    assert [stop.answer.text("us") for stop in house.stops if stop.answer] == ["40", "rails"]


def test_steps_do_not_build_upon_one_another(written: Tables) -> None:
    _, second, third = walked(written).stops
    assert ("array", "columns") in second.changes
    assert ("array", "columns") not in third.changes
    assert third.changes[("array", "rows")] == 3


@pytest.mark.parametrize(("typed", "text"), [("200", "200"), (" 1,000 ", "1,000")])
def test_a_count_is_guessed_as_a_number(written: Tables, typed: str, text: str) -> None:
    assert walked(written).stops[0].guessed(typed, "us").text("us") == text


@pytest.mark.parametrize(
    ("typed", "system", "text"),
    [("8", "us", "8.00 ft"), ("8 ft", "si", "2.438 m"), ("2.5", "si", "2.500 m"), ("96 in", "us", "8.00 ft")],
)
def test_a_quantity_is_guessed_in_the_unit_shown_or_with_its_own(
    written: Tables, typed: str, system: Any, text: str
) -> None:
    lesson = step(written, 1, question={"asks": "How far?", "answer": "methods.rail.rail_span_limit_m"})
    assert walked(lesson).stops[0].guessed(typed, system).text(system) == text


@pytest.mark.parametrize(
    ("number", "typed", "words"),
    [
        (1, "many", "type a number"),
        (1, "3 ft", "type a number"),
        (1, "inf", "type a number"),
        (2, "3", "1 to 2"),
        (2, "rails", "1 to 2"),
        (2, "0", "1 to 2"),
    ],
)
def test_a_guess_that_is_none_is_said_to_be_so(written: Tables, number: int, typed: str, words: str) -> None:
    with pytest.raises(ValueError, match=words):
        walked(written).stops[number - 1].guessed(typed, "us")


QUESTION = {"asks": "Well?", "answer": "methods.rail.status", "options": {"yes": "holds", "no": "over"}}

WRONG: dict[str, tuple[int, dict[str, Any], str, str]] = {
    "missing title": (0, {"title": None}, "title", "missing"),
    "missing scenario": (0, {"scenario": None}, "scenario", "missing"),
    "another format": (0, {"format": 2}, "format", "reads format = 1"),
    "misspelled key": (0, {"abuot": "x"}, "abuot", "did you mean 'about'"),
    "no steps": (0, {"steps": None}, "steps", "missing"),
    "empty steps": (0, {"steps": []}, "steps", "0 given"),
    "steps as a table": (0, {"steps": {"title": "x"}}, "steps", "no list given"),
    "a step that is text": (0, {"steps": ["x"]}, "steps.1", "write a table"),
    "set as text": (0, {"set": "array.rows=3"}, "set", "write a table such as"),
    "set without quotes": (0, {"set": {"array": {"rows": 3}}}, "set", "'array' given; write each input's whole path in quotes"),
    "unknown key of a step": (1, {"wrods": "x"}, "steps.1.wrods", "did you mean 'words'"),
    "unknown screen": (1, {"screen": "cinema"}, "steps.1.screen", "'cinema' given; allowed is 'compare' or"),
    "words missing": (1, {"words": None}, "steps.1.words", "missing"),
    "words a number": (1, {"words": 5}, "steps.1.words", "write a few sentences"),
    "words with a bell": (1, {"words": "ding \a"}, "steps.1.words", "control character"),
    "words too long": (1, {"words": "x " * 500}, "steps.1.words", "allowed are 900"),
    "no answer": (1, {"question": {"asks": "?"}}, "steps.1.question", "give an answer"),
    "answer and pick": (1, {"question": {**QUESTION, "pick": "largest"}}, "steps.1.question", "give an answer"),
    "pick without options": (1, {"question": {"asks": "?", "pick": "largest"}}, "steps.1.question", "give an answer"),
    "one option": (1, {"question": {**QUESTION, "options": {"yes": "holds"}}}, "steps.1.question.options", "two to nine"),
    "option a number": (1, {"question": {**QUESTION, "options": {"yes": 1, "no": 2}}}, "steps.1.question.options", "line of text"),
    "misspelled figure": (1, {"reveal": "{methods.rial.status}"}, "steps.1.reveal", "in methods 'rial' is unknown; did you mean 'rail'?"),
    "misspelled answer": (1, {"question": {"asks": "?", "answer": "methods.rial.attachments"}}, "steps.1.question", "did you mean 'rail'?"),
    "misspelled last": (1, {"words": "{methods.rail.attachment}"}, "steps.1.words", "did you mean 'attachments'?"),
    "a figure of nothing": (1, {"words": "{}"}, "steps.1.words", "there is no figure ''"),
    "many figures at once": (1, {"words": "{methods.rail}"}, "steps.1.words", "is not a single figure"),
    "unknown study": (1, {"words": "{studies.rial.sentence}"}, "steps.1.words", "did you mean 'rail'?"),
    "an input left out": (1, {"words": "{inputs.roof.edge_strip}"}, "steps.1.words", "'edge_strip' is unknown"),
    "before the first": (1, {"words": "{before.methods.rail.status}"}, "steps.1.words", "no step before the first"),
    "wrong input": (2, {"set": {"site.wind_speed": "fast"}}, "steps.2.set", "site.wind_speed: 'fast' given"),
    "unknown input": (2, {"set": {"site.wind_sped": "90 mph"}}, "steps.2.set", "did you mean 'wind_speed'"),
    "a word for a number": (1, {"question": {"asks": "?", "answer": "methods.rail.status"}}, "steps.1.question", "is a word ('holds')"),
    "none of the options": (1, {"question": {**QUESTION, "options": {"a": "x", "b": "y"}}}, "steps.1.question", "none of the options"),
    "equal options": (
        1,
        {"question": {"asks": "?", "pick": "largest", "options": {"a": "methods.rail.modules", "b": "methods.direct.modules"}}},
        "steps.1.question",
        "a and b come out equal",
    ),
    "compared words": (
        1,
        {"question": {"asks": "?", "pick": "largest", "options": {"a": "methods.rail.status", "b": "methods.direct.modules"}}},
        "steps.1.question",
        "only numbers can be compared",
    ),
    "not to be had": (1, {"words": "{methods.direct.rail_span_limit_m}"}, "steps.1.words", "has no value"),
}  # fmt: skip


@pytest.mark.parametrize("case", WRONG)
def test_one_clear_sentence(case: str, written: Tables) -> None:
    number, changes, path, words = WRONG[case]
    wrong = step(written, number, **changes) if number else laid_over(written, **changes)
    with pytest.raises(InputError) as refused:
        walked(wrong)
    found = [problem for problem in refused.value.problems if problem.path == path]
    assert any(words in problem.message for problem in found), refused.value.problems
    for problem in refused.value.problems:
        assert "\n" not in problem.message
        assert len(problem.message) <= 400
        assert not any(noise in problem.message for noise in ("Traceback", "pydantic", "Input should", "<class"))


@pytest.mark.parametrize(
    ("tables", "yes"),
    [
        ({"steps": []}, True),
        ({"scenario": "x"}, True),
        ({"scenario": "x", "steps": []}, True),
        ({"site": {}}, False),
        ({}, False),
    ],
)
def test_a_lesson_is_known_by_its_steps_or_its_scenario(tables: dict[str, object], yes: bool) -> None:
    assert is_lesson(tables) == yes


def test_every_problem_at_once(written: Tables) -> None:
    wrong = step(step(written, 1, screen="cinema", words=None), 3, title=5)
    with pytest.raises(InputError) as refused:
        read_lesson(laid_over(wrong, minutes=0))
    assert {problem.path for problem in refused.value.problems} == {
        "steps.1.screen",
        "steps.1.words",
        "steps.3.title",
        "minutes",
    }
    wrong = step(step(written, 1, words="{a} {methods.b}"), 3, set={"array.rows": 0})
    with pytest.raises(InputError) as refused:
        walked(wrong)
    assert [problem.path for problem in refused.value.problems] == ["steps.1.words", "steps.1.words", "steps.3.set"]


def test_paragraphs_are_kept_and_lines_are_not(written: Tables) -> None:
    stops = walked(step(written, 1, words="One\n line.\n \nTwo.")).stops
    assert stops[0].words("us") == "One line.\nTwo."

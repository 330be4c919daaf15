"""Guesses: how far off they are, in words and in points."""

from __future__ import annotations

import math
import tomllib
from functools import cache

import pytest

from engine.lessons.all_figures import all_figures
from engine.lessons.answers import AnsweredStep, LessonAnswer, answer_lesson
from engine.lessons.figures import FigureLookup, FigureValue
from engine.lessons.file import read_lesson
from engine.lessons.guess import points, reply, times_off
from engine.scenario.changes import Changes
from support import scenario_of

LESSON = """
format = 1
title = "Guessing"
about = "-"
scenario = "kestrel_yard"
[[steps]]
title = "A number"
words = "-"
[steps.question]
asks = "How far?"
answer = "methods.rail.rail_span_limit_m"
too_low = "It is {methods.rail.rail_span_limit_m}."
too_high = [{ when = ["methods.rail.overspan > 1"], say = "The roof allows {methods.rail.overspan} times less." }]
[[steps]]
title = "Options"
words = "-"
[steps.question]
asks = "Which?"
pick = "largest"
options = { "rails" = "methods.rail.links.rail.utilisation", "clips" = "methods.rail.links.roof_fastening.utilisation" }
replies = { "rails" = "They hold." }
[[steps]]
title = "A word"
words = "-"
question = { asks = "Holds?", answer = "methods.rail.status", options = { "yes" = "holds", "no" = "over" } }
"""


@cache
def stops() -> tuple[AnsweredStep, ...]:
    def figures_at(changes: Changes) -> FigureLookup:
        return all_figures(scenario_of())

    return answer_lesson(read_lesson(tomllib.loads(LESSON)), figures_at).stops


def said(number: int, typed: str) -> tuple[str, int]:
    stop = stops()[number]
    guess = stop.guessed(typed, "us")
    assert stop.answer
    return reply(stop, guess, "us"), points(guess, stop.answer)


@pytest.mark.parametrize(
    ("typed", "words", "earned"),
    [
        ("8", "Right.", 10),
        ("8.1", "Right.", 10),
        ("9", "Close: 12 % too high.", 9),
        ("6", "Not far: 25 % too low.", 8),
        ("4", "2.0 times too low. It is 8.00 ft.", 5),
        ("16", "2.0 times too high. The roof allows 2.00 times less.", 5),
        ("32", "4.0 times too high. The roof allows 2.00 times less.", 0),
        ("1000", "125.0 times too high. The roof allows 2.00 times less.", 0),
        ("0", "Far off. It is 8.00 ft.", 0),
    ],
)
def test_a_number(typed: str, words: str, earned: int) -> None:
    """The rail spans 8 ft here. By hand: 10 x (1 - log 2 / log 4) = 5, and as far below as above earns the same."""
    assert said(0, typed) == (words, earned)


def test_an_option_earns_at_most_half_by_its_own_figure() -> None:
    """By hand: the rail at 0.48 of its allowable, the clip at 0.97: 5 x (1 - log(0.97 / 0.48) / log 4) = 2.5."""
    assert said(1, "2") == ("Right.", 10)
    words, earned = said(1, "1")
    assert words.startswith("No: rails, 0.")
    assert words.endswith(" They hold.")
    assert earned in (2, 3)


def test_a_word_is_right_or_wrong() -> None:
    assert said(2, "1") == ("Right.", 10)
    assert said(2, "2") == ("No.", 0)


def test_distance_is_the_same_up_and_down() -> None:
    answer = LessonAnswer(FigureValue(2.0, "ratio"))
    for guess in (0.5, 1.0, 3.0):
        mirrored = LessonAnswer(FigureValue(4.0 / guess, "ratio"))
        assert times_off(LessonAnswer(FigureValue(guess, "ratio")), answer) == pytest.approx(
            times_off(mirrored, answer)
        )
    assert times_off(LessonAnswer(FigureValue(-2.0, "ratio")), answer) == math.inf

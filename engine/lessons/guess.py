"""Distance of a guess from the answer: in words for the class, and in points."""

from __future__ import annotations

import math
from collections.abc import Iterator

from engine.lessons.answers import AnsweredStep, LessonAnswer
from engine.units import System

MOST_POINTS = 10
NO_POINTS_FROM = 4.0
"""A guess that is this many times the answer, or this part of it, earns nothing."""

RIGHT, CLOSE, FAR = 1.02, 1.25, 1.5
"""Times off up to which a guess is right, and close; and from which the lesson's own reply is said."""


def times_off(guess: LessonAnswer, answer: LessonAnswer) -> float:
    """The larger of guess / answer and answer / guess; of options, by their figures; infinite where none compares."""
    if answer.option and guess.option == answer.option:
        return 1.0
    figure = answer.compared.get(guess.option, guess.figure)
    given, right = figure.value, answer.figure.value
    if not isinstance(given, int | float) or not isinstance(right, int | float):
        return math.inf
    if given == right:
        return 1.0
    off = max(given / right, right / given) if given * right > 0 else math.inf
    return round(off, 9)  # 12 ft over 8 ft are 1.5 times, whatever their last bit in metres


def points(guess: LessonAnswer, answer: LessonAnswer) -> int:
    """10 for the answer, falling with the logarithm of the distance to 0; half of that for another option."""
    off = times_off(guess, answer)
    if off <= RIGHT and not _is_wrong_option(guess, answer):
        return MOST_POINTS
    earned = max(0.0, MOST_POINTS * (1 - math.log(off) / math.log(NO_POINTS_FROM)))
    return round(earned / 2 if _is_wrong_option(guess, answer) else earned)


def reply(stop: AnsweredStep, guess: LessonAnswer, system: System) -> str:
    """Reply to a guess: its distance from the answer, then the lesson's own words to such a guess."""
    if stop.answer is None:
        return ""
    return " ".join([_distance(guess, stop.answer, system), *_own_words(stop, guess, stop.answer, system)])


def _distance(guess: LessonAnswer, answer: LessonAnswer, system: System) -> str:
    if answer.option:
        if not _is_wrong_option(guess, answer):
            return "Right."
        figure = answer.compared.get(guess.option)
        return f"No: {guess.option}, {figure.text(system)}." if figure else "No."
    off, side = times_off(guess, answer), "high" if _is_high(guess, answer) else "low"
    if off <= RIGHT:
        return "Right."
    if off <= FAR:
        part = abs(_size(guess) / _size(answer) - 1)
        return f"{'Close' if off <= CLOSE else 'Not far'}: {100 * part:.0f} % too {side}."
    return f"{off:.1f} times too {side}." if math.isfinite(off) else "Far off."


def _own_words(stop: AnsweredStep, guess: LessonAnswer, answer: LessonAnswer, system: System) -> Iterator[str]:
    question = stop.step.question
    if question is None:
        return
    if answer.option:
        wordings = question.replies.get(guess.option, ())
    elif times_off(guess, answer) > FAR:
        wordings = question.too_high if _is_high(guess, answer) else question.too_low
    else:
        wordings = ()
    said = stop.said(wordings, system)
    if said:
        yield said


def _is_wrong_option(guess: LessonAnswer, answer: LessonAnswer) -> bool:
    return bool(answer.option) and guess.option != answer.option


def _is_high(guess: LessonAnswer, answer: LessonAnswer) -> bool:
    return _size(guess) > _size(answer)


def _size(answer: LessonAnswer) -> float:
    return float(answer.figure.value or 0.0)

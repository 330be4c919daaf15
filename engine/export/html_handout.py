"""A lesson on paper: questions with room for guesses, then the answers on a page of their own."""

from __future__ import annotations

from engine.comparison.compare import Comparison
from engine.export import html_page
from engine.export.stamp import Stamp
from engine.lessons.answers import AnsweredLesson


def handout(answered: AnsweredLesson, comparison: Comparison, stamp: Stamp) -> str:
    """The handout as one page to print.

    Args:
        answered: the lesson with its figures.
        comparison: of the scenario it is about, without the lesson's changes.
        stamp: the day and the units shown.
    """
    heading = answered.lesson.heading
    return html_page.filled(
        "handout.html",
        comparison,
        stamp,
        heading=heading.about,
        title=heading.title,
        minutes=heading.minutes,
        stops=answered.stops,
    )

"""A lesson on paper: questions with room for guesses, then the answers on a page of their own."""

from __future__ import annotations

from collections.abc import Sequence

from markupsafe import Markup

from engine.comparison.compare import Comparison
from engine.export import html_page
from engine.export.stamp import Stamp
from engine.export.svg_elevation import elevation_drawing
from engine.lessons.answers import AnsweredLesson
from engine.lessons.picture import StepPicture
from engine.units import System


def handout(
    answered: AnsweredLesson, comparison: Comparison, stamp: Stamp, pictures: Sequence[StepPicture | None] = ()
) -> str:
    """The handout as one page to print.

    Args:
        answered: the lesson with its figures.
        comparison: of the scenario it is about, without the lesson's changes.
        stamp: the day and the units shown.
        pictures: of each step, its row of attachments from the side: a question shows neither attachments nor loads.
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
        remember=answered.remember(stamp.system),
        ruler=answered.ruler(),
        asked=_drawn(pictures, stamp.system, is_answer=False),
        drawn=_drawn(pictures, stamp.system, is_answer=True),
    )


def _drawn(pictures: Sequence[StepPicture | None], system: System, *, is_answer: bool) -> dict[int, Markup]:
    """Number of a step, from 0 → its picture."""
    return {
        number: Markup(elevation_drawing(picture, system, is_answer=is_answer))
        for number, picture in enumerate(pictures)
        if picture
    }

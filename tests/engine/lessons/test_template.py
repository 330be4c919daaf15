"""The template of a lesson is a lesson."""

from __future__ import annotations

import tomllib

from engine.lessons.file import read_lesson
from engine.lessons.template import lesson_template
from support import SCENARIOS


def test_a_lessons_template_is_a_lesson() -> None:
    written = lesson_template(tomllib.loads((SCENARIOS / "lessons" / "how_often.toml").read_text(encoding="utf-8")))
    lesson = read_lesson(tomllib.loads(written))
    assert len(lesson.steps) == 1
    assert "[[steps]]" in written

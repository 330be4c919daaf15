"""Lessons as files: found by name or path, read, and computed on their scenario."""

from __future__ import annotations

from dataclasses import dataclass, replace
from pathlib import Path

from engine.errors import InputError, Problem
from engine.export.figures import figures_of
from engine.figures import Find
from engine.lesson import Changes, Lesson, read_lesson
from engine.walk import Walk, walk
from tui import files
from tui.session import Session


@dataclass(frozen=True)
class Taught:
    """A lesson with its figures, and the scenario it is about."""

    walk: Walk
    session: Session


def path_of(name: str) -> Path:
    """A lesson's file: one that comes with loadpath by its name, else a path."""
    return files.named(name, files.bundled_lessons())


def open_lesson(path: Path) -> Taught:
    """Read a lesson and compute its figures.

    Raises:
        InputError: everything that is wrong with it, each with its step.
    """
    lesson = read_lesson(files.parse(files.read_text(path), path.name))
    session = _scenario_of(lesson, path)

    def figures_at(changes: Changes) -> Find:
        changed = replace(session, changes=changes)
        return figures_of(changed.scenario(), changed.tables())

    return Taught(walk(lesson, figures_at), session)


def _scenario_of(lesson: Lesson, path: Path) -> Session:
    """The scenario a lesson is about, as it stands without the lesson's changes."""
    beside = path.parent / lesson.heading.scenario
    found = beside if beside.is_file() else files.named(lesson.heading.scenario, files.bundled())
    try:
        session = Session(found, files.read_text(found))
        session.scenario()
    except InputError as wrong:
        raise InputError([Problem(f"scenario: {problem.path}", problem.message) for problem in wrong.problems]) from None
    return session

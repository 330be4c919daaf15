"""What passes between the parts of the bench."""

from __future__ import annotations

from textual.message import Message

from engine.comparison.compare import Comparison
from engine.studies.spacing import SpacingStudy
from tui.model.lesson_run import Place
from tui.model.session import Session


class Compared(Message):
    """A comparison is ready; `session` is the one it was made from, so that a late one can be dropped."""

    def __init__(self, session: Session, comparison: Comparison) -> None:
        super().__init__()
        self.session = session
        self.comparison = comparison


class Studied(Message):
    """A method of a comparison was studied at every spacing; `study` is None where that failed."""

    def __init__(self, comparison: Comparison, method: str, study: SpacingStudy | None) -> None:
        super().__init__()
        self.comparison, self.method, self.study = comparison, method, study


class Broke(Message):
    """Computing failed in a way nobody foresaw; the bench goes on with the last good comparison."""

    def __init__(self, session: Session, words: str) -> None:
        super().__init__()
        self.session = session
        self.words = words


class Typed(Message):
    """Someone typed into an input: the session as it then is, and as it was before the input was opened."""

    def __init__(self, session: Session, before: Session) -> None:
        super().__init__()
        self.session = session
        self.before = before


class TakenBack(Message):
    """Someone left an input without keeping what was typed: the session as it was before the input was opened."""

    def __init__(self, before: Session) -> None:
        super().__init__()
        self.before = before


class Chose(Message):
    """Someone turned to a method, by its id."""

    def __init__(self, method: str) -> None:
        super().__init__()
        self.method = method


class Asked(Message):
    """Someone asked how the figure in focus came about."""


class Walked(Message):
    """A class goes on, or back, in its lesson."""

    def __init__(self, place: Place) -> None:
        super().__init__()
        self.place = place


class Looked(Message):
    """A class has its answer and looks at the bench."""

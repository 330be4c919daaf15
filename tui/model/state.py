"""What the bench stands at: one frozen value that every screen shows its own part of."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from engine.common.errors import Problem
from engine.comparison.compare import Column, Comparison
from engine.studies.spacing import SpacingStudy
from engine.units import System
from tui.model.lesson_run import Place
from tui.model.session import Session
from tui.storage.overrides import Steps


@dataclass(frozen=True, eq=False)
class State:
    """An open session and the last comparison that could be made of its file, if any could.

    Where `problems` stand, `comparison` is older than the session. `studies` are of its methods, by their ids, so
    far as somebody looked at them. `baseline` is a comparison that
    was kept to see every later one against. `method` is the id of the method that screens about
    one method show; empty until somebody chooses.
    """

    session: Session
    comparison: Comparison | None = None
    studies: Mapping[str, SpacingStudy] = field(default_factory=dict)
    problems: tuple[Problem, ...] = ()
    system: System = "us"
    baseline: Comparison | None = None
    method: str = ""
    lesson: Place | None = None

    @property
    def waiting(self) -> str:
        """What stands where figures would, while there is no comparison."""
        return "Nothing can be computed until the inputs marked are mended (press i)." if self.problems else "working …"

    @property
    def column(self) -> Column | None:
        """The chosen method's column; the first one where none is chosen."""
        if self.comparison is None or not self.comparison.columns:
            return None
        return self.comparison.column(self.method) or self.comparison.columns[0]

    def problems_of(self, path: Steps) -> tuple[Problem, ...]:
        """What is wrong with an input, or with a part of it."""
        name = ".".join(path)
        return tuple(problem for problem in self.problems if f"{problem.path}.".startswith(f"{name}."))

    def next_method(self, step: int = 1) -> str:
        """The id of the method so many steps after the chosen one."""
        ids = [column.id for column in self.comparison.columns] if self.comparison else []
        return ids[(ids.index(self.column.id) + step) % len(ids)] if self.column else ""


@dataclass(frozen=True)
class Question:
    """A figure that somebody asks about: a method, a row of the comparison by its key, an attachment or a spacing by its number from 0.

    Without a row it is the method's verdict; without a point the worst place; without a spacing of the span study
    the comparison's own pattern.
    """

    method: str
    row: str = ""
    attachment: int | None = None
    spacing: int | None = None

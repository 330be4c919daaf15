"""Figures of others beside ours, noted by the tests that compare them: for `.docs/validation.md`.

A test says `assert verified("what", theirs, ours, "unit") == pytest.approx(…)`, or the same of two arrays. The first
line of its docstring, or of its module's, names the kind of evidence and the source: "Printed: A table of …".
"""

from __future__ import annotations

import sys
from dataclasses import dataclass
from pathlib import Path
from types import FrameType
from typing import Any

import numpy as np

KINDS = {
    "Printed": "Published print",
    "Library": "Independent libraries and programs",
    "By hand": "By hand",
    "From memory": "From memory",
}
"""First word of a docstring → heading, in the page's order."""


@dataclass(frozen=True)
class Source:
    """Where figures come from: kind of evidence, its name, the test file that holds them."""

    kind: str
    name: str
    file: str


@dataclass(frozen=True)
class ComparedFigure:
    """One figure as its source has it and as loadpath has it."""

    source: Source
    what: str
    theirs: float
    ours: float
    unit: str

    @property
    def difference(self) -> float:
        """Difference, as a part of their figure; ours where theirs is 0."""
        return self.ours / self.theirs - 1 if self.theirs else self.ours


FIGURES: list[ComparedFigure] = []


def verified(what: str, theirs: Any, ours: Any, unit: str = "") -> Any:
    """Note a figure, or an array of them, beside ours; returns ours, for the test to judge."""
    source = source_of(sys._getframe(1))
    for one, other in zip(np.ravel(theirs), np.ravel(ours), strict=True):
        FIGURES.append(ComparedFigure(source, what, float(one), float(other), unit))
    return ours


def source_of(test: FrameType) -> Source:
    """The source named by the test's docstring, or else by its module's."""
    for docstring in (test.f_globals[test.f_code.co_name].__doc__, test.f_globals["__doc__"]):
        kind, _, name = str(docstring).splitlines()[0].partition(": ")
        if kind in KINDS:
            return Source(kind, name, Path(test.f_code.co_filename).name)
    raise ValueError(f"{test.f_code.co_name}: no docstring begins with one of {', '.join(KINDS)}")

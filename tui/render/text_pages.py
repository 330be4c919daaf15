"""Pages of text about what is computed on request: the alternatives, the building."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from textual.content import Content

from engine.common.progress import ProgressListener
from engine.comparison.alternatives import BASELINE, beside, with_alternatives
from engine.comparison.building_comparison import BuildingComparison, compare_slopes
from engine.comparison.compare import Comparison
from engine.units import System
from tui.model.state import State
from tui.render.alternatives import alternatives_parts
from tui.render.building import building_parts
from tui.render.plain_text import plain_text
from tui.render.styles import cautions

MAX_WIDTH = 100
"""Maximum width of sentences [cells]."""

MAX_TABLE = 140
"""Maximum width of a table [cells]."""


@dataclass(frozen=True)
class Page:
    """A page: `find` computes its figures, `text` writes them for a width, `about` explains them."""

    name: str
    about: str
    find: Callable[[Comparison, State, ProgressListener], object]
    text: Callable[[Any, System, int], Content]


def _compare_alternatives(comparison: Comparison, state: State, tell: ProgressListener) -> Comparison:
    found = with_alternatives(comparison, tell)
    return beside(found, BASELINE, state.baseline) if state.baseline else found


def _alternatives(found: Comparison, system: System, width: int) -> Content:
    return _page(plain_text(*alternatives_parts(found, system), "", width=width), found, width)


def _compare_slopes(comparison: Comparison, state: State, tell: ProgressListener) -> BuildingComparison:
    return compare_slopes((state.compared or state.inputs).slopes(), tell=tell)


def _building(found: BuildingComparison, system: System, width: int) -> Content:
    width = min(width, MAX_TABLE)
    return _page(plain_text(*building_parts(found, system, width), "", width=width), found.slopes[0], width)


def _page(text: str, comparison: Comparison, width: int) -> Content:
    """A text, and the cautions below it."""
    return Content("\n").join([Content(text), *cautions(comparison, min(width, MAX_WIDTH))])


ALTERNATIVES = Page(
    "Alternatives",
    "The scenario as stated, its alternatives and the baseline, each compared by every method; the best first. "
    "The inputs state them, in the group of that name; K writes the baseline there.",
    _compare_alternatives,
    _alternatives,
)
BUILDING = Page(
    "Whole building",
    "All slopes of the building: what each method needs in all, and the best method of each slope.",
    _compare_slopes,
    _building,
)

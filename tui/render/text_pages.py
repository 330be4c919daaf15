"""Pages of text that are computed on request: the headroom, the alternatives, the building."""

from __future__ import annotations

from textual.content import Content

from engine.common.progress import ProgressListener
from engine.comparison.alternatives import BASELINE, beside, with_alternatives
from engine.comparison.building_comparison import compare_slopes
from engine.studies.headroom import headroom as headroom_of
from engine.studies.sensitivity import sensitivity
from tui.model.state import State
from tui.render.alternatives import alternatives_parts
from tui.render.building import building_parts
from tui.render.plain_text import plain_text
from tui.render.styles import cautions
from tui.render.what_if import headroom_parts, sensitivity_parts

MAX_WIDTH = 100
"""Maximum width of sentences [cells]."""


def headroom(state: State, width: int, tell: ProgressListener) -> Content:
    """The wind and snow each method can carry, and the inputs that change the verdict."""
    if state.comparison is None:
        return Content("There is no comparison yet.")
    margins, effects = headroom_of(state.comparison, tell), sensitivity(state.comparison, tell)
    width = min(width, MAX_WIDTH)
    parts = *headroom_parts(margins, state.system), "", *sensitivity_parts(effects), ""
    page = Content(plain_text(*parts, width=width))
    return Content("\n").join([page, *cautions(state.comparison, min(width, MAX_WIDTH))])


def alternatives(state: State, width: int, tell: ProgressListener) -> Content:
    """The alternatives of the scenario, and the baseline if one is kept, ranked."""
    if state.comparison is None:
        return Content("There is no comparison yet.")
    found = with_alternatives(state.comparison, tell)
    found = beside(found, BASELINE, state.baseline) if state.baseline else found
    page = Content(plain_text(*alternatives_parts(found, state.system), "", width=width))
    return Content("\n").join([page, *cautions(state.comparison, min(width, MAX_WIDTH))])


def building(state: State, width: int, tell: ProgressListener) -> Content:
    """The totals of all slopes, and the best method of each."""
    if state.compared is None:
        return Content(state.stale_mark or "There is no comparison yet.")
    width = min(width, MAX_WIDTH)
    found = compare_slopes(state.compared.slopes(), tell=tell)
    page = Content(plain_text(*building_parts(found, state.system, width), "", width=width))
    return Content("\n").join([page, *cautions(found.slopes[0], width)])

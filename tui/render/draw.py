"""The thing in hand while drawing, its place on the roof, and the verdicts as they follow."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from textual.content import Content

from engine.common.sentences import capitalized
from engine.comparison.figures.verdict import verdict_word
from engine.comparison.roof_plan import Plan
from engine.mounting.interface import Alternative
from engine.project.job import Job
from engine.units import INCH, System, in_one
from tui.model.drawing import Fit, Target, written
from tui.model.state import State
from tui.render import miss_picture
from tui.render.roof_picture import Box
from tui.render.styles import MUTED, STATUS_STYLE, wrapped


@dataclass(frozen=True, eq=False)
class Hand:
    """The job and its plan as drawn, what is in hand with its box, the step, and whether the method shown fits.

    `fit` is None until that is known.
    """

    job: Job
    plan: Plan
    target: Target
    step: str
    box: Box
    fit: Fit | None


def draw(hand: Hand, state: State, width: int) -> Content:
    """The thing in hand, its place, and the verdict of each method."""
    system = state.system
    left, low, right, high = hand.box
    size = f"{written(right - left, system)} x {written(high - low, system)}"
    name, *places = (
        f"{_name(hand)}; {len(hand.plan.modules)} modules in all",
        f"{size}; step: {_step(hand, state)}",
        f"left edge {written(left, system)} from the left rake: {_past_rib(hand, left, state)}",
        f"{written(low, system)} from the eave, {written(max(0.0, hand.plan.depth - high), system)} from the "
        f"{hand.plan.top}",
    )
    lines = [line for place in places for line in wrapped(place, width)]
    verdicts, refused = _verdicts(state, width), _why_refused(hand, system, width)
    below = [*verdicts, *refused, *lines] if refused else [*lines, *verdicts]
    return Content("\n").join([*wrapped(name, width, "bold"), *below])


def _name(hand: Hand) -> str:
    if hand.target.kind == "area":
        return f"Keep-clear area {hand.target.number + 1}: {hand.job.keep_clear[hand.target.number].name}"
    if hand.target.kind == "aisle":
        return f"Aisle {hand.target.number + 1}: + and - change its width"
    if hand.target.kind == "module":
        return "One module: enter leaves it out, or puts it back"
    array = hand.job.arrays[min(hand.target.number, len(hand.job.arrays) - 1)]
    name = capitalized(array.title.removeprefix("the "))
    return f"{name}: {array.rows} x {array.columns} in {array.orientation}"


def _step(hand: Hand, state: State) -> str:
    if hand.step == "inch":
        return "an inch" if state.system == "us" else "a centimetre"
    return "a module" if hand.step == "module" else f"a {hand.job.roof.rib_word} and a fastening"


def _past_rib(hand: Hand, x: float, state: State) -> str:
    """The place of an edge by the rib before it."""
    before = int(np.searchsorted(hand.plan.ribs, x + INCH / 100, side="right"))
    if before == 0:
        return f"before the first {hand.job.roof.rib_word}"
    away = x - float(hand.plan.ribs[before - 1])
    at = "at" if away < INCH / 20 else f"{written(away, state.system)} past"
    return f"{at} {hand.job.roof.rib_word} {before}"


def _verdicts(state: State, width: int) -> list[Content]:
    """One line a method, or one for all if it is wide enough; older figures are marked by a word."""
    if state.comparison is None:
        return [Content(state.no_figures_reason)]
    mark = [Content.styled(state.stale_mark, f"{MUTED} reverse")] if state.is_stale else []
    lines = [
        Content(f"{column.title} ") + Content.styled(verdict_word(column), f"{STATUS_STYLE[column.status]} bold")
        for column in state.comparison.columns
    ]
    line = Content(" · ").join(lines)
    return [*mark, *([line] if len(line.plain) <= width else lines)]


def _why_refused(hand: Hand, system: System, width: int) -> list[Content]:
    """Why the method shown does not fit, what misses what to scale, and the change that the key makes."""
    fit = hand.fit
    if fit is None or fit.refusal is None:
        return []
    words = wrapped(in_one(f"{capitalized(fit.title)}: {fit.refusal.reason}.", system), width, "$text-error")
    if fit.refusal.miss:
        words += miss_picture.draw(fit.refusal.miss, hand.plan, system, width)
    return [*words, *wrapped(_cure(fit, system), width, "bold $text-accent")]


def _cure(fit: Fit, system: System) -> str:
    """The change that the key makes."""
    change = fit.cure
    if change is None:
        return "No move of this array by less than a spacing of ribs or purlins cures it."
    if isinstance(change, Alternative):
        return f"c: {change.text}, then it fits."
    side = f"{written(abs(change.right), system)} to the {'right' if change.right > 0 else 'left'}"
    upward = f"{written(abs(change.up), system)} {'up the slope' if change.up > 0 else 'toward the eave'}"
    moves = [words for words, distance in ((side, change.right), (upward, change.up)) if distance]
    sizes = (("row", change.fewer_rows), ("column", change.fewer_columns))
    fewer = [f"{count} {name}{'s' if count > 1 else ''} fewer" for name, count in sizes if count]
    return f"c: {f'move the array {moves[0]}' if moves else fewer[0]}, then it fits."

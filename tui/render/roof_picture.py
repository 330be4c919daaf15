"""The whole roof as a picture beside form and table: modules filled, ribs and purlins faint, dimensions, the cursor."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from textual.content import Content

from engine.comparison.roof_plan import Plan
from engine.mounting.interface import Miss
from engine.units import System, text
from tui.render import roof_plan
from tui.render.canvas import ACROSS, DOWN, Canvas
from tui.render.roof_plan import CELL_ASPECT, Window
from tui.render.styles import MUTED, wrapped

Box = tuple[float, float, float, float]
"""Left, low, right and high of a rectangle on the roof [m]."""

FRAME = "$text-accent bold"
FEWEST_DOTS = 4
"""Dots between two lines below which ribs or purlins are not drawn."""

ROUND = (1, 2, 5, 10, 20, 50, 100, 200, 500)
"""Lengths of a scale bar, in display units."""

MARGIN, AROUND = 1, 0.5
"""Cells left free at the sides of a picture, and the roof shown around the array [m]."""

ZOOM_ROWS = 9
"""Rows from which the surroundings of one attachment have a picture of their own below the roof."""


@dataclass(frozen=True)
class Marks:
    """The marks on the roof: a box that is being moved, one attachment, whether the array does not fit, and why.

    `miss`: a stretch that a rib or purlin misses.
    """

    box: Box | None = None
    attachment: int | None = None
    is_misfit: bool = False
    miss: Miss | None = None


def window(region: Box, width: int, height: int) -> Window:
    """A part of the roof, in the middle of the room."""
    left, low, right, high = region
    step = max((right - left) / max(1, width - 2 * MARGIN), (high - low) / (max(1, height - 1) * CELL_ASPECT))
    middle, level = (left + right) / 2, (low + high) / 2
    return Window(middle - width * step / 2, level - height * step * CELL_ASPECT / 2, step, width, height)


def rows_for(region: Box, width: int, most: int) -> int:
    """Rows that a part of the roof takes at a width, at most as many as there are."""
    left, low, right, high = region
    step = (right - left) / max(1, width - 2 * MARGIN)
    return min(most, max(3, round((high - low) / (step * CELL_ASPECT)) + 1))


def draw(plan: Plan, marks: Marks, system: System, width: int, height: int) -> Content:
    """The whole roof above its dimensions."""
    words = wrapped(_dimensions(plan, system), width, MUTED)
    region = (0.0, 0.0, plan.length, plan.depth)
    picture, view = _region(plan, marks, region, width, max(3, height - 1 - len(words)))
    return Content("\n").join([picture, _scale(view, system, width), *words])


def with_surroundings(
    plan: Plan, attachment: int, system: System, width: int, height: int, around: str = "the largest utilisation"
) -> Content:
    """The whole roof, and where there is room below it the surroundings of one attachment, with words for it."""
    whole = draw(plan, Marks(attachment=attachment), system, width, height)
    room = height - len(whole.plain.splitlines()) - 1
    if room < ZOOM_ROWS:
        return whole
    near = roof_plan.draw(plan, roof_plan.ATTACHMENTS, attachment, width, min(room, max(ZOOM_ROWS, width // 3)))
    return Content("\n").join([whole, Content.styled(f"Around {around}", MUTED), near])


def whole_and_array(plan: Plan, marks: Marks, system: System, width: int, height: int) -> Content:
    """The whole roof, and where there is room below it the array as large as it can be."""
    whole = draw(plan, marks, system, width, height)
    room, at = height - len(whole.plain.splitlines()) - 2, plan.modules
    if room < ZOOM_ROWS or not len(at):
        return whole
    boxes = [(float(at.left.min()), float(at.low.min()), float(at.right.max()), float(at.high.max()))]
    boxes += [marks.box] if marks.box else []
    left, low, right, high = (min(b[0] for b in boxes), min(b[1] for b in boxes), *_far(boxes))
    near, view = _region(plan, marks, (left - AROUND, low - AROUND, right + AROUND, high + AROUND), width, room)
    return Content("\n").join([whole, Content(""), near, _scale(view, system, width)])


def _far(boxes: list[Box]) -> tuple[float, float]:
    return max(box[2] for box in boxes), max(box[3] for box in boxes)


def _region(plan: Plan, marks: Marks, region: Box, width: int, height: int) -> tuple[Content, Window]:
    """A part of the roof, from the ground up: ribs, zones, modules, keep-clear areas, attachments, what is in hand."""
    rows = rows_for(region, width, height)
    canvas, view = Canvas(width, rows), window(region, width, rows)
    _faint_lines(canvas, view, plan)
    roof_plan.zones(canvas, view, plan)
    _filled_modules(canvas, view, plan, marks)
    for area in plan.keep_clear:
        roof_plan.keep_clear(canvas, view, (*area.at, area.at[0] + area.size[0], area.at[1] + area.size[1]))
    if len(plan.attachments):
        _attachments(canvas, view, plan, marks)
    if marks.miss:
        _miss(canvas, view, plan, marks.miss)
    if marks.box:
        _box(canvas, view, marks.box)
    return canvas.content(), view


def _faint_lines(canvas: Canvas, view: Window, plan: Plan) -> None:
    """Ribs up the slope and purlins across it, where they do not run together."""
    left, right = (float(each) for each in view.dots(np.array([0.0, plan.length]), 0.0)[0])
    low, high = (float(each) for each in view.dots(0.0, np.array([0.0, plan.depth]))[1])
    ribs, supports = view.dots(plan.ribs, 0.0)[0], view.dots(0.0, plan.supports)[1]
    if len(ribs) > 1 and ribs[1] - ribs[0] >= FEWEST_DOTS:
        for x in ribs:
            canvas.line(float(x), high, float(x), low, MUTED, every=4)
    if len(supports) > 1 and supports[0] - supports[1] >= FEWEST_DOTS:
        for y in supports:
            canvas.line(left, float(y), right, float(y), MUTED, every=6)


def _filled_modules(canvas: Canvas, view: Window, plan: Plan, marks: Marks) -> None:
    """Each module filled, with a joint where there is room for one."""
    style = "$text-error" if marks.is_misfit else "$primary"
    left, low = view.dots(plan.modules.left, plan.modules.low)
    right, high = view.dots(plan.modules.right, plan.modules.high)
    for x0, y0, x1, y1 in np.rint([left, high, right, low]).T:
        joint_x, joint_y = int(x1 - x0 >= FEWEST_DOTS), int(y1 - y0 >= FEWEST_DOTS)
        canvas.fill(x0, y0, max(x0, x1 - 1 - joint_x), max(y0, y1 - 1 - joint_y), style)


def _attachments(canvas: Canvas, view: Window, plan: Plan, marks: Marks) -> None:
    """Attachments that are over, and the marked one; all of them only where each has a cell of its own."""
    used = plan.attachments.utilisation
    columns, rows = view.cells(plan.attachments.x, plan.attachments.y)
    if used is None:
        return
    has_room = float(np.diff(plan.ribs).min(initial=np.inf)) >= view.step
    for number in np.flatnonzero(used > (-1 if has_room else 1)).tolist():
        letter, style = roof_plan.sign(float(used[number]))
        canvas.words(int(columns[number]), int(rows[number]), letter, style)
    if marks.attachment is not None:
        letter, style = roof_plan.sign(float(used[marks.attachment]))
        canvas.words(int(columns[marks.attachment]), int(rows[marks.attachment]), letter, f"{style} reverse")


def _miss(canvas: Canvas, view: Window, plan: Plan, miss: Miss) -> None:
    """The stretch in which a rib or purlin has to lie, as a line with its ends named, and the nearest one."""
    for place, style, name in (
        ((miss.low + miss.high) / 2, "bold $text-error", "█"),
        (miss.nearest, "bold $text-warning", "┃"),
    ):
        if miss.up_slope:
            x, y = view.dots(np.array([0.0, plan.length]), place)
            canvas.line(float(x[0]), float(y), float(x[1]), float(y), style, every=2)
            canvas.words(int(x[0] // ACROSS), int(y // DOWN), name, style)
        else:
            x, y = view.dots(place, np.array([0.0, plan.depth]))
            canvas.line(float(x), float(y[0]), float(x), float(y[1]), style, every=2)
            canvas.words(int(x // ACROSS), int(y[0] // DOWN), name, style)


def _box(canvas: Canvas, view: Window, box: Box) -> None:
    """The frame of what is being moved, with its corners as letters, so that it shows without colours."""
    x, y = view.dots(np.array([box[0], box[2]]), np.array([box[3], box[1]]))
    left, top, right, bottom = float(x[0]), float(y[0]), float(x[1]), float(y[1])
    for level in (top, bottom):
        canvas.line(left, level, right, level, FRAME)
    for side in (left, right):
        canvas.line(side, top, side, bottom, FRAME)
    corners = ((left, top, "┌"), (right, top, "┐"), (left, bottom, "└"), (right, bottom, "┘"))
    for column, row, corner in ((int(x // ACROSS), int(y // DOWN), letter) for x, y, letter in corners):
        canvas.words(column, row, corner, FRAME)


def _scale(view: Window, system: System, width: int) -> Content:
    """A bar of a round length, to scale."""
    metre = 1 / float(text(1.0, "length", system, with_unit=False))
    fitting = [length for length in ROUND if length * metre / view.step <= width / 3]
    length = fitting[-1] if fitting else ROUND[0]
    bar = "─" * max(1, round(length * metre / view.step) - 2)
    return Content.styled(f" ├{bar}┤ {length} {text(1.0, 'length', system).split()[1]}"[:width], MUTED)


def _dimensions(plan: Plan, system: System) -> str:
    """Sizes of the roof and of the array."""
    at = plan.modules
    roof = f"roof {text(plan.length, 'length', system)} x {text(plan.depth, 'length', system)}"
    if not len(at):
        return roof
    sizes = [float(at.right.max() - at.left.min()), float(at.high.max() - at.low.min())]
    return f"{roof}, array {' x '.join(text(size, 'length', system) for size in sizes)}"

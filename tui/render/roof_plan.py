"""The roof from above, to scale: zones, modules, exposed edges, keep-clear areas, and every attachment."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from textual.content import Content

from engine.common.arrays import Floats
from engine.comparison.hardware_plan import Segments
from engine.comparison.roof_plan import Plan
from tui.render.canvas import ACROSS, DOWN, Canvas
from tui.render.styles import MUTED

ARRAY, ATTACHMENTS, ROOF = "the array", "every attachment", "the whole roof"
"""Views: the array as wide as the screen; each attachment in a cell of its own; the whole roof."""

CELL_ASPECT = 2.0
"""Height of a cell over its width."""

NEAR_LIMIT = 0.8
"""Utilisation above which an attachment is marked as near its limit."""

SIGNS = (
    ("○", f"up to {NEAR_LIMIT:.2f}", "$text-success"),
    ("●", "up to 1.00", "$text-warning"),
    ("✖", "OVER", "$text-error bold"),
)
UNCHECKED, CLEAR = "□", "╳"
NAME_DISTANCE = 4
"""Rows between two names of the same zone."""

MARGIN = 2
"""Cells left free at the edges of the view."""


@dataclass(frozen=True)
class Window:
    """The part of the roof in view: its lower left corner [m], the width of a cell [m], width and height [cells]."""

    left: float
    low: float
    step: float
    width: int
    height: int

    def dots(self, x: Floats | float, y: Floats | float) -> tuple[Floats, Floats]:
        """Places on the roof as dots of the canvas."""
        across = (np.asarray(x) - self.left) / self.step * ACROSS
        down = self.height * DOWN - 1 - (np.asarray(y) - self.low) / (self.step * CELL_ASPECT) * DOWN
        return across, down

    def cells(self, x: Floats | float, y: Floats | float) -> tuple[Floats, Floats]:
        """The same as cells: columns and rows."""
        across, down = self.dots(x, y)
        return np.floor(np.rint(across) / ACROSS), np.floor(np.rint(down) / DOWN)


def controlling_attachment(plan: Plan) -> int:
    """Number of the attachment with the largest utilisation; the first if nothing was checked."""
    used = plan.attachments.utilisation
    return 0 if used is None else int(np.argmax(used))


def suitable_zoom(plan: Plan, width: int, height: int) -> str:
    """The array as a whole if every rib gets its own column, else every attachment in its own cell."""
    return ARRAY if _step(plan, ARRAY, width, height) <= float(np.diff(plan.ribs).min()) else ATTACHMENTS


def window(plan: Plan, zoom: str, selected: int, width: int, height: int) -> Window:
    """The window of a view; if the view is larger than the room, it follows the selected attachment."""
    step = _step(plan, zoom, width, height)
    at, attachments = plan.modules, plan.attachments
    wide, high = width * step, height * step * CELL_ASPECT
    if zoom == ROOF:
        along, up = (0.0, plan.length), (0.0, plan.depth)
    else:
        along, up = (float(at.left.min()), float(at.right.max())), (float(at.low.min()), float(at.high.max()))
    return Window(
        _begin(along, wide, float(attachments.x[selected])),
        _begin(up, high, float(attachments.y[selected])),
        step,
        width,
        height,
    )


def _begin(reach: tuple[float, float], room: float, place: float) -> float:
    """Start of a view of that size: centred if all fits, else around a place."""
    low, high = reach
    if high - low <= room:
        return (low + high - room) / 2
    return min(max(place - room / 2, low - 0.05 * room), high - 0.95 * room)


def _step(plan: Plan, zoom: str, width: int, height: int) -> float:
    """Metres a cell is wide."""
    at, attachments = plan.modules, plan.attachments
    across, up = max(1, width - MARGIN), max(1, height - MARGIN) * CELL_ASPECT
    if zoom == ROOF:
        return max(plan.length / across, plan.depth / up)
    whole = max(float(at.right.max() - at.left.min()) / across, float(at.high.max() - at.low.min()) / up)
    if zoom == ARRAY:
        return whole
    levels = np.diff(np.unique(np.round(attachments.y, 3)))
    return float(min(whole, np.diff(plan.ribs).min(), levels.min(initial=np.inf) / CELL_ASPECT))


def draw(plan: Plan, zoom: str, selected: int, width: int, height: int) -> Content:
    """The plan; from the ground up: zones, modules, edges, keep-clear areas, attachments."""
    canvas, view = Canvas(width, height), window(plan, zoom, selected, width, height)
    zones(canvas, view, plan)
    _modules(canvas, view, plan)
    _lines(canvas, view, plan.exposed_edges, "$text-primary bold", 1)
    for area in plan.keep_clear:
        keep_clear(canvas, view, (*area.at, area.at[0] + area.size[0], area.at[1] + area.size[1]))
    _attachments(canvas, view, plan, selected)
    return canvas.content()


def zones(canvas: Canvas, view: Window, plan: Plan) -> None:
    """The zones' borders and names, then the roof's own edges, eave and ridge by name."""
    _lines(canvas, view, plan.borders, MUTED, 3)
    at, named = plan.roof_zones.places, set[tuple[str, int]]()
    edges = [(int(view.cells(0.0, height)[1]), name) for height, name in ((0.0, "eave"), (plan.depth, plan.top))]
    left, top = view.cells(at.left, at.high)
    right, bottom = view.cells(at.right, at.low)
    widest_first = np.argsort(np.round(at.left - at.right, 3), kind="stable")  # a zone is named in its largest parts
    for number in widest_first.tolist():
        zone = plan.roof_zones.zone[number]
        first, last = max(1, int(left[number])), min(view.width - 2, int(right[number]))
        short = plan.roof_zones.names[zone]
        name = f"zone {short}" if last - first > len(f"zone {short}") else short
        row = (max(0, int(top[number])) + min(view.height - 1, int(bottom[number]))) // 2
        beside = {(short, row + away) for away in range(-NAME_DISTANCE, NAME_DISTANCE + 1)}
        if last - first > len(name) and row not in dict(edges) and not named & beside and not _covered(plan, view, row):
            canvas.words((first + last - len(name)) // 2 + 1, row, name, MUTED)
            named.add((short, row))
    x, y = view.dots(np.array([0.0, plan.length]), np.array([0.0, plan.depth]))
    for ends in (
        (x[0], y[0], x[1], y[0]),
        (x[0], y[1], x[1], y[1]),
        (x[0], y[0], x[0], y[1]),
        (x[1], y[0], x[1], y[1]),
    ):
        canvas.line(*ends)
    for row, name in edges:
        canvas.words(2, row, f" {name} ")


def _covered(plan: Plan, view: Window, row: int) -> bool:
    """True if modules cover a row of cells; names of zones are not written there."""
    (top, bottom) = (int(view.cells(0.0, float(edge))[1]) for edge in (plan.modules.high.max(), plan.modules.low.min()))
    return top <= row <= bottom


def _lines(canvas: Canvas, view: Window, lines: Segments, style: str, every: int) -> None:
    x1, y1 = view.dots(lines.x1, lines.y1)
    x2, y2 = view.dots(lines.x2, lines.y2)
    for number in range(len(lines)):
        canvas.line(x1[number], y1[number], x2[number], y2[number], style, every=every)


def _modules(canvas: Canvas, view: Window, plan: Plan) -> None:
    """Each module as a filled, dotted rectangle; attachments and exposed edges are drawn over it."""
    left, low = view.dots(plan.modules.left, plan.modules.low)
    right, high = view.dots(plan.modules.right, plan.modules.high)
    sides = np.rint([left, high, right, low]).astype(int)
    inside = (sides[2] >= 0) & (sides[3] >= 0) & (sides[0] < view.width * ACROSS) & (sides[1] < view.height * DOWN)
    x0, y0, x1, y1 = sides[:, inside]
    for of_module in zip(x0 // ACROSS, y0 // DOWN, x1 // ACROSS, y1 // DOWN, strict=True):
        canvas.ground(*of_module, "on $panel")
    canvas.frames(x0, y0, x1, y1, MUTED, every=2)


def keep_clear(canvas: Canvas, view: Window, corners: tuple[float, float, float, float]) -> None:
    """A keep-clear area, crossed out."""
    (left, right), (bottom, top) = view.cells(np.array([corners[0], corners[2]]), np.array([corners[1], corners[3]]))
    for row in range(int(top), int(bottom) + 1):
        canvas.words(int(left), row, CLEAR * (int(right - left) + 1), "$text-warning")


def _attachments(canvas: Canvas, view: Window, plan: Plan, selected: int) -> None:
    """The sign of every attachment; in a shared cell the largest utilisation; the selected one on top."""
    used = plan.attachments.utilisation
    columns, rows = view.cells(plan.attachments.x, plan.attachments.y)
    order = np.arange(len(plan.attachments)) if used is None else np.argsort(used, kind="stable")
    for attachment in order.tolist():
        letter, style = sign(None if used is None else float(used[attachment]))
        canvas.words(int(columns[attachment]), int(rows[attachment]), letter, style)
    letter, style = sign(None if used is None else float(used[selected]))
    canvas.words(int(columns[selected]), int(rows[selected]), letter, f"{style} reverse")
    canvas.words(int(columns[selected]) - 1, int(rows[selected]), "[", "bold")
    canvas.words(int(columns[selected]) + 1, int(rows[selected]), "]", "bold")


def sign(used: float | None) -> tuple[str, str]:
    """Sign and style of an attachment with that utilisation."""
    if used is None:
        return UNCHECKED, MUTED
    letter, _, style = SIGNS[0 if used <= NEAR_LIMIT else 1 if used <= 1 else 2]
    return letter, style

"""Drawing on the roof with the keyboard; figures follow every step."""

from __future__ import annotations

from typing import ClassVar

import numpy as np
from textual.app import ComposeResult
from textual.binding import ActiveBinding, BindingType
from textual.containers import Container
from textual.content import Content
from textual.events import Resize

from engine.common.arrays import Floats
from engine.common.errors import InputError
from engine.comparison.compare import Comparison
from engine.comparison.roof_plan import Plan, plan
from engine.scenario.read import Scenario
from tui.model.commands import Command, bindings
from tui.model.drawing import LEFT_OUT, STEPS, Box, Drawing, Target, box_of
from tui.model.inputs import Inputs
from tui.model.messages import EditCancelled, InputEdited
from tui.model.state import State
from tui.render import draw as words
from tui.render import roof_picture
from tui.render.roof_sketch import sketch
from tui.screens.view import View
from tui.widgets.picture import Picture
from tui.widgets.roof import NOTHING_YET, method_shown

WIDE = 110
"""Width from which the words are beside the roof, else below it."""


class Draw(View):
    """The roof with the array, a keep-clear area or a module in hand."""

    NAME = "Draw on the roof"
    CSS_PATH = "draw.tcss"
    OWN_COMMANDS = (
        Command("shift_left", "left", "Left", "Move it toward the left rake", "Move", sign="←→"),
        Command("shift_right", "right", "Right", "Move it toward the right rake"),
        Command("shift_up", "up", "Up the slope", "Move it up the slope"),
        Command("shift_down", "down", "Down the slope", "Move it toward the eave"),
        Command("step", "s", "Step", "Move by a module, a seam and purlin, or an inch", "Step"),
        Command("add_row", "plus,equals_sign", "Add a row", "Add a row; make an area taller", "Size", sign="+-<>"),
        Command("drop_row", "minus", "Drop a row", "Drop a row; make an area shorter"),
        Command("add_column", "greater_than_sign,full_stop", "Add a column", "Add a column; make an area wider"),
        Command("drop_column", "less_than_sign,comma", "Drop a column", "Drop a column; make an area narrower"),
        Command("new_area", "o", "Keep-clear area", "Place a keep-clear area, such as a skylight", "Area"),
        Command("module", "x", "Leave out a module", "Choose a module, and leave it out or put it back", "Module"),
        Command("other", "tab", "Next area", "Take the next keep-clear area in hand, or the array", "Next"),
        Command("remove", "delete,backspace", "Remove", "Remove the keep-clear area in hand", "Remove"),
        Command("accept", "enter", "Accept", "Accept what is drawn; leave a module out or put it back", "Accept"),
        Command("cancel", "escape", "Cancel", "Undo all that was drawn", "Cancel"),
    )
    BINDINGS: ClassVar[list[BindingType]] = bindings(OWN_COMMANDS)
    FOOTER = ()

    def __init__(self, state: State) -> None:
        super().__init__(state)
        self._before = state.inputs
        self.inputs = state.inputs
        """The inputs as drawn; the state follows them."""
        self.target = Target()
        self.step = STEPS[0]
        self._last: Plan | None = None
        self._drawn: Plan | None = None
        self._misfit = ""

    def body(self) -> ComposeResult:
        """The roof beside or above the words."""
        with Container(id="panes"):
            yield Picture(id="roof")
            yield Picture(id="words")

    def _in_footer(self, each: ActiveBinding) -> bool:
        """Keys for areas have their place while there is one, or one is in hand."""
        if each.binding.action == "other":
            return self.target.kind == "array" and len(self._targets()) > 1
        if each.binding.action in ("remove", "module"):
            return (each.binding.action == "remove") == (self.target.kind == "area")
        return super()._in_footer(each)

    def on_resize(self, event: Resize) -> None:
        """Side by side if there is room."""
        self.set_class(event.size.width >= WIDE, "wide")

    # -- what is shown ----------------------------------------------------------------------

    def show(self, state: State) -> None:
        """Show the state; the roof needs no figures."""
        self.state = state
        column = state.column
        if column and column.design and not state.is_stale:
            self._last = plan(column.design)
        super().show(state)
        self._show_roof()

    def draw(self, comparison: Comparison) -> None:
        """Nothing but the roof is drawn."""

    def show_message(self, words: str) -> None:
        """The roof is drawn without figures too."""

    def _scenario(self) -> Scenario | None:
        try:
            return self.inputs.scenario()
        except InputError:
            return None

    def _show_roof(self) -> None:
        """Draw the array at once, and the attachments as soon as they are computed."""
        self.refresh_bindings()
        scenario, state = self._scenario(), self.state
        if scenario is None:
            self._drawn = None
            for picture in self.query(Picture):
                picture.show(lambda width, height: Content(NOTHING_YET))
            return
        drawn, self._misfit = sketch(scenario.job, method_shown(scenario, state), self._last)
        if self._last and not state.is_stale and state.inputs == self.inputs and state.column and state.column.design:
            drawn = self._last
        self._drawn = drawn
        marks = roof_picture.Marks(box=self._box(drawn), is_misfit=bool(self._misfit))
        self.query_one("#roof", Picture).show(
            lambda width, height: roof_picture.whole_and_array(drawn, marks, state.system, width, height)
        )
        shown = words.Hand(scenario.job, drawn, self.target, self.step, self._box(drawn), self._misfit)
        self.query_one("#words", Picture).show(lambda width, height: words.draw(shown, state, width))

    def _box(self, drawn: Plan) -> Box:
        """The box of what is in hand [m]."""
        at, areas = drawn.modules, drawn.keep_clear
        if self.target.kind == "area" and self.target.number < len(areas):
            area = areas[self.target.number]
            return (*area.at, area.at[0] + area.size[0], area.at[1] + area.size[1])
        if self.target.kind == "module" and len(at):
            places = self._places(drawn)
            return places[int(np.argmin(np.hypot(*(_middles(places) - self.target.place).T)))]
        scenario = self._scenario()
        if scenario and len(scenario.job.arrays) > 1:
            return box_of(Drawing(self.inputs, scenario.job, self.state.system, self.target.number))
        if not len(at):
            return (0.0, 0.0, drawn.length, drawn.depth)
        return (float(at.left.min()), float(at.low.min()), float(at.right.max()), float(at.high.max()))

    def _places(self, drawn: Plan) -> list[Box]:
        """The modules, and those that were left out."""
        boxes = [drawn.modules.left, drawn.modules.low, drawn.modules.right, drawn.modules.high]
        modules = [(float(a), float(b), float(c), float(d)) for a, b, c, d in zip(*boxes, strict=True)]
        left_out = [(*a.at, a.at[0] + a.size[0], a.at[1] + a.size[1]) for a in drawn.keep_clear if a.name == LEFT_OUT]
        return [*modules, *left_out]

    # -- keys -------------------------------------------------------------------------------

    def _drawing(self) -> Drawing | None:
        scenario = self._scenario()
        number = self.target.number if self.target.kind == "array" else 0
        return Drawing(self.inputs, scenario.job, self.state.system, number) if scenario else None

    def _take(self, inputs: Inputs) -> None:
        """Show changed inputs at once, and have them computed."""
        self.inputs = inputs
        self._show_roof()
        self.post_message(InputEdited(inputs, self._before))

    def _shift(self, along: int, up: int) -> None:
        drawing = self._drawing()
        if drawing is None:
            return
        if self.target.kind == "module":
            self._choose_module(along, up)
            return
        step = drawing.step(self.step)
        if self.target.kind == "area":
            self._take(drawing.area_moved(self.target.number, along * step[0], up * step[1]))
        else:
            self._take(drawing.array_moved(along * step[0], up * step[1]))

    def _choose_module(self, along: int, up: int) -> None:
        """Take the nearest module on that side in hand."""
        if self._drawn is None:
            return
        middles = _middles(self._places(self._drawn))
        away = middles - _middles([self._box(self._drawn)])
        ahead, aside = away @ np.array([along, up]), np.abs(away @ np.array([up, along]))
        cost = np.where(ahead > 1e-3, ahead + 3 * aside, np.inf)
        if np.isfinite(cost).any():
            x, y = middles[int(np.argmin(cost))]
            self.target = Target("module", place=(float(x), float(y)))
            self._show_roof()

    def _resize(self, columns: int, rows: int) -> None:
        drawing = self._drawing()
        if drawing is None or self.target.kind == "module":
            return
        if self.target.kind == "area":
            step = drawing.step("inch" if self.step == "inch" else "seam")
            step = step if self.step == "inch" else (12 * drawing.step("inch")[0],) * 2
            self._take(drawing.area_resized(self.target.number, columns * step[0], rows * step[1]))
        else:
            self._take(drawing.array_resized(rows, columns))

    def action_shift_left(self) -> None:
        """Toward the left rake."""
        self._shift(-1, 0)

    def action_shift_right(self) -> None:
        """Toward the right rake."""
        self._shift(1, 0)

    def action_shift_up(self) -> None:
        """Up the slope."""
        self._shift(0, 1)

    def action_shift_down(self) -> None:
        """Toward the eave."""
        self._shift(0, -1)

    def action_add_row(self) -> None:
        """Add a row, or make the area taller."""
        self._resize(0, 1)

    def action_drop_row(self) -> None:
        """Drop a row, or make the area shorter."""
        self._resize(0, -1)

    def action_add_column(self) -> None:
        """Add a column, or make the area wider."""
        self._resize(1, 0)

    def action_drop_column(self) -> None:
        """Drop a column, or make the area narrower."""
        self._resize(-1, 0)

    def action_step(self) -> None:
        """Take the next length of a step."""
        self.step = STEPS[(STEPS.index(self.step) + 1) % len(STEPS)]
        self._show_roof()

    def action_new_area(self) -> None:
        """Place a keep-clear area in the middle of the array, and take it in hand."""
        drawing = self._drawing()
        if drawing and self._drawn:
            self.target = Target()
            left, low, right, high = self._box(self._drawn)
            self.target = Target("area", len(drawing.areas))
            self._take(drawing.area_added((left + right) / 2, (low + high) / 2))

    def action_module(self) -> None:
        """Take a module in hand, or the array again."""
        self.target = Target() if self.target.kind == "module" else Target("module")
        self._show_roof()

    def action_other(self) -> None:
        """Take the next thing in hand: each array, then each keep-clear area."""
        targets = self._targets()
        number = targets.index(self.target) + 1 if self.target in targets else 0
        self.target = targets[number % len(targets)]
        self._show_roof()

    def _targets(self) -> list[Target]:
        """Everything that tab takes in hand, in its order."""
        scenario = self._scenario()
        arrays = len(scenario.job.arrays) if scenario else 1
        areas = len(self._drawn.keep_clear) if self._drawn else 0
        return [
            *(Target("array", number) for number in range(arrays)),
            *(Target("area", each) for each in range(areas)),
        ]

    def action_remove(self) -> None:
        """Remove the keep-clear area in hand."""
        drawing = self._drawing()
        if drawing and self.target.kind == "area":
            number, self.target = self.target.number, Target()
            self._take(drawing.area_removed(number))

    def action_accept(self) -> None:
        """Accept what is drawn; leave a module out, or put it back."""
        drawing = self._drawing()
        if self.target.kind == "module" and drawing and self._drawn:
            self._take(drawing.module_toggled(self._box(self._drawn)))
        elif self.target.kind == "area":
            self.target = Target()
            self._show_roof()
        else:
            self.dismiss()

    def action_cancel(self) -> None:
        """Undo all that was drawn, or take the array in hand again."""
        if self.target.kind == "module":
            self.target = Target()
            self._show_roof()
            return
        self.post_message(EditCancelled(self._before))
        self.dismiss()

    def help_text(self) -> Content:
        """Explanation of the keys."""
        return Content(
            "The slope with the array, the eave at the bottom. The frame shows what is in hand: the array, a "
            "keep-clear area (tab), or a module (x). The arrows move it by a module, by a seam and a purlin, or by an "
            "inch; s changes the step. Figures follow every step. Enter accepts, escape undoes all that was drawn."
        )


def _middles(boxes: list[Box]) -> Floats:
    """Middles of boxes (n, 2) [m]."""
    return np.array([((left + right) / 2, (low + high) / 2) for left, low, right, high in boxes], dtype=np.float64)

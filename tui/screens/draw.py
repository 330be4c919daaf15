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
from engine.mounting.fitting import Cure, refusal, smallest_cure
from engine.mounting.interface import MountingMethod
from engine.scenario.read import Scenario
from engine.units import INCH
from tui.model.commands import Command, bindings
from tui.model.drawing import CENTIMETRE, LEFT_OUT, STEPS, Box, Drawing, Fit, Target, box_of
from tui.model.inputs import Inputs
from tui.model.messages import EditCancelled, InputEdited
from tui.model.state import State
from tui.render import draw as words
from tui.render import roof_picture
from tui.render.roof_sketch import sketch
from tui.screens.computing import Computing
from tui.screens.view import View
from tui.widgets.picture import Picture
from tui.widgets.roof import NOTHING_YET, method_shown

WIDE = 110
"""Width from which the words are beside the roof, else below it."""


class Draw(View, Computing[None]):
    """The roof with the array, a keep-clear area, an aisle or a module in hand."""

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
        Command("new_aisle", "a", "Aisle", "Place an aisle between two rows, or two columns", "Aisle"),
        Command("module", "x", "Leave out a module", "Choose a module, and leave it out or put it back", "Module"),
        Command("other", "tab", "Next", "Take the next keep-clear area or aisle in hand, or the array", "Next"),
        Command("remove", "delete,backspace", "Remove", "Remove the keep-clear area or the aisle in hand", "Remove"),
        Command("cure", "c", "Cure", "Change the array so that the refused method fits, as the words say", "Cure"),
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
        self._fit: Fit | None = None

    def body(self) -> ComposeResult:
        """The roof beside or above the words."""
        with Container(id="panes"):
            yield Picture(id="roof")
            yield Picture(id="words")

    def _in_footer(self, each: ActiveBinding) -> bool:
        """Keys for areas and aisles have their place while there is one, or one is in hand."""
        action, in_hand = each.binding.action, self.target.kind in ("area", "aisle")
        if action == "other":
            return self.target.kind == "array" and len(self._targets()) > 1
        if action == "cure":
            return self._cure is not None
        if action in ("remove", "module"):
            return (action == "remove") == in_hand
        return super()._in_footer(each) and not (in_hand and action in ("new_area", "new_aisle"))

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
        fit = self._fit_now(scenario)
        marks = roof_picture.Marks(
            box=self._box(drawn), is_misfit=bool(self._misfit), miss=fit.refusal.miss if fit and fit.refusal else None
        )
        self.query_one("#roof", Picture).show(
            lambda width, height: roof_picture.whole_and_array(drawn, marks, state.system, width, height)
        )
        shown = words.Hand(scenario.job, drawn, self.target, self.step, self._box(drawn), fit)
        self.query_one("#words", Picture).show(lambda width, height: words.draw(shown, state, width))

    def _fit_now(self, scenario: Scenario) -> Fit | None:
        """The fit of the method shown to the array as drawn; None while a worker finds out."""
        method, number = method_shown(scenario, self.state), self._array_in_hand
        if self._fit is None or not self._fit.is_of(self.inputs, method.id, number):
            inputs, step = self.inputs, INCH if self.state.system == "us" else CENTIMETRE
            asked = (inputs, method.id, number)
            self.compute(asked, lambda tell: _fit(inputs, scenario, method, number, step), self._keep_fit)
            return None
        return self._fit

    def _keep_fit(self, fit: Fit) -> None:
        """Show why the method is refused."""
        self._fit = fit
        self._show_roof()

    def show_failure(self, words: str) -> None:
        """Say that it is not known whether the method fits."""
        self.notify(words, severity="error", markup=False)

    @property
    def _array_in_hand(self) -> int:
        """Number of the array in hand, or of the first."""
        return self.target.number if self.target.kind == "array" else 0

    @property
    def _cure(self) -> Cure | None:
        """The change that makes the refused method fit, if one is known for what is drawn."""
        return self._fit.cure if self._fit and self._fit.inputs is self.inputs else None

    def _box(self, drawn: Plan) -> Box:
        """The box of what is in hand [m]."""
        at, areas, drawing = drawn.modules, drawn.keep_clear, self._drawing()
        if self.target.kind == "aisle" and drawing and self.target.number < len(drawing.aisles):
            return drawing.aisle_box(self.target.number)
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
        return Drawing(self.inputs, scenario.job, self.state.system, self._array_in_hand) if scenario else None

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
        elif self.target.kind == "aisle":
            self._take(drawing.aisle_moved(self.target.number, along, up))
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
        step = drawing.step("inch")[0] * (1 if self.step == "inch" else 12)
        if self.target.kind == "area":
            self._take(drawing.area_resized(self.target.number, columns * step, rows * step))
        elif self.target.kind == "aisle":
            self._take(drawing.aisle_widened(self.target.number, (columns + rows) * step))
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

    def action_new_aisle(self) -> None:
        """Place an aisle across the array in hand, and take it in hand."""
        drawing = self._drawing()
        if drawing is None:
            return
        inputs, before = drawing.aisle_added(), len(drawing.array.aisles)
        if inputs is drawing.inputs:
            self.notify("One row and one column: there is no room for an aisle.", markup=False)
            return
        arrays = drawing.job.arrays
        self.target = Target("aisle", before + sum(len(array.aisles) for array in arrays[: drawing.number]))
        self._take(inputs)

    def action_cure(self) -> None:
        """Change the array so that the refused method fits."""
        drawing, cure = self._drawing(), self._cure
        if drawing and cure and self._fit:
            self.target = Target("array", drawing.number)
            self._take(drawing.cured(self._fit.method, cure))

    def action_module(self) -> None:
        """Take a module in hand, or the array again."""
        self.target = Target() if self.target.kind == "module" else Target("module")
        self._show_roof()

    def action_other(self) -> None:
        """Take the next thing in hand: each array, then each keep-clear area and aisle."""
        targets = self._targets()
        number = targets.index(self.target) + 1 if self.target in targets else 0
        self.target = targets[number % len(targets)]
        self._show_roof()

    def _targets(self) -> list[Target]:
        """Everything that tab takes in hand, in its order."""
        scenario = self._scenario()
        arrays = len(scenario.job.arrays) if scenario else 1
        areas = len(self._drawn.keep_clear) if self._drawn else 0
        aisles = sum(len(array.aisles) for array in scenario.job.arrays) if scenario else 0
        return [
            *(Target("array", number) for number in range(arrays)),
            *(Target("area", each) for each in range(areas)),
            *(Target("aisle", each) for each in range(aisles)),
        ]

    def action_remove(self) -> None:
        """Remove the keep-clear area, or the aisle, in hand."""
        drawing, target = self._drawing(), self.target
        if drawing and target.kind in ("area", "aisle"):
            remove = drawing.area_removed if target.kind == "area" else drawing.aisle_removed
            self.target = Target()
            self._take(remove(target.number))

    def action_accept(self) -> None:
        """Accept what is drawn; leave a module out, or put it back."""
        drawing = self._drawing()
        if self.target.kind == "module" and drawing and self._drawn:
            self._take(drawing.module_toggled(self._box(self._drawn)))
        elif self.target.kind in ("area", "aisle"):
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
            "keep-clear area or an aisle (tab), or a module (x). The arrows move it by a module, by a seam and a "
            "purlin, or by an inch; s changes the step. An aisle lies between two rows; left and right lay it between "
            "two columns; + and - change its width. Figures follow every step. Where the method shown (m) does not "
            "fit, the words show what misses what, and c makes the smallest change found with which it fits. Enter "
            "accepts, escape undoes all that was drawn."
        )


def _fit(inputs: Inputs, scenario: Scenario, method: MountingMethod, number: int, step: float) -> Fit:
    """Why a method is refused for the array of that number, and what cures it in steps of that size [m]."""
    refused = refusal(scenario.job, method)
    cure = smallest_cure(scenario.job, method, number, step) if refused else None
    return Fit(inputs, method.id, number, method.title(scenario.job), refused, cure)


def _middles(boxes: list[Box]) -> Floats:
    """Middles of boxes (n, 2) [m]."""
    return np.array([((left + right) / 2, (low + high) / 2) for left, low, right, high in boxes], dtype=np.float64)

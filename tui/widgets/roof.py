"""The roof beside form and table: it follows the inputs at once, and the figures as soon as they are computed."""

from __future__ import annotations

from textual.content import Content
from textual.events import Click

from engine.common.errors import InputError
from engine.comparison.compare import Column
from engine.comparison.roof_plan import Plan, plan
from engine.mounting.interface import MountingMethod
from engine.scenario.read import Scenario
from engine.units import in_one
from tui.model.messages import RoofRequested
from tui.model.state import State
from tui.render import roof_picture
from tui.render.roof_plan import controlling_attachment
from tui.render.roof_sketch import sketch
from tui.render.styles import wrapped
from tui.widgets.picture import Picture

NOTHING_YET = "The roof is drawn once every input marked ! is given."


def method_shown(scenario: Scenario, state: State) -> MountingMethod:
    """The selected method, else the first."""
    return next((each for each in scenario.methods if each.id == state.method), scenario.methods[0])


class RoofPane(Picture):
    """The selected method's plan while its figures are current, else the array as the inputs place it."""

    def __init__(self, *, id: str) -> None:
        super().__init__(id=id)
        self.add_class("pane")
        self._column: Column | None = None
        self._plan: Plan | None = None

    def show_state(self, state: State, title: str) -> None:
        """Show the roof of a state; nothing is computed while the pane is hidden."""
        self.border_title = title
        column = state.column
        if column is not self._column:
            self._column = column
            self._plan = plan(column.design) if column and column.design else None
        drawn, system = self._plan, state.system
        if drawn and not state.is_stale:
            self.show(
                lambda width, height: roof_picture.with_surroundings(
                    drawn, controlling_attachment(drawn), system, width, height
                )
            )
        else:
            self._show_sketch(state, column)

    def _show_sketch(self, state: State, column: Column | None) -> None:
        """The array as the inputs place it, and why it does not fit or the method is refused."""
        try:
            scenario = state.inputs.scenario()
        except InputError:
            self.show(lambda width, height: Content("\n").join(wrapped(NOTHING_YET, width)))
            return
        drawn, misfit = sketch(scenario.job, method_shown(scenario, state), self._plan)
        refused = (
            in_one(column.flags[0].text, state.system)
            if column and column.design is None and not state.is_stale
            else ""
        )
        marks = roof_picture.Marks(is_misfit=bool(misfit))

        def draw(width: int, height: int) -> Content:
            words = wrapped(misfit or refused, width, "$text-error")
            picture = roof_picture.draw(drawn, marks, state.system, width, max(5, height - len(words)))
            return Content("\n").join([picture, *words])

        self.show(draw)

    def on_click(self, event: Click) -> None:
        """Open the plan, as its key does."""
        self.post_message(RoofRequested())

"""The main screen: inputs on the left, the comparison on the right; one at a time where it is narrow."""

from __future__ import annotations

from textual.app import ComposeResult
from textual.containers import Horizontal
from textual.content import Content
from textual.events import Resize
from textual.widgets import Static

from engine.comparison import Comparison
from engine.table import rows
from tui import text
from tui.screens.view import View
from tui.state import State
from tui.widgets.comparison import ComparisonPane
from tui.widgets.inputs import InputsPane

WIDE = 130
"""From this many columns on, inputs and comparison stand side by side."""


class Main(View):
    """Inputs and comparison."""

    CSS_PATH = "main.tcss"

    def body(self) -> ComposeResult:
        """Inputs and comparison; below the inputs the verdicts, where the comparison has no room."""
        with Horizontal(id="panes"):
            yield InputsPane(self.state.session, id="inputs")
            yield ComparisonPane(id="comparison")
        yield Static(id="verdicts", markup=False)

    def on_mount(self) -> None:
        """Start with the comparison in focus."""
        self.query_one(ComparisonPane).focus()

    def on_resize(self, event: Resize) -> None:
        """Side by side where there is room."""
        self.set_class(event.size.width < WIDE, "narrow")

    def show(self, state: State) -> None:
        """Show the inputs too, which need no comparison."""
        super().show(state)
        self.query_one(InputsPane).show(state.session)

    def draw(self, comparison: Comparison) -> None:
        """Show a comparison; what is wrong with the inputs is said and the last good one stays."""
        pane = self.query_one(ComparisonPane)
        pane.show(comparison, self.state.system)
        pane.mark_stale(bool(self.state.problems))
        self.query_one("#verdicts", Static).update(text.verdicts(comparison))

    def look_at_comparison(self) -> None:
        """Bring the comparison forward."""
        self.remove_class("inputs")
        self.query_one(ComparisonPane).focus()

    def look_at_inputs(self) -> None:
        """Bring the inputs forward."""
        self.add_class("inputs")
        self.query_one(InputsPane).begin()

    def action_back(self) -> None:
        """Escape backs out to the comparison."""
        self.look_at_comparison()

    def help_text(self) -> Content:
        """Help about what is focused: the chosen input, or every row of the comparison."""
        inputs = self.query_one(InputsPane)
        if inputs.has_focus_within:
            return inputs.help_text()
        if self.state.comparison is None:
            return Content("The comparison is being made.")
        lines = [Content("Three ways to hold the same array, side by side. Each row:"), Content("")]
        lines += [Content.styled(row.label, "bold") + Content(f": {row.help}.") for row in rows(self.state.comparison)]
        return Content("\n").join(lines)

"""The main screen: inputs on the left, the comparison on the right; one at a time where it is narrow."""

from __future__ import annotations

from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import BindingType
from textual.containers import Horizontal
from textual.content import Content
from textual.events import Resize
from textual.widgets import Input, OptionList, Static

from engine.common.errors import Problem
from engine.comparison.compare import Comparison
from engine.comparison.figures import table_figures
from engine.comparison.figures.utilisation import HELP
from tui.model.commands import Command, bindings
from tui.model.state import Question, State
from tui.render import comparison as drawing
from tui.screens.view import View
from tui.widgets.comparison import ComparisonPane
from tui.widgets.inputs import InputsPane

WIDE = 130
"""From this many columns on, inputs and comparison stand side by side."""


class Main(View):
    """Inputs and comparison."""

    CSS_PATH = "main.tcss"
    OWN = (Command("slash", "find", "Find an input", "Go to an input by part of its name", "Find"),)
    FOOTER = (
        "lesson_back",
        "lesson_on",
        "show_inputs",
        "roof_plan",
        "load_path",
        "bill",
        "study",
        "why",
        "baseline",
        "help",
    )
    YIELDS = ("find", "baseline")
    BINDINGS: ClassVar[list[BindingType]] = bindings(OWN)

    def body(self) -> ComposeResult:
        """Inputs and comparison; below the inputs the verdicts, where the comparison has no room."""
        with Horizontal(id="panes"):
            yield InputsPane(self.state.session, id="inputs")
            yield ComparisonPane(id="comparison")
        yield Static(id="verdicts", markup=False)

    def on_mount(self) -> None:
        """Start with the comparison in focus."""
        self.set_focus(self.query_one(ComparisonPane))

    def on_resize(self, event: Resize) -> None:
        """Side by side where there is room."""
        self.set_class(event.size.width < WIDE, "narrow")

    def show(self, state: State) -> None:
        """Show the inputs too, which need no comparison."""
        super().show(state)
        self.query_one(InputsPane).show(state)

    def draw(self, comparison: Comparison) -> None:
        """Show a comparison."""
        self.query_one(ComparisonPane).show(self.state)
        self.query_one("#verdicts", Static).update(drawing.verdicts(comparison))

    def say(self, words: str) -> None:
        """Say it where the comparison would stand."""
        self.query_one(ComparisonPane).show(self.state)
        self.query_one("#verdicts", Static).update(words)

    def problems(self) -> tuple[Problem, ...]:
        """Those of the input that is looked at first."""
        entry = self.query_one(InputsPane).is_checked
        first = self.state.problems_of(entry.path) if entry else ()
        return (*first, *(problem for problem in self.state.problems if problem not in first))

    def on_option_list_option_highlighted(self, message: OptionList.OptionHighlighted) -> None:
        """Another input is looked at."""
        self.show_problems()

    def question(self) -> Question:
        """The figure the comparison stands on."""
        row = self.query_one(ComparisonPane).row
        return Question(self.state.column.id if self.state.column else "", row.key if row else "")

    def look_at_comparison(self) -> None:
        """Bring the comparison forward."""
        self.remove_class("inputs")
        self.set_focus(self.query_one(ComparisonPane))

    def look_at_inputs(self) -> None:
        """Bring the inputs forward."""
        self.add_class("inputs")
        self.query_one(InputsPane).begin()

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """While something is typed, / is a letter like any other."""
        return not (action == "find" and isinstance(self.focused, Input))

    def action_find(self) -> None:
        """Go to an input by part of its name."""
        self.add_class("inputs")
        self.query_one(InputsPane).find()

    def action_back(self) -> None:
        """Escape stops finding, then backs out to the comparison."""
        if not self.query_one(InputsPane).stop_finding():
            self.look_at_comparison()

    def help_text(self) -> Content:
        """Help about what is focused: the chosen input, or every row of the comparison."""
        inputs = self.query_one(InputsPane)
        if inputs.has_focus_within:
            return inputs.help_text()
        row = self.query_one(ComparisonPane).row
        if self.state.comparison is None or row is None:
            return Content(self.state.waiting)
        job = self.state.comparison.scenario.job
        lines = [
            Content.styled(row.label(job), "bold") + Content(f": {row.help(job)}."),
            Content(""),
            Content(
                "Three ways to hold the same array, side by side. Arrows walk from figure to figure, enter shows how one came about."
            ),
            Content("The other rows; of a link it is said how far it is used, above 1.00 it is over:"),
        ]
        others = (other for other in table_figures() if other.key != row.key)
        lines += [
            Content.styled(other.label(job), "bold") + Content(f": {other.help(job).removesuffix(f'; {HELP}')}.")
            for other in others
        ]
        return Content("\n").join(lines)

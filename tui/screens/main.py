"""The main screen: inputs on the left, the comparison on the right; one at a time where it is narrow."""

from __future__ import annotations

from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Horizontal
from textual.content import Content
from textual.events import Resize
from textual.screen import Screen
from textual.widgets import Footer, Static

from engine.comparison import Comparison
from engine.errors import Problem
from engine.table import rows
from engine.units import System
from tui import text
from tui.session import Session
from tui.widgets.comparison import ComparisonPane
from tui.widgets.inputs import InputsPane

WIDE = 130
"""From this many columns on, inputs and comparison stand side by side."""


class Heading(Static):
    """One line: what is open, and that results are preliminary."""


class Main(Screen[None]):
    """Inputs and comparison."""

    CSS_PATH = "main.tcss"
    BINDINGS: ClassVar[list[BindingType]] = [Binding("escape", "back", "Back", show=False)]

    def __init__(self, session: Session) -> None:
        super().__init__()
        self.session = session
        self.comparison: Comparison | None = None

    def compose(self) -> ComposeResult:
        """Heading, panes, problems, footer."""
        yield Heading(markup=False)
        with Horizontal(id="panes"):
            yield InputsPane(self.session, id="inputs")
            yield ComparisonPane(id="comparison")
        yield Static(id="problems", markup=False)
        yield Static(id="verdicts", markup=False)
        yield Footer(show_command_palette=False)

    def on_mount(self) -> None:
        """Start with the comparison in focus."""
        self.show_session(self.session)
        self.query_one(ComparisonPane).focus()

    def on_resize(self, event: Resize) -> None:
        """Side by side where there is room."""
        self.set_class(event.size.width < WIDE, "narrow")

    def show_session(self, session: Session) -> None:
        """Show what is open and its inputs."""
        changed = f" · {len(session.changes)} changed" if session.changes else ""
        self.query_one(Heading).update(f"{session.path.name}{changed} · preliminary: an engineer and the local code decide")
        self.query_one(InputsPane).show(session)

    def show_comparison(self, comparison: Comparison, system: System) -> None:
        """Show a comparison in the units asked for."""
        self.comparison = comparison
        self.query_one(ComparisonPane).show(comparison, system)
        self.query_one("#verdicts", Static).update(text.verdicts(comparison))

    def show_problems(self, problems: tuple[Problem, ...]) -> None:
        """Say what is wrong with the inputs; the last good comparison stays."""
        widget = self.query_one("#problems", Static)
        widget.set_class(bool(problems), "some")
        shown = [f"!! {problem}" for problem in problems[:4]]
        more = [f"   and {len(problems) - 4} more"] if len(problems) > 4 else []
        widget.update(Content("\n".join([*shown, *more])))
        self.query_one(ComparisonPane).mark_stale(bool(problems))
        self.query_one("#verdicts", Static).set_class(bool(problems), "stale")

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
        if self.comparison is None:
            return Content("The comparison is being made.")
        lines = [Content("Three ways to hold the same array, side by side. Each row:"), Content("")]
        lines += [Content.styled(row.label, "bold") + Content(f": {row.help}.") for row in rows(self.comparison)]
        return Content("\n").join(lines)

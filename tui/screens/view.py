"""The parts that all screens about the comparison share: heading, stale mark, problems, footer, the way back."""

from __future__ import annotations

from dataclasses import replace
from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import ActiveBinding, Binding, BindingType
from textual.containers import Horizontal
from textual.content import Content
from textual.screen import Screen

from engine.common.errors import Problem
from engine.common.safe_text import safe_text
from engine.comparison.compare import Comparison
from tui.model.commands import Command
from tui.model.messages import MethodSelected, WhyRequested
from tui.model.state import Question, State
from tui.widgets.key_footer import KeyFooter
from tui.widgets.picture import Picture
from tui.widgets.words import Words

BREAKPOINTS = [(0, "-narrow"), (120, "-wide")]
"""Widths of a screen [cells] and its classes: panes are beside one another on a wide one (app.tcss)."""

MAX_PROBLEMS = 4
"""Problems that are written out; the others are counted."""

METHOD_KEYS = (
    Command("method_before", "left", "Method before", "Show the method before"),
    Command("method_after", "right", "Method after", "Show the next method", "Method"),
)
"""Commands of a screen about one method that needs the arrows for nothing else."""

GO_TO_INPUT = Command("go_to_input", "g", "Go to this input", "Go to the input behind what is in focus", "Go to input")
"""Command of a screen on which inputs stand behind what is shown."""

WHY_KEY = Command("why_selected", "enter", "Why this one?", "Show the calculation of the selected figure")
"""Command of a screen on which something is selected, as in the comparison."""


class View(Screen[None]):
    """A screen that shows the state of the app.

    The app gives it every later state; escape leaves it. A screen builds its widgets in `body`, shows a comparison in
    `draw`, and in `show_message` why there is none; `help_text` explains it. It declares its own keys in
    `OWN_COMMANDS`, with `BINDINGS = bindings(OWN_COMMANDS)`: footer, help and palette follow. `FOOTER` names the app's
    commands in its footer, `HIDDEN_IN_LESSON` those that leave room for a lesson's. Anything that takes longer than
    some milliseconds runs in a worker.
    """

    NAME: ClassVar[str] = ""
    OWN_COMMANDS: ClassVar[tuple[Command, ...]] = ()
    FOOTER: ClassVar[tuple[str, ...]] = ("lesson_back", "lesson_next", "compare", "why", "help")
    HIDDEN_IN_LESSON: ClassVar[tuple[str, ...]] = ()
    BINDINGS: ClassVar[list[BindingType]] = [Binding("escape", "back", "Back", show=False)]
    HORIZONTAL_BREAKPOINTS = BREAKPOINTS

    def __init__(self, state: State) -> None:
        super().__init__()
        self.state = state
        self._is_behind = False

    def compose(self) -> ComposeResult:
        """Heading, the screen's own body, problems, footer."""
        with Horizontal(id="heading"):
            yield Words(id="place")
            yield Words("preliminary: engineer and code decide", id="caution")
        yield from self.body()
        yield Words(id="problems")
        yield KeyFooter()

    def body(self) -> ComposeResult:
        """The widgets between heading and footer. Pictures and widgets of class "figures" are dimmed while stale."""
        raise NotImplementedError

    def draw(self, comparison: Comparison) -> None:
        """Show a comparison; method, units and baseline are in `state`. Called again when any of them changes."""
        raise NotImplementedError

    def show_message(self, words: str) -> None:
        """Show a sentence in place of the figures."""
        self.query(Picture).first().show(lambda width, height: Content(words))

    def help_text(self) -> Content:
        """Explanation of what is in focus."""
        raise NotImplementedError

    def question(self) -> Question:
        """The figure that "Why?" explains now."""
        return Question(self.state.column.id if self.state.column else "")

    def on_mount(self) -> None:
        """Show the state the screen was opened with."""
        self.show(self.state)

    def follow(self, state: State, *, is_seen: bool) -> None:
        """Show a state now, or once the screen is seen again."""
        self.state, self._is_behind = state, not is_seen
        if is_seen:
            self.show(state)

    def on_screen_resume(self) -> None:
        """Show what has changed meanwhile, before the screen is painted."""
        if self._is_behind:
            self.follow(self.state, is_seen=True)

    def show(self, state: State) -> None:
        """Show a state: problems, and the last comparison or why there is none."""
        self.state = state
        if state.comparison:
            self.draw(state.comparison)
        else:
            self.show_message(state.no_figures_reason)
        self.show_heading()
        self.show_problems()

    def stale_mark(self) -> str:
        """The word for figures that are older than the inputs; empty if all figures shown are current."""
        return self.state.stale_mark

    def show_heading(self) -> None:
        """Name the screen and the file; mark figures older than the inputs by a word, and dim them."""
        mark, inputs = self.stale_mark(), self.state.inputs
        changed = f"{len(inputs.changes)} changed" if inputs.changes else ""
        place = " · ".join(filter(None, [self.NAME, safe_text(inputs.path.name), changed]))
        heading = Content.assemble((f" {mark} ", "bold reverse"), f" {place}") if mark else Content(place)
        self.query_one("#place", Words).show(heading)
        for widget in self.query("Picture, .figures"):  # a class of the screen would style every widget anew
            widget.set_class(bool(mark), "stale")

    def problems(self) -> tuple[Problem, ...]:
        """Everything that is wrong, the most relevant first: in little room the others are only counted."""
        return self.state.problems

    def show_problems(self) -> None:
        """List the problems, with the names that their inputs have in the form."""
        problems = self.problems()
        names = {".".join(field.path): field.label for field in self.state.inputs.fields()} if problems else {}
        told = [replace(each, path=names.get(each.path, each.path)) for each in problems[:MAX_PROBLEMS]]
        lines = [f"!! {problem}" for problem in told]
        more = len(problems) - MAX_PROBLEMS
        lines += [f"   and {more} more"] if more > 0 else []
        lines += ["   The figures shown are from older inputs."] if problems and self.state.comparison else []
        widget = self.query_one("#problems", Words)
        widget.show("\n".join(lines))
        widget.display = bool(problems)

    @property
    def active_bindings(self) -> dict[str, ActiveBinding]:
        """The footer shows the screen's own keys, and of the app's those in `FOOTER`."""
        return {key: each if self._in_footer(each) else _hidden(each) for key, each in super().active_bindings.items()}

    def _in_footer(self, each: ActiveBinding) -> bool:
        if self.state.lesson and each.binding.action in self.HIDDEN_IN_LESSON:
            return False
        return each.node is self or each.binding.action in self.FOOTER

    def action_method_before(self) -> None:
        """Show the method before."""
        self.post_message(MethodSelected(self.state.next_method(-1)))

    def action_method_after(self) -> None:
        """Show the next method."""
        self.post_message(MethodSelected(self.state.next_method()))

    def action_why_selected(self) -> None:
        """Show the calculation of the selected figure."""
        self.post_message(WhyRequested())

    def action_back(self) -> None:
        """Leave the screen."""
        self.dismiss()


def _hidden(each: ActiveBinding) -> ActiveBinding:
    """The same key, hidden in the footer."""
    return each._replace(binding=replace(each.binding, show=False))

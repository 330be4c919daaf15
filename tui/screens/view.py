"""What all screens about the comparison share: a heading, what is wrong, the footer, the way back."""

from __future__ import annotations

from dataclasses import replace
from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import ActiveBinding, Binding, BindingType
from textual.containers import Horizontal
from textual.content import Content
from textual.screen import Screen
from textual.widgets import Footer, Static

from engine.common.errors import Problem
from engine.comparison.compare import Comparison
from tui.model.commands import Command
from tui.model.messages import Asked, Chose
from tui.model.state import Question, State
from tui.widgets.picture import Picture

PROBLEMS_SHOWN = 4

TURNING = (
    Command("left", "method_before", "Method before", "Turn to the method before"),
    Command("right", "method_after", "Method after", "Turn to the next method", "Method"),
)
"""The keys of a screen about one method, where it needs the arrows for nothing else."""

ASKING = Command("enter", "ask", "Why this one?", "See how the figure of what is chosen came about")
"""The key of a screen on which something is chosen, as in the comparison."""


class View(Screen[None]):
    """A screen that shows the bench's state.

    The app gives it every later state; escape leaves it. A screen says what is on it in `body`, shows
    a comparison in `draw` (and in `say` why there is none), explains itself in `help_text`, and declares its own keys in `OWN` (and
    `BINDINGS = bindings(OWN)`): footer, help and palette follow. `FOOTER` names the actions of the bench's own
    commands that stand in the footer beside them, `YIELDS` those that give way to a lesson's. What takes
    longer than some milliseconds it computes in a worker.
    """

    NAME: ClassVar[str] = ""
    OWN: ClassVar[tuple[Command, ...]] = ()
    FOOTER: ClassVar[tuple[str, ...]] = ("lesson_back", "lesson_on", "show_comparison", "why", "help")
    YIELDS: ClassVar[tuple[str, ...]] = ()
    BINDINGS: ClassVar[list[BindingType]] = [Binding("escape", "back", "Back", show=False)]

    def __init__(self, state: State) -> None:
        super().__init__()
        self.state = state

    def compose(self) -> ComposeResult:
        """Heading, the screen's own body, problems, footer."""
        with Horizontal(id="heading"):
            yield Static(id="place", markup=False)
            yield Static("preliminary: engineer and code decide", id="caution", markup=False)
        yield from self.body()
        yield Static(id="problems", markup=False)
        yield Footer(show_command_palette=False)

    def body(self) -> ComposeResult:
        """What stands between heading and footer."""
        raise NotImplementedError

    def draw(self, comparison: Comparison) -> None:
        """Show a comparison; method, units and baseline are in `state`. Called again whenever any of them changes."""
        raise NotImplementedError

    def say(self, words: str) -> None:
        """Say this where the figures stand otherwise: there are none."""
        self.query(Picture).first().show(lambda width, height: Content(words))

    def help_text(self) -> Content:
        """What is in focus, and what its words mean."""
        raise NotImplementedError

    def question(self) -> Question:
        """The figure that "why?" explains now."""
        return Question(self.state.column.id if self.state.column else "")

    def on_mount(self) -> None:
        """Show the state the screen was opened with."""
        self.show(self.state)

    def show(self, state: State) -> None:
        """Show a state: its name, what is wrong, and the last good comparison, or why there is none."""
        self.state = state
        session = state.session
        changed = f"{len(session.changes)} changed" if session.changes else ""
        self.query_one("#place", Static).update(" · ".join(filter(None, [self.NAME, session.path.name, changed])))
        self.show_problems()
        if state.comparison:
            self.draw(state.comparison)
        else:
            self.say(state.waiting)

    def problems(self) -> tuple[Problem, ...]:
        """What is wrong, what matters most here first: where there is little room, the others are only counted."""
        return self.state.problems

    def show_problems(self) -> None:
        """Say what is wrong."""
        problems = self.problems()
        lines = [f"!! {problem}" for problem in problems[:PROBLEMS_SHOWN]]
        more = len(problems) - PROBLEMS_SHOWN
        lines += [f"   and {more} more"] if more > 0 else []
        lines += (
            ["   The figures are from the last input that could be read."] if problems and self.state.comparison else []
        )
        self.query_one("#problems", Static).update("\n".join(lines))
        self.set_class(bool(problems), "stale")

    @property
    def active_bindings(self) -> dict[str, ActiveBinding]:
        """The footer names the screen's own keys, and of the bench's those in `FOOTER`."""
        return {key: each if self._named(each) else _quiet(each) for key, each in super().active_bindings.items()}

    def _named(self, each: ActiveBinding) -> bool:
        if self.state.lesson and each.binding.action in self.YIELDS:
            return False
        return each.node is self or each.binding.action in self.FOOTER

    def action_method_before(self) -> None:
        """Turn to the method before."""
        self.post_message(Chose(self.state.next_method(-1)))

    def action_method_after(self) -> None:
        """Turn to the next method."""
        self.post_message(Chose(self.state.next_method()))

    def action_ask(self) -> None:
        """Ask how the figure of what is chosen came about."""
        self.post_message(Asked())

    def action_back(self) -> None:
        """Escape leaves the screen."""
        self.dismiss()


def _quiet(each: ActiveBinding) -> ActiveBinding:
    """The same key, not named in the footer."""
    return each._replace(binding=replace(each.binding, show=False))

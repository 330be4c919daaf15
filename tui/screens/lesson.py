"""A lesson: one step's words and question, the class's guess, and then the answer."""

from __future__ import annotations

from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import BindingType
from textual.containers import VerticalScroll
from textual.content import Content
from textual.widgets import Input, Static

from engine.comparison.compare import Comparison
from tui.model.commands import Command, bindings
from tui.model.lesson_run import Place
from tui.model.messages import Looked, Walked
from tui.model.state import State
from tui.render import lesson
from tui.screens.view import View


class LessonScreen(View):
    """Covers the figures until the class has guessed."""

    NAME = "Lesson"
    OWN = (
        Command("enter", "on", "Lesson: on", "Take the guess and show the answer; then look at it in the bench", "On"),
        Command("full_stop", "on", "Lesson: on", "The same"),
        Command(
            "comma",
            "step_before",
            "Lesson: back",
            "Go to the step before; in the field it is part of the guess, and tab leaves it",
            "Step before",
        ),
    )
    BINDINGS: ClassVar[list[BindingType]] = bindings(OWN)
    DEFAULT_CSS = """
    LessonScreen VerticalScroll { align-horizontal: center; scrollbar-size-vertical: 1; padding: 0 2; }
    LessonScreen VerticalScroll > * { width: 1fr; max-width: 88; height: auto; }
    LessonScreen Input { border: round $accent; display: none; }
    LessonScreen.asking Input { display: block; }
    LessonScreen #answered { padding-top: 1; }
    LessonScreen.asking #answered { display: none; }
    """
    _shown: Place | None = None

    def body(self) -> ComposeResult:
        """What is said and asked, the guess, and what is answered."""
        with VerticalScroll():
            yield Static(id="said", markup=False)
            yield Input()
            yield Static(id="answered", markup=False)

    def show(self, state: State) -> None:
        """Show where the class stands."""
        super().show(state)
        place = state.lesson
        if place is None:
            return
        self.set_class(bool(place.stop.answer) and not place.answered, "asking")
        self.query_one("#said", Static).update(lesson.said(place, state.system))
        self.query_one("#answered", Static).update(lesson.answered(place, state.system) if place.answered else "")
        if place is not self._shown:
            self._shown = place
            self._begin(place)

    def _begin(self, place: Place) -> None:
        """An empty field for a question; a new step is read from its top, an answer from its end."""
        guess, scroll = self.query_one(Input), self.query_one(VerticalScroll)
        guess.value = ""
        guess.border_title = lesson.asked_for(place, self.state.system)
        guess.border_subtitle = "enter: the answer · tab: leave the field · esc: to the bench"
        self.set_focus(guess if self.has_class("asking") else scroll)
        scroll.call_after_refresh(scroll.scroll_end if place.answered else scroll.scroll_home, animate=False)

    def draw(self, comparison: Comparison) -> None:
        """No figure of the comparison is shown here."""

    def say(self, words: str) -> None:
        """Nor is one missed."""

    def on_input_submitted(self, message: Input.Submitted) -> None:
        """Take the guess."""
        self.action_on()

    def action_on(self) -> None:
        """Show the answer beside the guess; once it stands there, look at it in the bench."""
        place = self.state.lesson
        if place is None:
            return
        if place.answered:
            self.post_message(Looked())
            return
        field = self.query_one(Input)
        try:
            guess = place.stop.guessed(field.value, self.state.system) if field.value.strip() else None
        except ValueError as refusal:
            field.border_subtitle = Content(str(refusal))  # what was typed is no markup
            return
        self.post_message(Walked(place.with_answer(guess)))

    def action_step_before(self) -> None:
        """Go to the step before."""
        if self.state.lesson:
            self.post_message(Walked(self.state.lesson.moved(-1)))

    def help_text(self) -> Content:
        """How a lesson is walked."""
        return Content(
            "A lesson. Type what the class guesses, an option by its number, and press enter: the answer comes beside it, computed "
            "from the scenario. Enter once more opens the bench with this step's inputs. There everything may be tried: a comma "
            "comes back to this step as it was, a full stop goes on to the next."
        )

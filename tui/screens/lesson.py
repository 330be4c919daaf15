"""A lesson: the words and question of one step, the class's guess, then the answer."""

from __future__ import annotations

from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import BindingType
from textual.containers import VerticalScroll
from textual.content import Content
from textual.widgets import Input

from engine.comparison.compare import Comparison
from tui.model.commands import Command, bindings
from tui.model.lesson_run import LessonProgress
from tui.model.messages import FiguresRequested, LessonMoved
from tui.model.state import State
from tui.render import lesson
from tui.screens.view import View
from tui.widgets.large_figures import BREAKPOINTS, LargeFigures
from tui.widgets.picture import Picture
from tui.widgets.words import Words


class LessonScreen(View):
    """Hides the figures until the class has guessed."""

    NAME = "Lesson"
    OWN_COMMANDS = (
        Command(
            "lesson_answer", "enter,full_stop", "Lesson: answer", "Show the answer, then the screen with it", "Next"
        ),
        Command(
            "lesson_step_before",
            "comma",
            "Lesson: step before",
            "Go to the step before; in the field a comma is part of the guess, and tab leaves the field",
            "Step before",
        ),
        Command("lesson_team_after", "down", "Lesson: next team", "Take the guess of another team as well", "Team"),
        Command("lesson_team_before", "up", "Lesson: team before", "Return to the guess of the team before"),
    )
    BINDINGS: ClassVar[list[BindingType]] = bindings(OWN_COMMANDS)
    CSS_PATH = "lesson.tcss"
    VERTICAL_BREAKPOINTS = BREAKPOINTS
    _shown: LessonProgress | None = None

    def body(self) -> ComposeResult:
        """Large figures once there are any, words and question, the field for the guess, the answer."""
        yield LargeFigures()
        with VerticalScroll():
            yield Words(id="step")
            yield Input()
            yield Picture()
            yield Words(id="answered")
            yield Words(id="follows")

    def show(self, state: State) -> None:
        """Show the step of the class, or the end of the lesson."""
        super().show(state)
        progress = state.lesson
        if progress is None:
            return
        self.set_class(bool(progress.current.answer) and not progress.is_answered, "asking")
        words = lesson.end_text if progress.is_end else lesson.step_text
        self.query_one("#step", Words).show(words(progress, state.system))
        answer = lesson.answer_text(progress, state.system) if progress.is_answered and not progress.is_end else None
        follows = lesson.next_text(progress, is_covered=state.is_covered) if progress.is_answered else ""
        self.query_one("#answered", Words).show(answer or "")
        self.query_one("#follows", Words).show(follows)
        self.query_one(LargeFigures).show(lesson.large_figures(progress, state.system))
        picture, system = progress.picture, state.system
        self.set_class(picture is not None, "drawn")
        if picture:
            self.query_one(Picture).show(
                lambda width, height: lesson.picture(picture, system, width, height),
            )
        if progress is not self._shown:
            self._shown = progress
            self._start(progress)

    def _start(self, progress: LessonProgress) -> None:
        """Empty the field; show a new step from its top, an answer from its end."""
        field, scroll = self.query_one(Input), self.query_one(VerticalScroll)
        guess = progress.guess_of(progress.team)
        field.value = lesson.typed(guess, progress, self.state.system) if guess else ""
        field.border_title = lesson.answer_label(progress, self.state.system)
        field.border_subtitle = "Enter answer · ↓ another team · Tab leave the field · Esc close"
        self.set_focus(field if self.has_class("asking") else scroll)
        shows_end = progress.is_answered and not progress.is_end
        scroll.call_after_refresh(scroll.scroll_end if shows_end else scroll.scroll_home, animate=False)

    def draw(self, comparison: Comparison) -> None:
        """No figure of the comparison is shown."""

    def show_message(self, words: str) -> None:
        """No sentence is needed: there are no figures."""

    def on_input_submitted(self, message: Input.Submitted) -> None:
        """Accept the guess."""
        self.action_lesson_answer()

    def action_lesson_answer(self) -> None:
        """Show the answer beside the guesses; once it is shown, open the screen with the figures."""
        progress = self.state.lesson
        if progress and progress.is_answered:
            self.post_message(FiguresRequested())
            return
        guessed = self._with_guess()
        if guessed:
            self.post_message(LessonMoved(guessed.with_answer()))

    def action_lesson_step_before(self) -> None:
        """Go to the step before."""
        if self.state.lesson:
            self.post_message(LessonMoved(self.state.lesson.moved(-1)))

    def action_lesson_team_after(self) -> None:
        """Accept the guess, and ask the next team."""
        self._ask_team(1)

    def action_lesson_team_before(self) -> None:
        """Accept the guess, and return to the team before."""
        self._ask_team(-1)

    def _ask_team(self, step: int) -> None:
        if not self.has_class("asking"):
            self.query_one(VerticalScroll).scroll_relative(y=step, animate=False)
            return
        guessed = self._with_guess()
        if guessed:
            self.post_message(LessonMoved(guessed.asking_team(step)))

    def _with_guess(self) -> LessonProgress | None:
        """The progress with what was typed; None if that is no guess, which the field then says."""
        progress, field = self.state.lesson, self.query_one(Input)
        if progress is None or not field.value.strip():
            return progress
        try:
            return progress.with_guess(progress.current.guessed(field.value, self.state.system))
        except ValueError as refusal:
            field.border_subtitle = Content(str(refusal))  # never markup
            return None

    def help_text(self) -> Content:
        """The course of a lesson."""
        return Content(
            "A lesson. Type the class's guess, or the number of an option, and press enter: the answer, computed from "
            "the scenario, is shown beside it, with up to 10 points by how near the guess was. ↓ takes the guess of "
            "another team first. No screen shows figures that the lesson still asks for: enter opens one once all "
            "questions about the same roof are answered, else the next question. Anything can be tried there: a "
            "comma returns to this step as it was, a full stop goes on."
        )

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
from tui.widgets.words import Words


class LessonScreen(View):
    """Hides the figures until the class has guessed."""

    NAME = "Lesson"
    OWN_COMMANDS = (
        Command(
            "lesson_answer", "enter,full_stop", "Lesson: answer", "Show the answer, then the screen with it", "Answer"
        ),
        Command(
            "lesson_step_before",
            "comma",
            "Lesson: step before",
            "Go to the step before; in the field a comma is part of the guess, and tab leaves the field",
            "Step before",
        ),
    )
    BINDINGS: ClassVar[list[BindingType]] = bindings(OWN_COMMANDS)
    CSS_PATH = "lesson.tcss"
    _shown: LessonProgress | None = None

    def body(self) -> ComposeResult:
        """Words and question, the field for the guess, the answer."""
        with VerticalScroll():
            yield Words(id="step")
            yield Input()
            yield Words(id="answered")

    def show(self, state: State) -> None:
        """Show the step of the class."""
        super().show(state)
        progress = state.lesson
        if progress is None:
            return
        self.set_class(bool(progress.current.answer) and not progress.is_answered, "asking")
        self.query_one("#step", Words).show(lesson.step_text(progress, state.system))
        self.query_one("#answered", Words).show(
            lesson.answer_text(progress, state.system) if progress.is_answered else ""
        )
        if progress is not self._shown:
            self._shown = progress
            self._start(progress)

    def _start(self, progress: LessonProgress) -> None:
        """Empty the field; show a new step from its top, an answer from its end."""
        guess, scroll = self.query_one(Input), self.query_one(VerticalScroll)
        guess.value = ""
        guess.border_title = lesson.answer_label(progress, self.state.system)
        guess.border_subtitle = "Enter answer · Tab leave the field · Esc close the lesson screen"
        self.set_focus(guess if self.has_class("asking") else scroll)
        scroll.call_after_refresh(scroll.scroll_end if progress.is_answered else scroll.scroll_home, animate=False)

    def draw(self, comparison: Comparison) -> None:
        """No figure of the comparison is shown."""

    def show_message(self, words: str) -> None:
        """No sentence is needed: there are no figures."""

    def on_input_submitted(self, message: Input.Submitted) -> None:
        """Accept the guess."""
        self.action_lesson_answer()

    def action_lesson_answer(self) -> None:
        """Show the answer beside the guess; once it is shown, open the screen with the figures."""
        progress = self.state.lesson
        if progress is None:
            return
        if progress.is_answered:
            self.post_message(FiguresRequested())
            return
        field = self.query_one(Input)
        try:
            guess = progress.current.guessed(field.value, self.state.system) if field.value.strip() else None
        except ValueError as refusal:
            field.border_subtitle = Content(str(refusal))  # never markup
            return
        self.post_message(LessonMoved(progress.with_answer(guess)))

    def action_lesson_step_before(self) -> None:
        """Go to the step before."""
        if self.state.lesson:
            self.post_message(LessonMoved(self.state.lesson.moved(-1)))

    def help_text(self) -> Content:
        """The course of a lesson."""
        return Content(
            "A lesson. Type the class's guess, or the number of an option, and press enter: the answer, computed from "
            "the scenario, is shown beside it. Enter once more opens the screen with the figures, with the inputs of "
            "this step. Anything can be tried there: a comma returns to this step as it was, a full stop goes to the "
            "next."
        )

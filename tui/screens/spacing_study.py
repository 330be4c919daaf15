"""Spacing study: utilisation of each component as the attachments move apart, or as the array moves across the seams.

Legible from the back of a room.
"""

from __future__ import annotations

from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import BindingType
from textual.content import Content
from textual.timer import Timer

from engine.common.progress import ProgressListener
from engine.comparison.compare import Column, Comparison
from engine.studies.moved_array import moved_study
from engine.studies.spacing import SpacingStudy, row_of, study
from tui.model.commands import Command, bindings
from tui.model.messages import Studied
from tui.model.state import COMPUTING, Question, StudyKey, Varied
from tui.render import spacing as drawing
from tui.render.method_tabs import names, nothing_to_show
from tui.render.progress import progress
from tui.render.styles import MUTED
from tui.screens.computing import Computing
from tui.screens.view import View
from tui.widgets.large_figures import BREAKPOINTS, LargeFigures
from tui.widgets.picture import Picture
from tui.widgets.words import Words

UNDER: dict[Varied, str] = {"spacing": " · uniform only", "place": " · the array moves"}
"""Word of what varies, behind the methods."""

PLACES_ASKED = "The array cannot be moved yet: the lesson still asks about other places of it."

PLAY_PACE = 1.2
"""Time for which each spacing is shown while it plays [s]."""


class SpacingStudyScreen(View, Computing[None]):
    """All spacings, or places, of one method are computed once, in a worker; the arrows select one of them."""

    NAME = "Spacing study"
    OWN_COMMANDS = (
        Command(
            "closer", "left", "Closer", "Move the attachments closer together, or the array left", "Step", sign="←→"
        ),
        Command("wider", "right", "Wider", "Move the attachments farther apart, or the array right"),
        Command("uplift", "up", "Uplift", "Show the largest uplift at each attachment", "Uplift"),
        Command("down_load", "down", "Down load", "Show the largest down load at each attachment", "Down"),
        Command("play", "space", "Play", "Show one step after the other; press again to stop", "Play"),
        Command("vary", "x", "Spacing or place", "Move the whole array, or the attachments apart", "Array"),
    )
    HIDDEN_IN_LESSON = ("compare", "why")
    BINDINGS: ClassVar[list[BindingType]] = bindings(OWN_COMMANDS)
    CSS_PATH = "spacing_study.tcss"
    VERTICAL_BREAKPOINTS = BREAKPOINTS

    is_uplift = True
    selected: int | None = None
    varied: Varied = "spacing"
    method = ""
    playing: Timer | None = None
    shown: Comparison | None = None
    """The comparison whose study is on the screen; it stays until the next study is ready."""

    def body(self) -> ComposeResult:
        """The methods, large figures if there is room, and the picture."""
        yield Words(id="methods")
        yield LargeFigures(classes="figures")
        yield Picture()

    def draw(self, comparison: Comparison) -> None:
        """Show the study of the selected method; start it if there is none yet."""
        column = self.state.column
        self.query_one("#methods", Words).show(names(comparison, column) + Content.styled(UNDER[self.varied], MUTED))
        if column is None:
            return
        if column.id != self.method:
            self.method, self.selected, self.shown = column.id, None, None
        done = self._study()
        if done is None:
            if self.shown is None:
                self._show_sentence(COMPUTING)
            if self.state.compared:  # else the search is on its way, and its comparison is studied
                self._run_study(comparison, (self.varied, column.id))
        elif not done.rows:
            self.shown = comparison
            self._show_nothing(column, done)
        else:
            self._show_spacing(comparison, column, done)

    def _show_nothing(self, column: Column, done: SpacingStudy) -> None:
        """Why a study has no spacings or places."""
        if self.varied == "place" and column.candidate:
            self._show_sentence(done.sentence)
            return
        self.query_one(Picture).show(lambda width, height: nothing_to_show(column, width, self.state.system))
        self.query_one(LargeFigures).show()

    def _study(self) -> SpacingStudy | None:
        return self.state.studies.get((self.varied, self.state.column.id)) if self.state.column else None

    def stale_mark(self) -> str:
        """The mark also while the study of a new comparison is computed."""
        is_older = self.shown is not None and self.shown is not self.state.comparison
        return self.state.stale_mark or (COMPUTING if is_older else "")

    def _run_study(self, comparison: Comparison, key: StudyKey) -> None:
        self.compute(
            (comparison, key),
            lambda tell: _studied(comparison, *key, tell),
            lambda found: self.post_message(Studied(comparison, key, found)),
        )

    def show_progress(self, words: str) -> None:
        """Show the progress where there is no older study to look at."""
        if self.shown is None:
            self._show_line(progress(words))

    def show_failure(self, words: str) -> None:
        """Say that the study failed."""
        self.shown = None
        self._show_sentence(words)

    def show_message(self, words: str) -> None:
        """Show a sentence in place of the study."""
        self._show_sentence(words)
        self.method = ""
        self.query_one("#methods", Words).show()

    def _show_sentence(self, words: str) -> None:
        self._show_line(Content(words))

    def _show_line(self, line: Content) -> None:
        self.query_one(Picture).show(lambda width, height: line)
        self.query_one(LargeFigures).show()

    def _show_spacing(self, comparison: Comparison, column: Column, done: SpacingStudy) -> None:
        selected, system, uplift = self._spacing(column, done), self.state.system, self.is_uplift
        self.shown = comparison
        job, row = comparison.scenario.job, done.rows[selected]
        self.query_one(LargeFigures).show(drawing.figures(job, row, system, uplift=uplift))
        so_far = self.playing is not None
        self.query_one(Picture).show(
            lambda width, height: drawing.draw(
                job, done, selected, system, uplift=uplift, width=width, height=height, so_far=so_far
            ),
        )

    def _spacing(self, column: Column, done: SpacingStudy) -> int:
        """The selected step; at first the comparison's spacing, or the one most like it, or the stated place."""
        if self.selected is None:
            self.selected = row_of(done, column) if self.varied == "spacing" else 0
        self.selected = min(self.selected, len(done.rows) - 1)
        return self.selected

    def _move(self, step: int) -> None:
        done = self._study()
        if done and done.rows and self.selected is not None:
            self.selected = max(0, min(len(done.rows) - 1, self.selected + step))
            self.show(self.state)

    def action_vary(self) -> None:
        """Move the array across the seams, or return to the spacings."""
        lesson = self.state.lesson
        if self.varied == "spacing" and lesson and lesson.asks_about_places:
            self.notify(PLACES_ASKED, severity="warning", markup=False)
            return
        self._stop_playing()
        self.varied = "place" if self.varied == "spacing" else "spacing"
        self.selected = self.shown = None
        self.show(self.state)

    def action_closer(self) -> None:
        """Move the attachments closer together, or the array back."""
        self._stop_playing()
        self._move(-1)

    def action_wider(self) -> None:
        """Move the attachments farther apart, or the array on."""
        self._stop_playing()
        self._move(1)

    def action_play(self) -> None:
        """Show step after step from the first on; again stops it."""
        done = self._study()
        if self._stop_playing() or done is None or not done.rows:
            return
        self.selected, self.playing = 0, self.set_interval(PLAY_PACE, self._play_on)
        self.show(self.state)

    def _play_on(self) -> None:
        """The next step; the last one ends it."""
        done = self._study()
        if done is None or self.selected is None or self.selected >= len(done.rows) - 1:
            self._stop_playing()
        else:
            self._move(1)

    def _stop_playing(self) -> bool:
        """True if it was playing; then the whole chart is shown again."""
        timer, self.playing = self.playing, None
        if timer is None:
            return False
        timer.stop()
        self.show(self.state)
        return True

    def on_screen_suspend(self) -> None:
        """Nothing plays unseen."""
        self._stop_playing()

    def action_uplift(self) -> None:
        """Show uplift."""
        self.is_uplift = True
        self.show(self.state)

    def action_down_load(self) -> None:
        """Show down loads."""
        self.is_uplift = False
        self.show(self.state)

    def question(self) -> Question:
        """The controlling component at the spacing or place shown."""
        done = self._study()
        if done is None or not done.rows or self.state.column is None:
            return super().question()
        return Question(self.state.column.id, "weakest_link", varied=self.varied, number=self.selected or 0)

    def help_text(self) -> Content:
        """The parts of the picture."""
        return Content(
            "The same array, its attachments moved apart one step at a time. Every pattern is uniform, without single "
            "attachments added.\n\n"
            "The picture is one row from the side: the row with the largest load. Each arrow is the load of one "
            "attachment on the roof, to one scale for all spacings; ↑ shows uplift, ↓ down load. Dots mark the "
            "fastenings of the roof under a load.\n\n"
            "The bars show the utilisation of each component that changes with the spacing; the tick marks 1.00. In "
            "the chart ○ is the rail, rack or module frame, ● the roof (seam or rib, and its fastenings), against the "
            "spacing. The line is the limit of 1.00, and the marks under it show how far each of the two holds.\n\n"
            "Space moves the attachments apart step by step; the chart grows with them, and each limit appears once it "
            "is passed.\n\n"
            "x keeps the spacing and moves the whole array instead, from where it is to the next seam, or to the next "
            "purlin if rails run up the slope; space plays that too. x again returns to the spacings.\n\n"
            "w shows the calculation of the controlling component at the spacing or place shown."
        )


def _studied(comparison: Comparison, varied: Varied, method: str, tell: ProgressListener) -> SpacingStudy:
    """The study of one method at all its spacings, or at all places of its array."""
    column = comparison.column(method)
    if varied == "place" and column:
        return moved_study(comparison, column, tell)
    (found,) = study(comparison.scenario, (method,), tell)
    return found

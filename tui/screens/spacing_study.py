"""Spacing study: utilisation of each component as the attachments move apart. Legible from the back of a room."""

from __future__ import annotations

from typing import ClassVar

from textual import work
from textual.app import ComposeResult
from textual.binding import BindingType
from textual.containers import Horizontal, Vertical
from textual.content import Content
from textual.events import Resize
from textual.timer import Timer
from textual.widgets import Digits

from engine.common.progress import SearchStopped
from engine.comparison.compare import Column, Comparison
from engine.studies.spacing import SpacingStudy, row_of, study
from tui.model.cancellation import until_cancelled
from tui.model.commands import Command, bindings
from tui.model.internal_error import internal_error
from tui.model.messages import Studied
from tui.model.state import COMPUTING, Question
from tui.render import spacing as drawing
from tui.render.method_tabs import names, nothing_to_show
from tui.render.styles import MUTED
from tui.screens.view import View
from tui.widgets.picture import Picture
from tui.widgets.words import Words

PLAY_PACE = 1.2
"""Time for which each spacing is shown while it plays [s]."""

LARGE_FIGURES_HEIGHT = 40
"""Height from which the figures are shown large above the picture."""


class SpacingStudyScreen(View):
    """All spacings of one method are computed once, in a worker; the arrows select one of them."""

    NAME = "Spacing study"
    OWN_COMMANDS = (
        Command("closer", "left", "Closer", "Move the attachments closer together", "Closer"),
        Command("wider", "right", "Wider", "Move the attachments farther apart", "Wider"),
        Command("uplift", "up", "Uplift", "Show the largest uplift at each attachment", "Uplift"),
        Command("down_load", "down", "Down load", "Show the largest down load at each attachment", "Down"),
        Command("play", "space", "Play", "Move the attachments apart step by step; press again to stop", "Play"),
    )
    HIDDEN_IN_LESSON = ("compare",)
    BINDINGS: ClassVar[list[BindingType]] = bindings(OWN_COMMANDS)
    CSS_PATH = "spacing_study.tcss"

    is_uplift = True
    selected: int | None = None
    method = ""
    playing: Timer | None = None
    shown: Comparison | None = None
    """The comparison whose study is on the screen; it stays until the next study is ready."""

    def body(self) -> ComposeResult:
        """The methods, large figures if there is room, and the picture."""
        yield Words(id="methods")
        with Horizontal(id="large", classes="figures"):
            for _ in range(4):
                with Vertical():
                    yield Digits()
                    yield Words()
        yield Picture()

    def on_resize(self, event: Resize) -> None:
        """Large figures only if there is room."""
        self.set_class(event.size.height >= LARGE_FIGURES_HEIGHT, "roomy")

    def draw(self, comparison: Comparison) -> None:
        """Show the study of the selected method; start it if there is none yet."""
        column = self.state.column
        self.query_one("#methods", Words).show(names(comparison, column) + Content.styled(" · uniform only", MUTED))
        if column is None:
            return
        if column.id != self.method:
            self.method, self.selected, self.shown = column.id, None, None
        done = self._study()
        if done is None:
            if self.shown is None:
                self._show_sentence(COMPUTING)
            self._run_study(comparison, column.id)
        elif not done.rows:
            self.shown = comparison
            self.query_one(Picture).show(lambda width, height: nothing_to_show(column, width))
            self.set_class(False, "large")
        else:
            self._show_spacing(comparison, column, done)

    def _study(self) -> SpacingStudy | None:
        return self.state.studies.get(self.state.column.id) if self.state.column else None

    def stale_mark(self) -> str:
        """The mark also while the study of a new comparison is computed."""
        is_older = self.shown is not None and self.shown is not self.state.comparison
        return self.state.stale_mark or (COMPUTING if is_older else "")

    @work(thread=True, exclusive=True, group="study")
    def _run_study(self, comparison: Comparison, method: str) -> None:
        try:
            (found,) = study(comparison.scenario, (method,), until_cancelled())
        except SearchStopped:
            return
        except Exception as failure:  # the app stays open
            self.post_message(Studied(comparison, method, None, internal_error(failure)))
            return
        self.post_message(Studied(comparison, method, found))

    def on_studied(self, message: Studied) -> None:
        """Say that a study failed; one that is ready comes with the next state."""
        if message.study is None:
            self.shown = None
            self._show_sentence(message.sentence)

    def show_message(self, words: str) -> None:
        """Show a sentence in place of the study."""
        self._show_sentence(words)
        self.method = ""
        self.query_one("#methods", Words).show()

    def _show_sentence(self, words: str) -> None:
        super().show_message(words)
        self.set_class(False, "large")

    def _show_spacing(self, comparison: Comparison, column: Column, done: SpacingStudy) -> None:
        selected, system, uplift = self._spacing(column, done), self.state.system, self.is_uplift
        self.shown = comparison
        job, row = comparison.scenario.job, done.rows[selected]
        self.set_class(True, "large")
        for block, (figure, words) in zip(
            self.query("#large Vertical"), drawing.figures(job, row, system, uplift=uplift), strict=True
        ):
            block.query_one(Digits).update(figure)
            block.query_one(Words).show(words)
        so_far = self.playing is not None
        self.query_one(Picture).show(
            lambda width, height: drawing.draw(
                job, done, selected, system, uplift=uplift, width=width, height=height, so_far=so_far
            ),
        )

    def _spacing(self, column: Column, done: SpacingStudy) -> int:
        """The selected spacing; at first the comparison's, or the one nearest to its number of attachments."""
        if self.selected is None:
            self.selected = row_of(done, column)
        self.selected = min(self.selected, len(done.rows) - 1)
        return self.selected

    def _move(self, step: int) -> None:
        done = self._study()
        if done and done.rows and self.selected is not None:
            self.selected = max(0, min(len(done.rows) - 1, self.selected + step))
            self.show(self.state)

    def action_closer(self) -> None:
        """Move the attachments closer together."""
        self._stop_playing()
        self._move(-1)

    def action_wider(self) -> None:
        """Move the attachments farther apart."""
        self._stop_playing()
        self._move(1)

    def action_play(self) -> None:
        """Move the attachments apart step by step, from the closest on; again stops it."""
        done = self._study()
        if self._stop_playing() or done is None or not done.rows:
            return
        self.selected, self.playing = 0, self.set_interval(PLAY_PACE, self._play_on)
        self.show(self.state)

    def _play_on(self) -> None:
        """The next spacing; the last one ends it."""
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
        """The controlling component at the spacing shown."""
        done = self._study()
        if done is None or not done.rows or self.state.column is None:
            return super().question()
        return Question(self.state.column.id, "weakest_link", spacing=self.selected)

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
            "w shows the calculation of the controlling component at the spacing shown."
        )

"""Span study: move the attachments apart and see what gives out. Made to be read from the back of a room."""

from __future__ import annotations

import logging
from typing import ClassVar

from textual import work
from textual.app import ComposeResult
from textual.binding import BindingType
from textual.containers import Horizontal, Vertical
from textual.content import Content
from textual.events import Resize
from textual.widgets import Digits, Static

from engine.common.progress import SearchStopped
from engine.comparison.compare import Column, Comparison
from engine.studies.spacing import SpacingStudy, study
from tui.model.cancellation import while_wanted
from tui.model.commands import Command, bindings
from tui.model.messages import Studied
from tui.model.state import Question
from tui.render import spacing as drawing
from tui.render.method_tabs import names, nothing_to_show
from tui.render.styles import MUTED
from tui.screens.view import View
from tui.widgets.picture import Picture

ROOMY = 40
"""From this height on the figures stand large above the picture."""


class SpanStudy(View):
    """All spacings of one method are worked out once, away from the screen; the arrows only move among them."""

    NAME = "Span study"
    OWN = (
        Command("left", "closer", "Closer", "Move the attachments closer together", "Closer"),
        Command("right", "wider", "Wider", "Move the attachments farther apart", "Wider"),
        Command("up", "pull", "Pull", "Show the largest pull at each attachment", "Pull"),
        Command("down", "push", "Push", "Show the largest push at each attachment", "Push"),
    )
    YIELDS = ("show_comparison",)
    BINDINGS: ClassVar[list[BindingType]] = bindings(OWN)
    CSS_PATH = "span_study.tcss"

    pulling = True
    chosen: int | None = None
    method = ""
    stands = False
    """Whether a study of the method is on the screen: it stays until the next one is worked out."""

    def body(self) -> ComposeResult:
        """The methods, the figures at large where there is room, and the picture."""
        yield Static(id="methods", markup=False)
        with Horizontal(id="large"):
            for _ in range(4):
                with Vertical():
                    yield Digits()
                    yield Static(markup=False)
        yield Picture()

    def on_resize(self, event: Resize) -> None:
        """Large figures only where there is room."""
        self.set_class(event.size.height >= ROOMY, "roomy")

    def draw(self, comparison: Comparison) -> None:
        """Show the chosen method's study; begin it where it is not there yet."""
        column = self.state.column
        self.query_one("#methods", Static).update(
            names(comparison, column) + Content.styled(" · even patterns only", MUTED)
        )
        if column is None:
            return
        if column.id != self.method:
            self.method, self.chosen, self.stands = column.id, None, False
        done = self._study()
        if done is None:
            if not self.stands:
                self._say("working …")
            self._work(comparison, column.id)
        elif not done.rows:
            self.query_one(Picture).show(lambda width, height: nothing_to_show(column, width))
            self.set_class(False, "large")
        else:
            self._show_spacing(comparison, column, done)

    def _study(self) -> SpacingStudy | None:
        return self.state.studies.get(self.state.column.id) if self.state.column else None

    @work(thread=True, exclusive=True, group="study")
    def _work(self, comparison: Comparison, method: str) -> None:
        try:
            (found,) = study(comparison.scenario, (method,), while_wanted())
        except SearchStopped:
            return
        except Exception:  # whatever goes wrong, the bench stays open
            logging.getLogger(__name__).exception("the study failed")
            self.post_message(Studied(comparison, method, None))
            return
        self.post_message(Studied(comparison, method, found))

    def on_studied(self, message: Studied) -> None:
        """Say where a study failed; one that was found comes with the next state."""
        if message.study is None:
            self._say("This could not be computed.")

    def say(self, words: str) -> None:
        """No method, and no figures at large."""
        self._say(words)
        self.method = ""
        self.query_one("#methods", Static).update()

    def _say(self, words: str) -> None:
        super().say(words)
        self.set_class(False, "large")

    def _show_spacing(self, comparison: Comparison, column: Column, done: SpacingStudy) -> None:
        chosen, system, pull = self._row(column, done), self.state.system, self.pulling
        self.stands = True
        job, row = comparison.scenario.job, done.rows[chosen]
        self.set_class(True, "large")
        for block, (figure, words) in zip(
            self.query("#large Vertical"), drawing.figures(job, row, system, pull=pull), strict=True
        ):
            block.query_one(Digits).update(figure)
            block.query_one(Static).update(words)
        self.query_one(Picture).show(
            lambda width, height: drawing.draw(job, done, chosen, system, pull=pull, width=width, height=height),
        )

    def _row(self, column: Column, done: SpacingStudy) -> int:
        """The chosen spacing; at first the comparison's, or the one that comes nearest to its number of attachments."""
        if self.chosen is None:
            label, count = (
                (column.design.spacing_label, len(column.design.layout.attachments)) if column.design else ("", 0)
            )
            apart = [(row.words != label, abs(row.attachments - count)) for row in done.rows]
            self.chosen = apart.index(min(apart))
        self.chosen = min(self.chosen, len(done.rows) - 1)
        return self.chosen

    def _move(self, step: int) -> None:
        done = self._study()
        if done and done.rows and self.chosen is not None:
            self.chosen = max(0, min(len(done.rows) - 1, self.chosen + step))
            self.show(self.state)

    def action_closer(self) -> None:
        """Move the attachments closer together."""
        self._move(-1)

    def action_wider(self) -> None:
        """Move the attachments farther apart."""
        self._move(1)

    def action_pull(self) -> None:
        """Show pulls."""
        self.pulling = True
        self.show(self.state)

    def action_push(self) -> None:
        """Show pushes."""
        self.pulling = False
        self.show(self.state)

    def question(self) -> Question:
        """The link that is used most at the spacing shown."""
        done = self._study()
        if done is None or not done.rows or self.state.column is None:
            return super().question()
        return Question(self.state.column.id, "weakest_link", spacing=self.chosen)

    def help_text(self) -> Content:
        """What the picture shows."""
        return Content(
            "The same array, its attachments moved apart one step at a time; every pattern is even, without single points.\n\n"
            "The picture is one row from the side: the one with the largest load. Each arrow is what one attachment brings to the roof, "
            "to one scale for all spacings; ↑ shows pulls, ↓ pushes. Dots mark what holds the roof where a load comes down.\n\n"
            "The bars say how much of each link is used; the tick is all it may carry. In the chart ○ is what carries the modules, "
            "● the roof (seam or rib, and what holds it down), against the spacing; the line is all they may carry, and the marks beneath "
            "it say how far each of the two reaches.\n\n"
            "w explains the link that is used most at the spacing shown."
        )

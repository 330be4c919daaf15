"""Headroom: how far wind and snow may go, what each link has to spare, and what each input changes."""

from __future__ import annotations

from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import BindingType
from textual.content import Content
from textual.events import Click

from engine.common.progress import ProgressListener
from engine.comparison.compare import Comparison
from engine.studies.headroom import headroom
from engine.studies.sensitivity import sensitivity
from tui.model.commands import Command, bindings
from tui.model.messages import InputRequested, WhyRequested
from tui.model.state import Question, State
from tui.render import headroom as drawing
from tui.screens.computing import ComputedView
from tui.screens.view import GO_TO_INPUT, METHOD_KEYS, WHY_KEY
from tui.widgets.picture import Picture


class HeadroomScreen(ComputedView[drawing.Found]):
    """Rows with bars; up and down go from row to row, a click too."""

    NAME = "Headroom"
    CSS_PATH = "headroom.tcss"
    OWN_COMMANDS: ClassVar[tuple[Command, ...]] = (
        *METHOD_KEYS,
        Command("margin_above", "up", "Row above", "Go to the row above"),
        Command("margin_below", "down", "Row below", "Go to the row below", "Row"),
        WHY_KEY,
        GO_TO_INPUT,
    )
    BINDINGS: ClassVar[list[BindingType]] = bindings(OWN_COMMANDS)

    def __init__(self, state: State) -> None:
        super().__init__(state)
        self._number = 0
        self._sheet = drawing.Sheet((), Content(""))

    def body(self) -> ComposeResult:
        """All rows as one picture."""
        yield Picture()

    def find(self, comparison: Comparison, tell: ProgressListener) -> drawing.Found:
        """The margins, which are soon there, then the effect of every input."""
        margins = headroom(comparison, tell)
        self.show_part(comparison, drawing.Found(comparison, margins))
        return drawing.Found(comparison, margins, sensitivity(comparison, tell))

    def show_found(self, found: drawing.Found) -> None:
        """Show the method chosen, with the row in focus."""
        column, system = found.comparison.column(self.state.method) or found.comparison.columns[0], self.state.system

        def draw(width: int, height: int) -> Content:
            self._sheet = drawing.draw(found, column, self._number, system, width, height)
            return self._sheet.content

        self.query_one(Picture).show(draw)

    @property
    def _row(self) -> drawing.Row | None:
        """The row in focus."""
        rows = self._sheet.rows
        return rows[min(self._number, len(rows) - 1)] if rows else None

    def _go_to(self, number: int) -> None:
        if self.found and self._sheet.rows:
            self._number = number % len(self._sheet.rows)
            self.show_found(self.found)

    def action_margin_above(self) -> None:
        """Go to the row above."""
        self._go_to(self._number - 1)

    def action_margin_below(self) -> None:
        """Go to the row below."""
        self._go_to(self._number + 1)

    def on_click(self, event: Click) -> None:
        """Go to the row under the pointer; if it is in focus, show its calculation as enter does."""
        place = event.get_content_offset(self.query_one(Picture))
        number = self._sheet.row_at(place.x, place.y) if place else None
        if number is not None and number == self._number:
            self.post_message(WhyRequested())
        elif number is not None:
            self._go_to(number)

    def action_go_to_input(self) -> None:
        """Go to the input behind the row in focus."""
        if self._row and self._row.path:
            self.post_message(InputRequested(self._row.path))

    def question(self) -> Question:
        """The utilisation of the link in focus, or the verdict of the row's method."""
        return Question(self._row.method, self._row.link) if self._row else super().question()

    def help_text(self) -> Content:
        """The parts of the picture."""
        return Content(
            "With the layout as it is: the wind and the snow at which the first link reaches its limit, then what each "
            "link has to spare. A bar is the part of the limit that is used; the tick marks 1.00.\n\n"
            "Then each main input lowered and raised by the step beside its name. The line goes from one utilisation "
            "to the other, ● is the utilisation now. The attachments are those of a new layout; * marks one that does "
            "not hold. Inputs that change nothing are only named.\n\n"
            "Enter shows the calculation of the row in focus, g goes to its input."
        )

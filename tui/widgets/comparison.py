"""The figures as scrolling text with one in focus: plain text paints far faster than a table widget."""

from __future__ import annotations

from collections.abc import Mapping
from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import VerticalScroll
from textual.events import Click
from textual.geometry import Region, Size

from engine.comparison.compare import Comparison
from engine.comparison.figure import UTILISATION, Figure
from tui.model.messages import MethodSelected, WhyRequested
from tui.model.state import State
from tui.render import comparison as drawing
from tui.widgets.drawn_anew import DrawnAnew
from tui.widgets.words import Words


class ComparisonPane(DrawnAnew, VerticalScroll):
    """Every figure of every method; one is in focus: a row or a folded group here, a method in the state."""

    DEFAULT_CSS = """
    ComparisonPane { scrollbar-gutter: stable; scrollbar-size-vertical: 1; layers: text heads; }
    ComparisonPane > Static { width: 1fr; height: auto; layer: text; }
    ComparisonPane > #heads { layer: heads; dock: top; height: 1; background: $background; }
    """

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("up", "move(-1)", show=False),
        Binding("down", "move(1)", show=False),
        Binding("left", "turn(-1)", show=False),
        Binding("right", "turn(1)", show=False),
        Binding("home", "move(-1000)", show=False),
        Binding("end", "move(1000)", show=False),
        Binding("enter", "open", show=False),
    ]
    can_focus = True

    def __init__(self, *, id: str, classes: str) -> None:
        super().__init__(id=id, classes=classes)
        self._state: State | None = None
        self._sentence = ""
        self._parts: Mapping[str, bool] = {}
        self._folded = frozenset[str]()
        self._folded_for: Size | None = None
        self._is_folded_by_hand = False
        self._at: tuple[str, str] = (UTILISATION, "")
        self._sheet = drawing.Sheet((), (), 0)
        self._drawn_for: tuple[object, ...] = ()

    def compose(self) -> ComposeResult:
        """One block of text, and above it the methods' names, which stay while it scrolls."""
        yield Words(classes="figures")
        yield Words(id="heads")

    @property
    def row(self) -> Figure | None:
        """The row in focus; None at a folded group, or without figures."""
        return self._entries[self._number].figure if self._entries else None

    @property
    def _entries(self) -> tuple[drawing.Entry, ...]:
        return self._sheet.entries if not self._sentence else ()

    @property
    def _number(self) -> int:
        """Number of the entry in focus; the first of its group if it is not in sight."""
        places = [(entry.group, entry.figure.key if entry.figure else "") for entry in self._entries]
        if self._at in places:
            return places.index(self._at)
        return next((number for number, (group, _) in enumerate(places) if group == self._at[0]), 0)

    def show(self, state: State, sentence: str, *, with_notes: bool, with_loads: bool) -> None:
        """Show the comparison of a state, with notes and loads below it or without; or a sentence in its place."""
        self._state, self._sentence = state, sentence
        self._parts = {"with_notes": with_notes, "with_loads": with_loads}
        self._draw()

    def _draw(self) -> None:
        state, width = self._state, self.scrollable_content_region.width
        if state is None or not (width or self._sentence):
            return
        self.query_one("#heads").display = not self._sentence
        if state.comparison is None or self._sentence:
            self.query_one(Words).show(self._sentence)
            self.query_one("#heads", Words).show()
            return
        self._draw_sheet(state, state.comparison, width)
        lines = self._sheet.lines
        if self.has_focus and state.column:
            lines = drawing.marked(self._sheet, self._number, state.column.id, state.comparison, state.system, width)
        self.query_one(Words).show_lines(lines)
        self.query_one("#heads", Words).show(lines[0])

    def _draw_sheet(self, state: State, comparison: Comparison, width: int) -> None:
        """Draw the figures anew if they would look different; moving from figure to figure draws one row."""
        room = self.scrollable_content_region.size
        if not self._is_folded_by_hand and room != self._folded_for:
            self._folded_for = room
            self._folded = drawing.folded_to_fit(comparison, state.system, width, room.height)
        drawn_for = (comparison, state.baseline, state.system, width, self._folded, *self._parts.values())
        if drawn_for != self._drawn_for:
            self._drawn_for = drawn_for
            self._sheet = drawing.draw(
                comparison, state.baseline, state.system, width, folded=self._folded, **self._parts
            )

    def _go_to(self, number: int) -> None:
        """Put an entry in focus, clear of the names above."""
        entry = self._entries[number]
        self._at = (entry.group, entry.figure.key if entry.figure else "")
        self._draw()
        if number == 0:
            self.scroll_home(animate=False)
        else:
            self.scroll_to_region(Region(0, entry.line - 1, 1, 3), animate=False, force=True, immediate=True)

    def action_move(self, steps: int) -> None:
        """Go to a row above or below; past the last one the notes scroll."""
        if not self._entries:
            return
        to = max(0, min(len(self._entries) - 1, self._number + steps))
        if to == self._number:
            self.scroll_relative(y=max(-5, min(5, steps)), animate=False)
        else:
            self._go_to(to)

    def action_page_down(self) -> None:
        """Scroll a page down, less the line that the methods' names hide."""
        self.scroll_relative(y=self.scrollable_content_region.height - 1, animate=False)

    def action_page_up(self) -> None:
        """Scroll a page up."""
        self.scroll_relative(y=1 - self.scrollable_content_region.height, animate=False)

    def action_turn(self, steps: int) -> None:
        """Select the method on the left or right."""
        if self._state and self._state.comparison and self._state.column:
            ids = [column.id for column in self._state.comparison.columns]
            to = ids.index(self._state.column.id) + steps
            if 0 <= to < len(ids):
                self.post_message(MethodSelected(ids[to]))

    def action_open(self) -> None:
        """Show the calculation of the figure in focus, or unfold the group."""
        if self.row is None and self._entries:
            self.fold()
        else:
            self.post_message(WhyRequested())

    def fold(self) -> None:
        """Fold the group in focus, or unfold it."""
        if self._entries:
            self._refold(self._folded ^ {self._entries[self._number].group})

    def fold_all(self) -> None:
        """Unfold every group; if none is folded, fold all."""
        self._refold(frozenset() if self._folded else frozenset(drawing.groups()))

    def _refold(self, folded: frozenset[str]) -> None:
        self._folded, self._is_folded_by_hand = folded, True
        self._draw()
        if self._entries:
            self.call_after_refresh(lambda: self._go_to(self._number))

    def show_notes(self) -> None:
        """Scroll to the notes below the figures."""
        self.scroll_to(y=self._sheet.notes, animate=False)

    def on_click(self, event: Click) -> None:
        """Put the figure under the pointer in focus; a group folds or unfolds."""
        line = event.screen_y - self.query_one(Words).region.y
        above = [number for number, entry in enumerate(self._entries) if entry.line <= line]
        if above and line < self._sheet.notes:
            self._go_to(above[-1])
            if self.row is None:
                self.fold()

"""The comparison as scrolling text with one figure in focus: plain text paints far faster than a table widget."""

from __future__ import annotations

from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import VerticalScroll
from textual.events import Blur, Focus, Resize
from textual.geometry import Region

from engine.comparison.compare import Comparison
from engine.comparison.figure import Figure
from engine.comparison.figures import table_figures
from tui.model.messages import MethodSelected, WhyRequested
from tui.model.state import State
from tui.render import comparison as drawing
from tui.widgets.words import Words


class ComparisonPane(VerticalScroll):
    """The methods side by side; one figure is in focus: a row here, a method in the state."""

    DEFAULT_CSS = """
    ComparisonPane { scrollbar-gutter: stable; scrollbar-size-vertical: 1; padding: 0 1; }
    ComparisonPane { layers: text heads; }
    ComparisonPane > Static { width: 1fr; height: auto; layer: text; }
    ComparisonPane > #heads { layer: heads; dock: top; height: 1; background: $background; display: none; }
    ComparisonPane.scrolled > #heads { display: block; }
    """

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("up", "move(-1)", show=False),
        Binding("down", "move(1)", show=False),
        Binding("left", "turn(-1)", show=False),
        Binding("right", "turn(1)", show=False),
        Binding("home", "move(-1000)", show=False),
        Binding("end", "move(1000)", show=False),
        Binding("enter", "why", show=False),
    ]
    can_focus = True

    def __init__(self, *, id: str) -> None:
        super().__init__(id=id)
        self._state: State | None = None
        self._rows: tuple[Figure, ...] = ()
        self._at = 0
        self._sheet = drawing.Sheet((), 0, ())
        self._drawn_for: tuple[object, ...] = ()

    def compose(self) -> ComposeResult:
        """One block of text, and above it the methods' names while their own line is scrolled away."""
        yield Words(classes="figures")
        yield Words(id="heads")

    @property
    def row(self) -> Figure | None:
        """The row in focus."""
        return self._rows[self._at] if self._rows else None

    def show(self, state: State) -> None:
        """Show the comparison of a state, or why there is none."""
        self._state = state
        self._rows = table_figures() if state.comparison else ()
        self._draw()

    def on_resize(self, event: Resize) -> None:
        """Use the room there is."""
        self._draw()

    def on_focus(self, event: Focus) -> None:
        """Mark the figure in focus."""
        self._draw()

    def on_blur(self, event: Blur) -> None:
        """Remove the mark."""
        self._draw()

    def _draw(self) -> None:
        state, width = self._state, self.scrollable_content_region.width
        if state is None or not width:
            return
        if state.comparison is None:
            self.query_one(Words).show(state.no_figures_reason)
            return
        self._draw_sheet(state, state.comparison, width)
        lines = self._sheet.lines
        if self.has_focus and state.column:
            lines = drawing.marked(self._sheet, self._at, state.column.id, state.comparison, state.system, width)
        self.query_one(Words).show_lines(lines)
        self.query_one("#heads", Words).show(lines[self._sheet.heads])

    def _draw_sheet(self, state: State, comparison: Comparison, width: int) -> None:
        """Draw the comparison anew if it would look different; moving from figure to figure draws one row."""
        in_lesson = state.lesson is not None
        drawn_for = (comparison, state.baseline, state.system, width, in_lesson)
        if drawn_for != self._drawn_for:
            self._drawn_for = drawn_for
            self._sheet = drawing.draw(comparison, state.baseline, state.system, width, covered=in_lesson)

    def action_move(self, steps: int) -> None:
        """Go to a row above or below; past the last one the flags scroll, past the first the heading."""
        to = max(0, min(len(self._rows) - 1, self._at + steps))
        if to == self._at:
            self.scroll_relative(y=max(-5, min(5, steps)), animate=False)
            return
        self._at = to
        self._draw()
        if to == 0:
            self.scroll_home(animate=False)
        else:
            self.scroll_to_region(
                Region(0, self._sheet.starts[to] - 1, 1, 3), animate=False, force=True, immediate=True
            )  # clear of the names above

    def action_page_down(self) -> None:
        """Scroll a page down, less the line that the methods' names hide."""
        self.scroll_relative(y=self.scrollable_content_region.height - 1, animate=False)

    def action_page_up(self) -> None:
        """Scroll a page up."""
        self.scroll_relative(y=1 - self.scrollable_content_region.height, animate=False)

    def watch_scroll_y(self, old_value: float, new_value: float) -> None:
        """Keep the methods' names visible."""
        super().watch_scroll_y(old_value, new_value)
        is_scrolled = new_value > self._sheet.heads
        if is_scrolled != self.has_class("scrolled"):
            self.set_class(is_scrolled, "scrolled")
            self.query_one(Words).refresh()  # the framework forgets a scroll that comes with a layout

    def action_turn(self, steps: int) -> None:
        """Select the method on the left or right."""
        if self._state and self._state.comparison and self._state.column:
            ids = [column.id for column in self._state.comparison.columns]
            to = ids.index(self._state.column.id) + steps
            if 0 <= to < len(ids):
                self.post_message(MethodSelected(ids[to]))

    def action_why(self) -> None:
        """Show the calculation of the figure in focus."""
        self.post_message(WhyRequested())

"""The comparison as a scroll of text that is walked figure by figure: plain text paints far faster than a table widget."""

from __future__ import annotations

from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import VerticalScroll
from textual.content import Content
from textual.events import Blur, Focus, Resize
from textual.geometry import Region
from textual.widgets import Static

from engine.comparison.figure import Figure
from engine.comparison.figures import table_figures
from tui.model.messages import Asked, Chose
from tui.model.state import State
from tui.render import comparison as drawing


class ComparisonPane(VerticalScroll):
    """The methods side by side; one figure is in focus: a row here, a method in the state."""

    DEFAULT_CSS = """
    ComparisonPane { scrollbar-gutter: stable; scrollbar-size-vertical: 1; padding: 0 1; }
    ComparisonPane { layers: text heads; }
    ComparisonPane > Static { width: 1fr; height: auto; layer: text; }
    ComparisonPane > #heads { layer: heads; dock: top; height: 1; background: $background; display: none; }
    ComparisonPane.scrolled > #heads { display: block; }
    ComparisonPane.stale { border-top: heavy $error; border-title-color: $text-error; }
    ComparisonPane.stale > Static { opacity: 60%; }
    """

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("up", "walk(-1)", show=False),
        Binding("down", "walk(1)", show=False),
        Binding("left", "turn(-1)", show=False),
        Binding("right", "turn(1)", show=False),
        Binding("home", "walk(-1000)", show=False),
        Binding("end", "walk(1000)", show=False),
        Binding("enter", "ask", show=False),
    ]
    can_focus = True

    def __init__(self, *, id: str) -> None:
        super().__init__(id=id)
        self._state: State | None = None
        self._rows: tuple[Figure, ...] = ()
        self._at = 0
        self._sheet = drawing.Sheet((), 0, ())

    def compose(self) -> ComposeResult:
        """One block of text, and above it the methods' names while their own line is out of sight."""
        yield Static(markup=False)
        yield Static(id="heads", markup=False)

    @property
    def row(self) -> Figure | None:
        """The row in focus."""
        return self._rows[self._at] if self._rows else None

    def show(self, state: State) -> None:
        """Show a state's comparison, or why there is none."""
        self._state = state
        self._rows = table_figures() if state.comparison else ()
        stale = bool(self._rows and state.problems)
        self.set_class(stale, "stale")
        self.border_title = "from the last input that could be read" if stale else ""
        self._draw()

    def on_resize(self, event: Resize) -> None:
        """Use the room there is."""
        self._draw()

    def on_focus(self, event: Focus) -> None:
        """Show which figure is in focus."""
        self._draw()

    def on_blur(self, event: Blur) -> None:
        """No figure is in focus."""
        self._draw()

    def _draw(self) -> None:
        state, width = self._state, self.scrollable_content_region.width
        if state is None or not width:
            return
        if state.comparison is None:
            self.query_one(Static).update(state.waiting)
            return
        cursor = (self._at, state.column.id) if self.has_focus and state.column else None
        self._sheet = drawing.draw(state.comparison, state.baseline, state.system, width, cursor)
        self.query_one(Static).update(Content("\n").join(self._sheet.lines))
        self.query_one("#heads", Static).update(self._sheet.lines[self._sheet.heads])

    def action_walk(self, steps: int) -> None:
        """Go to a row above or below; past the last one the flags scroll by, past the first the heading."""
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
                Region(0, self._sheet.starts[to] - 1, 1, 3), animate=False, force=True
            )  # clear of the names above

    def action_page_down(self) -> None:
        """A page on; the line that the methods' names hide comes with it."""
        self.scroll_relative(y=self.scrollable_content_region.height - 1, animate=False)

    def action_page_up(self) -> None:
        """A page back."""
        self.scroll_relative(y=1 - self.scrollable_content_region.height, animate=False)

    def watch_scroll_y(self, old_value: float, new_value: float) -> None:
        """Keep the methods' names in sight."""
        super().watch_scroll_y(old_value, new_value)
        self.set_class(new_value > self._sheet.heads, "scrolled")

    def action_turn(self, steps: int) -> None:
        """Turn to the method on the left or right."""
        if self._state and self._state.comparison and self._state.column:
            ids = [column.id for column in self._state.comparison.columns]
            to = ids.index(self._state.column.id) + steps
            if 0 <= to < len(ids):
                self.post_message(Chose(ids[to]))

    def action_ask(self) -> None:
        """Ask how the figure in focus came about."""
        self.post_message(Asked())

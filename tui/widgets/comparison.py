"""The comparison as a scroll of text: plain text paints far faster than a table widget."""

from __future__ import annotations

from textual.app import ComposeResult
from textual.containers import VerticalScroll
from textual.events import Resize
from textual.widgets import Static

from engine.comparison import Comparison
from engine.units import System
from tui import text


class ComparisonPane(VerticalScroll):
    """The methods side by side."""

    DEFAULT_CSS = """
    ComparisonPane { scrollbar-gutter: stable; scrollbar-size-vertical: 1; padding: 0 1; }
    ComparisonPane > Static { width: 1fr; height: auto; }
    ComparisonPane.stale { border-top: heavy $error; border-title-color: $text-error; }
    ComparisonPane.stale > Static { opacity: 60%; }
    """

    can_focus = True

    def __init__(self, *, id: str) -> None:
        super().__init__(id=id)
        self._shown: tuple[Comparison, System] | None = None

    def compose(self) -> ComposeResult:
        """One block of text."""
        yield Static("working …", markup=False)

    def show(self, comparison: Comparison, system: System) -> None:
        """Show a comparison."""
        self._shown = comparison, system
        self._draw()

    def mark_stale(self, stale: bool) -> None:
        """Say that what is shown is from the last input that could be read."""
        self.set_class(stale, "stale")
        self.border_title = "from the last input that could be read" if stale else ""

    def on_resize(self, event: Resize) -> None:
        """Use the room there is."""
        self._draw()

    def _draw(self) -> None:
        if self._shown and self.size.width:
            comparison, system = self._shown
            self.query_one(Static).update(text.comparison(comparison, system, self.scrollable_content_region.width))

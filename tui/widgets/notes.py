"""The notes of a comparison in a pane of their own."""

from __future__ import annotations

from textual.app import ComposeResult
from textual.containers import VerticalScroll
from textual.events import Resize

from engine.comparison.compare import Comparison
from tui.render.notes import notes
from tui.widgets.words import Words


class NotesPane(VerticalScroll):
    """Warnings, cautions and notes, for the width there is."""

    DEFAULT_CSS = "NotesPane { scrollbar-gutter: stable; } NotesPane Words { height: auto; }"

    def __init__(self, *, id: str, classes: str) -> None:
        super().__init__(id=id, classes=classes)
        self._comparison: Comparison | None = None

    def compose(self) -> ComposeResult:
        """One block of text."""
        yield Words(classes="figures")

    def show(self, comparison: Comparison | None) -> None:
        """Show the notes of a comparison; nothing while there is none."""
        if comparison is not self._comparison:
            self._comparison = comparison
            self._draw()

    def on_resize(self, event: Resize) -> None:
        """Use the room there is."""
        self._draw()

    def _draw(self) -> None:
        width = self.scrollable_content_region.width
        if width or not self._comparison:
            self.query_one(Words).show_lines(notes(self._comparison, width) if self._comparison else [])

"""The notes of a comparison in a pane of their own."""

from __future__ import annotations

from textual.app import ComposeResult
from textual.containers import VerticalScroll
from textual.events import Resize

from engine.comparison.compare import Comparison
from engine.units import System
from tui.render.notes import notes
from tui.widgets.words import Words


class NotesPane(VerticalScroll):
    """Warnings, cautions and notes, for the width there is."""

    DEFAULT_CSS = "NotesPane { scrollbar-gutter: stable; } NotesPane Words { height: auto; }"

    def __init__(self, *, id: str, classes: str) -> None:
        super().__init__(id=id, classes=classes)
        self._shown: tuple[Comparison | None, System] = None, "us"

    def compose(self) -> ComposeResult:
        """One block of text."""
        yield Words(classes="figures")

    def show(self, comparison: Comparison | None, system: System) -> None:
        """Show the notes of a comparison; nothing while there is none."""
        if (comparison, system) != self._shown:
            self._shown = comparison, system
            self._draw()

    def on_resize(self, event: Resize) -> None:
        """Use the room there is."""
        self._draw()

    def _draw(self) -> None:
        width, (comparison, system) = self.scrollable_content_region.width, self._shown
        if width or not comparison:
            self.query_one(Words).show_lines(notes(comparison, width, system) if comparison else [])

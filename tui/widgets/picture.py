"""A widget that draws for the room it has."""

from __future__ import annotations

from collections.abc import Callable

from textual.content import Content
from textual.events import Resize

from tui.widgets.text_lines import TextLines

Draw = Callable[[int, int], Content]
"""Width and height in cells → what is shown."""


class Picture(TextLines):
    """Draws anew whenever its size changes, or what it shows."""

    def __init__(self, *, id: str | None = None) -> None:
        super().__init__(id=id)
        self._draw: Draw | None = None

    def show(self, draw: Draw) -> None:
        """Show what this function draws."""
        self._draw = draw
        self._paint()

    def on_resize(self, event: Resize) -> None:
        """Use the room there is."""
        self._paint()

    def _paint(self) -> None:
        width, height = self.content_size
        if self._draw and width and height:
            self.show_lines(self._draw(width, height).split(allow_blank=True))

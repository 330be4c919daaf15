"""The common part of widgets that draw their text for the room there is, and mark what is selected in them."""

from __future__ import annotations

from abc import abstractmethod


class DrawnAnew:
    """A widget that is drawn anew when its size changes, and when the keys begin or cease to go to it."""

    @abstractmethod
    def _draw(self) -> None:
        """Draw what is shown."""

    def on_resize(self) -> None:
        """Use the room there is."""
        self._draw()

    def on_focus(self) -> None:
        """Mark what is selected."""
        self._draw()

    def on_blur(self) -> None:
        """Mark it less."""
        self._draw()

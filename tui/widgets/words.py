"""Text of a screen that is laid out and painted anew only when it changes."""

from __future__ import annotations

from textual.content import Content
from textual.widgets import Static


class Words(Static):
    """Plain or styled text, never markup."""

    def __init__(self, words: str = "", *, id: str | None = None, classes: str | None = None) -> None:
        super().__init__(words, id=id, classes=classes, markup=False)

    def show(self, words: str | Content = "") -> None:
        """Show other words; the same ones again cost nothing."""
        show_changed(self, words if isinstance(words, Content) else Content(words))


def show_changed(widget: Static, new: Content) -> None:
    """Show what is new; laying out and painting the same again would cost as much."""
    if not (isinstance(widget.content, Content) and widget.content.is_same(new)):
        widget.update(new)

"""Words on a screen."""

from __future__ import annotations

from textual.content import Content

from tui.widgets.text_lines import TextLines


class Words(TextLines):
    """Plain or styled text, never markup."""

    def __init__(self, words: str = "", *, id: str | None = None, classes: str | None = None) -> None:
        super().__init__(id=id, classes=classes)
        self.show(words)

    def show(self, words: str | Content = "") -> None:
        """Show other words; the same ones again cost nothing."""
        self.show_text(words if isinstance(words, Content) else Content(words))

"""A scroll of text that is worked out while the screen is already open."""

from __future__ import annotations

from collections.abc import Callable

from textual import work
from textual.app import ComposeResult
from textual.containers import VerticalScroll
from textual.content import Content
from textual.widgets import Static

from engine.comparison import Comparison
from tui.screens.view import View
from tui.state import State


class Reading(View):
    """Shows what `write` makes of a state."""

    DEFAULT_CSS = """
    Reading VerticalScroll { padding: 0 1; scrollbar-size-vertical: 1; }
    Reading #text { width: auto; height: auto; }
    """

    def __init__(self, state: State, name: str, help_: str, write: Callable[[State], str]) -> None:
        super().__init__(state)
        self.NAME = name  # type: ignore[misc]
        self.help_ = help_
        self.write = write

    def body(self) -> ComposeResult:
        """The text."""
        with VerticalScroll():
            yield Static("working …", id="text", markup=False)

    def draw(self, comparison: Comparison) -> None:
        """Write anew, away from the screen's own thread."""
        self.query_one(VerticalScroll).focus()
        self._work(self.state)

    @work(thread=True, exclusive=True, group="reading")
    def _work(self, state: State) -> None:
        text = self.write(state)
        self.app.call_from_thread(self._show, state, text)

    def _show(self, state: State, text: str) -> None:
        if state is self.state:
            self.query_one("#text", Static).update(Content(text))

    def help_text(self) -> Content:
        """What the text tells."""
        return Content(self.help_)

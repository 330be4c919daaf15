"""A scroll of text that is worked out while the screen is already open."""

from __future__ import annotations

from collections.abc import Callable
from typing import ClassVar

from textual import work
from textual.app import ComposeResult
from textual.binding import BindingType
from textual.containers import VerticalScroll
from textual.content import Content
from textual.screen import Screen
from textual.widgets import Static

from engine.errors import InputError


class Reading(Screen[None]):
    """Shows what `write` gives, or the sentence that says why it gives nothing."""

    CSS_PATH = "reading.tcss"
    BINDINGS: ClassVar[list[BindingType]] = [("escape,q", "dismiss(None)", "Back")]

    def __init__(self, heading: str, write: Callable[[], str]) -> None:
        super().__init__()
        self.heading = heading
        self.write = write

    def compose(self) -> ComposeResult:
        """A heading, the text, and the way back."""
        yield Static(self.heading, id="heading", markup=False)
        with VerticalScroll():
            yield Static("working …", id="text", markup=False)
        yield Static("↑↓ scroll · esc back", id="keys", markup=False)

    def on_mount(self) -> None:
        """Start at once, away from the screen's own thread."""
        self.query_one(VerticalScroll).focus()
        self._work()

    @work(thread=True, exclusive=True, group="reading")
    def _work(self) -> None:
        try:
            text = self.write()
        except InputError as wrong:
            text = "\n".join(str(problem) for problem in wrong.problems)
        self.app.call_from_thread(self._show, text)

    def _show(self, text: str) -> None:
        self.query_one("#text", Static).update(Content(text))

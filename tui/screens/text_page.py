"""A page of text that is computed while the screen is already open."""

from __future__ import annotations

from collections.abc import Callable

from textual import work
from textual.app import ComposeResult
from textual.containers import VerticalScroll
from textual.content import Content
from textual.message import Message

from engine.common.progress import ProgressListener, SearchStopped
from engine.comparison.compare import Comparison
from tui.model.cancellation import until_cancelled
from tui.model.internal_error import internal_error
from tui.model.state import COMPUTING, State
from tui.render.progress import progress
from tui.screens.view import View
from tui.widgets.words import Words


class TextReady(Message):
    """The text of a state, written for a width, is ready."""

    def __init__(self, state: State, width: int, text: Content) -> None:
        super().__init__()
        self.state, self.width, self.text = state, width, text


class TextProgress(Message):
    """Progress of the calculation, in words."""

    def __init__(self, words: str) -> None:
        super().__init__()
        self.words = words


class TextPage(View):
    """Shows the text that `write` makes of a state for a width; until then, its progress."""

    CSS_PATH = "text_page.tcss"
    _written_for: Comparison | None = None

    def __init__(
        self, state: State, name: str, about: str, write: Callable[[State, int, ProgressListener], Content]
    ) -> None:
        super().__init__(state)
        self.NAME = name  # type: ignore[misc]
        self.about = about
        self.write = write

    def body(self) -> ComposeResult:
        """The text."""
        with VerticalScroll():
            yield Words(COMPUTING, id="text", classes="figures")

    def draw(self, comparison: Comparison) -> None:
        """Write the text anew in a worker."""
        self._write(self.state, self._width)

    @property
    def _width(self) -> int:
        """Room for the text, in characters; 0 until the page is laid out."""
        return self.query_one(VerticalScroll).scrollable_content_region.width

    def show_message(self, words: str) -> None:
        """Show a sentence in place of the text."""
        self._written_for = None
        self.query_one("#text", Words).show(words)

    def stale_mark(self) -> str:
        """The mark also while the text of a new comparison is written."""
        is_older = self._written_for is not self.state.comparison
        return self.state.stale_mark or (COMPUTING if is_older else "")

    def on_mount(self) -> None:
        """Put the text in focus, so that it scrolls."""
        self.query_one(VerticalScroll).focus()

    def on_resize(self) -> None:
        """Use the room there is."""
        self.show(self.state)

    @work(thread=True, exclusive=True, group="text")
    def _write(self, state: State, width: int) -> None:
        tell = until_cancelled(lambda words: self.post_message(TextProgress(words)))
        try:
            text = self.write(state, max(30, width), tell)
        except SearchStopped:
            return
        except Exception as failure:  # the app stays open
            text = Content(internal_error(failure))
        self.post_message(TextReady(state, width, text))

    def on_text_progress(self, message: TextProgress) -> None:
        """Show the progress; an older text gives way to it."""
        self.query_one("#text", Words).show(progress(message.words))

    def on_text_ready(self, message: TextReady) -> None:
        """Show the text, unless the state or the width has changed since."""
        if message.state is self.state and message.width == self._width:
            self._written_for = message.state.comparison
            self.query_one("#text", Words).show(message.text)
            self.show_heading()

    def help_text(self) -> Content:
        """The subject of the text."""
        return Content(self.about)

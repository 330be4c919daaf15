"""A scroll of text that is worked out while the screen is already open."""

from __future__ import annotations

import logging
from collections.abc import Callable

from textual import work
from textual.app import ComposeResult
from textual.containers import VerticalScroll
from textual.content import Content
from textual.message import Message
from textual.widgets import Static

from engine.common.progress import ProgressListener, SearchStopped
from engine.comparison.compare import Comparison
from tui.model.cancellation import while_wanted
from tui.model.state import State
from tui.screens.view import View


class Written(Message):
    """The text of a state is ready."""

    def __init__(self, state: State, text: Content) -> None:
        super().__init__()
        self.state = state
        self.text = text


class Heard(Message):
    """What is being worked out, in words."""

    def __init__(self, words: str) -> None:
        super().__init__()
        self.words = words


class Reading(View):
    """Shows what `write` makes of a state in a width; until then, what it tells."""

    DEFAULT_CSS = """
    Reading VerticalScroll { padding: 0 1; scrollbar-size-vertical: 1; scrollbar-gutter: stable; }
    Reading #text { width: auto; height: auto; }
    """

    def __init__(
        self, state: State, name: str, help_: str, write: Callable[[State, int, ProgressListener], Content]
    ) -> None:
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
        self._work(self.state, self.query_one(VerticalScroll).scrollable_content_region.width)

    def say(self, words: str) -> None:
        """Say it in the text's place."""
        self.query_one("#text", Static).update(words)

    def on_mount(self) -> None:
        """The text is there to be scrolled."""
        self.query_one(VerticalScroll).focus()

    def on_resize(self) -> None:
        """Use the room there is."""
        self.show(self.state)

    @work(thread=True, exclusive=True, group="reading")
    def _work(self, state: State, width: int) -> None:
        tell = while_wanted(lambda words: self.post_message(Heard(words)))
        try:
            text = self.write(state, max(30, width), tell)
        except SearchStopped:
            return
        except Exception:  # whatever goes wrong, the bench stays open
            logging.getLogger(__name__).exception("the text could not be written")
            text = Content("This could not be computed.")
        self.post_message(Written(state, text))

    def on_heard(self, message: Heard) -> None:
        """Show what is being worked out."""
        self.query_one("#text", Static).update(f"working … {message.words}")

    def on_written(self, message: Written) -> None:
        """Show what was written, unless the state has moved on since."""
        if message.state is self.state:
            self.query_one("#text", Static).update(message.text)

    def help_text(self) -> Content:
        """What the text tells."""
        return Content(self.help_)

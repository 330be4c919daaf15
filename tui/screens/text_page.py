"""A page of text about what is computed while the screen is already open."""

from __future__ import annotations

from textual.app import ComposeResult
from textual.containers import VerticalScroll
from textual.content import Content

from engine.common.progress import ProgressListener
from engine.comparison.compare import Comparison
from tui.model.state import COMPUTING, State
from tui.render.text_pages import Page
from tui.screens.computing import ComputedView
from tui.widgets.words import Words


class TextPage(ComputedView[object]):
    """Shows a page for the room there is."""

    CSS_PATH = "text_page.tcss"

    def __init__(self, state: State, page: Page) -> None:
        super().__init__(state)
        self.NAME = page.name  # type: ignore[misc]
        self.page = page

    def body(self) -> ComposeResult:
        """The text."""
        with VerticalScroll():
            yield Words(COMPUTING, id="text", classes="figures")

    def on_mount(self) -> None:
        """Put the text in focus, so that it scrolls."""
        self.query_one(VerticalScroll).focus()

    def on_resize(self) -> None:
        """Use the room there is, once it is known."""
        self.call_after_refresh(lambda: self.show(self.state))

    def subject(self) -> object:
        """The comparison, its inputs, and the baseline beside it."""
        return self.state.comparison, self.state.compared, self.state.baseline

    def find(self, comparison: Comparison, tell: ProgressListener) -> object:
        """The page's figures."""
        return self.page.find(comparison, self.state, tell)

    def show_found(self, found: object) -> None:
        """Write the text for the room there is; there is none until the page is laid out."""
        width = self.query_one(VerticalScroll).scrollable_content_region.width - 1
        if width > 0:
            self.say(self.page.text(found, self.state.system, width))

    def say(self, words: Content) -> None:
        """Show words in place of the text."""
        self.query_one("#text", Words).show(words)

    def help_text(self) -> Content:
        """The subject of the text."""
        return Content(self.page.about)

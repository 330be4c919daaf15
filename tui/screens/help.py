"""Help: what is on the screen, what its words mean, and every key."""

from __future__ import annotations

from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import BindingType
from textual.containers import VerticalScroll
from textual.content import Content
from textual.screen import ModalScreen
from textual.widgets import Static

from tui.model.commands import Command


class Help(ModalScreen[None]):
    """What the focused part means, then the keys."""

    BINDINGS: ClassVar[list[BindingType]] = [("escape,q,question_mark", "dismiss(None)", "Back")]

    def __init__(self, about: Content, commands: tuple[Command, ...]) -> None:
        super().__init__()
        self.about = about
        self.commands = commands

    def compose(self) -> ComposeResult:
        """One scroll of text."""
        keys = [
            Content.styled(command.shown_key.rjust(8), "bold") + Content(f"  {command.help}")
            for command in self.commands
        ]
        more = [
            Content.styled(key.rjust(8), "bold") + Content(f"  {words}")
            for key, words in (("↑ ↓", "Move, or scroll"), ("tab", "Go to the other pane"), ("esc", "Back"))
            if key != "↑ ↓" or "up" not in {command.key for command in self.commands}
        ]
        lines = [
            Content.styled("Help", "bold"),
            Content(""),
            self.about,
            Content(""),
            Content.styled("Keys", "bold"),
            *keys,
            *more,
        ]
        with VerticalScroll(classes="dialog"):
            yield Static(Content("\n").join(lines))

"""Help: what is in focus, and every key as it is bound."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import BindingType
from textual.containers import VerticalScroll
from textual.content import Content
from textual.screen import ModalScreen
from textual.widgets import Static

from tui.model.commands import Command
from tui.model.keymap import Keymap
from tui.render.styles import MUTED

FIXED_KEYS = (
    ("↑ ↓", "Move, or scroll"),
    ("tab", "Go to the other pane; in a field, accept it and open the next"),
    ("esc", "Back"),
)
KEY_WIDTH = 8


class Help(ModalScreen[None]):
    """Explanation of what is in focus, then the keys."""

    BINDINGS: ClassVar[list[BindingType]] = [("escape,q,question_mark", "dismiss(None)", "Back")]

    def __init__(self, about: Content, commands: Sequence[Command], keymap: Keymap, keys_file: Path) -> None:
        super().__init__()
        self.about, self.commands = about, commands
        self.keymap, self.keys_file = keymap, keys_file

    def compose(self) -> ComposeResult:
        """One scroll of text."""
        lines = [
            Content.styled("Help", "bold"),
            Content(""),
            self.about,
            Content(""),
            Content.styled("Keys", "bold"),
            *(self._line(command) for command in self.commands),
            *(_fixed(key, words) for key, words in FIXED_KEYS if key != "↑ ↓" or not self._arrows_are_commands),
            Content(""),
            Content(
                f'To change keys, write {self.keys_file}, one line for each, by the names at the right: undo = "ctrl+z"'
            ),
        ]
        with VerticalScroll(classes="dialog"):
            yield Static(Content("\n").join(lines))

    @property
    def _arrows_are_commands(self) -> bool:
        return any("up" in self.keymap.keys_of(command) for command in self.commands)

    def _line(self, command: Command) -> Content:
        return _fixed(self.keymap.shown(command), command.help) + Content.styled(f"  {command.id}", MUTED)


def _fixed(key: str, words: str) -> Content:
    return Content.styled(key.rjust(KEY_WIDTH), "bold") + Content(f"  {words}")

"""Save under a name; an existing file is replaced only after a second enter."""

from __future__ import annotations

from pathlib import Path
from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import BindingType
from textual.containers import Vertical
from textual.screen import ModalScreen
from textual.widgets import Input, Static

from engine.common.errors import InputError
from engine.common.safe_text import safe_text
from tui.model.document import Document
from tui.storage import paths


class Save(ModalScreen[bool]):
    """Saves the document and returns True, or None on escape."""

    BINDINGS: ClassVar[list[BindingType]] = [("escape", "dismiss(None)", "Cancel")]

    def __init__(self, document: Document, proposed: str) -> None:
        super().__init__()
        self.document, self.proposed = document, proposed
        self._confirmed: Path | None = None

    def compose(self) -> ComposeResult:
        """A path, and what is wrong with it."""
        with Vertical(classes="dialog"):
            yield Static("Save as", classes="title")
            yield Input(self.proposed)
            yield Static("", classes="wrong", markup=False)
            yield Static("Enter save · Esc cancel", classes="quiet", markup=False)

    def on_mount(self) -> None:
        """Say why the open file was not simply replaced."""
        path = self.document.inputs.path
        if not paths.is_bundled(path) and path.is_file() and (loss := self.document.loss_at(path)):
            self._say(f"{path} {loss}")

    def on_input_submitted(self, message: Input.Submitted) -> None:
        """Save, or say why not."""
        if not message.value.strip():
            self._say("Give a file name, such as my_roof.toml")
            return
        try:
            self._save(paths.typed(message.value))
        except InputError as wrong:
            self._say(str(wrong.problems[0]))

    def _save(self, path: Path) -> None:
        if not paths.is_bundled(path) and self._confirmed != path and (loss := self.document.loss_at(path)):
            self._confirmed = path
            self._say(f"{path} {loss}; press enter again to replace it")
            return
        self.document.save_as(path)
        self.dismiss(True)

    def _say(self, words: str) -> None:
        self.query_one(".wrong", Static).update(safe_text(words))

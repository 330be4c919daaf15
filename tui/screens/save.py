"""Save a scenario under a name; what exists is replaced only when asked twice."""

from __future__ import annotations

from pathlib import Path
from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import BindingType
from textual.containers import Vertical
from textual.screen import ModalScreen
from textual.widgets import Input, Static

from engine.common.errors import InputError
from tui.model.session import Session
from tui.storage import paths


class Save(ModalScreen[Session | None]):
    """Answers with the session as saved, or None."""

    BINDINGS: ClassVar[list[BindingType]] = [("escape", "dismiss(None)", "Back")]

    def __init__(self, session: Session, proposed: str) -> None:
        super().__init__()
        self.session = session
        self.proposed = proposed
        self._warned: Path | None = None

    def compose(self) -> ComposeResult:
        """A path, and what is wrong with it."""
        with Vertical(classes="dialog"):
            yield Static("Save as", classes="title")
            yield Input(self.proposed)
            yield Static("", classes="wrong", markup=False)
            yield Static("enter save · esc back", classes="quiet", markup=False)

    def on_mount(self) -> None:
        """Say why it is asked where to, if the file that is open cannot just be written."""
        path = self.session.path
        if not paths.is_bundled(path) and path.is_file() and (why := self._lost(path)):
            self._say(f"{path} {why}")

    def on_input_submitted(self, message: Input.Submitted) -> None:
        """Write the file, or say why not."""
        if not message.value.strip():
            self._say("give a file name, such as my_roof.toml")
            return
        try:
            self._save(paths.typed(message.value))
        except InputError as wrong:
            self._say(str(wrong.problems[0]))

    def _save(self, path: Path) -> None:
        if paths.is_bundled(path):
            self._say("this scenario comes with loadpath and is not written over; give another name")
            return
        if paths.exists(path) and self._warned != path and (why := self._lost(path)):
            self._warned = path
            self._say(f"{path} {why}; press enter again to replace it")
            return
        self.dismiss(self.session.written_to(path))

    def _lost(self, path: Path) -> str:
        """Why something might be lost where a file is replaced; empty where nothing is."""
        if path.resolve() != self.session.path.resolve():
            return "exists"
        if not self.session.as_on_disk():
            return "has changed since it was opened"
        return "" if self.session.readable else "exists, and some input is wrong"

    def _say(self, words: str) -> None:
        self.query_one(".wrong", Static).update(words)

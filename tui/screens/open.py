"""Open a scenario: one of loadpath's own, a recent file, or any file by its path."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import BindingType
from textual.containers import Vertical
from textual.screen import ModalScreen
from textual.widgets import Input, OptionList, Static
from textual.widgets.option_list import Option

from engine.common.errors import InputError
from tui.model.session import Session
from tui.storage import paths


class Open(ModalScreen[Session | None]):
    """Answers with the session of a readable scenario, or None."""

    BINDINGS: ClassVar[list[BindingType]] = [("escape", "dismiss(None)", "Back")]

    def __init__(self, recent: Sequence[Path]) -> None:
        super().__init__()
        self.recent = recent

    def compose(self) -> ComposeResult:
        """Bundled scenarios, recent files, then a path."""
        options = [Option(_title(path), id=str(path)) for path in paths.bundled()]
        if self.recent:
            options += [
                Option("── opened or saved lately ──", disabled=True),
                *(Option(str(path), id=str(path)) for path in self.recent),
            ]
        with Vertical(classes="dialog"):
            yield Static("Open a scenario", classes="title")
            yield OptionList(*options, markup=False)
            yield Input(placeholder="or the path of a file")
            yield Static("", classes="wrong", markup=False)
            yield Static("↑↓ choose · tab to the path · enter open · esc back", classes="quiet", markup=False)

    def on_option_list_option_selected(self, message: OptionList.OptionSelected) -> None:
        """Open one of loadpath's own."""
        self._open(message.option.id or "")

    def on_input_submitted(self, message: Input.Submitted) -> None:
        """Open a file by its path."""
        if message.value.strip():
            self._open(message.value)

    def _open(self, typed: str) -> None:
        try:
            path = paths.typed(typed)
            session = Session(path, paths.read_text(path))
            session.tables()
        except InputError as wrong:
            more = f" (and {len(wrong.problems) - 1} more)" if len(wrong.problems) > 1 else ""
            self.query_one(".wrong", Static).update(f"{wrong.problems[0]}{more}")
            return
        self.dismiss(session)


def _title(path: Path) -> str:
    return str(paths.parse(paths.read_text(path), path.name).get("title", path.stem))

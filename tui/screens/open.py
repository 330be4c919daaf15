"""Open a scenario: a bundled one, a recent file, or any file by its path."""

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
from engine.common.safe_text import safe_text
from tui.model.inputs import Inputs
from tui.storage import paths


class Open(ModalScreen[Inputs | None]):
    """Returns the inputs of a readable scenario, or None on escape."""

    BINDINGS: ClassVar[list[BindingType]] = [("escape", "dismiss(None)", "Cancel")]

    def __init__(self, recent: Sequence[Path]) -> None:
        super().__init__()
        self.recent = recent

    def compose(self) -> ComposeResult:
        """Bundled scenarios, recent files, then a path."""
        options = [Option(_title(path), id=str(path)) for path in paths.bundled()]
        if self.recent:
            options += [
                Option("── recent files ──", disabled=True),
                *(Option(safe_text(str(path)), id=str(path)) for path in self.recent),
            ]
        with Vertical(classes="dialog"):
            yield Static("Open a scenario", classes="title")
            yield OptionList(*options, markup=False)
            yield Input(placeholder="or the path of a file")
            yield Static("", classes="wrong", markup=False)
            yield Static("↑↓ choose · Tab to the path · Enter open · Esc cancel", classes="quiet", markup=False)

    def on_option_list_option_selected(self, message: OptionList.OptionSelected) -> None:
        """Open a file of the list."""
        self._open(message.option.id or "")

    def on_input_submitted(self, message: Input.Submitted) -> None:
        """Open a file by its path."""
        if message.value.strip():
            self._open(message.value)

    def _open(self, typed: str) -> None:
        try:
            inputs = Inputs.of_file(paths.typed(typed))
        except InputError as wrong:
            more = f" (and {len(wrong.problems) - 1} more)" if len(wrong.problems) > 1 else ""
            self.query_one(".wrong", Static).update(f"{wrong.problems[0]}{more}")
            return
        self.dismiss(inputs)


def _title(path: Path) -> str:
    return str(paths.parse(paths.read_text(path), path.name).get("title", path.stem))

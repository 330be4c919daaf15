"""A question with a few answers."""

from __future__ import annotations

from collections.abc import Mapping
from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import BindingType
from textual.containers import Vertical
from textual.screen import ModalScreen
from textual.widgets import OptionList, Static
from textual.widgets.option_list import Option

from engine.common.safe_text import safe_text


class Ask(ModalScreen[str | None]):
    """Returns the id of the chosen answer, or None on escape."""

    BINDINGS: ClassVar[list[BindingType]] = [("escape", "dismiss(None)", "Cancel")]

    def __init__(self, question: str, answers: Mapping[str, str]) -> None:
        super().__init__()
        self.question = question
        self.answers = answers

    def compose(self) -> ComposeResult:
        """The question above its answers."""
        with Vertical(classes="dialog"):
            yield Static(safe_text(self.question), classes="title", markup=False)
            yield OptionList(*(Option(safe_text(words), id=name) for name, words in self.answers.items()), markup=False)
            yield Static("↑↓ choose · Enter accept · Esc cancel", classes="quiet", markup=False)

    def on_option_list_option_selected(self, message: OptionList.OptionSelected) -> None:
        """Return the chosen answer."""
        self.dismiss(message.option.id)

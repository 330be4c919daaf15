"""The start page, when no file is given: a new job, a quick question, the example, a file, a lesson, or the tour."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import BindingType
from textual.containers import Vertical
from textual.screen import ModalScreen
from textual.widgets import OptionList, Static
from textual.widgets.option_list import Option

NEW, QUICK, EXAMPLE, OPEN, TOUR, LESSON, QUIT = "new", "quick", "example", "open", "tour", "lesson", "quit"
FILE = "file "
"""Begins the id of a recent file; its path follows."""

CHOICES = {
    NEW: "New job: describe my roof",
    QUICK: "Quick question: the loads on a roof that nobody has seen",
    EXAMPLE: "Look at an example: a cold store with 144 modules (invented)",
    OPEN: "Open a file, or another example",
    TOUR: "Take the tour: five short steps",
}
TITLE = "loadpath: how to hold an array to a metal roof, and with how many attachments"
CAUTION = "Preliminary. A licensed engineer and the local code decide. Fall protection and electrical rules apply."


class Start(ModalScreen[str]):
    """Returns the id of what was chosen; escape looks at the example."""

    BINDINGS: ClassVar[list[BindingType]] = [
        ("escape", f"dismiss('{EXAMPLE}')", "Example"),
        ("q", f"dismiss('{QUIT}')", "Quit"),
    ]

    def __init__(self, recent: Sequence[Path], lessons: Sequence[tuple[Path, str]]) -> None:
        super().__init__()
        self.recent, self.lessons = recent, lessons

    def compose(self) -> ComposeResult:
        """The things that can be begun, then recent files, then lessons."""
        options = [Option(words, id=name) for name, words in CHOICES.items()]
        if self.recent:
            options.append(Option("── recent files ──", disabled=True))
            options += [Option(str(path), id=f"{FILE}{path}") for path in self.recent]
        options.append(Option("── lessons, ten minutes each ──", disabled=True))
        options += [Option(title, id=f"{LESSON}{path}") for path, title in self.lessons]
        with Vertical(classes="dialog"):
            yield Static(TITLE, classes="title", markup=False)
            yield OptionList(*options, markup=False)
            yield Static(CAUTION, classes="quiet", markup=False)
            yield Static("↑↓ choose · Enter or click open · Esc example · q quit", classes="quiet", markup=False)

    def on_option_list_option_selected(self, message: OptionList.OptionSelected) -> None:
        """Return what was chosen."""
        self.dismiss(message.option.id or EXAMPLE)

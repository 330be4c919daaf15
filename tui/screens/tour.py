"""A tour of the app in five steps."""

from __future__ import annotations

from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import BindingType
from textual.containers import Vertical
from textual.screen import ModalScreen
from textual.widgets import Static

STEPS = (
    (
        "Inputs (i)",
        "Describe the roof in a form. Enter opens an input, tab accepts it and opens the next. ! marks what is still "
        "to be given, ◇ an invented value to replace by the maker's. A number alone takes the unit of its line.",
    ),
    (
        "Answer (c)",
        "The same array on rails, on a tilted rack, and straight on the seams or ribs. The answer says which method "
        "to use; each tile shows its attachments, its verdict and the controlling component.",
    ),
    (
        "Why? (enter)",
        "Enter on any figure shows its calculation, back to the wind speed, each step with its clause. Warnings and "
        "notes (N) end with the cure; ways out (o) tries what would make a method hold.",
    ),
    (
        "The roof (d, p)",
        "d draws on the roof: arrows move the array, + and - change rows, < and > columns, o places a keep-clear "
        "area, x leaves out a module. Figures follow. p shows every attachment with its load.",
    ),
    (
        "Keep it (s, e)",
        "s saves the scenario, a text file that you can read. e writes tables, plans and the calculation for review. "
        "z undoes, ? lists every key, ctrl+p finds any command by its name.",
    ),
)


class Tour(ModalScreen[None]):
    """One step after another; enter goes on, escape ends it."""

    BINDINGS: ClassVar[list[BindingType]] = [
        ("enter,right,space", "step(1)", "Next"),
        ("left", "step(-1)", "Before"),
        ("escape,q", "dismiss(None)", "End"),
    ]
    at = 0

    def compose(self) -> ComposeResult:
        """Title, words, keys."""
        with Vertical(classes="dialog"):
            yield Static("", classes="title", markup=False)
            yield Static("", id="step", markup=False)
            yield Static("Enter next · ← before · Esc end", classes="quiet", markup=False)

    def on_mount(self) -> None:
        """Show the first step."""
        self._show()

    def on_click(self) -> None:
        """Go on, as enter does."""
        self.action_step(1)

    def action_step(self, step: int) -> None:
        """Show another step; past the last the tour ends."""
        self.at = max(0, self.at + step)
        if self.at == len(STEPS):
            self.dismiss(None)
        else:
            self._show()

    def _show(self) -> None:
        title, words = STEPS[self.at]
        self.query_one(".title", Static).update(f"{self.at + 1} of {len(STEPS)}: {title}")
        self.query_one("#step", Static).update(words)

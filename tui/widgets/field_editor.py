"""The editor in the line of an open input: text, or a choice that the arrows turn."""

from __future__ import annotations

from typing import ClassVar

from textual.binding import Binding, BindingType
from textual.message import Message
from textual.widgets import Input

from tui.model.input_field import InputField


class FieldEditor(Input):
    """Every letter goes to it. Enter and tab accept, escape cancels; left and right turn a choice."""

    DEFAULT_CSS = "FieldEditor { height: 1; padding: 0; background: $panel; }"
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("tab", "leave(1)", "Next", key_display="tab"),
        Binding("shift+tab", "leave(-1)", "Before", key_display="shift+tab"),
        Binding("left", "turn(-1)", "Choose", key_display="← →"),
        Binding("right", "turn(1)", show=False),
        Binding("up", "turn(-1)", show=False),
        Binding("down", "turn(1)", show=False),
        Binding("enter", "leave(0)", "Accept", key_display="enter"),
        Binding("escape", "cancel", "Cancel", key_display="esc"),
    ]

    class Left(Message):
        """The input is accepted; `step` is 1 to open the next, -1 the one before, 0 for neither."""

        def __init__(self, step: int) -> None:
            super().__init__()
            self.step = step

    class Cancelled(Message):
        """The value before is to be restored."""

    options: tuple[str, ...] = ()
    """The options of a choice; empty for text."""

    chosen = ""
    """The option that stands for what is typed."""

    def edit(self, field: InputField) -> None:
        """Take the value of an input."""
        self.options = field.options
        with self.prevent(Input.Changed):
            self.value = field.editable
        self.select_all()

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Turn choices only; in text the arrows move the cursor."""
        return bool(self.options) if action == "turn" else super().check_action(action, parameters)

    def action_turn(self, step: int) -> None:
        """Take the option before or after."""
        now = self.options.index(self.chosen) if self.chosen in self.options else -1
        self.value = self.options[(now + step) % len(self.options)]
        self.select_all()

    def action_leave(self, step: int) -> None:
        """Accept the value."""
        self.post_message(self.Left(step))

    def action_cancel(self) -> None:
        """Restore the value before."""
        self.post_message(self.Cancelled())

"""The inputs: a list of fields, and an editor below it; the comparison follows every keystroke."""

from __future__ import annotations

from textual.app import ComposeResult
from textual.containers import Vertical
from textual.content import Content
from textual.events import DescendantBlur, Key
from textual.widgets import Input, OptionList

from engine.common.safe_text import safe_text
from tui.model.input_field import InputField
from tui.model.inputs import Inputs
from tui.model.messages import EditCancelled, InputEdited
from tui.model.state import State
from tui.widgets.field_list import FieldList
from tui.widgets.words import Words

TAB_STEPS = {"tab": 1, "shift+tab": -1}
"""Fields that a key in the open editor moves on by."""


class InputsPane(Vertical):
    """The list of fields, a search field, and the editor of the field that is open.

    While a field is open, every letter goes to it. Enter and tab accept it, escape restores its value; a field that
    loses focus in any other way is accepted and closed.
    """

    DEFAULT_CSS = """
    InputsPane OptionList { height: 1fr; border: none; padding: 0; scrollbar-size-vertical: 1; }
    InputsPane OptionList { text-wrap: nowrap; text-overflow: ellipsis; }
    InputsPane OptionList:focus { border: none; }
    InputsPane #about { height: auto; max-height: 6; color: $text-muted; padding: 0 1; }
    InputsPane Input { display: none; border: round $accent; }
    InputsPane.editing #editor, InputsPane.searching #search { display: block; }
    """

    def __init__(self, inputs: Inputs, *, id: str) -> None:
        super().__init__(id=id)
        self.inputs = inputs
        self._open_field: InputField | None = None
        self._before: Inputs = inputs

    def compose(self) -> ComposeResult:
        """Search field, list, explanation of the selected field, editor."""
        yield Input(id="search", placeholder="part of a name; * for changed inputs")
        yield FieldList()
        yield Words(id="about")
        yield Input(id="editor", select_on_focus=True)

    @property
    def has_focus_within(self) -> bool:
        """True if the list or one of the fields is in focus."""
        focused = self.screen.focused
        return focused is not None and self in focused.ancestors

    @property
    def field_list(self) -> FieldList:
        """The list."""
        return self.query_one(FieldList)

    @property
    def editor(self) -> Input:
        """The editor of the open field."""
        return self.query_one("#editor", Input)

    @property
    def search(self) -> Input:
        """The search field."""
        return self.query_one("#search", Input)

    @property
    def current_field(self) -> InputField | None:
        """The open field, else the selected one."""
        return self._open_field or self.field_list.selected()

    def show(self, state: State) -> None:
        """Show the inputs of a state, and mark those that are wrong; the selection stays."""
        self.inputs = state.inputs
        fields = state.inputs.fields()
        self.field_list.show(fields, {field.path for field in fields if state.problems_of(field.path)})
        if self._open_field:
            self._open_field = next((each for each in fields if each.path == self._open_field.path), self._open_field)
        self._explain()

    def focus_list(self) -> None:
        """Put the list in focus."""
        self.screen.set_focus(self.field_list)

    def on_option_list_option_highlighted(self, message: OptionList.OptionHighlighted) -> None:
        """Explain the selected field."""
        self._explain()

    def _explain(self) -> None:
        field = self.current_field
        words = f"{field.help} Now {field.origin_words}." if field else "No input has this in its name or help."
        self.query_one("#about", Words).show(words)

    def help_text(self) -> Content:
        """Help on the selected field."""
        field = self.field_list.selected()
        if field is None:
            return Content("Every input of the scenario. Enter opens one, / finds one by part of its name or help.")
        lines = [
            Content.styled(".".join(field.path), "bold"),
            Content(field.help),
            Content(f"Value: {safe_text(field.shown) or 'not set'} ({field.origin_words})."),
            Content(""),
            Content(
                "Enter opens the field; the comparison follows every keystroke. Enter accepts the value, escape "
                "restores the one before; tab accepts it and opens the next field, shift+tab the field before."
            ),
            Content(
                "An empty field restores the default or the shelf's. / finds an input by part of its name or help."
            ),
            Content("Marks in the list: * changed here · default › from a shelf ! wrong."),
        ]
        return Content("\n").join(lines)

    # -- search -----------------------------------------------------------------------------

    def start_search(self) -> None:
        """Find an input by part of its name."""
        self.search.border_title = "find an input"
        self.add_class("searching")
        self.screen.set_focus(self.search)

    def stop_search(self) -> bool:
        """List every input again; False if they are listed already."""
        if not self.has_class("searching"):
            return False
        self.remove_class("searching")
        with self.prevent(Input.Changed):
            self.search.value = ""
        self._filter("")
        self.focus_list()
        return True

    def _filter(self, typed: str) -> None:
        self.field_list.filter(typed)
        self._explain()

    # -- editing ----------------------------------------------------------------------------

    def on_option_list_option_selected(self, message: OptionList.OptionSelected) -> None:
        """Open the selected field."""
        self._edit_selected()

    def _edit_selected(self) -> None:
        field = self.field_list.selected()
        if field is None:
            return
        self._open_field, self._before = field, self.inputs
        with self.prevent(Input.Changed):
            self.editor.value = field.shown
        self.editor.border_title = field.title
        empty = "" if field.required else " · empty: default"
        self.editor.border_subtitle = f"Enter accept · Tab next · Esc cancel{empty}"
        self.add_class("editing")
        self.screen.set_focus(self.editor)
        self.editor.select_all()
        self._explain()

    def on_input_changed(self, message: Input.Changed) -> None:
        """Follow every keystroke."""
        if message.input is self.search:
            self._filter(message.value)
        elif self._open_field:
            self.post_message(InputEdited(self._before.edited(self._open_field, message.value), self._before))

    def on_input_submitted(self, message: Input.Submitted) -> None:
        """Accept the value; from the search go to the first input found."""
        self.accept()
        self.focus_list()

    def on_key(self, event: Key) -> None:
        """Escape cancels the open field; tab goes to the next; from the search, down and tab go to what was found."""
        if self._open_field and event.key in ("escape", *TAB_STEPS):
            event.stop()
            self._leave_field(event.key)
        elif self.search.has_focus and event.key in ("down", "tab"):
            event.stop()
            self.focus_list()
            if event.key == "tab":
                self._edit_selected()

    def _leave_field(self, key: str) -> None:
        if key == "escape":
            self.post_message(EditCancelled(self._before))
        self.accept()
        self.focus_list()
        if key in TAB_STEPS:
            if self.field_list.ends_at(TAB_STEPS[key]):
                self.stop_search()  # the next field of the form, not the same one again
            self.field_list.move(TAB_STEPS[key])
            self._edit_selected()

    def on_descendant_blur(self, event: DescendantBlur) -> None:
        """Accept a field that loses focus, but not while the terminal itself is out of focus."""
        if event.widget is self.editor and self.app.app_focus and self.screen.focused is not self.editor:
            self.accept()

    def close_field(self) -> None:
        """Accept the open field and go back to the list."""
        if self._open_field:
            self.accept()
            self.focus_list()

    def accept(self) -> None:
        """Close the open field; its value is taken already."""
        if self._open_field:
            self._open_field = None
            self.remove_class("editing")
            self._explain()

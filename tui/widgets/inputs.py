"""The inputs: a form with an editor in the open line; the comparison follows every keystroke."""

from __future__ import annotations

from dataclasses import replace

from textual.app import ComposeResult
from textual.containers import Vertical
from textual.content import Content
from textual.events import DescendantBlur, Key
from textual.widgets import Input

from engine.common.safe_text import safe_text
from engine.units import System
from tui.model.input_field import InputField
from tui.model.inputs import Inputs
from tui.model.messages import EditCancelled, InputEdited
from tui.model.state import State
from tui.render.form import MARKS, choices
from tui.widgets.field_editor import FieldEditor
from tui.widgets.form import Form
from tui.widgets.words import Words


class InputsPane(Vertical):
    """The form, a search field, and an explanation of the selected input.

    While an input is open, every letter goes to it. Enter and tab accept it, escape restores its value; an input that
    loses focus in any other way is accepted and closed.
    """

    DEFAULT_CSS = """
    InputsPane Form { height: 1fr; }
    InputsPane #about { height: auto; max-height: 6; color: $text-muted; padding: 0 1; }
    InputsPane #search { display: none; border: round $accent; }
    InputsPane.searching #search { display: block; }
    """

    def __init__(self, inputs: Inputs, *, id: str) -> None:
        super().__init__(id=id)
        self.inputs = inputs
        self.system: System = "us"
        self._open_field: InputField | None = None
        self._before: Inputs = inputs
        self._as_opened: InputField | None = None

    def compose(self) -> ComposeResult:
        """Search field, form, explanation of the selected input."""
        yield Input(id="search", placeholder="part of a name; * for changed inputs")
        yield Form(id="form")
        yield Words(id="about")

    @property
    def has_focus_within(self) -> bool:
        """True if the form or one of its fields is in focus."""
        focused = self.screen.focused
        return focused is not None and self in focused.ancestors

    @property
    def form(self) -> Form:
        """The form."""
        return self.query_one(Form)

    @property
    def editor(self) -> FieldEditor:
        """The editor of the open input."""
        return self.form.editor

    @property
    def search(self) -> Input:
        """The search field."""
        return self.query_one("#search", Input)

    @property
    def is_open(self) -> bool:
        """True while an input is open."""
        return self._open_field is not None

    @property
    def current_field(self) -> InputField | None:
        """The open input, else the selected one."""
        return self._open_field or self.form.selected

    def show(self, state: State) -> None:
        """Show the inputs of a state, and mark those that are wrong; the selection stays."""
        self.inputs, self.system = state.inputs, state.system
        wrong = frozenset(tuple(problem.path.split(".")) for problem in state.problems)
        path = self._open_field.path if self._open_field else ()
        self.form.show(state.inputs.fields(), wrong, path, state.system)
        if self._open_field:
            self._open_field = self.form.field_at(path) or self._open_field
        self._explain()

    def focus_list(self) -> None:
        """Put the form in focus."""
        self.screen.set_focus(self.form)

    def on_form_selected(self, message: Form.Selected) -> None:
        """Explain the selected input."""
        self._explain()

    def _explain(self) -> None:
        """The meaning of an input, or its options while it is open."""
        field = self.current_field
        if field is None:
            nothing = "No input has this in its name or help." if not self.form.lines else ""
            self.query_one("#about", Words).show(nothing or "Enter or space folds and unfolds.")
            return
        is_missing = field.required and field.origin == "default"
        words = f"{field.help} {'Not given yet' if is_missing else f'Now {field.origin_words}'}."
        if self._open_field and field.options:
            words = f"{choices(field, self.editor.chosen)}\n{field.description}."
        elif self._as_opened and self._open_field and (own := self._as_opened.unit(self.system)):
            words = f"Unit where none is typed: {own}. {words}"
        self.query_one("#about", Words).show(words)

    def help_text(self) -> Content:
        """Help on the selected input."""
        field = self.form.selected
        if field is None:
            return Content("Every input of the scenario. Enter opens one, / finds one by part of its name or help.")
        lines = [
            Content.styled(f"{field.label} ({'.'.join(field.path)})", "bold"),
            Content(field.help),
            Content(f"Value: {safe_text(field.editable) or 'not set'} ({field.origin_words})."),
            Content(""),
            Content(
                "Enter opens the input; the comparison follows every keystroke. Enter accepts the value, escape "
                "restores the one before; tab accepts it and opens the next input, shift+tab the input before. "
                "Left and right turn a choice; letters find an option."
            ),
            Content(
                "An empty input restores the default or the shelf's. / finds an input by part of its name or help."
            ),
            Content(MARKS),
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
        self.form.filter(typed)
        self._explain()

    # -- editing ----------------------------------------------------------------------------

    def on_form_opened(self, message: Form.Opened) -> None:
        """Open the selected input."""
        self._open_selected()

    def open_first_missing(self) -> None:
        """Open the first input that is marked as to be given or wrong."""
        path = self.form.first_wrong
        if path:
            self.form.select(path)
            self._open_selected()

    def _open_selected(self) -> None:
        field = self.form.selected
        if field is None:
            return
        self._open_field = self._as_opened = field
        self._before = self.inputs
        self.editor.chosen = field.editable
        self.form.open_editor(field)
        self._explain()

    def on_input_changed(self, message: Input.Changed) -> None:
        """Follow every keystroke."""
        if message.input is self.search:
            self._filter(message.value)
        elif self._open_field and self._as_opened:
            value = self._as_opened.completed(message.value, self.system)
            self.editor.chosen = value
            self._open_field = replace(self._open_field, path=self._as_opened.path_after(value))
            self.post_message(InputEdited(self._before.edited(self._as_opened, value), self._before))

    def on_input_submitted(self, message: Input.Submitted) -> None:
        """Go from the search to the first input found."""
        self.focus_list()

    def on_key(self, event: Key) -> None:
        """From the search, down and tab go to what was found."""
        if self.search.has_focus and event.key in ("down", "tab"):
            event.stop()
            self.focus_list()
            if event.key == "tab":
                self._open_selected()

    def on_field_editor_cancelled(self, message: FieldEditor.Cancelled) -> None:
        """Restore the value before."""
        self.post_message(EditCancelled(self._before))
        self.close_field()

    def on_field_editor_left(self, message: FieldEditor.Left) -> None:
        """Accept the value, and open the next input, or the one before."""
        self.close_field()
        if message.step:
            self._open_next(message.step)

    def _open_next(self, step: int) -> None:
        path = self.form.field_after(step)
        if path is None:
            self.stop_search()  # the next input of the form, not the same one again
            path = self.form.field_after(step)
        if path is None:
            path = self.form.fields[0 if step > 0 else -1].path
        self.form.select(path)
        self._open_selected()

    def on_descendant_blur(self, event: DescendantBlur) -> None:
        """Accept an input that loses focus, but not while the terminal itself is out of focus."""
        if event.widget is self.editor and self.app.app_focus and self.screen.focused is not self.editor:
            self.accept()

    def close_field(self) -> None:
        """Accept the open input and go back to the form."""
        if self._open_field:
            self.accept()
            self.focus_list()

    def accept(self) -> None:
        """Close the open input; its value is taken already."""
        if self._open_field:
            self._open_field = None
            self.form.close_editor()
            self._explain()

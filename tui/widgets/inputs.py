"""The inputs: a list of them; enter opens one below it, and the comparison follows as you type."""

from __future__ import annotations

from textual.app import ComposeResult
from textual.containers import Vertical
from textual.content import Content
from textual.events import Key
from textual.widgets import Input, OptionList, Static

from tui.model.input_field import Entry
from tui.model.messages import TakenBack, Typed
from tui.model.session import Session
from tui.model.state import State
from tui.widgets.input_list import InputList

ORIGINS = {
    "changed": "changed here, not saved yet",
    "file": "from the file",
    "default": "the default; the file does not set it",
}


class InputsPane(Vertical):
    """The list, a line to find an input by, and an editor for the one that is open."""

    DEFAULT_CSS = """
    InputsPane OptionList { height: 1fr; border: none; padding: 0; scrollbar-size-vertical: 1; text-wrap: nowrap; text-overflow: ellipsis; }
    InputsPane OptionList:focus { border: none; }
    InputsPane #about { height: auto; max-height: 6; color: $text-muted; padding: 0 1; }
    InputsPane Input { display: none; border: round $accent; }
    InputsPane.editing #editor, InputsPane.finding #find { display: block; }
    """

    def __init__(self, session: Session, *, id: str) -> None:
        super().__init__(id=id)
        self.session = session
        self._editing: Entry | None = None
        self._before: Session = session

    def compose(self) -> ComposeResult:
        """The line to find by, the list, what the chosen input means, and the editor."""
        yield Input(id="find", placeholder="part of a name; * for what was changed")
        yield InputList()
        yield Static(id="about", markup=False)
        yield Input(id="editor", select_on_focus=True)

    @property
    def has_focus_within(self) -> bool:
        """Whether the list or the editor is in focus."""
        focused = self.screen.focused
        return focused is not None and self in focused.ancestors

    @property
    def inputs(self) -> InputList:
        """The list."""
        return self.query_one(InputList)

    @property
    def editor(self) -> Input:
        """Where an input is typed."""
        return self.query_one("#editor", Input)

    @property
    def finder(self) -> Input:
        """Where part of a name is typed."""
        return self.query_one("#find", Input)

    @property
    def is_checked(self) -> Entry | None:
        """The input that is open, else the one the list stands on."""
        return self._editing or self.inputs.chosen()

    def show(self, state: State) -> None:
        """Show a session's inputs and which are wrong; the place in the list stays."""
        self.session = state.session
        entries = state.session.entries()
        self.inputs.show(entries, {entry.path for entry in entries if state.problems_of(entry.path)})
        if self._editing:
            self._editing = next((entry for entry in entries if entry.path == self._editing.path), self._editing)
        self._explain()

    def begin(self) -> None:
        """Come into focus."""
        self.screen.set_focus(self.inputs)

    def on_option_list_option_highlighted(self, message: OptionList.OptionHighlighted) -> None:
        """Say what the input means."""
        self._explain()

    def _explain(self) -> None:
        entry = self.is_checked
        words = f"{entry.help} Now {ORIGINS[entry.origin]}." if entry else "No input has this in its name or meaning."
        self.query_one("#about", Static).update(words)

    def help_text(self) -> Content:
        """What the chosen input means."""
        entry = self.inputs.chosen()
        if entry is None:
            return Content("Every input of the scenario. Enter opens one, / finds one by part of its name or meaning.")
        lines = [
            Content.styled(".".join(entry.path), "bold"),
            Content(entry.help),
            Content(f"Its value now: {entry.shown or 'left out'} ({ORIGINS[entry.origin]})."),
            Content(""),
            Content(
                "Enter opens the input; the comparison follows as you type. Enter again keeps what was typed; escape takes it back."
            ),
            Content("An empty field goes back to the default. / finds an input by part of its name or meaning."),
            Content("Marks in the list: * changed here · default ! wrong."),
        ]
        return Content("\n").join(lines)

    # -- finding ----------------------------------------------------------------------------

    def find(self) -> None:
        """Go to an input by part of its name."""
        self.finder.border_title = "find an input"
        self.add_class("finding")
        self.screen.set_focus(self.finder)

    def stop_finding(self) -> bool:
        """Show every input again; False where they are shown already."""
        if not self.has_class("finding"):
            return False
        self.remove_class("finding")
        with self.prevent(Input.Changed):
            self.finder.value = ""
        self._seek("")
        self.begin()
        return True

    def _seek(self, typed: str) -> None:
        self.inputs.seek(typed)
        self._explain()

    # -- editing ----------------------------------------------------------------------------

    def on_option_list_option_selected(self, message: OptionList.OptionSelected) -> None:
        """Open the chosen input."""
        entry = self.inputs.chosen()
        if entry:
            self._editing, self._before = entry, self.session
            with self.prevent(Input.Changed):
                self.editor.value = entry.shown
            empty = "" if entry.required else " · empty: default"
            self.editor.border_title = entry.title
            self.editor.border_subtitle = f"enter keep · esc take back{empty}"
            self.add_class("editing")
            self.screen.set_focus(self.editor)

    def on_input_changed(self, message: Input.Changed) -> None:
        """Follow every keystroke."""
        if message.input is self.finder:
            self._seek(message.value)
        elif self._editing:
            self.post_message(Typed(self._before.edited(self._editing, message.value), self._before))

    def on_input_submitted(self, message: Input.Submitted) -> None:
        """Keep what was typed; go to the first input that was found."""
        self._close()

    def on_key(self, event: Key) -> None:
        """Escape leaves the editor as it was opened; the arrow leaves the finding for what was found."""
        if event.key == "escape" and self._editing:
            event.stop()
            self.post_message(TakenBack(self._before))
            self._close()
        elif event.key == "down" and self.finder.has_focus:
            event.stop()
            self.begin()

    def _close(self) -> None:
        self._editing = None
        self.remove_class("editing")
        self.begin()
        self._explain()

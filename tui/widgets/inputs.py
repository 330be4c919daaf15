"""Every input as one list; enter opens one below it, and the comparison follows as you type."""

from __future__ import annotations

from textual.app import ComposeResult
from textual.containers import Vertical
from textual.content import Content
from textual.events import Key
from textual.widgets import Input, OptionList, Static
from textual.widgets.option_list import Option

from tui.entry import Entry
from tui.messages import TakenBack, Typed
from tui.session import Session
from tui.state import State
from tui.text import MUTED

MARKS = {"changed": "*", "file": " ", "default": "·"}
ORIGINS = {"changed": "changed here, not saved yet", "file": "from the file", "default": "the default; the file does not set it"}
NAME_WIDTH = 27


class InputsPane(Vertical):
    """A list of inputs by table, a line to find one by, and an editor for the one that is open."""

    DEFAULT_CSS = """
    InputsPane OptionList { height: 1fr; border: none; padding: 0; scrollbar-size-vertical: 1; text-wrap: nowrap; text-overflow: ellipsis; }
    InputsPane OptionList:focus { border: none; }
    InputsPane #about { height: auto; max-height: 6; color: $text-muted; padding: 0 1; }
    InputsPane Input { display: none; border: round $accent; }
    InputsPane.editing #editor, InputsPane.finding #find { display: block; }
    InputsPane #wrong { display: none; height: auto; max-height: 4; color: $text-error; padding: 0 1; }
    InputsPane.wrong #wrong { display: block; }
    """

    def __init__(self, session: Session, *, id: str) -> None:
        super().__init__(id=id)
        self.session = session
        self.entries: tuple[Entry, ...] = ()
        self._wrong: dict[tuple[str, ...], str] = {}
        self._editing: Entry | None = None
        self._before: Session = session

    def compose(self) -> ComposeResult:
        """The line to find by, the list, what the chosen input means, the editor, and what is wrong with it."""
        yield Input(id="find", placeholder="part of a name; * for what was changed")
        yield OptionList(markup=False)
        yield Static(id="about", markup=False)
        yield Input(id="editor", select_on_focus=True)
        yield Static(id="wrong", markup=False)

    @property
    def has_focus_within(self) -> bool:
        """Whether the list or the editor is in focus."""
        focused = self.screen.focused
        return focused is not None and self in focused.ancestors

    @property
    def options(self) -> OptionList:
        """The list."""
        return self.query_one(OptionList)

    @property
    def editor(self) -> Input:
        """Where an input is typed."""
        return self.query_one("#editor", Input)

    @property
    def finder(self) -> Input:
        """Where part of a name is typed."""
        return self.query_one("#find", Input)

    # -- the list ---------------------------------------------------------------------------

    def show(self, state: State) -> None:
        """Show a session's inputs and what is wrong with them; the place in the list stays."""
        self.session = state.session
        old, wrong = self.entries, self._wrong
        self.entries = state.session.entries()
        self._wrong = {entry.path: words for entry in self.entries if (words := state.wrong_with(entry.path))}
        if [entry.path for entry in self.entries] != [entry.path for entry in old]:
            self._refill()
        else:
            for before, now in zip(old, self.entries, strict=True):
                if (before.shown, before.origin, before.path in wrong) != (now.shown, now.origin, now.path in self._wrong):
                    self._redraw(now)
        self._explain()

    def _redraw(self, entry: Entry) -> None:
        if self._sought(entry):
            self.options.replace_option_prompt(_id(entry), self._prompt(entry))

    def _sought(self, entry: Entry) -> bool:
        """Whether what is typed to find by is in its name."""
        sought = " ".join(self.finder.value.lower().replace("_", " ").split())
        return sought in f"{MARKS[entry.origin]} {' '.join(entry.path).replace('_', ' ')}"

    def _refill(self) -> None:
        """Fill the list with what is sought; the place in it stays where it can."""
        chosen = self.chosen()
        self.options.clear_options()
        options: list[Option] = []
        table: tuple[str, ...] | None = None
        for entry in filter(self._sought, self.entries):
            if entry.path[:-1] != table:
                table = entry.path[:-1]
                words = f"── {' · '.join(table).replace('_', ' ') or 'job'} ──"
                options.append(Option(Content.styled(words, f"bold {MUTED}"), disabled=True))
            options.append(Option(self._prompt(entry), id=_id(entry)))
        self.options.add_options(options)
        ids = [option.id for option in options]
        stays = chosen is not None and _id(chosen) in ids
        self.options.highlighted = (ids.index(_id(chosen)) if chosen and stays else 1) if options else None
        self._explain()

    def _prompt(self, entry: Entry) -> Content:
        """Mark, name and value; what is wrong carries a sign too."""
        mark = "!" if entry.path in self._wrong else MARKS[entry.origin]
        name = f"{mark} {entry.title}"[:NAME_WIDTH].ljust(NAME_WIDTH)
        style = {"changed": "bold $text-warning", "file": "", "default": MUTED}[entry.origin]
        return Content.styled(f"{name} {entry.shown or 'left out'}", "bold $text-error" if mark == "!" else style)

    def begin(self) -> None:
        """Come into focus."""
        self.screen.set_focus(self.options)

    def chosen(self) -> Entry | None:
        """The input the list stands on."""
        option = self.options.highlighted_option
        return next((entry for entry in self.entries if option and _id(entry) == option.id), None)

    def help_text(self) -> Content:
        """What the chosen input means."""
        entry = self.chosen()
        if entry is None:
            return Content("Every input of the scenario. Enter opens one, / finds one by part of its name.")
        lines = [
            Content.styled(".".join(entry.path), "bold"),
            Content(entry.help),
            Content(f"Its value now: {entry.shown or 'left out'} ({ORIGINS[entry.origin]})."),
            Content(""),
            Content("Enter opens the input; the comparison follows as you type. Enter again keeps what was typed; escape takes it back."),
            Content("An empty field goes back to the default. / finds an input by part of its name."),
            Content("Marks in the list: * changed here · default ! wrong."),
        ]
        return Content("\n").join(lines)

    def on_option_list_option_highlighted(self, message: OptionList.OptionHighlighted) -> None:
        """Say what the input means."""
        self._explain()

    def _explain(self) -> None:
        entry = next((entry for entry in self.entries if self._editing and entry.path == self._editing.path), None) or self.chosen()
        words = f"{entry.help} Now {ORIGINS[entry.origin]}." if entry else "No input has this in its name."
        self.query_one("#about", Static).update(words)
        wrong = self._wrong.get(entry.path, "") if entry else ""
        self.query_one("#wrong", Static).update(f"!! {wrong}")
        self.set_class(bool(wrong), "wrong")

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
        self._refill()
        self.screen.set_focus(self.options)
        return True

    # -- editing ----------------------------------------------------------------------------

    def on_option_list_option_selected(self, message: OptionList.OptionSelected) -> None:
        """Open the chosen input."""
        entry = self.chosen()
        if entry:
            self._editing, self._before = entry, self.session
            with self.prevent(Input.Changed):
                self.editor.value = entry.shown
            empty = "" if entry.info.is_required() else " · empty: default"
            self.editor.border_title = entry.title
            self.editor.border_subtitle = f"enter keep · esc take back{empty}"
            self.add_class("editing")
            self.screen.set_focus(self.editor)

    def on_input_changed(self, message: Input.Changed) -> None:
        """Follow every keystroke."""
        if message.input is self.finder:
            self._refill()
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
            self.screen.set_focus(self.options)

    def _close(self) -> None:
        self._editing = None
        self.remove_class("editing")
        self.screen.set_focus(self.options)
        self._explain()


def _id(entry: Entry) -> str:
    return "-".join(entry.path)

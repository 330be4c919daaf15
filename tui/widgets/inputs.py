"""Every input as one list; enter opens one below it, and the comparison follows as you type."""

from __future__ import annotations

from textual.app import ComposeResult
from textual.containers import Vertical
from textual.content import Content
from textual.events import Key
from textual.widgets import Input, OptionList, Static
from textual.widgets.option_list import Option

from tui.messages import Typed
from tui.session import Entry, Session
from tui.text import MUTED

MARKS = {"changed": "*", "file": " ", "default": "·"}
NAME_WIDTH = 27


class InputsPane(Vertical):
    """A list of inputs by table, and an editor for the one that is open."""

    DEFAULT_CSS = """
    InputsPane OptionList { height: 1fr; border: none; padding: 0; scrollbar-size-vertical: 1; text-wrap: nowrap; text-overflow: ellipsis; }
    InputsPane OptionList:focus { border: none; }
    InputsPane #about { height: auto; max-height: 6; color: $text-muted; padding: 0 1; }
    InputsPane Input { display: none; border: round $accent; }
    InputsPane.editing Input { display: block; }
    """

    def __init__(self, session: Session, *, id: str) -> None:
        super().__init__(id=id)
        self.session = session
        self.entries: tuple[Entry, ...] = ()
        self._editing: Entry | None = None
        self._before: Session = session

    def compose(self) -> ComposeResult:
        """The list, what the chosen input means, and the editor."""
        yield OptionList(markup=False)
        yield Static(id="about", markup=False)
        yield Input(select_on_focus=True)

    @property
    def has_focus_within(self) -> bool:
        """Whether the list or the editor is in focus."""
        focused = self.screen.focused
        return focused is not None and self in focused.ancestors

    @property
    def options(self) -> OptionList:
        """The list."""
        return self.query_one(OptionList)

    def show(self, session: Session) -> None:
        """Show a session's inputs; the place in the list stays."""
        self.session = session
        fresh = session.entries()
        if [entry.path for entry in fresh] != [entry.path for entry in self.entries]:
            self._refill(fresh)
        else:
            for old, new in zip(self.entries, fresh, strict=True):
                if (old.shown, old.origin) != (new.shown, new.origin):
                    self.options.replace_option_prompt(_id(new), _prompt(new))
        self.entries = fresh
        self._explain()

    def _refill(self, entries: tuple[Entry, ...]) -> None:
        self.options.clear_options()
        options: list[Option] = []
        table: tuple[str, ...] | None = None
        for entry in entries:
            if entry.path[:-1] != table:
                table = entry.path[:-1]
                options.append(
                    Option(Content.styled(f"── {' · '.join(table).replace('_', ' ') or 'job'} ──", f"bold {MUTED}"), disabled=True)
                )
            options.append(Option(_prompt(entry), id=_id(entry)))
        self.options.add_options(options)
        self.options.highlighted = 1

    def begin(self) -> None:
        """Come into focus."""
        self.options.focus()

    def chosen(self) -> Entry | None:
        """The input the list stands on."""
        option = self.options.highlighted_option
        return next((entry for entry in self.entries if option and _id(entry) == option.id), None)

    def help_text(self) -> Content:
        """What the chosen input means."""
        entry = self.chosen()
        if entry is None:
            return Content("Every input of the scenario. Enter opens one, escape leaves it.")
        place = ".".join(entry.path)
        origin = {"changed": "changed here, not saved yet", "file": "from the file", "default": "the default; the file does not set it"}
        lines = [
            Content.styled(place, "bold"),
            Content(entry.help),
            Content(f"Its value now: {entry.shown or 'left out'} ({origin[entry.origin]})."),
        ]
        lines.append(Content("Marks in the list: * changed here · default. An empty field goes back to the default."))
        return Content("\n").join(lines)

    def on_option_list_option_highlighted(self, message: OptionList.OptionHighlighted) -> None:
        """Say what the input means."""
        self._explain()

    def _explain(self) -> None:
        entry = self.chosen()
        self.query_one("#about", Static).update(entry.help if entry else "")

    def on_option_list_option_selected(self, message: OptionList.OptionSelected) -> None:
        """Open the chosen input."""
        entry = self.chosen()
        if entry:
            self._editing, self._before = entry, self.session
            editor = self.query_one(Input)
            with editor.prevent(Input.Changed):
                editor.value = entry.shown
            optional = "" if entry.info.is_required() else " · left empty: the default"
            editor.border_subtitle = f"enter or esc: done{optional}"
            self.add_class("editing")
            self.screen.set_focus(editor)

    def on_input_changed(self, message: Input.Changed) -> None:
        """Follow every keystroke."""
        if self._editing:
            self.post_message(Typed(self._before.edited(self._editing, message.value), self._before))

    def on_input_submitted(self, message: Input.Submitted) -> None:
        """Keep what was typed."""
        self._close()

    def on_key(self, event: Key) -> None:
        """Escape leaves the editor; what was typed stays and can be undone."""
        if event.key == "escape" and self._editing:
            event.stop()
            self._close()

    def _close(self) -> None:
        self._editing = None
        self.remove_class("editing")
        self.screen.set_focus(self.options)


def _id(entry: Entry) -> str:
    return "-".join(entry.path)


def _prompt(entry: Entry) -> Content:
    name = f"{MARKS[entry.origin]} {entry.title}"[:NAME_WIDTH].ljust(NAME_WIDTH)
    style = {"changed": "bold $text-warning", "file": "", "default": MUTED}[entry.origin]
    return Content.styled(f"{name} {entry.shown or 'left out'}", style)

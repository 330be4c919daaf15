"""The column beside form and table: the roof, and below it the notes."""

from __future__ import annotations

from collections.abc import Mapping

from textual.app import ComposeResult
from textual.containers import Vertical
from textual.events import Resize

from tui.model.state import State
from tui.render.notes import warnings
from tui.widgets.comparison_area import LOW, set_title
from tui.widgets.notes import NotesPane
from tui.widgets.roof import RoofPane


class Side(Vertical):
    """The roof above the notes; `keys` are the keys of the commands that go to them."""

    DEFAULT_CSS = """
    Side RoofPane { height: 3fr; }
    Side NotesPane { height: 2fr; }
    """

    def __init__(self, keys: Mapping[str, str], *, id: str) -> None:
        super().__init__(id=id)
        self._keys = keys
        self._state: State | None = None

    def compose(self) -> ComposeResult:
        """The panes from the top."""
        yield RoofPane(id="roof")
        yield NotesPane(id="notes", classes="pane")

    def on_resize(self, event: Resize) -> None:
        """Draw what was hidden before."""
        if self._state:
            self.show(self._state)

    def show(self, state: State) -> None:
        """Show the roof and the notes of a state."""
        self._state = state
        self.set_class(self.size.height < LOW, "low")
        if not self.size.width:
            return
        self.query_one(RoofPane).show_state(state, f"{self._keys['draw']} Draw on the roof")
        self.query_one(NotesPane).show(state.comparison, state.system)
        count = warnings(state.comparison) if state.comparison else ""
        set_title(self.query_one(NotesPane), f"{self._keys['notes']} Notes{f': {count}' if count else ''}")

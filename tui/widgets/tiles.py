"""The methods as tiles side by side; the selected method's is in focus."""

from __future__ import annotations

from collections.abc import Sequence
from typing import ClassVar

from textual.binding import Binding, BindingType
from textual.events import Click

from tui.model.messages import MethodSelected, WhyRequested
from tui.model.state import State
from tui.render import tile
from tui.widgets.drawn_anew import DrawnAnew
from tui.widgets.text_lines import TextLines


class Tiles(DrawnAnew, TextLines):
    """One tile a method. Left and right select a method, enter explains its verdict, down leaves for the figures."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("left", "turn(-1)", show=False),
        Binding("right", "turn(1)", show=False),
        Binding("enter", "why", show=False),
        Binding("down", "screen.figures", show=False),
    ]
    DEFAULT_CSS = "Tiles { height: 6; }"
    can_focus = True

    def __init__(self, *, id: str) -> None:
        super().__init__(id=id, classes="figures")
        self._state: State | None = None
        self._keys: Sequence[str] = ()
        self._tiles: tuple[tile.Tile, ...] = ()
        self._drawn_for: tuple[object, ...] = ()

    def show(self, state: State, keys: Sequence[str]) -> None:
        """Show the methods of a state, with the keys that go to them."""
        self._state, self._keys = state, keys
        self._draw()

    def _draw(self) -> None:
        """Draw the tiles anew if they would look different; going from one to another draws their frames."""
        state, (width, height) = self._state, self.size
        if state is None or state.comparison is None:
            self.show_lines([])
            return
        if height < tile.MIN_ROWS or width < tile.MIN_WIDTH * len(state.comparison.columns):
            return
        drawn_for = (state.comparison, state.system, width, height, self._keys)
        if drawn_for != self._drawn_for:
            self._drawn_for = drawn_for
            self._tiles = tile.tiles(state.comparison, state.system, width, height, self._keys)
        selected = state.column.id if state.column and self.has_focus else ""
        self.show_lines(tile.side_by_side(self._tiles, height, selected))

    def on_click(self, event: Click) -> None:
        """Select the method under the pointer."""
        number = event.x * len(self._tiles) // max(1, self.size.width)
        if number < len(self._tiles):
            self.post_message(MethodSelected(self._tiles[number].method))

    def action_turn(self, steps: int) -> None:
        """Select the method on the left or right."""
        if self._state and self._state.comparison and self._state.column:
            methods = [column.id for column in self._state.comparison.columns]
            to = methods.index(self._state.column.id) + steps
            if 0 <= to < len(methods):
                self.post_message(MethodSelected(methods[to]))

    def action_why(self) -> None:
        """Show the calculation of the verdict."""
        self.post_message(WhyRequested())

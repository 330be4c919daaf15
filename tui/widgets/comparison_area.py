"""The comparison: the answer, a tile for each method, and every figure; notes below where they have no own pane."""

from __future__ import annotations

from collections.abc import Mapping
from functools import partial

from textual.app import ComposeResult
from textual.containers import Vertical, VerticalScroll
from textual.content import Content
from textual.events import Resize
from textual.widget import Widget

from engine.comparison.compare import Comparison
from tui.model.state import State
from tui.render import comparison as drawing
from tui.render.notes import warnings
from tui.widgets.comparison import ComparisonPane
from tui.widgets.tiles import Tiles
from tui.widgets.words import Words

NARROW = 70
"""Columns below which methods have no room beside one another."""

TOO_NARROW = f"The comparison needs {NARROW} columns: widen the window. Load path, bill and plan need fewer."

LOW = 28
"""Rows below which panes have a line above in place of a frame, and the loads go to the notes."""

TILE_ROWS = {0: 6, 32: 11, 37: 14, 41: 15, 50: 18}
"""Rows of the area from which tiles have that height [rows]."""

BIG_ROWS, ANSWER_ROWS, LOW_ANSWER_ROWS = 30, 8, 5
"""Rows of large tiles, and rows that are left for the answer above them, at most and where there are few."""

TILE_COMMANDS = ("tile_1", "tile_2", "tile_3")


class ComparisonArea(Vertical):
    """Arranges its panes for the room it has; `keys` are the keys of the commands that go to them."""

    DEFAULT_CSS = """
    ComparisonArea #answer { height: auto; max-height: 8; }
    ComparisonArea #answer Words { height: auto; }
    ComparisonArea #comparison { height: 1fr; }
    ComparisonArea.low #answer { max-height: 5; }
    ComparisonArea.big #comparison { display: none; }
    ComparisonArea.empty #answer, ComparisonArea.empty #tiles { display: none; }
    """

    def __init__(self, keys: Mapping[str, str], *, id: str) -> None:
        super().__init__(id=id)
        self._keys = keys
        self._state: State | None = None
        self._arranged: tuple[object, ...] = ()
        self._has_notes = True
        self.is_big = False
        """True while the tiles take the place of the figures."""

    def compose(self) -> ComposeResult:
        """The panes from the top."""
        with VerticalScroll(id="answer", classes="pane"):
            yield Words(classes="figures")
        yield Tiles(id="tiles")
        yield ComparisonPane(id="comparison", classes="pane")

    def show(self, state: State, *, with_notes: bool) -> None:
        """Show the comparison of a state, with its notes below or without, or why there is none."""
        self._state, self._has_notes = state, with_notes
        self._arrange()

    def toggle_big(self) -> None:
        """Show the tiles alone, or the figures below them again."""
        self.is_big = not self.is_big
        self._arrange()

    def on_resize(self, event: Resize) -> None:
        """Use the room there is."""
        self._arrange()

    def _arrange(self) -> None:
        state, (width, height) = self._state, self.size
        if state is None or (state.comparison and not width):  # where it is hidden, no old figure stays behind
            return
        sentence = state.no_figures_reason
        if state.comparison:
            sentence = TOO_NARROW if width < NARROW else ""
        self.set_class(bool(sentence), "empty")
        self.set_class(height < LOW, "low")
        tiles = self.query_one(Tiles)
        self.set_class(self.is_big, "big")
        rows = max(rows for least, rows in TILE_ROWS.items() if height >= least)
        answer = LOW_ANSWER_ROWS if height < LOW else ANSWER_ROWS
        tiles.styles.height = max(rows, min(BIG_ROWS, height - answer)) if self.is_big else rows
        tiles.show(state, [self._keys[name] for name in TILE_COMMANDS])
        self._show_answer(state, with_loads=height >= LOW)
        self._show_titles(state.comparison)
        show_figures = partial(
            self.query_one(ComparisonPane).show, state, sentence, with_notes=self._has_notes, with_loads=height < LOW
        )
        arranged = (self.size, self.classes, tiles.styles.height, self._has_notes)
        if arranged == self._arranged:
            show_figures()
        else:  # once the pane has its new size
            self._arranged = arranged
            self.call_after_refresh(show_figures)

    def _show_answer(self, state: State, *, with_loads: bool) -> None:
        """Show the answer, or nothing while there is none."""
        comparison, lines = state.comparison, list[Content]()
        if comparison:
            lines = drawing.answer_lines(comparison, state.baseline, state.system, with_loads=with_loads)
        self.query_one("#answer Words", Words).show_lines(lines)

    def _show_titles(self, comparison: Comparison | None) -> None:
        """Name the panes, each with its key, and count the warnings."""
        count = warnings(comparison) if comparison else ""
        below = f", {count} ({self._keys['notes']})" if count and self._has_notes else ""
        set_title(self.query_one("#answer"), f"{self._keys['answer']} Answer: {comparison.title if comparison else ''}")
        set_title(self.query_one("#comparison"), f"{self._keys['figures']} Figures{below}")


def set_title(pane: Widget, words: str) -> None:
    """Set the title of a pane, if it is another one; never markup."""
    title = Content(words)
    if pane.border_title != title.markup:
        pane.border_title = title

"""The comparison: the answer, a tile for each method, every figure, and the notes beside or below them."""

from __future__ import annotations

from collections.abc import Mapping
from functools import partial

from textual.app import ComposeResult
from textual.containers import Horizontal, Vertical, VerticalScroll
from textual.content import Content
from textual.events import Resize
from textual.widget import Widget

from engine.comparison.compare import Comparison
from tui.model.state import State
from tui.render import comparison as drawing
from tui.render.notes import warnings
from tui.widgets.comparison import ComparisonPane
from tui.widgets.notes import NotesPane
from tui.widgets.tiles import Tiles
from tui.widgets.words import Words

BESIDE = 140
"""Columns from which the notes have a pane of their own."""

NARROW = 70
"""Columns below which methods have no room beside one another."""

TOO_NARROW = f"The comparison needs {NARROW} columns: widen the window. Load path, bill and plan need fewer."

LOW = 28
"""Rows below which panes have a line above in place of a frame, and the loads go to the notes."""

TILE_ROWS = {0: 6, 32: 11, 37: 14, 41: 15, 50: 18}
"""Rows of the area from which tiles have that height [rows]."""

TILE_COMMANDS = ("tile_1", "tile_2", "tile_3")


class ComparisonArea(Vertical):
    """Arranges its panes for the room it has; `keys` are the keys of the commands that go to them."""

    DEFAULT_CSS = """
    ComparisonArea .pane { border: round $border-blurred; border-title-color: $foreground; padding: 0 1; }
    ComparisonArea .pane { scrollbar-size-vertical: 1; }
    ComparisonArea .pane:focus { border: heavy $border; background: $background; }
    ComparisonArea #answer { height: auto; max-height: 8; }
    ComparisonArea #answer Words { height: auto; }
    ComparisonArea #figures { height: 1fr; }
    ComparisonArea #comparison { width: 2fr; }
    ComparisonArea #notes { width: 1fr; display: none; }
    ComparisonArea.beside #notes { display: block; }
    ComparisonArea.low .pane { border: none; border-top: solid $border-blurred; }
    ComparisonArea.low .pane:focus { border: none; border-top: heavy $border; }
    ComparisonArea.low #answer { max-height: 5; }
    ComparisonArea.empty #answer, ComparisonArea.empty #tiles, ComparisonArea.empty #notes { display: none; }
    """

    def __init__(self, keys: Mapping[str, str], *, id: str) -> None:
        super().__init__(id=id)
        self._keys = keys
        self._state: State | None = None
        self._arranged: tuple[object, ...] = ()

    def compose(self) -> ComposeResult:
        """The panes from the top."""
        with VerticalScroll(id="answer", classes="pane"):
            yield Words(classes="figures")
        yield Tiles(id="tiles")
        with Horizontal(id="figures"):
            yield ComparisonPane(id="comparison", classes="pane")
            yield NotesPane(id="notes", classes="pane")

    def show(self, state: State) -> None:
        """Show the comparison of a state, or why there is none."""
        self._state = state
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
        self.set_class(width >= BESIDE, "beside")
        self.set_class(height < LOW, "low")
        tiles = self.query_one(Tiles)
        tiles.styles.height = max(rows for least, rows in TILE_ROWS.items() if height >= least)
        tiles.show(state, [self._keys[name] for name in TILE_COMMANDS])
        self.query_one(NotesPane).show(state.comparison)
        self._show_answer(state, with_loads=height >= LOW)
        self._show_titles(state.comparison)
        show_figures = partial(
            self.query_one(ComparisonPane).show, state, sentence, with_notes=width < BESIDE, with_loads=height < LOW
        )
        arranged = (self.size, self.classes, tiles.styles.height)
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
        below = f", {count} ({self._keys['notes']})" if count and not self.has_class("beside") else ""
        _title(self.query_one("#answer"), f"{self._keys['answer']} Answer: {comparison.title if comparison else ''}")
        _title(self.query_one("#notes"), f"{self._keys['notes']} Notes{f': {count}' if count else ''}")
        _title(self.query_one("#comparison"), f"{self._keys['figures']} Figures{below}")


def _title(pane: Widget, words: str) -> None:
    """Set the title of a pane, if it is another one; never markup."""
    title = Content(words)
    if pane.border_title != title.markup:
        pane.border_title = title

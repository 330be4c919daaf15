"""Figures in large digits, each with its words below: legible from the back of a room."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import zip_longest

from textual.app import ComposeResult
from textual.containers import Horizontal, Vertical
from textual.widgets import Digits

from tui.widgets.words import Words

MOST = 5
"""Figures side by side."""

BREAKPOINTS = [(0, "-low"), (40, "-tall")]
"""Heights of a screen [rows] and its classes: large figures need a tall one (app.tcss)."""


class LargeFigures(Horizontal):
    """A row of large figures, on a tall screen only."""

    def compose(self) -> ComposeResult:
        """Room for the figures."""
        for _ in range(MOST):
            with Vertical():
                yield Digits()
                yield Words()

    def show(self, figures: Sequence[tuple[str, str]] = ()) -> None:
        """Show figures, each with its words; nothing if there are none."""
        self.set_class(bool(figures), "filled")
        for block, shown in zip_longest(self.query(Vertical), figures[:MOST]):
            figure, words = shown or ("", "")
            block.display = shown is not None
            block.query_one(Digits).update(figure)
            block.query_one(Words).show(words)

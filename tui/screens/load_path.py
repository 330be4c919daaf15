"""Load path: the chain of one method, link by link, with what is asked of each and what it may carry."""

from __future__ import annotations

from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import BindingType
from textual.content import Content

from engine.comparison.compare import Comparison
from engine.links import LINKS
from tui.model.commands import Command, bindings
from tui.model.state import Question
from tui.render import load_path
from tui.screens.view import ASKING, TURNING, View
from tui.widgets.picture import Picture


class LoadPath(View):
    """From the module to the structure; the weakest link is chosen until somebody moves."""

    NAME = "Load path"
    OWN = (
        *TURNING,
        Command("up", "link_before", "Link above", "Choose the link above"),
        Command("down", "link_after", "Link below", "Choose the link below", "Link"),
        ASKING,
    )
    BINDINGS: ClassVar[list[BindingType]] = bindings(OWN)
    DEFAULT_CSS = "LoadPath Picture { padding: 0 1; height: 1fr; }"

    chosen: int | None = None

    def body(self) -> ComposeResult:
        """The whole chain as one picture."""
        yield Picture()

    def draw(self, comparison: Comparison) -> None:
        """Show the chosen method's chain."""
        column, system = self.state.column, self.state.system
        if column:
            self.query_one(Picture).show(
                lambda width, height: load_path.draw(comparison, column, self._link(), system, width, height),
            )

    def _link(self) -> int:
        """The chosen link, or the weakest."""
        links = list(self.state.column.checks.values()) if self.state.column else []
        weakest = max(range(len(links)), key=lambda number: links[number].utilisation or 0.0, default=0)
        return weakest if self.chosen is None else self.chosen

    def _move(self, step: int) -> None:
        links = self.state.column.checks if self.state.column else {}
        if links:
            self.chosen = (self._link() + step) % len(links)
            self.show(self.state)

    def action_link_before(self) -> None:
        """Choose the link above."""
        self._move(-1)

    def action_link_after(self) -> None:
        """Choose the link below."""
        self._move(1)

    def question(self) -> Question:
        """The chosen link's utilisation."""
        column = self.state.column
        return Question(column.id, LINKS[self._link()].key) if column and column.checks else super().question()

    def help_text(self) -> Content:
        """Every link, and what it means."""
        lines = [
            Content(
                "The way of the load for one method. Each bar: what is asked of a link; the tick: what it may carry."
            ),
            Content(""),
        ]
        if self.state.comparison:
            job = self.state.comparison.scenario.job
            for link in LINKS:
                lines.append(Content.styled(link.title(job), "bold") + Content(f": {link.help(job)}."))
        return Content("\n").join(lines)

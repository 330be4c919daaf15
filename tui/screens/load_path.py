"""Load path: demand and resistance of each link of one method, from the module to the structure."""

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
from tui.screens.view import METHOD_KEYS, WHY_KEY, View
from tui.widgets.picture import Picture


class LoadPath(View):
    """The controlling link is selected until another one is."""

    NAME = "Load path"
    OWN_COMMANDS = (
        *METHOD_KEYS,
        Command("link_above", "up", "Link above", "Select the link above"),
        Command("link_below", "down", "Link below", "Select the link below", "Link"),
        WHY_KEY,
    )
    BINDINGS: ClassVar[list[BindingType]] = bindings(OWN_COMMANDS)
    CSS_PATH = "load_path.tcss"

    selected: int | None = None

    def body(self) -> ComposeResult:
        """All links as one picture."""
        yield Picture()

    def draw(self, comparison: Comparison) -> None:
        """Show the links of the selected method."""
        column, system = self.state.column, self.state.system
        if column:
            self.query_one(Picture).show(
                lambda width, height: load_path.draw(comparison, column, self._link(), system, width, height),
            )

    def _link(self) -> int:
        """Number of the selected link, else of the controlling one."""
        links = list(self.state.column.checks.values()) if self.state.column else []
        controlling = max(range(len(links)), key=lambda number: links[number].utilisation or 0.0, default=0)
        return controlling if self.selected is None else self.selected

    def _move(self, step: int) -> None:
        links = self.state.column.checks if self.state.column else {}
        if links:
            self.selected = (self._link() + step) % len(links)
            self.show(self.state)

    def action_link_above(self) -> None:
        """Select the link above."""
        self._move(-1)

    def action_link_below(self) -> None:
        """Select the link below."""
        self._move(1)

    def question(self) -> Question:
        """The utilisation of the selected link."""
        column = self.state.column
        return Question(column.id, LINKS[self._link()].key) if column and column.checks else super().question()

    def help_text(self) -> Content:
        """Every link and its meaning."""
        lines = [
            Content("The path of the load for one method. Each bar is the utilisation of a link; the tick marks 1.00."),
            Content(""),
        ]
        if self.state.comparison:
            job = self.state.comparison.scenario.job
            for link in LINKS:
                lines.append(Content.styled(link.title(job), "bold") + Content(f": {link.help(job)}."))
        return Content("\n").join(lines)

"""Bill: parts, labour and cost of each method, side by side."""

from __future__ import annotations

from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import VerticalScroll
from textual.content import Content

from engine.comparison.bill_figures import bill_rows, cheapest, price_source
from engine.comparison.compare import Column, Comparison
from engine.design.status import Status
from tui.model.commands import bindings
from tui.render import bill
from tui.render.styles import MUTED
from tui.screens.view import METHOD_KEYS, View
from tui.widgets.picture import Picture
from tui.widgets.words import Words


class Scroll(VerticalScroll, inherit_bindings=False):
    """Scrolls up and down only: left and right select the method."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding(key, action, show=False)
        for key, action in (
            ("up", "scroll_up"),
            ("down", "scroll_down"),
            ("pageup", "page_up"),
            ("pagedown", "page_down"),
            ("home", "scroll_home"),
            ("end", "scroll_end"),
        )
    ]


class BillScreen(View):
    """Parts, bars to cut, price, labour and mass, with the differences from one method."""

    NAME = "Bill"
    OWN_COMMANDS = METHOD_KEYS
    BINDINGS: ClassVar[list[BindingType]] = bindings(OWN_COMMANDS)
    CSS_PATH = "bill.tcss"

    def body(self) -> ComposeResult:
        """The method that the others are compared with, then the table."""
        yield Words(id="against", classes="figures")
        with Scroll():
            yield Picture()

    def on_mount(self) -> None:
        """Put the table in focus, so that it scrolls."""
        self.query_one(Scroll).focus()

    def draw(self, comparison: Comparison) -> None:
        """Show the table with its differences."""
        base, system = self._base(comparison), self.state.system
        words = f"Differences from ◂ {base.title} ▸{_remark(base, comparison)}" if base else "No method has a price."
        self.query_one("#against", Words).show(Content.assemble(words, "\n", (price_source(comparison), MUTED)))
        self.query_one(Picture).show(lambda width, height: bill.draw(comparison, base, system, width))

    def show_message(self, words: str) -> None:
        """Show a sentence in place of the table."""
        super().show_message(words)
        self.query_one("#against", Words).show()

    def _base(self, comparison: Comparison) -> Column | None:
        """The selected method; the cheapest if none is selected or the selected one has no price."""
        selected = self.state.column if self.state.method else None
        return selected if selected and selected.design else cheapest(comparison)

    def help_text(self) -> Content:
        """Every row and its meaning."""
        comparison = self.state.comparison
        lines = [
            Content(
                "Parts, labour and cost of each method. ← and → select the method that the others are compared with."
            ),
            Content(""),
        ]
        if comparison:
            job = comparison.scenario.job
            for row in bill_rows(comparison, self.state.system):
                lines.append(Content.styled(f"{row.label(job)} ({row.group})", "bold") + Content(f": {row.help(job)}."))
        return Content("\n").join(lines)


def _remark(base: Column, comparison: Comparison) -> str:
    """A remark on the method that the others are compared with, if it is the cheapest."""
    if base is not cheapest(comparison):
        return ""
    verdict = {Status.HOLDS: "that holds", Status.INCOMPLETE: f"that is not over ({base.status.word})"}
    return f", the cheapest {verdict[base.status]}" if base.status in verdict else ", the cheapest; no method holds"

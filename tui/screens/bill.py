"""Bill: what each method is built of and what it costs, side by side."""

from __future__ import annotations

from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import VerticalScroll
from textual.content import Content
from textual.widgets import Static

from engine.comparison.bill_figures import bill_rows, cheapest, price_source
from engine.comparison.compare import Column, Comparison
from tui.model.commands import bindings
from tui.render import bill
from tui.render.styles import MUTED
from tui.screens.view import TURNING, View
from tui.widgets.picture import Picture


class Scroll(VerticalScroll, inherit_bindings=False):
    """Scrolls up and down; left and right are the screen's."""

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
    """Pieces, bars to cut, price, labour and mass, with the differences to one method."""

    NAME = "Bill"
    OWN = TURNING
    BINDINGS: ClassVar[list[BindingType]] = bindings(OWN)
    DEFAULT_CSS = """
    BillScreen #against { padding: 0 1; height: auto; max-height: 3; }
    BillScreen Scroll { padding: 0 1; scrollbar-size-vertical: 1; scrollbar-gutter: stable; }
    BillScreen Picture { width: 1fr; height: auto; }
    """

    def body(self) -> ComposeResult:
        """What the differences are against, then the table."""
        yield Static(id="against", markup=False)
        with Scroll():
            yield Picture()

    def on_mount(self) -> None:
        """Arrows scroll at once."""
        self.query_one(Scroll).focus()

    def draw(self, comparison: Comparison) -> None:
        """Show the table with its differences."""
        base, system = self._base(comparison), self.state.system
        words = f"Differences to ◂ {base.title} ▸{_why(base, comparison)}" if base else "No method can be priced here."
        self.query_one("#against", Static).update(Content.assemble(words, "\n", (price_source(comparison), MUTED)))
        self.query_one(Picture).show(lambda width, height: bill.draw(comparison, base, system, width))

    def say(self, words: str) -> None:
        """Nothing is compared with anything."""
        super().say(words)
        self.query_one("#against", Static).update()

    def _base(self, comparison: Comparison) -> Column | None:
        """The chosen method; the cheapest where none is chosen, or where the chosen one has no bill."""
        chosen = self.state.column if self.state.method else None
        return chosen if chosen and chosen.design else cheapest(comparison)

    def help_text(self) -> Content:
        """Every row, and what it means."""
        comparison = self.state.comparison
        lines = [
            Content(
                "What each method is built of, and what it costs. ← and → choose the method the differences are against."
            ),
            Content(""),
        ]
        for row in bill_rows(comparison, self.state.system) if comparison else ():
            lines.append(Content.styled(f"{row.label} ({row.group})", "bold") + Content(f": {row.help}."))
        return Content("\n").join(lines)


def _why(base: Column, comparison: Comparison) -> str:
    """What is special about the method that the differences are against."""
    if base is not cheapest(comparison):
        return ""
    return ", the cheapest that holds" if base.status == "holds" else ", the cheapest; no method holds"

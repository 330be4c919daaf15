"""Ways out: what would make a method hold that is over; enter applies one, undo takes it back."""

from __future__ import annotations

from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Horizontal
from textual.content import Content
from textual.widgets import OptionList
from textual.widgets.option_list import Option

from engine.common.progress import ProgressListener
from engine.common.sentences import capitalized
from engine.comparison.compare import Comparison
from engine.comparison.roof_plan import plan
from engine.studies.ways_out import NOTHING_HELPS, WayOut, WaysOut, ways_out
from engine.units import in_one
from tui.model.commands import Command, bindings
from tui.model.messages import InputEdited
from tui.model.state import COMPUTING
from tui.render import roof_picture
from tui.render import ways_out as drawing
from tui.render.roof_plan import controlling_attachment
from tui.screens.computing import ComputedView
from tui.screens.view import View
from tui.widgets.picture import Picture
from tui.widgets.words import Words

ABOUT = "With any one of these changes the method is no longer over. Enter applies one, z takes it back."


class WaysList(OptionList):
    """The list; its key stands in the footer."""

    BINDINGS: ClassVar[list[BindingType]] = [Binding("enter", "select", "Apply")]


class WaysOutScreen(ComputedView[tuple[WaysOut, ...]]):
    """A list of the ways out, each with what comes of it."""

    NAME = "Ways out"
    CSS_PATH = "ways_out.tcss"
    OWN_COMMANDS: ClassVar[tuple[Command, ...]] = (
        Command("apply", "enter", "Apply", "Change the inputs as the way in focus says; undo takes it back", "Apply"),
    )
    BINDINGS: ClassVar[list[BindingType]] = bindings(OWN_COMMANDS)
    FOOTER: ClassVar[tuple[str, ...]] = ("select", *View.FOOTER)

    def body(self) -> ComposeResult:
        """A line about the list or its progress, and the list."""
        yield Words(COMPUTING, id="about")
        with Horizontal(classes="panes"):
            yield WaysList(classes="figures", markup=False)
            yield Picture(id="beside")

    def find(self, comparison: Comparison, tell: ProgressListener) -> tuple[WaysOut, ...]:
        """The ways out of every method that is over."""
        return ways_out(comparison, tell)

    def say(self, words: Content) -> None:
        """Show words in place of the list."""
        self.query_one("#about", Words).show(words)
        self.query_one(OptionList).clear_options()
        self.query_one("#beside", Picture).show(lambda width, height: Content(""))

    def show_found(self, found: tuple[WaysOut, ...]) -> None:
        """Show the list."""
        self.query_one("#about", Words).show(ABOUT if self._ways else "" if found else drawing.NOTHING_OVER)
        self._list()
        self.query_one(OptionList).focus()

    @property
    def _ways(self) -> list[WayOut]:
        """The ways of all methods, in the order of the list."""
        return [way for each in self.found or () for way in each.ways]

    def _list(self) -> None:
        """List the ways in the units now chosen; the one in focus stays in focus."""
        options = self.query_one(OptionList)
        focused = options.highlighted
        options.clear_options()
        options.add_options(self._options())
        options.highlighted = focused
        if focused is None:
            options.action_first()

    def _options(self) -> list[Option]:
        """A heading a method, then its ways."""
        options, ways = list[Option](), self._ways
        for each in self.found or ():
            options += [Option(" ", disabled=True)] if options else []
            options.append(
                Option(Content.styled(drawing.heading(each.column, self.state.system), "bold"), disabled=True)
            )
            if not each.ways:
                options.append(Option(NOTHING_HELPS, disabled=True))
            for way in each.ways:
                then = way.result(each.column, self.state.system)
                words = f"{capitalized(in_one(way.text, self.state.system))}.\n→ {then}"
                options += [Option(" ", disabled=True), Option(words, id=str(ways.index(way)))]
        return options

    def on_option_list_option_highlighted(self, message: OptionList.OptionHighlighted) -> None:
        """Show the roof as it is with the way in focus."""
        if message.option.id is None:
            return
        drawn, system = plan(self._ways[int(message.option.id)].design), self.state.system
        number = controlling_attachment(drawn)
        self.query_one("#beside", Picture).show(
            lambda width, height: roof_picture.with_surroundings(drawn, number, system, width, height)
        )

    def on_option_list_option_selected(self, message: OptionList.OptionSelected) -> None:
        """Apply a way."""
        self._take(message.option)

    def action_apply(self) -> None:
        """Apply the way in focus."""
        options = self.query_one(OptionList)
        if options.highlighted is not None:
            self._take(options.get_option_at_index(options.highlighted))

    def _take(self, option: Option) -> None:
        """Lay a way's changes over the inputs, and go back to the comparison."""
        if option.id is None or self.state.is_stale:
            return
        way, inputs = self._ways[int(option.id)], self.state.inputs
        self.post_message(InputEdited(inputs.with_changes(way.proposal.changes), inputs))
        self.notify(f"{capitalized(way.text)}: applied. z takes it back.", markup=False)
        self.dismiss()

    def help_text(self) -> Content:
        """The changes that are tried, and how far each answer reaches."""
        return Content(
            "What would make a method hold that is over: the array moved on a surveyed roof, other options of the "
            "method, strengths that others would have to show, closer purlins on a new roof, modules left out. Each is "
            "computed, the smallest of its kind first, and holds all over the tolerance of setting out. Preliminary: "
            "an engineer decides."
        )

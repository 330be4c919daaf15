"""Placement map: at which places of the array each method holds; enter moves the array there."""

from __future__ import annotations

from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import ActiveBinding, BindingType
from textual.containers import Horizontal
from textual.content import Content

from engine.common.progress import ProgressListener
from engine.comparison.compare import Comparison
from engine.scenario.read import Scenario
from engine.studies.placement import Placement, PlacementMap, placement
from engine.studies.ways_out.as_written import arrays_moved
from tui.model.commands import Command, bindings
from tui.model.messages import InputEdited
from tui.model.state import State
from tui.render import placement_map, roof_picture
from tui.render.method_tabs import names
from tui.render.roof_sketch import sketch
from tui.screens.computing import ComputedView
from tui.widgets.picture import Picture
from tui.widgets.roof import method_shown
from tui.widgets.words import Words


class PlacementScreen(ComputedView[Placement]):
    """A map a method; the arrows go from place to place."""

    NAME = "Placement map"
    CSS_PATH = "placement.tcss"
    OWN_COMMANDS: ClassVar[tuple[Command, ...]] = (
        Command("place_left", "left", "Place to the left", "Go to the place on the left", "Place", sign="←→"),
        Command("place_right", "right", "Place to the right", "Go to the place on the right"),
        Command("place_up", "up", "Place above", "Go to the place higher up the slope"),
        Command("place_down", "down", "Place below", "Go to the place nearer the eave"),
        Command("best", "x", "Best", "Go to the best place of the method shown", "Best"),
        Command("move_there", "enter", "Move there", "Move the array to the place in focus", "Move"),
    )
    BINDINGS: ClassVar[list[BindingType]] = bindings(OWN_COMMANDS)

    def __init__(self, state: State) -> None:
        super().__init__(state)
        self._at: int | None = None

    def body(self) -> ComposeResult:
        """The methods, and the maps."""
        yield Words(id="methods")
        with Horizontal(classes="panes"):
            yield Picture()
            yield Picture(id="beside")

    def draw(self, comparison: Comparison) -> None:
        """Show the methods, and the map of the one now chosen."""
        self.query_one("#methods", Words).show(names(comparison, self.state.column))
        super().draw(comparison)

    def show_message(self, words: str) -> None:
        """Show a sentence in place of the maps."""
        super().show_message(words)
        self.query_one("#methods", Words).show()

    def find(self, comparison: Comparison, tell: ProgressListener) -> Placement:
        """The maps of all methods."""
        return placement(comparison, tell)

    def show_found(self, found: Placement) -> None:
        """Show the map of the method chosen."""
        self._show_map()

    # -- the place in focus -----------------------------------------------------------------------

    @property
    def _shown(self) -> PlacementMap | None:
        """The map of the method shown."""
        maps, column = (self.found.maps if self.found else ()), self.state.column
        return next((each for each in maps if column and each.column.id == column.id), None)

    @property
    def _focused(self) -> int:
        """Number of the place in focus: at first the stated one, or the first where the roof is not surveyed."""
        shown = self._shown
        places = shown.places if shown else ()
        if self._at is None or self._at >= len(places):
            self._at = min(range(len(places)), key=lambda number: places[number].distance, default=0)
        return self._at

    def _show_map(self) -> None:
        self.refresh_bindings()
        found, comparison, system = self.found, self.state.comparison, self.state.system
        if found is None or comparison is None or self.state.column is None:
            return
        at, method, job = self._focused, self.state.column.id, comparison.scenario.job
        self._show_roof(comparison.scenario)
        self.query_one(Picture).show(
            lambda width, height: placement_map.draw(found, method, at, job, system, width, height)
        )

    def _show_roof(self, scenario: Scenario) -> None:
        """The roof beside the map, with the array at the place in focus."""
        shown, system = self._shown, self.state.system
        if shown is None:
            return
        place = shown.places[self._focused]
        job = shown.up.changed(shown.along.changed(scenario.job, place.along), place.up)
        drawn, misfit = sketch(job, method_shown(scenario, self.state), None)
        marks = roof_picture.Marks(is_misfit=bool(misfit))
        self.query_one("#beside", Picture).show(
            lambda width, height: roof_picture.whole_and_array(drawn, marks, system, width, height)
        )

    def _go(self, along: int, up: int) -> None:
        shown = self._shown
        if shown is None:
            return
        across, row = len(shown.along.places), self._focused // len(shown.along.places)
        column = min(max(0, self._focused % across + along), across - 1)
        self._at = min(max(0, row + up), len(shown.up.places) - 1) * across + column
        self._show_map()

    def action_place_left(self) -> None:
        """Go to the place on the left."""
        self._go(-1, 0)

    def action_place_right(self) -> None:
        """Go to the place on the right."""
        self._go(1, 0)

    def action_place_up(self) -> None:
        """Go to the place higher up the slope."""
        self._go(0, 1)

    def action_place_down(self) -> None:
        """Go to the place nearer the eave."""
        self._go(0, -1)

    def action_best(self) -> None:
        """Go to the best place of the method shown."""
        shown = self._shown
        if shown and shown.best:
            self._at = shown.places.index(shown.best)
            self._show_map()

    def action_move_there(self) -> None:
        """Move the array to the place in focus, and go back to the comparison."""
        shown, comparison = self._shown, self.state.comparison
        if shown is None or comparison is None or self.state.is_stale or not self._moves:
            return
        place, inputs = shown.places[self._focused], self.state.inputs
        changes = arrays_moved(comparison.scenario, place.along, place.up)
        self.post_message(InputEdited(inputs.with_changes(changes), inputs))
        self.notify("The array is moved. z takes it back.", markup=False)
        self.dismiss()

    @property
    def _moves(self) -> bool:
        """True if the places are moves of the array, and not what a survey may find."""
        shown = self._shown
        return shown is not None and shown.along.moves and shown.up.moves

    def _in_footer(self, each: ActiveBinding) -> bool:
        """Nothing can be moved, and no place is best, where the roof is not surveyed."""
        return super()._in_footer(each) and (self._moves or each.binding.action not in ("best", "move_there"))

    def help_text(self) -> Content:
        """The signs of the map."""
        return Content(
            "Where each method holds with the array moved, or wherever ribs and supports that are not surveyed may be. "
            "Each place has the fewest attachments with which the method holds there, also where it is set out "
            "inaccurately; ~ marks a place where it holds only if set out exactly, ! its utilisation where it is over. "
            "The arrows go from place to place, m to the next method, x to its best place. Enter moves the array to "
            "the place in focus."
        )

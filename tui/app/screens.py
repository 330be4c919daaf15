"""The state of the app, and the screens that show it: opening them, and going from one to another."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from tui.app.endings import AppWithEndings
from tui.model.messages import InputRequested, RoofRequested, WhyRequested
from tui.model.state import State
from tui.render import text_pages
from tui.screens.bill import BillScreen
from tui.screens.draw import Draw
from tui.screens.headroom import HeadroomScreen
from tui.screens.load_path import LoadPath
from tui.screens.main import Main
from tui.screens.placement import PlacementScreen
from tui.screens.roof_plan import RoofPlan
from tui.screens.spacing_study import SpacingStudyScreen
from tui.screens.text_page import TextPage
from tui.screens.view import View
from tui.screens.ways_out import WaysOutScreen
from tui.screens.why import WhyScreen


class AppWithScreens(AppWithEndings):
    """An app whose screens show one state."""

    _state: State

    @property
    def state(self) -> State:
        """The state as it may be shown."""
        return self._state.as_shown

    def update(self, **changes: Any) -> None:
        """Change parts of the state, and show it on the screen; screens below follow when they are seen again."""
        self._state = replace(self._state, **changes)
        state = self.state
        for screen in self.screen_stack:
            if isinstance(screen, View) and screen.is_running:  # false while the app closes
                screen.follow(state, is_seen=screen is self.view)

    @property
    def main(self) -> Main:
        """The main screen, at the bottom of the stack."""
        return next(screen for screen in self.screen_stack if isinstance(screen, Main))

    @property
    def view(self) -> View:
        """The topmost screen that shows the state; dialogs may lie above it."""
        return next(screen for screen in reversed(self.screen_stack) if isinstance(screen, View))

    def _open_view(self, kind: type[View]) -> None:
        """Open a screen above the main one; any other is closed."""
        if not isinstance(self.screen, kind):
            self._close_views()
            self.push_screen(kind(self.state))

    def _close_views(self) -> None:
        while self.screen is not self.main:
            self.pop_screen()

    def action_compare(self) -> None:
        """Show the methods side by side."""
        self._close_views()
        self.main.show_comparison()

    def action_inputs(self) -> None:
        """Show the inputs."""
        self._close_views()
        self.main.show_inputs()

    def action_roof_plan(self) -> None:
        """Show the roof from above."""
        self._open_view(RoofPlan)

    def action_draw(self) -> None:
        """Draw on the roof with the keyboard."""
        self._open_view(Draw)

    def on_roof_requested(self, message: RoofRequested) -> None:
        """Show the roof from above."""
        self.action_roof_plan()

    def action_load_path(self) -> None:
        """Show the load path link by link."""
        self._open_view(LoadPath)

    def action_bill(self) -> None:
        """Show parts, labour and cost."""
        self._open_view(BillScreen)

    def action_span_study(self) -> None:
        """Show the utilisation of each component as spacing grows."""
        self._open_view(SpacingStudyScreen)

    def action_headroom(self) -> None:
        """Show the wind and snow each method can carry, and the inputs that matter."""
        self._open_view(HeadroomScreen)

    def action_ways_out(self) -> None:
        """Show what would make a method hold that is over."""
        self._open_view(WaysOutScreen)

    def action_placement(self) -> None:
        """Show at which places of the array each method holds."""
        self._open_view(PlacementScreen)

    def action_alternatives(self) -> None:
        """Show the scenario's alternatives, ranked."""
        self.push_screen(TextPage(self.state, text_pages.ALTERNATIVES))

    def action_building(self) -> None:
        """Show the totals of all slopes, and the best method of each."""
        self.push_screen(TextPage(self.state, text_pages.BUILDING))

    def on_why_requested(self, message: WhyRequested) -> None:
        """Show the calculation of the figure in focus."""
        self.action_why()

    def action_why(self) -> None:
        """Show the calculation of the figure in focus."""
        if isinstance(self.screen, View):
            self.push_screen(WhyScreen(self.state, self.screen.question()))

    def on_input_requested(self, message: InputRequested) -> None:
        """Show the form, at the input that a step of a calculation leads to."""
        self.action_inputs()
        self.main.go_to_input(message.path)

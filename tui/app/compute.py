"""The bench's half that computes: one state, a worker that compares what the session says, and every screen shown the result."""

from __future__ import annotations

import logging
from dataclasses import replace
from typing import Any

from textual import work

from engine.common.errors import InputError, Problem
from engine.common.progress import SearchStopped
from engine.comparison.compare import Comparison, compare
from engine.scenario.read import Scenario
from engine.units import System
from tui.app.key_queue import InTurn
from tui.model.cancellation import while_wanted
from tui.model.lesson_run import Place
from tui.model.messages import Broke, Compared, Studied
from tui.model.session import Session
from tui.model.state import State
from tui.screens.view import View
from tui.storage import user_state


class Comparing(InTurn):
    """Holds the state and keeps its comparison up to date.

    `only` names the methods that are compared, all where it is empty; `system` are the units shown, as they were last
    where it is None.
    """

    def __init__(
        self, session: Session, only: tuple[str, ...] = (), lesson: Place | None = None, system: System | None = None
    ) -> None:
        super().__init__()
        self.state = State(session, lesson=lesson, system=system or user_state.looks().system)
        self.only = only

    def go_on(self, **changes: Any) -> None:
        """Take up a state with some parts changed, and give it to every screen."""
        self.state = replace(self.state, **changes)
        for screen in self.screen_stack:
            if isinstance(screen, View) and screen.is_running:  # not while the bench is being closed
                screen.show(self.state)

    def take_up(self, comparison: Comparison | None) -> None:
        """Show another comparison, or none; what was studied goes with the one before."""
        self.go_on(comparison=comparison, studies={}, problems=())

    def recompute(self) -> None:
        """Read the session; compare where it can be read, say what is wrong where it cannot."""
        session = self.state.session
        try:
            scenario = session.scenario()
        except InputError as wrong:
            self.go_on(problems=wrong.problems)
            return
        if self.state.problems:
            self.go_on(problems=())
        self._compare(session, scenario)

    @work(thread=True, exclusive=True, group="compare")
    def _compare(self, session: Session, scenario: Scenario) -> None:
        try:
            comparison = compare(scenario, self.only, while_wanted())
        except SearchStopped:
            return
        except Exception as failure:  # whatever goes wrong, the bench stays open with the last good result
            logging.getLogger(__name__).exception("comparison failed")
            self.post_message(Broke(session, f"{type(failure).__name__}: {failure}"))
            return
        self.post_message(Compared(session, comparison))

    def on_compared(self, message: Compared) -> None:
        """Show a comparison, unless the session has moved on since."""
        if message.session is self.state.session:
            self.take_up(message.comparison)

    def on_studied(self, message: Studied) -> None:
        """Keep a study as long as the comparison it belongs to is shown."""
        if message.study and message.comparison is self.state.comparison:
            self.go_on(studies={**self.state.studies, message.method: message.study})

    def on_broke(self, message: Broke) -> None:
        """Say that this could not be computed."""
        if message.session is self.state.session:
            self.go_on(problems=(Problem("", f"this could not be computed ({message.words})"),))

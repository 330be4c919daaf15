"""The bench: one session, one worker, and the screens that show what it finds."""

from __future__ import annotations

import logging
from collections.abc import Callable, Iterable
from typing import ClassVar

from textual import work
from textual.app import App, SystemCommand
from textual.binding import BindingType
from textual.screen import Screen

from engine.comparison import Comparison, compare
from engine.errors import InputError, Problem
from engine.export.steps import explained
from engine.export.study import to_text as study_text
from engine.scenario import Scenario
from engine.span_study import study
from engine.units import System
from tui import files
from tui.commands import COMMANDS, bindings
from tui.messages import Broke, Compared, Typed
from tui.screens.ask import Ask
from tui.screens.help import Help
from tui.screens.main import Main
from tui.screens.open import Open
from tui.screens.reading import Reading
from tui.screens.save import Save
from tui.session import Session


class Bench(App[None]):
    """loadpath's terminal bench."""

    TITLE = "loadpath"
    CSS_PATH = "app.tcss"
    BINDINGS: ClassVar[list[BindingType]] = bindings()
    ENABLE_COMMAND_PALETTE = True

    def __init__(self, session: Session, only: tuple[str, ...] = ()) -> None:
        super().__init__()
        self.session = session
        self.saved = session
        self.only = only
        self.system: System = "us"
        self.comparison: Comparison | None = None
        self.problems: tuple[Problem, ...] = ()
        self._past: list[Session] = []
        self._future: list[Session] = []

    async def on_mount(self) -> None:
        """Open the main screen and compute at once."""
        self.theme = "textual-dark"
        await self.push_screen(Main(self.session))
        self.recompute()

    def get_system_commands(self, screen: Screen[object]) -> Iterable[SystemCommand]:
        """The palette lists the bench's own commands."""
        for command in COMMANDS:
            if command.action != "command_palette":
                yield SystemCommand(command.title, command.help, getattr(self, f"action_{command.action}"))

    @property
    def main(self) -> Main:
        """The main screen, at the bottom of the stack."""
        return next(screen for screen in self.screen_stack if isinstance(screen, Main))

    @property
    def unsaved(self) -> bool:
        """Whether there are changes no file holds."""
        return self.session.changes != self.saved.changes

    # -- the session ------------------------------------------------------------------------

    def on_typed(self, message: Typed) -> None:
        """Go on with an edited session; all that is typed into one input is one step to undo."""
        if message.session == self.session:
            return
        if not self._past or self._past[-1] is not message.before:
            self._past.append(message.before)
        self._future.clear()
        self._go_on_with(message.session)

    def _go_on_with(self, session: Session) -> None:
        self.session = session
        self.main.show_session(session)
        self.recompute()

    def recompute(self) -> None:
        """Read the session; compare where it can be read, say what is wrong where it cannot."""
        try:
            scenario = self.session.scenario()
        except InputError as wrong:
            self.problems = wrong.problems
            self.main.show_problems(self.problems)
            return
        self.problems = ()
        self.main.show_problems(())
        self._compare(self.session, scenario)

    @work(thread=True, exclusive=True, group="compare")
    def _compare(self, session: Session, scenario: Scenario) -> None:
        try:
            comparison = compare(scenario, self.only)
        except Exception as failure:  # whatever goes wrong, the bench stays open with the last good result
            logging.getLogger(__name__).exception("comparison failed")
            self.post_message(Broke(session, f"{type(failure).__name__}: {failure}"))
            return
        self.post_message(Compared(session, comparison))

    def on_compared(self, message: Compared) -> None:
        """Show a comparison, unless the session has moved on since."""
        if message.session is self.session:
            self.comparison = message.comparison
            self.main.show_comparison(message.comparison, self.system)

    def on_broke(self, message: Broke) -> None:
        """Say that this could not be computed."""
        if message.session is self.session:
            self.main.show_problems((Problem("", f"this could not be computed ({message.words}); the last good comparison stays"),))

    # -- commands ---------------------------------------------------------------------------

    def action_show_comparison(self) -> None:
        """See the methods side by side."""
        self.main.look_at_comparison()

    def action_show_inputs(self) -> None:
        """Change inputs."""
        self.main.look_at_inputs()

    def action_switch_units(self) -> None:
        """Switch between US and SI."""
        self.system = "si" if self.system == "us" else "us"
        if self.comparison:
            self.main.show_comparison(self.comparison, self.system)

    def action_switch_theme(self) -> None:
        """Switch between dark and light."""
        self.theme = "textual-light" if self.theme == "textual-dark" else "textual-dark"

    def action_study(self) -> None:
        """See every link as attachments move apart."""
        session, only, system = self.session, self.only, self.system
        self.push_screen(Reading("As attachments move apart", lambda: study_text(study(session.scenario(), only), system)))

    def action_why(self) -> None:
        """See how the worst clip of each method came about."""
        comparison = self.comparison
        if comparison:
            self.push_screen(Reading("Why? The worst clip of each method", lambda: explained(comparison)))

    def action_undo(self) -> None:
        """Take back the last change."""
        if self._past:
            self._future.append(self.session)
            self._go_on_with(self._past.pop())

    def action_redo(self) -> None:
        """Make the change again that was taken back."""
        if self._future:
            self._past.append(self.session)
            self._go_on_with(self._future.pop())

    def action_help(self) -> None:
        """Explain the screen and list the keys."""
        self.push_screen(Help(self.main.help_text()))

    def action_open_file(self) -> None:
        """Open another scenario, once unsaved changes are dealt with."""
        self._when_safe(lambda: self.push_screen(Open(), self._opened))

    def _opened(self, session: Session | None) -> None:
        if session is not None:
            self.saved = session
            self._past.clear()
            self._future.clear()
            self._go_on_with(session)

    def action_save(self) -> None:
        """Save; a bundled scenario or a first save asks where."""
        self._save(lambda: None)

    def _save(self, then: Callable[[], object]) -> None:
        if self.problems:
            self.notify("some input is wrong: what is saved can be opened again and put right here", severity="warning", markup=False)
        proposed = self.session.path if not files.is_bundled(self.session.path) else self.session.path.name
        self.push_screen(Save(self.session, str(proposed)), lambda saved: self._saved(saved, then))

    def _saved(self, session: Session | None, then: Callable[[], object]) -> None:
        if session is None:
            return
        self.session = self.saved = session
        self._past.clear()
        self._future.clear()
        self.main.show_session(session)
        self.notify(f"saved as {session.path}", markup=False)
        then()

    def action_leave(self) -> None:
        """Leave, once unsaved changes are dealt with."""
        self._when_safe(self.exit)

    def _when_safe(self, then: Callable[[], object]) -> None:
        """Go on at once where nothing is unsaved; else ask."""
        if not self.unsaved:
            then()
            return

        def answered(answer: str | None) -> None:
            if answer == "save":
                self._save(then)
            elif answer == "drop":
                then()

        self.push_screen(
            Ask("There are unsaved changes.", {"save": "Save them", "drop": "Go on without saving", "stay": "Stay here"}), answered
        )

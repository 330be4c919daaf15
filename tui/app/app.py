"""The bench: its screens and its commands."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from typing import Any, ClassVar

from textual.app import SystemCommand
from textual.binding import BindingType
from textual.screen import Screen

from tui.app.filing import Filing
from tui.model.commands import COMMANDS, Command, action_of, bindings
from tui.model.lesson_run import Place
from tui.model.messages import Asked, Chose, Looked, Walked
from tui.render import text_pages
from tui.screens.bill import BillScreen
from tui.screens.export import Export
from tui.screens.help import Help
from tui.screens.lesson import LessonScreen
from tui.screens.load_path import LoadPath
from tui.screens.main import Main
from tui.screens.reading import Reading
from tui.screens.roof_plan import RoofPlan
from tui.screens.span_study import SpanStudy
from tui.screens.view import View
from tui.storage import user_state


class Bench(Filing):
    """loadpath's terminal bench."""

    TITLE = "loadpath"
    CSS_PATH = "app.tcss"
    BINDINGS: ClassVar[list[BindingType]] = bindings(COMMANDS)

    async def on_mount(self) -> None:
        """Open the main screen and compute at once."""
        self.theme = user_state.looks().theme
        await self.push_screen(Main(self.state))
        self.recompute()
        if self.state.lesson:
            self._stand_at(self.state.lesson)
        else:
            self.offer_recovery()

    def get_system_commands(self, screen: Screen[object]) -> Iterable[SystemCommand]:
        """The palette lists the screen's commands and the bench's own."""
        for command in self.commands_on(screen):
            home = screen if isinstance(screen, View) and command in screen.OWN else self
            if command.action != "command_palette":
                yield SystemCommand(command.title, command.help, getattr(home, f"action_{command.action}"))

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """No reading explains itself, and a lesson's commands are there with a lesson only."""
        if action.startswith("lesson_"):
            return self.state.lesson is not None
        return not (action == "why" and isinstance(self.screen, Reading))

    def commands_on(self, screen: Screen[Any]) -> tuple[Command, ...]:
        """What can be done on a screen: its own commands, and the bench's whose keys it does not take."""
        own = screen.OWN if isinstance(screen, View) else ()
        taken = {command.key for command in own}
        return (*own, *(one for one in COMMANDS if one.key not in taken and self.check_action(one.action, ())))

    @property
    def main(self) -> Main:
        """The main screen, at the bottom of the stack."""
        return next(screen for screen in self.screen_stack if isinstance(screen, Main))

    @property
    def view(self) -> View:
        """The topmost screen that shows the state; dialogs may stand above it."""
        return next(screen for screen in reversed(self.screen_stack) if isinstance(screen, View))

    def on_chose(self, message: Chose) -> None:
        """Turn to a method."""
        if message.method != self.state.method:
            self.go_on(method=message.method)

    def on_asked(self, message: Asked) -> None:
        """Show how the figure in focus came about."""
        self.action_why()

    # -- a lesson ---------------------------------------------------------------------------

    def on_walked(self, message: Walked) -> None:
        """Go where the class goes."""
        self._stand_at(message.place)

    def on_looked(self, message: Looked) -> None:
        """Open the screen that the step names."""
        if self.state.lesson:
            getattr(self, f"action_{action_of(self.state.lesson.stop.step.screen)}")()

    def _stand_at(self, place: Place) -> None:
        """Open a lesson's step, with the inputs it sets."""
        self.go_on(lesson=place, method=place.stop.step.method or self.state.method)
        if self.state.session != place.session:
            self._opened(place.session)
        self.look_at(LessonScreen)

    def action_lesson_back(self) -> None:
        """Return to the step as it was."""
        if self.state.lesson:
            self._stand_at(self.state.lesson)

    def action_lesson_on(self) -> None:
        """Go on to the next step; one that has not been answered comes first."""
        place = self.state.lesson
        if place:
            if place.answered and place.last:
                self.notify("this was the lesson's last step", markup=False)
            self._stand_at(place.moved(1) if place.answered else place)

    # -- commands ---------------------------------------------------------------------------

    def look_at(self, kind: type[View]) -> None:
        """Open a screen above the comparison; whatever else is open gives way."""
        if not isinstance(self.screen, kind):
            self._close_views()
            self.push_screen(kind(self.state))

    def _close_views(self) -> None:
        while self.screen is not self.main:
            self.pop_screen()

    def action_show_comparison(self) -> None:
        """See the methods side by side."""
        self._close_views()
        self.main.look_at_comparison()

    def action_show_inputs(self) -> None:
        """Change inputs."""
        self._close_views()
        self.main.look_at_inputs()

    def action_roof_plan(self) -> None:
        """Walk the roof from attachment to attachment."""
        self.look_at(RoofPlan)

    def action_load_path(self) -> None:
        """Follow the load link by link."""
        self.look_at(LoadPath)

    def action_bill(self) -> None:
        """See what each method is built of and what it costs."""
        self.look_at(BillScreen)

    def action_next_method(self) -> None:
        """Turn to the next method."""
        self.go_on(method=self.state.next_method())

    def action_baseline(self) -> None:
        """Keep the comparison as the baseline; again: drop it."""
        baseline = None if self.state.baseline else self.state.comparison
        if baseline or self.state.baseline:
            self.go_on(baseline=baseline)
            self.notify(
                "kept as the baseline: changes since stand below each figure" if baseline else "baseline dropped",
                markup=False,
            )

    def action_switch_units(self) -> None:
        """Switch between US and SI."""
        self.go_on(system="si" if self.state.system == "us" else "us")
        user_state.keep(replace(user_state.looks(), system=self.state.system))

    def action_switch_theme(self) -> None:
        """Switch between dark and light."""
        self.theme = user_state.LIGHT if self.theme == user_state.DARK else user_state.DARK
        user_state.keep(replace(user_state.looks(), theme=self.theme))

    def action_study(self) -> None:
        """See every link as attachments move apart."""
        self.look_at(SpanStudy)

    def action_headroom(self) -> None:
        """See how much more each method could take, and which input moves the verdict."""
        help_ = "How much wind and snow each method could take as it is laid out, and what moves when an input is made smaller or larger."
        self.push_screen(Reading(self.state, "Headroom", help_, text_pages.headroom))

    def action_why(self) -> None:
        """See how the figure in focus came about."""
        if isinstance(self.screen, View):
            question = self.screen.question()
            help_ = "How the figure came about: the figure itself, then each value it was made from, back to the wind speed."
            self.push_screen(
                Reading(
                    self.state, "Why?", help_, lambda state, width, tell: text_pages.why(state, question, width, tell)
                )
            )

    def action_help(self) -> None:
        """Explain the screen and list the keys."""
        self.push_screen(Help(self.view.help_text(), self.commands_on(self.view)))

    def action_export(self) -> None:
        """Write everything about the comparison into a folder, once there is one of the inputs as they stand."""
        comparison, session = self.state.comparison, self.state.session
        if comparison is None or self.state.problems:
            self.notify(
                "nothing to write yet: some input is wrong, or the comparison is being made",
                severity="warning",
                markup=False,
            )
            return
        self.push_screen(Export(comparison, self.state.system, f"{session.path.stem}_export"), self._exported)

    def _exported(self, words: str | None) -> None:
        if words:
            self.notify(words, markup=False)

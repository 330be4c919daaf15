"""The terminal app: its start, its lessons and its commands."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from pathlib import Path
from typing import Any, ClassVar

from textual.app import SystemCommand
from textual.binding import BindingType
from textual.events import Event, Key, Paste
from textual.screen import Screen

from engine.common.errors import InputError
from engine.comparison.alternatives import KEPT_BASELINE
from engine.units import System
from tui.app.edits import AppWithDocument
from tui.app.key_queue import KeyQueue
from tui.app.themes import THEMES
from tui.model.commands import COMMANDS, Command, bindings, command_of_screen
from tui.model.inputs import Inputs
from tui.model.keymap import Keymap, load_keymap
from tui.model.lesson_run import LessonProgress, open_lesson
from tui.model.messages import (
    FiguresRequested,
    LessonMoved,
)
from tui.model.state import COMPUTING
from tui.screens import start
from tui.screens.bill import BillScreen
from tui.screens.draw import Draw
from tui.screens.headroom import HeadroomScreen
from tui.screens.help import Help
from tui.screens.lesson import LessonScreen
from tui.screens.load_path import LoadPath
from tui.screens.main import Main
from tui.screens.placement import PlacementScreen
from tui.screens.roof_plan import RoofPlan
from tui.screens.spacing_study import SpacingStudyScreen
from tui.screens.text_page import TextPage
from tui.screens.tour import Tour
from tui.screens.view import View
from tui.screens.ways_out import WaysOutScreen
from tui.screens.why import WhyScreen
from tui.storage import user_state

VIEWS = (
    Main,
    LessonScreen,
    RoofPlan,
    Draw,
    LoadPath,
    SpacingStudyScreen,
    BillScreen,
    WaysOutScreen,
    PlacementScreen,
    HeadroomScreen,
    WhyScreen,
)
"""Screens that declare commands."""

ALL_COMMANDS = (*COMMANDS, *(command for view in VIEWS for command in view.OWN_COMMANDS))

COMMAND_IDS = frozenset(command.id for command in COMMANDS)
WHILE_DRAWING = frozenset({"next_method", "units", "theme", "help", "command_palette"})
"""Commands of the app that act while the roof is drawn on."""


class LoadpathApp(AppWithDocument):
    """loadpath's terminal app.

    Args:
        inputs: the inputs to open.
        only: ids of the methods to compare; empty for all.
        lesson: the lesson to work through, at its first step.
        starts: True to show the start page first.
        system: units to show; None for those used last, or those of the load standard.
    """

    TITLE = "loadpath"
    CSS_PATH = "app.tcss"
    BINDINGS: ClassVar[list[BindingType]] = bindings(COMMANDS)

    def __init__(
        self,
        inputs: Inputs,
        only: tuple[str, ...] = (),
        lesson: LessonProgress | None = None,
        system: System | None = None,
        *,
        starts: bool = False,
    ) -> None:
        super().__init__(inputs, only, lesson, system)
        self.keymap = Keymap()
        self._key_queue = KeyQueue(self, super().on_event)
        self._starts = starts

    async def on_mount(self) -> None:
        """Open the main screen and compare at once."""
        self._end_on_signals()
        for theme in THEMES:
            self.register_theme(theme)
        self.theme = user_state.display_settings().theme
        self._load_keymap()
        await self.push_screen(Main(self.state, self.keymap))
        self._recompute()
        if self.state.lesson:
            self._show_step(self.state.lesson)
        else:
            if self._starts:
                self.action_start()
            self.files.offer_recovery()

    async def on_event(self, event: Event) -> None:
        """Queue keys and pastes from the terminal; everything else goes on at once."""
        if isinstance(event, Key | Paste) and not event.is_forwarded:
            self._key_queue.add(event)
        else:
            await super().on_event(event)

    # -- a lesson ---------------------------------------------------------------------------

    def on_lesson_moved(self, message: LessonMoved) -> None:
        """Show another step, or its answer."""
        self._show_step(message.progress)

    def on_figures_requested(self, message: FiguresRequested) -> None:
        """Open the screen that the step names; while it is covered, go on."""
        if self.state.is_covered:
            self.action_lesson_next()
        elif self.state.lesson:
            getattr(self, f"action_{command_of_screen(self.state.lesson.current.step.screen)}")()

    def _show_step(self, progress: LessonProgress) -> None:
        """Open a step of a lesson, with the inputs it sets."""
        self.update(lesson=progress, method=progress.current.step.method or self.state.method)
        if self.state.inputs != progress.inputs:
            self.files.take(progress.inputs)
        self._open_view(LessonScreen)

    def action_lesson_back(self) -> None:
        """Return to the step as it was."""
        if self.state.lesson:
            self._show_step(self.state.lesson)

    def action_lesson_next(self) -> None:
        """Go to the next step; a step that is not answered yet comes first."""
        progress = self.state.lesson
        if progress:
            self._show_step(progress.moved(1) if progress.is_answered else progress)

    # -- commands ---------------------------------------------------------------------------

    def action_next_method(self) -> None:
        """Show the next method."""
        self.update(method=self.state.next_method())

    def action_next_slope(self) -> None:
        """Show the next slope of the building."""
        self.document.show_slope(self.state.inputs.next_slope)
        self.update(baseline=None)  # that of another slope
        self.show_document()

    def action_baseline(self) -> None:
        """Keep the comparison as the baseline, or drop it."""
        if self.state.baseline:
            self.update(baseline=None, baseline_inputs=None)
            self.notify("The baseline is dropped.", markup=False)
        elif self._has_figures("No baseline was set"):
            self.update(baseline=self.state.comparison, baseline_inputs=self.state.inputs)
            self.notify("Baseline set: the change from it is shown under each value.", markup=False)

    def action_keep_baseline(self) -> None:
        """Write the baseline into the scenario, as an alternative."""
        kept, now = self.state.baseline_inputs, self.state.inputs
        if self.state.baseline is None or kept is None:
            self.notify("No baseline is set; k sets it.", severity="warning", markup=False)
        elif (inputs := now.with_alternative(KEPT_BASELINE, kept)) is None:
            self.notify("Nothing was written: the baseline has the same inputs.", severity="warning", markup=False)
        else:
            self.document.edit(inputs, now)
            self.show_document()
            self.notify("The baseline is an alternative of the scenario now; A ranks it, s saves it.", markup=False)

    def _has_figures(self, consequence: str) -> bool:
        """True if the figures belong to the inputs; else say why not, and what to do."""
        if self.state.comparison is not None and not self.state.is_stale:
            return True
        cure = "give or correct the inputs marked ! first" if self.state.problems else f"{COMPUTING} try again shortly"
        cure = "the class has not guessed yet" if self.state.is_covered else cure
        self.notify(f"{consequence}: {cure}.", severity="warning", markup=False)
        return False

    def action_units(self) -> None:
        """Switch between US and SI."""
        self._system = None
        self.update(system="si" if self.state.system == "us" else "us")
        user_state.save_display_settings(replace(user_state.display_settings(), system=self.state.system))

    def action_theme(self) -> None:
        """Switch between dark and light."""
        self.theme = user_state.LIGHT if self.theme == user_state.DARK else user_state.DARK
        user_state.save_display_settings(replace(user_state.display_settings(), theme=self.theme))

    def action_start(self) -> None:
        """Show what can be begun."""
        begin = {
            start.NEW: self.action_new,
            start.QUICK: self.action_quick,
            start.EXAMPLE: self.main.show_comparison,
            start.OPEN: self.action_open,
            start.TOUR: self.action_tour,
            start.QUIT: self.files.quit,
        }
        self.files.start(begin, self._open_lesson)

    def _open_lesson(self, path: Path) -> None:
        """Work through a lesson from its first step."""
        try:
            progress = LessonProgress(open_lesson(path))
        except InputError as wrong:
            self.notify(str(wrong.problems[0]), severity="error", markup=False)
            return
        self._show_step(progress)

    def action_quick(self) -> None:
        """Ask a dozen values, and tell the loads on a roof that nobody has seen."""
        self.files.quick(self._show_first_missing)

    def action_tour(self) -> None:
        """Explain the app in five steps."""
        self.push_screen(Tour())

    def action_new(self) -> None:
        """Begin a new job, at its first input."""
        self.files.new(self._show_first_missing)

    def _show_first_missing(self) -> None:
        self.action_inputs()
        self.main.open_first_missing()

    def action_open(self) -> None:
        """Open another scenario."""
        self.files.open()

    def action_save(self) -> None:
        """Save to the open file."""
        self.files.save()

    def action_save_as(self) -> None:
        """Save under another name."""
        self.files.save_as()

    async def action_quit(self) -> None:
        """Quit, once unsaved changes are saved or discarded."""
        self.files.quit()

    def action_export(self) -> None:
        """Write everything about the comparison into a folder."""
        comparison = self.state.comparison
        if self._has_figures("Nothing was exported") and comparison:
            self.files.export(comparison, self.state.system)

    def action_help(self) -> None:
        """Explain the screen and list the keys."""
        self.push_screen(Help(self.view.help_text(), self.commands_on(self.view), self.keymap, user_state.keys_file()))

    def get_system_commands(self, screen: Screen[object]) -> Iterable[SystemCommand]:
        """Commands of the screen and of the app, for the palette."""
        for command in self.commands_on(screen):
            owner = screen if isinstance(screen, View) and command in screen.OWN_COMMANDS else self
            if command.id != "command_palette":
                words = f"{self.keymap.shown(command)}   {command.help}"
                yield SystemCommand(command.title, words, getattr(owner, f"action_{command.id}"))

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Lesson commands need a lesson, which answers for itself; a page of text has no calculation of its own.

        Headroom shows the figures of other inputs too, which a lesson may still ask for.
        """
        if isinstance(self.screen, Draw) and action in COMMAND_IDS - WHILE_DRAWING:
            return False
        if action.startswith("lesson_"):
            return self.state.lesson is not None
        if action in ("ways_out", "placement", "alternatives"):
            return self.state.lesson is None
        if action in ("next_slope", "building"):
            return bool(self.state.inputs.next_slope)
        if action == "headroom":
            return self.state.lesson is None or self.state.lesson.is_all_answered
        return not (action == "why" and isinstance(self.screen, TextPage | WhyScreen))

    def commands_on(self, screen: Screen[Any]) -> tuple[Command, ...]:
        """Commands that work on a screen: its own, and the app's on keys that it leaves free."""
        own = screen.OWN_COMMANDS if isinstance(screen, View) else ()
        taken = {key for command in own for key in self.keymap.keys_of(command)}
        free = (command for command in COMMANDS if not taken.issuperset(self.keymap.keys_of(command)))
        return (*own, *(command for command in free if self.check_action(command.id, ())))

    def _load_keymap(self) -> None:
        """Bind the user's keys; if their file is wrong, say so and keep the defaults."""
        try:
            self.keymap = load_keymap(user_state.keys_file(), ALL_COMMANDS)
        except InputError as wrong:
            sentence = f"The default keys apply, {user_state.keys_file()} is wrong: {wrong.problems[0]}"
            self.notify(sentence, severity="warning", markup=False)
        self.set_keymap(self.keymap.for_textual())

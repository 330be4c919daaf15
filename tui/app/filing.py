"""The bench's other half, which keeps what people type: edits, undo, opening, saving, recovery, leaving."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from textual import work
from textual.timer import Timer

from engine.common.errors import InputError
from engine.units import System
from tui.app.compute import Comparing
from tui.model.history import History
from tui.model.lesson_run import Place
from tui.model.messages import TakenBack, Typed
from tui.model.recovery import Recovery, left_behind
from tui.model.session import Session
from tui.screens.ask import Ask
from tui.screens.open import Open
from tui.screens.save import Save
from tui.storage import paths, user_state

SOON = 0.3
"""So long after the last edit what is not saved is written down [s]."""


class Filing(Comparing):
    """Holds the history of the session, and sees to it that nothing typed is lost."""

    def __init__(
        self, session: Session, only: tuple[str, ...] = (), lesson: Place | None = None, system: System | None = None
    ) -> None:
        super().__init__(session, only, lesson, system)
        self.saved = session
        self.history = History()
        self.recovery = Recovery()
        self._soon: Timer | None = None
        self._warned = False

    @property
    def unsaved(self) -> bool:
        """Whether there are changes no file holds."""
        return self.state.session.changes != self.saved.changes

    def go_on_with(self, session: Session) -> None:
        """Take up a session: show it, keep what it holds unsaved, and find out what follows from it."""
        self.go_on(session=session)
        self._keep()
        self.recompute()

    # -- edits ------------------------------------------------------------------------------

    def on_typed(self, message: Typed) -> None:
        """Go on with an edited session."""
        if message.session != self.state.session:
            self.history.edited(message.before)
            self.go_on_with(message.session)

    def on_taken_back(self, message: TakenBack) -> None:
        """Go back to before an input was opened; redo brings back what was typed."""
        if self.history.began_with(message.before):
            self.action_undo()

    def action_undo(self) -> None:
        """Take back the last change."""
        self._turn_to(self.history.back(self.state.session))

    def action_redo(self) -> None:
        """Make the change again that was taken back."""
        self._turn_to(self.history.forth(self.state.session))

    def _turn_to(self, session: Session | None) -> None:
        if session is not None:
            self.go_on_with(session.onto(self.saved))

    # -- recovery ---------------------------------------------------------------------------

    def _keep(self) -> None:
        """Have what is not saved written down soon."""
        self.recovery.want(self.state.session if self.unsaved else None)
        if self._soon is not None:
            self._soon.stop()
        self._soon = self.set_timer(SOON, self._settle)

    @work(thread=True, group="recovery")
    def _settle(self) -> None:
        if not self.recovery.settle() and not self._warned:
            self._warned = True
            where = f"{user_state.folder()} cannot be written"
            self.call_from_thread(
                self.notify, f"{where}: what you have not saved is lost if the bench stops.", severity="warning"
            )

    def let_go(self) -> None:
        """What is not saved was dropped on purpose, or saved."""
        self.recovery.want(None)
        self.recovery.settle()

    def offer_recovery(self) -> None:
        """Offer what an earlier bench had not saved when it stopped."""
        left = left_behind()
        if left is None:
            return
        session, count = left.session, len(left.session.changes)

        def answered(answer: str | None) -> None:
            if answer == "take":
                self._opened(replace(session, changes={}))
                self.history.edited(self.saved)
                self.go_on_with(session)
                self.recovery.settle()
            if answer in ("take", "drop"):
                left.drop()

        changes = "1 change" if count == 1 else f"{count} changes"
        answers = {"take": "Go on with them", "later": "Ask again next time", "drop": "Drop them for good"}
        self.push_screen(
            Ask(f"The bench stopped before {changes} to {session.path.name} could be saved.", answers), answered
        )

    # -- files ------------------------------------------------------------------------------

    def action_open_file(self) -> None:
        """Open another scenario, once unsaved changes are dealt with."""
        self._when_safe(lambda: self.push_screen(Open(user_state.recent()), self._opened))

    def _opened(self, session: Session | None) -> None:
        if session is not None:
            self.let_go()
            user_state.remember(session.path)
            self.saved = session
            self.history.clear()
            if not session.same_file(self.state.session):
                self.take_up(None)  # no figure of another file may stand under this one's name
            self.go_on_with(session)

    def action_save(self) -> None:
        """Save to the file that is open; where that is not safe, ask where."""
        self._save(lambda: None)

    def action_save_as(self) -> None:
        """Save under another name."""
        self._ask_where(lambda: None)

    def _save(self, then: Callable[[], object]) -> None:
        session = self.state.session
        if paths.is_bundled(session.path) or not session.as_on_disk() or not session.readable:
            self._ask_where(then)
            return
        try:
            self._saved(session.written_to(session.path), then)
        except InputError as wrong:
            self.notify(str(wrong.problems[0]), severity="error", markup=False)

    def _ask_where(self, then: Callable[[], object]) -> None:
        session = self.state.session
        proposed = session.path.name if paths.is_bundled(session.path) else str(session.path)
        self.push_screen(Save(session, proposed), lambda saved: self._saved(saved, then))

    def _saved(self, session: Session | None, then: Callable[[], object]) -> None:
        if session is None:
            return
        self.saved = session
        self.let_go()
        user_state.remember(session.path)
        self.go_on(session=session)
        wrong = "; some input in it is wrong" if self.state.problems else ""
        self.notify(f"saved as {session.path}{wrong}", markup=False)
        then()

    def action_leave(self) -> None:
        """Leave, once unsaved changes are dealt with."""
        self._when_safe(self._leave)

    def _leave(self) -> None:
        self.let_go()
        self.exit()

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

        answers = {"save": "Save them", "drop": "Go on without saving", "stay": "Stay here"}
        self.push_screen(Ask("There are unsaved changes.", answers), answered)

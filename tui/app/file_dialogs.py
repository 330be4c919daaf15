"""Starting, opening, saving, exporting, recovering and quitting: the dialogs around the document."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from pathlib import Path

from textual.app import App

from engine.common.errors import InputError
from engine.common.progress import ProgressListener
from engine.comparison.alternatives import with_alternatives
from engine.comparison.building_comparison import Compared, compare_file
from engine.comparison.compare import Comparison
from engine.export.stamp import ScenarioFile
from engine.units import System
from tui.model.document import Document
from tui.model.inputs import Inputs
from tui.model.new_job import new_job
from tui.model.question import Answers
from tui.model.recovery import find_recovered_work
from tui.screens import start
from tui.screens.ask import Ask
from tui.screens.export import Export
from tui.screens.open import Open, title_of
from tui.screens.quick import Quick
from tui.screens.save import Save
from tui.storage import paths, user_state


class FileDialogs:
    """Asks before anything unsaved is discarded; `opened` and `saved` are called once the document has changed."""

    def __init__(
        self, app: App[None], document: Document, opened: Callable[[], object], saved: Callable[[], object]
    ) -> None:
        self._app, self._document = app, document
        self._opened, self._saved = opened, saved
        self._question: Answers | None = None

    def start(self, begin: Mapping[str, Callable[[], object]], open_lesson: Callable[[Path], object]) -> None:
        """Show the start page; `begin` does what each of its choices says."""

        def chosen(choice: str | None) -> None:
            choice = choice or start.EXAMPLE
            if choice.startswith(start.FILE):
                self._open_recent(Path(choice.removeprefix(start.FILE)))
            elif choice.startswith(start.LESSON):
                open_lesson(Path(choice.removeprefix(start.LESSON)))
            else:
                begin[choice]()

        lessons = [(path, title_of(path)) for path in paths.bundled_lessons()]
        self._app.push_screen(start.Start(user_state.recent(), lessons), chosen)

    def _open_recent(self, path: Path) -> None:
        try:
            self.take(Inputs.of_file(path))
        except InputError as wrong:
            self._app.notify(str(wrong.problems[0]), severity="error", markup=False)

    def new(self, then: Callable[[], object]) -> None:
        """Begin a new job."""
        self._when_safe(lambda: self._begin(new_job(Path.cwd()), then))

    def quick(self, then: Callable[[], object]) -> None:
        """Ask a quick question, at first by the standard of the open file; it may become a new job.

        What was typed is kept for the next time.
        """
        page = Quick(self._question or Answers({"standard": self._document.inputs.standard}))

        def answered(inputs: Inputs | None) -> None:
            self._question = page.answers
            if inputs:
                self._when_safe(lambda: self._begin(inputs, then))

        self._app.push_screen(page, answered)

    def _begin(self, inputs: Inputs, then: Callable[[], object]) -> None:
        self.take(inputs)
        then()

    def export(self, comparison: Comparison, system: System) -> None:
        """Ask for a folder and write everything about a comparison into it."""
        inputs = self._document.inputs
        source = ScenarioFile.of_text(inputs.path.name, inputs.text, inputs.changed_values())
        methods = tuple(column.id for column in comparison.columns)

        def compare(tell: ProgressListener) -> Compared:
            """The comparison of all slopes; of a single one it is known."""
            if comparison.scenario.slopes:
                return compare_file(inputs.slopes(), methods, tell)
            return with_alternatives(comparison, tell)

        page = Export(compare, system, f"{inputs.path.stem}_export", source)
        self._app.push_screen(page, self._say)

    def _say(self, sentence: str | None) -> None:
        if sentence:
            self._app.notify(sentence, markup=False)

    def open(self) -> None:
        """Ask for a scenario and open it."""
        self._when_safe(lambda: self._app.push_screen(Open(user_state.recent()), self.take))

    def take(self, inputs: Inputs | None) -> None:
        """Open inputs, if there are any."""
        if inputs is not None:
            self._document.open(inputs)
            user_state.add_recent(inputs.path)
            self._opened()

    def save(self, then: Callable[[], object] = lambda: None) -> None:
        """Save to the open file; if that is not safe, ask for a name."""
        if self._document.must_be_named:
            self.save_as(then)
            return
        try:
            self._document.save()
        except InputError as wrong:
            self._app.notify(f"Not saved: {wrong.problems[0]}", severity="error", markup=False)
            return
        self._after_saving(then)

    def save_as(self, then: Callable[[], object] = lambda: None) -> None:
        """Ask for a name and save."""
        path = self._document.inputs.path
        proposed = path.name if paths.is_bundled(path) else str(path)
        self._app.push_screen(Save(self._document, proposed), lambda saved: self._after_saving(then) if saved else None)

    def _after_saving(self, then: Callable[[], object]) -> None:
        path = self._document.inputs.path
        user_state.add_recent(path)
        self._saved()
        wrong = "" if self._document.inputs.readable else ". Some input in it is wrong"
        self._app.notify(f"Saved as {path}{wrong}", markup=False)
        then()

    def quit(self) -> None:
        """Quit, once unsaved changes are saved or discarded."""
        self._when_safe(self._quit)

    def _quit(self) -> None:
        self._document.discard()
        self._app.exit()

    def _when_safe(self, then: Callable[[], object]) -> None:
        """Go on if nothing is unsaved; else ask first."""
        if not self._document.is_unsaved:
            then()
            return

        def answered(answer: str | None) -> None:
            if answer == "save":
                self.save(then)
            elif answer == "discard":
                then()

        answers = {"save": "Save", "discard": "Discard", "cancel": "Cancel"}
        self._app.push_screen(Ask("There are unsaved changes.", answers), answered)

    def offer_recovery(self) -> None:
        """Offer unsaved work of a process that ended before it was saved."""
        work = find_recovered_work()
        if work is None:
            return

        def answered(answer: str | None) -> None:
            if answer == "restore":
                self._document.restore(work)
                self._opened()
            elif answer == "delete":
                work.delete()

        count = len(work.inputs.changes)
        changes = "1 unsaved change" if count == 1 else f"{count} unsaved changes"
        answers = {"restore": "Restore", "later": "Ask again next time", "delete": "Delete"}
        self._app.push_screen(Ask(f"loadpath ended with {changes} to {work.inputs.path.name}.", answers), answered)

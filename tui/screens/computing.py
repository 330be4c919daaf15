"""What screens share that compute: a worker thread, its progress, its result or its failure, and the way to stop it."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from typing import Generic, TypeVar

from textual.content import Content
from textual.message import Message
from textual.screen import Screen, ScreenResultType

from engine.common.progress import ProgressListener, SearchStopped
from engine.comparison.compare import Comparison
from tui.model.cancellation import until_cancelled
from tui.model.internal_error import internal_error
from tui.model.state import COMPUTING
from tui.render.progress import progress
from tui.screens.view import View
from tui.widgets.picture import Picture

Found = TypeVar("Found")
GROUP = "computing"


class Reported(Message, bubble=False):
    """News of what was asked: `show` shows it."""

    def __init__(self, asked: object, show: Callable[[], object]) -> None:
        super().__init__()
        self.asked, self.show = asked, show


class Computing(Screen[ScreenResultType]):
    """A screen that computes one thing at a time. Another question, or leaving it, stops the work."""

    _asked: object = None

    def show_progress(self, words: str) -> None:
        """Show how far the work is, if it tells."""

    def show_failure(self, words: str) -> None:
        """Say that the work ended in an internal error."""
        raise NotImplementedError

    def compute(
        self, asked: object, work: Callable[[ProgressListener], Found], show: Callable[[Found], object]
    ) -> None:
        """Answer a question in a thread and show what is found, unless the same one was asked last."""
        if asked != self._asked:
            self._asked = asked
            self.run_worker(partial(self._work, asked, work, show), thread=True, exclusive=True, group=GROUP)

    def stop(self) -> None:
        """Stop the work; nothing of it is shown any more."""
        self._asked = None
        self.workers.cancel_group(self, GROUP)

    def _work(self, asked: object, work: Callable[[ProgressListener], Found], show: Callable[[Found], object]) -> None:
        def report(show: Callable[[], object]) -> None:
            self.post_message(Reported(asked, show))

        try:
            found = work(until_cancelled(lambda words: report(partial(self.show_progress, words))))
        except SearchStopped:
            return
        except Exception as failure:  # the app stays open
            report(partial(self.show_failure, internal_error(failure)))
        else:
            report(partial(show, found))

    def on_reported(self, message: Reported) -> None:
        """Show the news, unless something else is asked by now."""
        if message.asked == self._asked:
            message.show()


class ComputedView(View, Computing[None], Generic[Found]):
    """Shows what `find` finds about the state; an older result stays, marked, until the new one is there."""

    found: Found | None = None
    _found_for: object = None
    _is_part = False

    def subject(self) -> object:
        """What the result depends on."""
        return self.state.comparison

    def find(self, comparison: Comparison, tell: ProgressListener) -> Found:
        """The result; runs in a thread. It is dropped where the state is another one by then."""
        raise NotImplementedError

    def show_found(self, found: Found) -> None:
        """Show the result, in the units and for the method now chosen."""
        raise NotImplementedError

    def say(self, words: Content) -> None:
        """Show words in place of the result."""
        self.query(Picture).first().show(lambda width, height: words)

    def draw(self, comparison: Comparison) -> None:
        """Find anew where the result is of something else; else show it."""
        if self.found is not None and self._found_for == self.subject():
            self.show_found(self.found)
        else:
            self.compute(self.subject(), partial(self.find, comparison), self._keep)

    def show_part(self, subject: object, found: Found) -> None:
        """Show what is found of a subject so far, marked, while the rest is found; called in the thread of `find`."""
        self.post_message(Reported(subject, partial(self._keep, found, is_part=True)))

    def _keep(self, found: Found | None, *, is_part: bool = False) -> None:
        self.found, self._found_for, self._is_part = found, self._asked, is_part
        if found is not None:
            self.show_found(found)
        self.show_heading()

    def show_progress(self, words: str) -> None:
        """Show the progress where there is no older result to look at."""
        if self.found is None:
            self.say(progress(words))

    def show_failure(self, words: str) -> None:
        """Say that the work ended in an internal error."""
        self._keep(None)
        self.say(Content(words))

    def show_message(self, words: str) -> None:
        """Show a sentence in place of the result."""
        self.stop()
        self.found = self._found_for = None
        self.say(Content(words))

    def stale_mark(self) -> str:
        """The mark also while the result for a new comparison is found, or the rest of it."""
        is_whole = self.state.comparison is None or (self._found_for == self.subject() and not self._is_part)
        return self.state.stale_mark or ("" if is_whole else COMPUTING)

"""The comparison, computed in a worker thread."""

from __future__ import annotations

from functools import partial

from textual.app import App

from engine.common.progress import ProgressListener, SearchStopped
from engine.comparison.compare import Comparison, compare, compare_as_before, compare_priced_anew
from engine.scenario.read import Scenario
from tui.model.cancellation import until_cancelled
from tui.model.inputs import Inputs
from tui.model.internal_error import internal_error
from tui.model.messages import Compared, CompareProgress, ComputeFailed

GROUP = "compare"


class Compute:
    """One comparison at a time: a new one cancels the one before. The result comes to the app as a message."""

    def __init__(self, app: App[None], only: tuple[str, ...]) -> None:
        self._app, self._only = app, only

    def start(self, inputs: Inputs, scenario: Scenario, before: Comparison | None, *, is_searched: bool) -> None:
        """Compare the methods of a scenario.

        At first the layouts of the comparison before are checked, then others are searched; none where only prices are
        new and those before were searched.
        """
        work = partial(self._run, inputs, scenario, before, is_searched=is_searched)
        self._app.run_worker(work, thread=True, exclusive=True, group=GROUP)

    def cancel(self) -> None:
        """Stop the comparison that runs, if one does."""
        self._app.workers.cancel_group(self._app, GROUP)

    def _progress_of(self, inputs: Inputs) -> ProgressListener:
        """A listener for the first comparison: it says which method is computed, not every pattern that is tried."""
        told = set[str]()

        def on_progress(message: str) -> None:
            part = message.rpartition(": ")[0]
            if part not in told:
                told.add(part)
                self._app.post_message(CompareProgress(inputs, f"{part}   esc stops"))

        return on_progress

    def _run(self, inputs: Inputs, scenario: Scenario, before: Comparison | None, *, is_searched: bool) -> None:
        tell = until_cancelled() if before else until_cancelled(self._progress_of(inputs))
        try:
            comparison = compare_priced_anew(scenario, before) if before and is_searched else None
            if comparison is None:
                former = compare_as_before(scenario, before) if before else None
                if former:
                    self._app.post_message(Compared(inputs, former, is_final=False))
                comparison = compare(scenario, self._only, tell)
        except SearchStopped:
            return
        except Exception as failure:  # the app stays open with the last good comparison
            self._app.post_message(ComputeFailed(inputs, internal_error(failure)))
            return
        self._app.post_message(Compared(inputs, comparison))

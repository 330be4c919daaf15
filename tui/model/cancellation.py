"""Cancelling a search that runs in a worker thread."""

from __future__ import annotations

from textual.worker import get_current_worker

from engine.common.progress import ProgressListener, SearchStopped, no_listener


def until_cancelled(listener: ProgressListener = no_listener) -> ProgressListener:
    """A listener that passes progress on and stops the search once this worker is cancelled."""
    worker = get_current_worker()

    def on_progress(words: str) -> None:
        if worker.is_cancelled:
            raise SearchStopped
        listener(words)

    return on_progress

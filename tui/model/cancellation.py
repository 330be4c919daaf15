"""Work in a thread that ends itself once nobody waits for its answer any more."""

from __future__ import annotations

from textual.worker import get_current_worker

from engine.common.progress import ProgressListener, SearchStopped, no_listener


def while_wanted(hear: ProgressListener = no_listener) -> ProgressListener:
    """What a worker's search tells, passed on to `hear`; it stops the search when another worker has taken this one's place."""
    worker = get_current_worker()

    def tell(words: str) -> None:
        if worker.is_cancelled:
            raise SearchStopped
        hear(words)

    return tell

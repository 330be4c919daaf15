"""Keys one after another: each is passed on once everything that the one before it started is done.

A key goes to the widget in focus when it arrives. Fast typists, and terminals that paste by typing, send keys before
an enter has opened its field; passed on at once, they would be taken as commands or be lost.
"""

from __future__ import annotations

import asyncio
from collections import deque
from collections.abc import Awaitable, Callable
from contextlib import suppress

from textual.app import App
from textual.events import Event, Paste
from textual.message_pump import MessagePump

BUBBLE_ROUNDS = 2
"""Times that something bubbles from the focused widget to the app: the key, then the message it led to."""

POLL_INTERVAL = 0.01
"""Interval at which a widget that is waited for is checked for having been closed [s]."""


class KeyQueue:
    """Waiting keys and pastes; `deliver` hands one of them to the app."""

    def __init__(self, app: App[None], deliver: Callable[[Event], Awaitable[None]]) -> None:
        self._app, self._deliver = app, deliver
        self._waiting: deque[Event] = deque()

    def add(self, event: Event) -> None:
        """Queue a key or a paste."""
        self._waiting.append(_in_one_line(event) if isinstance(event, Paste) else event)
        if len(self._waiting) == 1:
            self._app.run_worker(self._deliver_all(), group="keys")

    async def _deliver_all(self) -> None:
        while self._waiting:
            path = (self._app.focused or self._app.screen).ancestors_with_self
            await self._deliver(self._waiting[0])
            for part in path * BUBBLE_ROUNDS:
                await _idle(part)
            await _idle(self._app.screen)
            self._waiting.popleft()


def _in_one_line(paste: Paste) -> Paste:
    """The paste with its lines joined: fields have one line and would drop all but the first."""
    return Paste(" ".join(paste.text.splitlines()))


async def _idle(part: MessagePump) -> None:
    """Wait until a widget has handled its messages so far, or is closed."""
    done = asyncio.Event()
    if part.call_later(done.set):
        while part.is_running and not done.is_set():
            with suppress(TimeoutError):
                await asyncio.wait_for(done.wait(), POLL_INTERVAL)

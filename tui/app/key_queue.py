"""Keys in turn: the next one is passed on when all that the one before brought about is done.

A key goes to what is in focus when it arrives. People who type fast, and terminals that paste by typing, send more keys
before an enter has opened its field; passed on at once they would be taken as commands, or be lost.
"""

from __future__ import annotations

import asyncio
from collections import deque
from contextlib import suppress

from textual import work
from textual.app import App
from textual.events import Event, Key, Paste
from textual.message_pump import MessagePump

HOPS = 2
"""So often something climbs from what is in focus to the app: the key itself, then the message that it led to."""

GLANCE = 0.01
"""So often it is looked whether something that is waited for has been closed [s]."""


class InTurn(App[None]):
    """Passes keys and pastes on one after another."""

    def __init__(self) -> None:
        super().__init__()
        self._waiting: deque[Event] = deque()

    async def on_event(self, event: Event) -> None:
        """Let keys and pastes from the terminal wait for their turn; everything else goes on at once."""
        if not isinstance(event, Key | Paste) or event.is_forwarded:
            await super().on_event(event)
            return
        self._waiting.append(_in_one_line(event) if isinstance(event, Paste) else event)
        if len(self._waiting) == 1:
            self._pass_on()

    @work(group="keys")
    async def _pass_on(self) -> None:
        while self._waiting:
            way = (self.focused or self.screen).ancestors_with_self
            await super().on_event(self._waiting[0])
            for part in way * HOPS:
                await _caught_up(part)
            await _caught_up(self.screen)
            self._waiting.popleft()


def _in_one_line(paste: Paste) -> Paste:
    """A paste for fields of one line, which would keep no more than its first."""
    return Paste(" ".join(paste.text.splitlines()))


async def _caught_up(part: MessagePump) -> None:
    """Wait until a part has done what it was told so far, or is closed."""
    done = asyncio.Event()
    if part.call_later(done.set):
        while part.is_running and not done.is_set():
            with suppress(TimeoutError):
                await asyncio.wait_for(done.wait(), GLANCE)

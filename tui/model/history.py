"""Undo and redo without limit: sessions are small, so they are simply kept."""

from __future__ import annotations

from tui.model.session import Session


class History:
    """The sessions before and after the present one."""

    def __init__(self) -> None:
        self._past: list[Session] = []
        self._future: list[Session] = []

    def edited(self, before: Session) -> None:
        """Note an edit; all that is typed into one input is one step, so the same `before` may come again."""
        if not self.began_with(before):
            self._past.append(before)
        self._future.clear()

    def began_with(self, before: Session) -> bool:
        """Whether the last step began with this very session."""
        return bool(self._past) and self._past[-1] is before

    def back(self, now: Session) -> Session | None:
        """The session before, if there is one."""
        if not self._past:
            return None
        self._future.append(now)
        return self._past.pop()

    def forth(self, now: Session) -> Session | None:
        """The session that was taken back, if there is one."""
        if not self._future:
            return None
        self._past.append(now)
        return self._future.pop()

    def clear(self) -> None:
        """Another file: nothing can be taken back."""
        self._past.clear()
        self._future.clear()

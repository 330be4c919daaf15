"""What was typed but not saved: written down while the bench runs, and offered again where it stopped before it was saved."""

from __future__ import annotations

import os
import secrets
import threading
from collections.abc import Mapping
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from engine.common.errors import InputError
from tui.model.session import Session
from tui.storage import user_state
from tui.storage.overrides import REMOVED


class Recovery:
    """One file that holds what this bench has not saved yet; no file where there is nothing to lose."""

    def __init__(self) -> None:
        self.file = user_state.folder() / f"unsaved-{os.getpid()}-{secrets.token_hex(4)}.toml"
        self._wanted: Session | None = None
        self._lock = threading.Lock()

    def want(self, session: Session | None) -> None:
        """Say what the file should hold; None for nothing."""
        self._wanted = session

    def settle(self) -> bool:
        """Make the file what it should be, in any thread; whether what is unsaved is safe."""
        with self._lock:
            session = self._wanted
            if session is None:
                user_state.remove(self.file)
                return True
            changes = [
                {"path": list(path)} | ({} if value is REMOVED else {"value": value})
                for path, value in session.changes.items()
            ]
            return user_state.write(
                self.file, {"path": str(session.path.resolve()), "text": session.text, "changes": changes}
            )


@dataclass(frozen=True)
class LeftBehind:
    """What an earlier bench had not saved when it stopped."""

    file: Path
    session: Session

    def drop(self) -> None:
        """Do not offer it again."""
        user_state.remove(self.file)


def left_behind() -> LeftBehind | None:
    """The latest of what benches that no longer run left unsaved."""
    with suppress(OSError):
        found = sorted(user_state.folder().glob("unsaved-*.toml"), key=lambda file: file.stat().st_mtime, reverse=True)
        for file in found:
            session = None if _runs(file.name.split("-")[1]) else _session(user_state.read(file))
            if session:
                return LeftBehind(file, session)
    return None


def _session(found: Mapping[str, Any]) -> Session | None:
    try:
        changes = {tuple(change["path"]): change.get("value", REMOVED) for change in found["changes"]}
        session = Session(Path(found["path"]), found["text"], changes)
        session.tables()
    except (InputError, KeyError, TypeError, AttributeError):
        return None
    return session if changes else None


def _runs(pid: str) -> bool:
    """Whether another bench of that process still runs; where that cannot be asked safely, none does."""
    if os.name == "nt" or not pid.isdigit() or int(pid) == os.getpid():
        return False
    try:
        os.kill(int(pid), 0)
    except ProcessLookupError:
        return False
    except OSError:
        return True
    return True

"""What is kept between sessions in the user's own folder: recent files, and what was typed but not saved.

Nothing here may ever stand in the way of work: where the folder cannot be written, nothing is kept.
"""

from __future__ import annotations

import os
import secrets
import threading
from collections.abc import Mapping
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import platformdirs
import tomlkit

from engine.errors import InputError
from tui import files, writing
from tui.changes import REMOVED
from tui.session import Session

MOST_RECENT = 8


def folder() -> Path:
    """Where things are kept."""
    return platformdirs.user_state_path("loadpath", appauthor=False)


def recent() -> list[Path]:
    """Files opened or saved lately that are still there, the latest first."""
    return [path for path in _listed() if path.is_file()][:MOST_RECENT]


def remember(path: Path) -> None:
    """Put a file first among the recent ones; bundled scenarios are listed anyway."""
    path = path.resolve()
    if not files.is_bundled(path):
        others = [other for other in _listed() if other != path]
        _write(folder() / "recent.toml", {"files": [str(each) for each in [path, *others][:MOST_RECENT]]})


def _listed() -> list[Path]:
    return [Path(name) for name in _read(folder() / "recent.toml").get("files", []) if isinstance(name, str)]


class Recovery:
    """One file that holds what this bench has not saved yet; no file where there is nothing to lose."""

    def __init__(self) -> None:
        self.file = folder() / f"unsaved-{os.getpid()}-{secrets.token_hex(4)}.toml"
        self._wanted: Session | None = None
        self._lock = threading.Lock()

    def want(self, session: Session | None) -> None:
        """Say what the file should hold; None for nothing."""
        self._wanted = session

    def settle(self) -> None:
        """Make the file what it should be; may run in any thread."""
        with self._lock:
            session = self._wanted
            if session is None:
                _remove(self.file)
            else:
                changes = [{"path": list(path)} | ({} if value is REMOVED else {"value": value}) for path, value in session.changes.items()]
                _write(self.file, {"path": str(session.path.resolve()), "text": session.text, "changes": changes})


@dataclass(frozen=True)
class LeftBehind:
    """What an earlier bench had not saved when it stopped."""

    file: Path
    session: Session

    def drop(self) -> None:
        """Do not offer it again."""
        _remove(self.file)


def left_behind() -> LeftBehind | None:
    """The latest of what benches that no longer run left unsaved."""
    with suppress(OSError):
        found = sorted(folder().glob("unsaved-*.toml"), key=lambda file: file.stat().st_mtime, reverse=True)
        for file in found:
            session = None if _runs(file.name.split("-")[1]) else _session(_read(file))
            if session:
                return LeftBehind(file, session)
    return None


def _session(kept: Mapping[str, Any]) -> Session | None:
    try:
        changes = {tuple(change["path"]): change.get("value", REMOVED) for change in kept["changes"]}
        session = Session(Path(kept["path"]), kept["text"], changes)
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


def _read(path: Path) -> dict[str, Any]:
    try:
        return files.parse(files.read_text(path), path.name) if path.is_file() else {}
    except (InputError, OSError):
        return {}


def _write(path: Path, kept: Mapping[str, Any]) -> None:
    with suppress(InputError, OSError):
        path.parent.mkdir(parents=True, exist_ok=True)
        writing.write_text(path, tomlkit.dumps(kept), overwrite=True)


def _remove(path: Path) -> None:
    with suppress(OSError):
        path.unlink(missing_ok=True)

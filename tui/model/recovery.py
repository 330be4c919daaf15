"""Unsaved work in the user's folder: written while the app runs, offered again if the app ended before saving."""

from __future__ import annotations

import os
import secrets
from collections.abc import Mapping
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from engine.common.errors import InputError
from engine.scenario.changes import REMOVED
from tui.model.inputs import Inputs
from tui.storage import user_state
from tui.storage.processes import is_running


class RecoveryFile:
    """The file for the unsaved changes of this process."""

    def __init__(self) -> None:
        self.path = user_state.folder() / f"unsaved-{os.getpid()}-{secrets.token_hex(4)}.toml"

    def write(self, inputs: Inputs) -> bool:
        """Replace the file; False if it cannot be written."""
        changes = [
            {"path": list(path)} | ({} if value is REMOVED else {"value": value})
            for path, value in inputs.changes.items()
        ]
        return user_state.write(
            self.path, {"path": str(inputs.path.resolve()), "text": inputs.text, "changes": changes}
        )

    def remove(self) -> None:
        """Remove the file, if there is one."""
        user_state.remove(self.path)


@dataclass(frozen=True)
class RecoveredWork:
    """Unsaved changes of a process that has ended, and the file they are kept in."""

    path: Path
    inputs: Inputs

    def delete(self) -> None:
        """Do not offer it again."""
        user_state.remove(self.path)


def find_recovered_work() -> RecoveredWork | None:
    """The latest unsaved changes of processes that have ended."""
    with suppress(OSError):
        found = sorted(user_state.folder().glob("unsaved-*.toml"), key=lambda path: path.stat().st_mtime, reverse=True)
        for path in found:
            inputs = None if is_running(path.name.split("-")[1]) else _inputs_in(user_state.read(path))
            if inputs:
                return RecoveredWork(path, inputs)
    return None


def _inputs_in(content: Mapping[str, Any]) -> Inputs | None:
    try:
        changes = {tuple(change["path"]): change.get("value", REMOVED) for change in content["changes"]}
        inputs = Inputs(Path(content["path"]), content["text"], changes)
        inputs.fields()
    except (InputError, KeyError, TypeError, AttributeError):
        return None
    return inputs if changes else None

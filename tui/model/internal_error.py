"""An internal error: one sentence for the person, and an entry in a log file that can be sent."""

from __future__ import annotations

import datetime
import platform
import sys
import traceback
from contextlib import suppress
from pathlib import Path

from engine import __version__
from engine.common.errors import InputError
from engine.common.safe_text import safe_lines, safe_text
from tui.storage import atomic_write, user_state

MAX_TEXT = 400
"""Longest text of an error that is shown [characters]."""

MAX_LOG = 1_000_000
"""Size at which the log begins anew [bytes]."""


def internal_error(failure: BaseException) -> str:
    """One sentence about an error of the program itself, with its text, its place and the log that has its details."""
    frames = traceback.extract_tb(failure.__traceback__)
    place = f" at {Path(frames[-1].filename).name}:{frames[-1].lineno}" if frames else ""
    text = safe_text(" ".join(f"{type(failure).__name__}: {failure}".split())[:MAX_TEXT])
    log = _add_to_log(failure)
    details = f". Please send {log} too" if log else ""
    return f"Internal error: please report it, with this text: {text}{place}{details}"


def log_file() -> Path:
    """The file with the details of internal errors."""
    return user_state.folder() / "internal_errors.log"


def _add_to_log(failure: BaseException) -> Path | None:
    """Write when, where and in what it happened; None if the file cannot be written."""
    path = log_file()
    with suppress(InputError, OSError):
        path.parent.mkdir(parents=True, exist_ok=True)
        if path.exists() and path.stat().st_size > MAX_LOG:
            path.unlink()
        with atomic_write.growing(path) as write:
            write(_entry(failure).encode(errors="replace"))
        return path
    return None


def _entry(failure: BaseException) -> str:
    now = datetime.datetime.now(datetime.UTC).isoformat(timespec="seconds")
    system = f"Python {platform.python_version()}, {platform.platform()}"
    heading = f"{now}, loadpath {__version__}, {system}, arguments {sys.argv[1:]}"
    details = "".join(traceback.format_exception(failure))
    return safe_lines(f"{heading}\n{details}\n")

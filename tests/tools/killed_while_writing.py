"""Write files, killed at one step after another; print what each file held after each kill, as JSON.

    .venv/bin/python tests/tools/killed_while_writing.py FOLDER all_at_once | part_by_part | line_by_line | as_a_folder | with_folders_below

A step is a line of `tui/storage/atomic_write.py`, or of the library it leaves the writing to. A child process tries
each step.
"""

from __future__ import annotations

import json
import os
import signal
import sys
import tempfile
from collections.abc import Callable
from pathlib import Path
from types import FrameType
from typing import Any

from tui.storage import atomic_write

OLD, NEW = b"old\n" * 3, b"new\n" * 5000
NAMES = ("first.toml", "second.toml")
NAMES_BELOW = ("north/first.toml", "south/second.toml")


def all_at_once(folder: Path) -> None:
    atomic_write.write_all({folder / name: NEW for name in NAMES}, overwrite=True)


def part_by_part(folder: Path) -> None:
    for name in NAMES:
        with atomic_write.whole(folder / name, overwrite=True) as pour:
            pour(NEW[:7000])
            pour(NEW[7000:])


def line_by_line(folder: Path) -> None:
    for name in NAMES:
        with atomic_write.growing(folder / name) as pour:
            pour(NEW[:8])
            pour(NEW[8:])


def as_a_folder(folder: Path) -> None:
    atomic_write.write_folder(folder, dict.fromkeys(NAMES, NEW), overwrite=True)


def with_folders_below(folder: Path) -> None:
    atomic_write.write_folder(folder, dict.fromkeys(NAMES_BELOW, NEW), overwrite=True)


BASES = {way.__name__: way for way in (all_at_once, part_by_part, line_by_line, as_a_folder, with_folders_below)}


def killed_at(step: int, write: Callable[[Path], None], folder: Path) -> bool:
    """Whether the child was killed before it had done."""
    child = os.fork()
    if child:
        return os.WIFSIGNALED(os.waitpid(child, 0)[1])
    left = step

    def trace(frame: FrameType, event: str, _: Any) -> Any:
        nonlocal left
        if frame.f_code.co_filename not in (atomic_write.__file__, tempfile.__file__):
            return None
        if event == "line":
            left -= 1
            if left < 0:
                os.kill(os.getpid(), signal.SIGKILL)
        return trace

    sys.settrace(trace)
    write(folder)
    os._exit(0)


def states(folder: Path, way: str) -> list[list[str]]:
    """What each file held after a kill at each step: "old", "new", or what else; the last is after no kill."""
    found, killed = [], True
    names = NAMES_BELOW if way == with_folders_below.__name__ else NAMES
    while killed:
        for name in names:
            (folder / name).parent.mkdir(exist_ok=True)
            (folder / name).write_bytes(OLD)
        killed = killed_at(len(found), BASES[way], folder)
        found.append([says((folder / name).read_bytes()) for name in names])
    return found


def says(content: bytes) -> str:
    whole = {OLD: "old", NEW: "new", OLD + NEW[:8]: "a part", OLD + NEW: "all"}
    return whole.get(content, f"{len(content)} bytes")


if __name__ == "__main__":
    print(json.dumps(states(Path(sys.argv[1]), sys.argv[2])))

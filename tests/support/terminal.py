"""A command in a pseudo-terminal, as a person runs it."""

from __future__ import annotations

import os
import select
import subprocess
import time
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager, suppress
from dataclasses import dataclass
from pathlib import Path

PATIENCE = 60.0
"""Time after which something that does not happen fails a test, where none of its own is set [s]."""


@dataclass
class Terminal:
    """A process, what it has written to its terminal so far, and the end at which a person sits."""

    process: subprocess.Popen[bytes]
    controller: int
    seen: bytes = b""
    is_open: bool = True
    patience: float = PATIENCE

    def type(self, keys: bytes) -> None:
        """Type keys."""
        os.write(self.controller, keys)

    def close(self) -> None:
        """Close the person's end, as when a window is closed."""
        if self.is_open:
            os.close(self.controller)
            self.is_open = False

    def read_until(self, is_so: Callable[[], bool]) -> None:
        """Read what is written until something is so."""
        deadline = time.monotonic() + self.patience
        while not is_so():
            assert time.monotonic() < deadline, self.seen[-2000:]
            with suppress(OSError):  # the other end is closed
                if select.select([self.controller], [], [], 0.05)[0]:
                    self.seen += os.read(self.controller, 65536)

    def read_until_seen(self, *words: bytes) -> None:
        """Read what is written until all of these words have come."""
        self.read_until(lambda: all(each in self.seen for each in words))

    def read_until_ended(self) -> int:
        """Read what is written until the process ends; its exit code."""
        self.read_until(lambda: self.process.poll() is not None)
        with suppress(OSError):
            while select.select([self.controller], [], [], 0)[0] and (rest := os.read(self.controller, 65536)):
                self.seen += rest
        return self.process.wait()


@contextmanager
def in_a_terminal(
    command: Sequence[str],
    state: Path,
    size: tuple[int, int] = (80, 24),
    folder: Path | None = None,
    stderr: int | None = None,
) -> Iterator[Terminal]:
    """A command in a terminal, with a folder of its own for what it remembers; it is killed at the end.

    `stderr` is a descriptor for its messages, in place of the terminal.
    """
    import pty  # noqa: PLC0415  (Windows has none)

    controller, terminal = pty.openpty()
    columns, lines = map(str, size)
    environment = os.environ | {
        "XDG_STATE_HOME": str(state),
        "TERM": "xterm-256color",
        "COLUMNS": columns,
        "LINES": lines,
    }
    with subprocess.Popen(
        command,
        stdin=terminal,
        stdout=terminal,
        stderr=terminal if stderr is None else stderr,
        env=environment,
        cwd=folder,
    ) as process:
        os.close(terminal)
        opened = Terminal(process, controller)
        try:
            yield opened
        finally:
            process.kill()
            opened.close()

"""What the command's exit code says."""

from __future__ import annotations

from enum import IntEnum


class Exit(IntEnum):
    """Done; a method shown does not hold (with --strict); some input is wrong; interrupted."""

    DONE = 0
    OVER = 1
    WRONG_INPUT = 2
    INTERRUPTED = 130

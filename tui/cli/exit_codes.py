"""Exit codes of the command line."""

from __future__ import annotations

from enum import IntEnum


class Exit(IntEnum):
    """Done; a method shown does not hold (with --strict); some input is wrong; internal error; interrupted."""

    DONE = 0
    OVER = 1
    WRONG_INPUT = 2
    INTERNAL_ERROR = 70
    INTERRUPTED = 130

"""Exit codes of the command line and of the app."""

from __future__ import annotations

from enum import IntEnum


class Exit(IntEnum):
    """Exit codes: the last three are 128 and the number of the signal that ended loadpath.

    Done; a method shown does not hold (with --strict); some input is wrong; internal error; terminal closed;
    interrupted; ended from outside.
    """

    DONE = 0
    OVER = 1
    WRONG_INPUT = 2
    INTERNAL_ERROR = 70
    HUNG_UP = 129
    INTERRUPTED = 130
    TERMINATED = 143

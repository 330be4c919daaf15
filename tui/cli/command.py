"""What a verb's module answers; its name is the verb."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace
from typing import Protocol


class Verb(Protocol):
    """One command of the command line."""

    __name__: str
    WORDS: str
    """What it does, in a line."""

    def takes(self, verb: ArgumentParser) -> None:
        """Declare its arguments."""

    def run(self, options: Namespace) -> int:
        """Do it, and give the exit code.

        Raises:
            InputError: everything that is wrong with what was given; `cli` says it.
        """

"""The interface of a command's module; the module's name is the command's."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace
from typing import Protocol


class Command(Protocol):
    """One command of the command line."""

    __name__: str
    HELP: str
    """Its purpose, in a line."""

    def add_arguments(self, parser: ArgumentParser) -> None:
        """Declare its arguments and options."""

    def run(self, options: Namespace) -> int:
        """Run it and give the exit code.

        Raises:
            InputError: everything that is wrong with the input; `main` reports it.
        """

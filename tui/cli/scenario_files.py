"""The scenario files that the command line names: one by one, by folder, or in a list."""

from __future__ import annotations

import os
import sys
from argparse import Namespace
from collections.abc import Iterator
from pathlib import Path

from engine.common.errors import InputError, Problem
from tui.storage import paths

STANDARD_INPUT = "-"


def has_folder(options: Namespace) -> bool:
    """True if a folder is among the files named."""
    return any(map(_is_folder, options.files))


def named_by(options: Namespace) -> list[str]:
    """The files in the order given, each once even if it is named twice; a folder stands for the scenarios in it.

    Raises:
        InputError: a folder or a list has none, or cannot be read.
    """
    each_once: dict[str, str] = {}
    for name in _names(options):
        for file in map(str, paths.scenarios_in(Path(name))) if _is_folder(name) else [name]:
            each_once.setdefault(os.path.realpath(paths.named(file)), file)
    return list(each_once.values())


def _names(options: Namespace) -> Iterator[str]:
    yield from options.files
    for source in options.lists:
        yield from _standard_input() if str(source) == STANDARD_INPUT else paths.listed(source)


def _standard_input() -> list[str]:
    if sys.stdin is None:
        raise InputError([Problem("--files-from", "'-' given, but standard input is closed; give a file")])
    try:
        return paths.paths_in(sys.stdin.buffer, "standard input")
    except OSError as failure:
        raise InputError([Problem("standard input", f"cannot be read ({paths.reason(failure)})")]) from None


def _is_folder(name: str) -> bool:
    return bool(name.strip()) and os.path.isdir(paths.named(name))

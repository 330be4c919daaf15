"""The terminal, or what stands for it: stdout is data, stderr is words."""

from __future__ import annotations

import os
import sys
from argparse import Namespace
from collections.abc import Iterable, Iterator
from contextlib import AbstractContextManager, contextmanager, nullcontext
from pathlib import Path

from engine.common.errors import InputError, Problem
from engine.common.progress import ProgressListener, no_listener
from tui.cli.exit_codes import Exit
from tui.storage import atomic_write, paths

LINE = 78
"""Width of the line that tells what is being tried."""


def spare(inputs: Iterable[str | Path], options: Namespace) -> None:
    """Let no answer be written over what it is made from, nor over one of loadpath's own files.

    Raises:
        InputError: it would be.
    """
    output = vars(options).get("output")
    if output is not None and (paths.is_bundled(output) or any(_same(output, each) for each in inputs)):
        raise InputError([Problem("-o", f"'{output}' given, a file that answers are made from; give another name")])


def _same(file: str | Path, other: str | Path) -> bool:
    return os.path.exists(file) and os.path.exists(other) and os.path.samefile(file, other)


def deliver(content: str | bytes, options: Namespace) -> Exit:
    """Text, or a workbook's bytes, to the file that is asked for or to standard output."""
    content = content if isinstance(content, bytes) else content.encode(errors="replace")
    if options.output is not None:
        return write(options.output, content, overwrite=options.overwrite)
    if options.format == "xlsx":
        sys.stdout.buffer.write(content)
    else:
        show(content)
    return Exit.DONE


def poured(options: Namespace) -> AbstractContextManager[atomic_write.WriteChunk]:
    """Where answers go one by one: to standard output, into a file that takes its place at the end, or line by line into one."""
    if options.output is None:
        return nullcontext(show)
    return (
        atomic_write.growing(options.output)
        if options.resume
        else atomic_write.whole(options.output, overwrite=options.overwrite)
    )


def show(content: bytes) -> None:
    """Text to standard output, at once."""
    sys.stdout.write(content.decode())
    sys.stdout.flush()


def write(path: Path, content: bytes, *, overwrite: bool, words: str = "written") -> Exit:
    """Write a file, and say so."""
    atomic_write.write_all({path.resolve(): content}, overwrite=overwrite)
    say(f"{path} {words}")
    return Exit.DONE


def say(words: object) -> None:
    """A line beside the data."""
    print(words, file=sys.stderr)


def complain(wrong: InputError, name: str = "") -> Exit:
    """Everything that is wrong, a line each; `name` is the file it is wrong in."""
    for problem in wrong.problems:
        say(f"{name}: {problem}" if name and problem.path != name else problem)
    return Exit.WRONG_INPUT


def is_there(instead: str) -> bool:
    """Whether somebody sits before it, as the bench needs; where not, what to use instead is said."""
    terminal = sys.stdout.isatty() and sys.stdin.isatty()
    if not terminal:
        say(f"the bench needs a terminal; {instead}")
    return terminal


@contextmanager
def heard() -> Iterator[ProgressListener]:
    """What a search tells, on one line that is wiped at the end; nothing where it would land in a file."""
    if not sys.stderr.isatty():
        yield no_listener
        return
    try:
        yield lambda words: print(f"\r{words[:LINE]:<{LINE}}", end="", file=sys.stderr, flush=True)
    finally:
        print(f"\r{'':<{LINE}}\r", end="", file=sys.stderr, flush=True)

"""Writing to the terminal, to a pipe or to a file. stdout is data, stderr is messages."""

from __future__ import annotations

import io
import os
import shutil
import sys
from argparse import Namespace
from collections.abc import Iterable, Iterator
from contextlib import AbstractContextManager, contextmanager, nullcontext
from pathlib import Path

from engine.common.errors import InputError, Problem
from engine.common.progress import ProgressListener, no_listener
from engine.common.safe_text import safe_lines, safe_text
from tui.model.exit_codes import Exit
from tui.model.terminal import is_terminal
from tui.storage import atomic_write, paths

PROGRESS_WIDTH = 78
"""Width of the progress line."""

PIPE_WIDTH = 100
"""Width of text that goes to a pipe or a file."""


def text_width(options: Namespace) -> int:
    """Width of text: the terminal's where it is shown there, a fixed one in pipes and files."""
    in_terminal = vars(options).get("output") is None and sys.stdout.isatty()
    return shutil.get_terminal_size((PIPE_WIDTH, 24)).columns if in_terminal else PIPE_WIDTH


def refuse_overwrite_of_inputs(inputs: Iterable[str | Path], options: Namespace) -> None:
    """Check that the output replaces neither an input nor one of loadpath's own files.

    Raises:
        InputError: it would.
    """
    output = vars(options).get("output")
    if output is not None and (paths.is_bundled(output) or any(_same(output, each) for each in inputs)):
        raise InputError([Problem("-o", f"'{output}' given, which is an input; give another name")])


def _same(file: str | Path, other: str | Path) -> bool:
    return os.path.exists(file) and os.path.exists(other) and os.path.samefile(file, other)


def deliver(content: str | bytes, options: Namespace) -> Exit:
    """Write text, or a workbook's bytes, to the file named by the options, else to standard output."""
    content = content if isinstance(content, bytes) else content.encode(errors="replace")
    if options.output is not None:
        return write_file(options.output, content, overwrite=options.overwrite)
    if options.format == "xlsx":
        sys.stdout.buffer.write(content)
    else:
        show(content)
    return Exit.DONE


def write_chunks(options: Namespace) -> AbstractContextManager[atomic_write.WriteChunk]:
    """A writer that takes answers one by one: to standard output, to a new file, or with --resume to the end of one."""
    if options.output is None:
        return nullcontext(show)
    return (
        atomic_write.growing(options.output)
        if options.resume
        else atomic_write.whole(options.output, overwrite=options.overwrite)
    )


def show(content: bytes) -> None:
    """Write text to standard output at once; exact for a pipe, safe for a terminal."""
    text = content.decode()
    sys.stdout.write(safe_lines(text) if sys.stdout.isatty() else text)
    sys.stdout.flush()


def show_line(text: str) -> None:
    """Write one line to standard output, safe for a terminal."""
    print(safe_text(text))


def write_file(path: Path, content: bytes, *, overwrite: bool, message: str = "written") -> Exit:
    """Write a file and report it."""
    atomic_write.write_all({path.resolve(): content}, overwrite=overwrite)
    say(f"{path} {message}")
    return Exit.DONE


def say(message: object) -> None:
    """Write one line to standard error, safe for a terminal."""
    write_message(f"{safe_text(str(message))}\n")


def write_message(text: str) -> None:
    """Write text to standard error; where that is full or gone, the answer goes on without messages."""
    try:
        print(text, end="", file=sys.stderr, flush=True)
    except OSError:
        sys.stderr = io.StringIO()


def report_errors(wrong: InputError, name: str = "") -> Exit:
    """Write everything that is wrong, a line each; `name` is the file it is wrong in."""
    for problem in wrong.problems:
        say(f"{name}: {problem}" if name and problem.path != name else problem)
    return Exit.WRONG_INPUT


def is_interactive(instead: str) -> bool:
    """True if a person sits at a terminal, as the app needs; if not, `instead` is printed."""
    interactive = is_terminal(sys.stdout, sys.stdin)
    if not interactive:
        say(f"the app needs a terminal; {instead}")
    return interactive


@contextmanager
def progress_line() -> Iterator[ProgressListener]:
    """Progress of a search, on one line that is wiped at the end; silent where it would land in a file."""
    if not is_terminal(sys.stderr):
        yield no_listener
        return
    width = min(PROGRESS_WIDTH, shutil.get_terminal_size().columns - 1)
    try:
        yield lambda text: write_message(f"\r{safe_text(text)[:width]:<{width}}")
    finally:
        write_message(f"\r{'':<{width}}\r")

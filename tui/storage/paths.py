"""Finding and reading files: bundled ones and the user's."""

from __future__ import annotations

import io
import os
import stat
import tomllib
from collections.abc import Iterator
from importlib import resources
from pathlib import Path
from typing import Any, BinaryIO

from engine.common.errors import InputError, Problem
from engine.common.toml_reader import tables_in

DEFAULT = "kestrel_yard.toml"
MAX_SIZE = 2_000_000
"""Largest scenario file read [bytes]."""

MAX_LINE = 4096
"""Longest line of a list of files, the longest path of Linux [bytes]."""

MAX_LINES = 100_000
"""Longest list of files; it bounds the memory."""


def bundled() -> list[Path]:
    """The bundled scenarios, the default one first."""
    folder = Path(str(resources.files("scenarios")))
    return sorted(folder.glob("*.toml"), key=lambda path: (path.name != DEFAULT, path.name))


def bundled_lessons() -> list[Path]:
    """The bundled lessons, by name."""
    return sorted(Path(str(resources.files("scenarios"))).glob("lessons/*.toml"))


def own() -> list[Path]:
    """All bundled files: scenarios, then lessons."""
    return [*bundled(), *bundled_lessons()]


def named(name: str) -> Path:
    """A file by its path, or a bundled one by its name; a folder of that name counts as neither."""
    path = Path(name)
    if path.suffix:  # no bundled name has one, and looking through the bundled files takes time
        return path
    return next((each for each in own() if each.stem == name and not path.is_file()), path)


def is_bundled(path: Path) -> bool:
    """True for bundled files, which are never overwritten."""
    return path.resolve() in {each.resolve() for each in own()}


def typed(words: str) -> Path:
    """A typed path; "~" is the home folder.

    Raises:
        InputError: it is not a path.
    """
    return possible(words.strip(), home=True)


def possible(words: str, *, home: bool = False) -> Path:
    """A path that can be resolved; with `home`, "~" is the home folder.

    Raises:
        InputError: it is not a path.
    """
    try:
        path = Path(words).expanduser() if home else Path(words)
        path.resolve()
    except (OSError, RuntimeError, ValueError) as failure:
        raise InputError([Problem(words, f"is no path ({reason(failure)})")]) from None
    return path


def exists(path: Path) -> bool:
    """True if there is a file or folder at a path.

    Raises:
        InputError: it cannot be a file, or cannot be accessed.
    """
    try:
        return path.exists()
    except OSError as failure:
        raise InputError([Problem(str(path), f"cannot be a file here ({reason(failure)})")]) from None


def read_text(path: Path) -> str:
    """A scenario file's text.

    Raises:
        InputError: it cannot be read, in one sentence.
    """
    try:
        content = _content(path)
        return io.TextIOWrapper(io.BytesIO(content), encoding="utf-8-sig").read()
    except UnicodeDecodeError:
        raise InputError([Problem(str(path), "not a text file in UTF-8")]) from None
    except OSError as failure:
        raise InputError([Problem(str(path), f"cannot be read ({reason(failure)})")]) from None


def _content(path: Path) -> bytes:
    """Content of a file or a pipe, up to a limit; a pipe that nobody writes to is empty."""
    with _opened(path) as file:
        content = file.read(MAX_SIZE + 1)
    if len(content) > MAX_SIZE:
        raise InputError([Problem(str(path), f"larger than {MAX_SIZE:,} bytes; a scenario is a few kilobytes")])
    return content


def _opened(path: Path) -> BinaryIO:
    """A file or a pipe, opened to be read; devices are refused: some of them never end."""
    kind = path.stat().st_mode
    if stat.S_ISCHR(kind) or stat.S_ISBLK(kind):
        raise InputError([Problem(str(path), "cannot be read (a device, not a file)")])
    return open(path, "rb", opener=_open_without_waiting)


def _open_without_waiting(path: str, flags: int) -> int:
    """Open a file; a pipe at once, although nobody writes to it yet."""
    descriptor = os.open(path, flags | getattr(os, "O_NONBLOCK", 0))
    if hasattr(os, "O_NONBLOCK"):  # Windows has neither
        os.set_blocking(descriptor, True)
    return descriptor


def parse(text: str, name: str) -> dict[str, Any]:
    """The tables of a scenario's text.

    Raises:
        InputError: it is not TOML; the sentence says where.
    """
    try:
        return tables_in(text)
    except tomllib.TOMLDecodeError as failure:
        raise InputError([Problem(name, f"not TOML ({reason(failure)})")]) from None
    except RecursionError:
        raise InputError([Problem(name, "brackets within brackets, hundreds deep, given; write fewer")]) from None
    except ValueError as failure:
        raise InputError([Problem(name, str(failure))]) from None


def lines(path: Path) -> Iterator[bytes]:
    """Lines of a file, the last perhaps without its end; none if there is no file.

    Raises:
        InputError: it cannot be read.
    """
    try:
        if path.exists():
            with _opened(path) as file:
                yield from file
    except OSError as failure:
        raise InputError([Problem(str(path), f"cannot be read ({reason(failure)})")]) from None


def scenarios_in(folder: Path) -> list[Path]:
    """The *.toml files directly in a folder, by name, without hidden ones.

    Raises:
        InputError: it has none, or cannot be read.
    """
    try:
        scenarios = (each for each in folder.iterdir() if each.suffix == ".toml" and not each.name.startswith("."))
        found = sorted(each for each in scenarios if not each.is_dir())
    except OSError as failure:
        raise InputError([Problem(str(folder), f"cannot be read ({reason(failure)})")]) from None
    if not found:
        raise InputError([Problem(str(folder), "has no *.toml file directly in it; name a folder that has")])
    return found


def listed(path: Path) -> list[str]:
    """The paths in a file that lists one a line.

    Raises:
        InputError: it cannot be read, or is no such list.
    """
    try:
        with _opened(path) as file:
            return paths_in(file, str(path))
    except OSError as failure:
        raise InputError([Problem(str(path), f"cannot be read ({reason(failure)})")]) from None


def paths_in(file: BinaryIO, name: str) -> list[str]:
    """The paths in an open list, one a line; empty lines are skipped.

    Raises:
        InputError: it lists none, or a line cannot be a path.
    """
    found = []
    for number, line in enumerate(iter(lambda: file.readline(MAX_LINE + 1), b""), 1):
        if len(line) > MAX_LINE:
            raise InputError([Problem(name, f"line {number} is longer than {MAX_LINE:,} bytes; write one path a line")])
        if b"\0" in line:
            raise InputError([Problem(name, f"line {number} has a NUL character; write one path a line, in UTF-8")])
        if number > MAX_LINES:
            raise InputError([Problem(name, f"more than {MAX_LINES:,} lines; divide it into several runs")])
        if line.strip():
            found.append(line.decode("utf-8-sig", errors="surrogateescape").rstrip("\r\n"))
    if not found:
        raise InputError([Problem(name, "lists no file; write one path a line")])
    return found


def reason(failure: Exception) -> str:
    """Reason of a failure, in a few words."""
    words = failure.strerror if isinstance(failure, OSError) and failure.strerror else str(failure)
    return " ".join(words.split())[:200].rstrip(".").lower() or type(failure).__name__

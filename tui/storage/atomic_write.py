"""Writing files: what was there is replaced whole or not at all. The only module that writes."""

from __future__ import annotations

import os
import tempfile
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from pathlib import Path
from typing import IO

from engine.common.errors import InputError, Problem
from tui.storage.paths import exists, lines, reason

Pour = Callable[[bytes], None]
"""Writes a part of a file, to be found there even if the process is killed."""


def write_text(path: Path, text: str, *, overwrite: bool) -> None:
    """Write a file, whole or not at all.

    Raises:
        InputError: it exists and may not be replaced, or cannot be written.
    """
    write_all({path.resolve(): text.encode()}, overwrite=overwrite)


def make_folder(path: Path) -> None:
    """Make a folder where there is none.

    Raises:
        InputError: it cannot be made, or a file stands there.
    """
    try:
        path.mkdir(parents=True, exist_ok=True)
    except OSError as failure:
        raise InputError([Problem(str(path), f"cannot be made a folder ({reason(failure)})")]) from None


def write_all(contents: Mapping[Path, bytes], *, overwrite: bool) -> None:
    """Write files through temporary ones beside them, and put them in place only once all are written.

    Raises:
        InputError: one exists and may not be replaced, or cannot be written; what was there stays.
    """
    for path in contents:
        _may_be_written(path, overwrite=overwrite)
    with _staging() as staged:
        for path, content in contents.items():
            with _complaining(path):
                _stage(path, content, staged)
        for path, temporary in staged.items():
            with _complaining(path):
                os.replace(temporary, path)


@contextmanager
def whole(path: Path, *, overwrite: bool) -> Iterator[Pour]:
    """A file written part by part and put in place at the end, whole; where nothing was written, what was there stays.

    Raises:
        InputError: it exists and may not be replaced, or cannot be written.
    """
    path = path.resolve()
    _may_be_written(path, overwrite=overwrite)
    with _staging() as staged:
        with _complaining(path):
            _stage(path, b"", staged)
        with open(staged[path], "ab") as file:
            yield _pour(path, file)
            written = file.tell()
        if written:
            with _complaining(path):
                os.replace(staged[path], path)


@contextmanager
def growing(path: Path) -> Iterator[Pour]:
    """A file that grows line by line; half a line, of a run that was killed, is cut off first.

    Raises:
        InputError: it cannot be written.
    """
    path = path.resolve()
    _may_be_written(path, overwrite=True)
    with _complaining(path):
        ended = sum(len(line) for line in lines(path) if line.endswith(b"\n"))
        file = path.open("ab")
        file.truncate(ended)
    with file:
        yield _pour(path, file)


def _pour(path: Path, file: IO[bytes]) -> Pour:
    def pour(content: bytes) -> None:
        with _complaining(path):
            file.write(content)
            file.flush()
            os.fsync(file.fileno())

    return pour


def _may_be_written(path: Path, *, overwrite: bool) -> None:
    if not exists(path):
        return
    if not path.is_file():
        raise InputError([Problem(str(path), "cannot be written (not an ordinary file)")])
    if not overwrite:
        raise InputError([Problem(str(path), "exists; give another name, or --overwrite")])


@contextmanager
def _complaining(path: Path) -> Iterator[None]:
    try:
        yield
    except OSError as failure:
        raise InputError([Problem(str(path), f"cannot be written ({reason(failure)})")]) from None


@contextmanager
def _staging() -> Iterator[dict[Path, str]]:
    """Where each file's content waits to be put in place; what still waits at the end is removed."""
    staged: dict[Path, str] = {}
    try:
        yield staged
    finally:
        for temporary in staged.values():
            Path(temporary).unlink(missing_ok=True)


def _stage(path: Path, content: bytes, staged: dict[Path, str]) -> None:
    """Write a temporary file beside where it is to stand, with the mode it is to have."""
    mode = path.stat().st_mode & 0o777 if path.exists() else 0o666 & ~_umask()
    with tempfile.NamedTemporaryFile(dir=path.parent, prefix=f".{path.name}.", delete=False) as file:
        staged[path] = file.name
        file.write(content)
        file.flush()
        os.fsync(file.fileno())
    os.chmod(staged[path], mode)


def _umask() -> int:
    current = os.umask(0)
    os.umask(current)
    return current

"""Writing files: a file is replaced as a whole or not at all. No other module writes."""

from __future__ import annotations

import os
import tempfile
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from pathlib import Path
from typing import IO

from engine.common.errors import InputError, Problem
from tui.storage.paths import exists, lines, reason

WriteChunk = Callable[[bytes], None]
"""Writes a part of a file; it survives even if the process is killed."""


def write_text(path: Path, text: str, *, overwrite: bool) -> None:
    """Write a file, whole or not at all.

    Raises:
        InputError: it exists and may not be replaced, or cannot be written.
    """
    write_all({path.resolve(): text.encode()}, overwrite=overwrite)


def make_folder(path: Path) -> None:
    """Make a folder, unless it exists, and try to write into it.

    Raises:
        InputError: it cannot be made, is a file, or cannot be written into.
    """
    try:
        path.mkdir(parents=True, exist_ok=True)
    except OSError as failure:
        raise InputError([Problem(str(path), f"cannot be made a folder ({reason(failure)})")]) from None
    with _report_errors(path), tempfile.TemporaryFile(dir=path):
        pass


def write_all(contents: Mapping[Path, bytes], *, overwrite: bool) -> None:
    """Write files through temporary ones beside them, and put them in place once all are written.

    Raises:
        InputError: one exists and may not be replaced, or cannot be written; the old files stay.
    """
    for path in contents:
        _refuse_unwritable(path, overwrite=overwrite)
    with _staging() as staged:
        for path, content in contents.items():
            with _report_errors(path):
                _stage(path, content, staged)
        for path, temporary in staged.items():
            with _report_errors(path):
                os.replace(temporary, path)


@contextmanager
def whole(path: Path, *, overwrite: bool) -> Iterator[WriteChunk]:
    """A file written part by part and put in place at the end; if nothing was written, the old file stays.

    Raises:
        InputError: it exists and may not be replaced, or cannot be written.
    """
    path = path.resolve()
    _refuse_unwritable(path, overwrite=overwrite)
    with _staging() as staged:
        with _report_errors(path):
            _stage(path, b"", staged)
        with open(staged[path], "ab") as file:
            yield _chunk_writer(path, file)
            written = file.tell()
        if written:
            with _report_errors(path):
                os.replace(staged[path], path)


@contextmanager
def growing(path: Path) -> Iterator[WriteChunk]:
    """A file to append lines to; half a line of a run that was killed is cut off first.

    Raises:
        InputError: it cannot be written.
    """
    path = path.resolve()
    _refuse_unwritable(path, overwrite=True)
    with _report_errors(path):
        ended = sum(len(line) for line in lines(path) if line.endswith(b"\n"))
        file = path.open("ab")
        file.truncate(ended)
    with file:
        yield _chunk_writer(path, file)


def _chunk_writer(path: Path, file: IO[bytes]) -> WriteChunk:
    def write_chunk(content: bytes) -> None:
        with _report_errors(path):
            file.write(content)
            file.flush()
            os.fsync(file.fileno())

    return write_chunk


def _refuse_unwritable(path: Path, *, overwrite: bool) -> None:
    if not exists(path):
        return
    if not path.is_file():
        raise InputError([Problem(str(path), "cannot be written (not an ordinary file)")])
    if not overwrite:
        raise InputError([Problem(str(path), "exists; give another name, or --overwrite")])


@contextmanager
def _report_errors(path: Path) -> Iterator[None]:
    try:
        yield
    except OSError as failure:
        raise InputError([Problem(str(path), f"cannot be written ({reason(failure)})")]) from None


@contextmanager
def _staging() -> Iterator[dict[Path, str]]:
    """Temporary file of each path; those not put in place are removed at the end."""
    staged: dict[Path, str] = {}
    try:
        yield staged
    finally:
        for temporary in staged.values():
            Path(temporary).unlink(missing_ok=True)


def _stage(path: Path, content: bytes, staged: dict[Path, str]) -> None:
    """Write a temporary file beside its path, with the mode of the file that it replaces."""
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

"""The only module that reads and writes files; what was there is replaced whole or not at all."""

from __future__ import annotations

import os
import tempfile
import tomllib
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from importlib import resources
from pathlib import Path
from typing import IO, Any

from engine.errors import InputError, Problem

DEFAULT = "kestrel_yard.toml"
LARGEST = 2_000_000
"""Largest scenario file read [bytes]."""

Pour = Callable[[bytes], None]
"""Writes a part of a file, to be found there even if the process is killed."""


def bundled() -> list[Path]:
    """The scenarios that come with loadpath, the default one first."""
    folder = Path(str(resources.files("scenarios")))
    return sorted(folder.glob("*.toml"), key=lambda path: (path.name != DEFAULT, path.name))


def bundled_lessons() -> list[Path]:
    """The lessons that come with loadpath, in the order of their names."""
    return sorted(Path(str(resources.files("scenarios"))).glob("lessons/*.toml"))


def named(name: str, own: list[Path]) -> Path:
    """A file by its path, or one of loadpath's own by its name."""
    return next((path for path in own if path.stem == name and not Path(name).exists()), Path(name))


def is_bundled(path: Path) -> bool:
    """Whether a file is one of loadpath's own, which are not written over."""
    return path.resolve() in {own.resolve() for own in bundled()}


def read_text(path: Path) -> str:
    """A scenario file's text.

    Raises:
        InputError: it cannot be read, in one sentence.
    """
    try:
        if path.stat().st_size > LARGEST:
            raise InputError([Problem(str(path), f"larger than {LARGEST:,} bytes; a scenario is a few kilobytes")])
        return path.read_text(encoding="utf-8-sig")
    except UnicodeDecodeError:
        raise InputError([Problem(str(path), "not a text file in UTF-8")]) from None
    except OSError as failure:
        raise InputError([Problem(str(path), f"cannot be read ({_reason(failure)})")]) from None


def parse(text: str, name: str) -> dict[str, Any]:
    """The tables of a scenario's text.

    Raises:
        InputError: it is not TOML; the sentence says where.
    """
    try:
        return tomllib.loads(text)
    except (tomllib.TOMLDecodeError, RecursionError, ValueError) as failure:
        raise InputError([Problem(name, f"not TOML ({_reason(failure)})")]) from None


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
        raise InputError([Problem(str(path), f"cannot be made a folder ({_reason(failure)})")]) from None


def write_all(contents: Mapping[Path, bytes], *, overwrite: bool) -> None:
    """Write files through temporary ones beside them, and put them in place only once all are written.

    Raises:
        InputError: one exists and may not be replaced, or cannot be written; what was there stays.
    """
    for path in contents:
        _may_be_written(path, overwrite=overwrite)
    staged: dict[Path, str] = {}
    try:
        for path, content in contents.items():
            with _complaining(path):
                _stage(path, content, staged)
        for path, temporary in staged.items():
            with _complaining(path):
                os.replace(temporary, path)
    finally:
        for temporary in staged.values():
            Path(temporary).unlink(missing_ok=True)


@contextmanager
def whole(path: Path, *, overwrite: bool) -> Iterator[Pour]:
    """A file written part by part and put in place at the end, whole; where nothing was written, what was there stays.

    Raises:
        InputError: it exists and may not be replaced, or cannot be written.
    """
    path, staged = path.resolve(), dict[Path, str]()
    _may_be_written(path, overwrite=overwrite)
    try:
        with _complaining(path):
            _stage(path, b"", staged)
        with open(staged[path], "ab") as file:
            yield _pour(path, file)
            written = file.tell()
        if written:
            with _complaining(path):
                os.replace(staged[path], path)
    finally:
        for temporary in staged.values():
            Path(temporary).unlink(missing_ok=True)


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


def lines(path: Path) -> Iterator[bytes]:
    """A file's lines, the last perhaps without its end; none where there is no file.

    Raises:
        InputError: it cannot be read.
    """
    try:
        if path.exists():
            with path.open("rb") as file:
                yield from file
    except OSError as failure:
        raise InputError([Problem(str(path), f"cannot be read ({_reason(failure)})")]) from None


def _pour(path: Path, file: IO[bytes]) -> Pour:
    def pour(content: bytes) -> None:
        with _complaining(path):
            file.write(content)
            file.flush()
            os.fsync(file.fileno())

    return pour


def _may_be_written(path: Path, *, overwrite: bool) -> None:
    if path.exists() and not path.is_file():
        raise InputError([Problem(str(path), "cannot be written (not an ordinary file)")])
    if path.exists() and not overwrite:
        raise InputError([Problem(str(path), "exists; give another name, or --overwrite")])


@contextmanager
def _complaining(path: Path) -> Iterator[None]:
    try:
        yield
    except OSError as failure:
        raise InputError([Problem(str(path), f"cannot be written ({_reason(failure)})")]) from None


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


def _reason(failure: Exception) -> str:
    words = failure.strerror if isinstance(failure, OSError) and failure.strerror else str(failure)
    return " ".join(words.split())[:200].rstrip(".").lower() or type(failure).__name__

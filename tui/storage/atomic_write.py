"""Writing files: a file, or a folder of files, is replaced as a whole or not at all. No other module writes.

New content is written to hidden files beside the old ones. Their names hold the number of the process, so that those of
one that was killed are recognised, and removed by the next that writes there.
"""

from __future__ import annotations

import ctypes
import os
import shutil
import tempfile
from collections.abc import Callable, Iterable, Iterator, Mapping
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import IO

from engine.common.errors import InputError, Problem
from tui.storage.paths import exists, lines, reason
from tui.storage.processes import is_running

AT_FDCWD, RENAME_EXCHANGE = -100, 2
"""Constants of Linux: paths count from the current folder; two names are exchanged."""

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


@contextmanager
def folders(paths: Iterable[Path]) -> Iterator[None]:
    """Folders to write into: those that had to be made are removed again if what follows is cancelled, or fails.

    Raises:
        InputError: one cannot be made, is a file, or cannot be written into.
    """
    new: list[Path] = []
    try:
        for path in paths:
            new = [*(each for each in (path, *path.parents) if not exists(each)), *new]
            make_folder(path)
        yield
    except BaseException:
        for each in new:
            with suppress(OSError):  # it was never made, or somebody wrote into it
                each.rmdir()
        raise


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


def write_folder(folder: Path, contents: Mapping[str, bytes], *, overwrite: bool) -> None:
    """Write files of one folder, by name; a name may be that of a file in a folder below. What else is in it stays.

    Even if the process is killed the folder has all files of before or all new ones, where the system can exchange
    two folders in one step and nothing but plain files is beside them; elsewhere they are put in place one by one.

    Raises:
        InputError: one exists and may not be replaced, or cannot be written; the old files stay.
    """
    folder = folder.resolve()
    files = {folder / name: content for name, content in contents.items()}
    for path in files:
        _refuse_unwritable(path, overwrite=overwrite)
    with suppress(OSError):  # full, read-only above, or no exchange of folders: what is in the way is said below
        _exchange(folder, files)
        return
    for path in files:
        with _report_errors(path):
            path.parent.mkdir(exist_ok=True)
    write_all(files, overwrite=overwrite)


def _exchange(folder: Path, files: Mapping[Path, bytes]) -> None:
    """Fill a new folder and exchange it with the one there is, which is removed; where that fails, nothing changes."""
    folders = sorted({folder, *(path.parent for path in files)})
    old = [each for each in folders if each.is_dir()]
    others = [path for each in old for path in each.iterdir() if path not in files and path not in folders]
    if any(each.is_symlink() or each.samefile(os.curdir) for each in old):
        raise OSError("a folder is in use, or lies elsewhere")
    if not all(path.is_file() and not path.is_symlink() for path in others):
        raise OSError("the folder holds more than plain files")
    _remove_leftovers(folder)
    new = Path(tempfile.mkdtemp(dir=folder.parent, prefix=_hidden(folder)))
    try:
        for each in folders:
            (new / each.relative_to(folder)).mkdir(exist_ok=True)
        for path, content in files.items():
            with open(new / path.relative_to(folder), "wb") as file:
                _write_through(file, content)
        for path in others:
            os.link(path, new / path.relative_to(folder))
        for each in old:
            shutil.copymode(each, new / each.relative_to(folder))
        _exchange_names(new, folder)
        for path in new.rglob("*"):  # now the old folder
            if not (now := folder / path.relative_to(new)).exists():  # written by somebody else meanwhile
                path.rename(now)
    finally:
        shutil.rmtree(new, ignore_errors=True)


def _exchange_names(one: Path, other: Path) -> None:
    """Exchange two paths in one step (Linux: renameat2 with RENAME_EXCHANGE).

    Raises:
        OSError: the system cannot.
    """
    rename = getattr(ctypes.CDLL(None, use_errno=True), "renameat2", None) if os.name == "posix" else None
    if rename is None or rename(AT_FDCWD, os.fsencode(one), AT_FDCWD, os.fsencode(other), RENAME_EXCHANGE):
        raise OSError(ctypes.get_errno(), "no exchange of folders")


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
            _write_through(file, content)

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
    _remove_leftovers(path)
    with tempfile.NamedTemporaryFile(dir=path.parent, prefix=_hidden(path), delete=False) as file:
        staged[path] = file.name
        _write_through(file, content)
    os.chmod(staged[path], mode)


def _write_through(file: IO[bytes], content: bytes) -> None:
    """Write to the disk itself, so that not even a power cut loses it."""
    file.write(content)
    file.flush()
    os.fsync(file.fileno())


def _hidden(path: Path) -> str:
    """The beginning of the names of this process's temporary files for a path."""
    return f".{path.name}.{os.getpid()}-"


def _remove_leftovers(path: Path) -> None:
    """Remove temporary files for a path that a process left which was killed."""
    start = f".{path.name}."
    with suppress(OSError):
        for left in path.parent.iterdir() if os.name == "posix" else ():
            number, dash, _ = left.name.removeprefix(start).partition("-")
            if left.name.startswith(start) and dash and number.isdigit() and not _may_run(number):
                shutil.rmtree(left) if left.is_dir() else left.unlink()


def _may_run(number: str) -> bool:
    return int(number) == os.getpid() or is_running(number)


def _umask() -> int:
    current = os.umask(0)
    os.umask(current)
    return current

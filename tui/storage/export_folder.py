"""Export of everything about a comparison into one folder, for the app and the command line."""

from __future__ import annotations

import datetime
from collections.abc import Callable, Collection, Sequence
from pathlib import Path

from engine.common.errors import InputError, Problem
from engine.comparison.alternatives import with_alternatives
from engine.comparison.compare import Comparison
from engine.export.stamp import Stamp
from engine.units import quoted
from tui.storage import atomic_write, paths


def date_of(written: str | None) -> datetime.date:
    """A date as written, or today.

    Raises:
        InputError: it is not a date.
    """
    if written is None:
        return datetime.date.today()
    try:
        return datetime.date.fromisoformat(written)
    except ValueError:
        raise InputError([Problem("--date", f"{quoted(written)} given; write a day as YYYY-MM-DD")]) from None


def existing_files(comparison: Comparison, stamp: Stamp, folder: Path, readers: Collection[str] = ()) -> list[Path]:
    """Files that an export, for some readers or for all, would replace.

    Raises:
        InputError: it cannot be a folder.
    """
    from engine.export.bundle import bundle  # noqa: PLC0415  (heavy libraries: only for an export)

    return [path for file in bundle(comparison, stamp, readers) if paths.exists(path := folder / file.name)]


def stale_files(comparison: Comparison, stamp: Stamp, folder: Path, readers: Collection[str] = ()) -> list[str]:
    """Names of a method's files in the folder that are not of this export: probably of an earlier one."""
    from engine.export.bundle import OF_ONE, bundle  # noqa: PLC0415

    own = {file.name for file in bundle(comparison, stamp, readers)}
    return sorted({path.name for name in OF_ONE for path in folder.glob(f"{name}_*")} - own)


def write_export(
    comparison: Comparison,
    stamp: Stamp,
    folder: Path,
    on_progress: Callable[[str], object],
    *,
    overwrite: bool,
    readers: Collection[str] = (),
) -> int:
    """Make the folder, then every file for the readers with a word of progress, then put all of them in place.

    Returns:
        Number of files written.

    Raises:
        InputError: a file exists and may not be replaced, or the folder cannot be written; what was there stays.
    """
    if not overwrite:
        refuse_existing(existing_files(comparison, stamp, folder, readers))
    atomic_write.make_folder(folder)
    contents = made_files(comparison, stamp, on_progress, readers)
    atomic_write.write_folder(folder, contents, overwrite=overwrite)
    return len(contents)


def refuse_existing(existing: Sequence[Path]) -> None:
    """Refuse to replace files.

    Raises:
        InputError: there are any.
    """
    if existing:
        others = f", as do {len(existing) - 1} others" if len(existing) > 1 else ""
        raise InputError([Problem(str(existing[0]), f"exists{others}; give another folder, or --overwrite")])


def made_files(
    comparison: Comparison, stamp: Stamp, on_progress: Callable[[str], object], readers: Collection[str] = ()
) -> dict[str, bytes]:
    """Name → content of every file for the readers, each made with a word of progress."""
    from engine.export.bundle import bundle  # noqa: PLC0415

    files, contents = bundle(with_alternatives(comparison, on_progress), stamp, readers), dict[str, bytes]()
    for number, file in enumerate(files, 1):
        on_progress(f"{number} of {len(files)}: {file.name}")
        made = file.make()
        contents[file.name] = made if isinstance(made, bytes) else made.encode()
    return contents

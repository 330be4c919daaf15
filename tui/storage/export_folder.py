"""Everything about a comparison into one folder: shared by the command line and the bench."""

from __future__ import annotations

import datetime
from collections.abc import Callable
from pathlib import Path

from engine.common.errors import InputError, Problem
from engine.comparison.compare import Comparison
from engine.export.stamp import Stamp
from engine.units import quoted
from tui.storage import atomic_write, paths


def date_of(written: str | None) -> datetime.date:
    """The day given, or today.

    Raises:
        InputError: it is no day.
    """
    if written is None:
        return datetime.date.today()
    try:
        return datetime.date.fromisoformat(written)
    except ValueError:
        raise InputError([Problem("--date", f"{quoted(written)} given; write a day as YYYY-MM-DD")]) from None


def clashes(comparison: Comparison, stamp: Stamp, folder: Path) -> list[Path]:
    """The files that would be replaced.

    Raises:
        InputError: no such folder can be.
    """
    from engine.export.bundle import bundle  # noqa: PLC0415  (heavy libraries: only where something leaves)

    return [path for file in bundle(comparison, stamp) if paths.exists(path := folder / file.name)]


def left_over(comparison: Comparison, stamp: Stamp, folder: Path) -> list[str]:
    """Names of files in the folder that are called as schedules and plans are, and are of no method here: an earlier run's, it seems."""
    from engine.export.bundle import OF_ONE, bundle  # noqa: PLC0415

    own = {file.name for file in bundle(comparison, stamp)}
    return sorted({path.name for name in OF_ONE for path in folder.glob(name.format("*"))} - own)


def leave(comparison: Comparison, stamp: Stamp, folder: Path, told: Callable[[str], object], *, overwrite: bool) -> int:
    """Make every file, telling which, then put all of them in place.

    Returns:
        How many were written.

    Raises:
        InputError: a file exists and may not be replaced, or the folder cannot be written; what was there stays.
    """
    from engine.export.bundle import bundle  # noqa: PLC0415

    if not overwrite and (taken := clashes(comparison, stamp, folder)):
        others = f", as do {len(taken) - 1} others" if len(taken) > 1 else ""
        raise InputError([Problem(str(taken[0]), f"exists{others}; give another folder, or --overwrite")])
    wanted, contents = bundle(comparison, stamp), {}
    for number, file in enumerate(wanted, 1):
        told(f"{number} of {len(wanted)}: {file.name}")
        made = file.make()
        contents[folder.resolve() / file.name] = made if isinstance(made, bytes) else made.encode()
    atomic_write.make_folder(folder)
    atomic_write.write_all(contents, overwrite=overwrite)
    return len(contents)

"""Export of everything about a comparison into one folder, for the app and the command line."""

from __future__ import annotations

import datetime
from collections.abc import Collection, Mapping, Sequence
from pathlib import Path, PurePath
from typing import TYPE_CHECKING

from engine.common.errors import InputError, Problem
from engine.common.progress import ProgressListener, no_listener
from engine.comparison.building_comparison import Compared
from engine.comparison.compare import Comparison
from engine.export.stamp import Stamp
from engine.units import quoted
from tui.storage import atomic_write, paths

if TYPE_CHECKING:
    from engine.export.bundle import File


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


def export_files(
    compared: Compared, stamp: Stamp, readers: Collection[str] = (), tell: ProgressListener = no_listener
) -> Mapping[str, Sequence[File]]:
    """The files of an export for some readers, or for all, by the folder they go into: "" is the one that is given.

    A building of several slopes has a folder a slope. Ways out are searched once for both, with words of progress.
    """
    from engine.export.building_bundle import building_bundle  # noqa: PLC0415  (heavy libraries: only for an export)
    from engine.export.bundle import bundle, searched_once  # noqa: PLC0415

    if isinstance(compared, Comparison):
        return {"": bundle(compared, stamp, readers, searched_once(compared, tell))}
    ways = {each.scenario.slope: searched_once(each, tell) for each in compared.slopes}
    slopes = {
        slope: bundle(each, stamp, readers, ways[slope])
        for slope, each in zip(compared.names, compared.slopes, strict=True)
    }
    return {"": building_bundle(compared, stamp, readers, ways), **slopes}


def existing_files(export: Mapping[str, Sequence[File]], folder: Path) -> list[Path]:
    """Files that an export would replace.

    Raises:
        InputError: it cannot be a folder.
    """
    every = (folder / name / file.name for name, files in export.items() for file in files)
    return [path for path in every if paths.exists(path)]


def stale_files(export: Mapping[str, Sequence[File]], folder: Path) -> list[str]:
    """Names of files in the folders that are named as a method's and not of this export: probably of an earlier one."""
    from engine.export.bundle import OF_ONE  # noqa: PLC0415

    own = {Path(name) / file.name for name, files in export.items() for file in files}
    found = {
        path.relative_to(folder) for name in export for start in OF_ONE for path in (folder / name).glob(f"{start}_*")
    }
    return sorted(map(str, found - own))


def write_export(
    export: Mapping[str, Sequence[File]], folder: Path, on_progress: ProgressListener, *, overwrite: bool
) -> int:
    """Make the folders, then every file with a word of progress, then put all of them in place at once.

    If it is cancelled, or fails, everything is as it was before.

    Returns:
        Number of files written.

    Raises:
        InputError: a file exists and may not be replaced, or a folder cannot be written; what was there stays.
    """
    if not overwrite and (existing := existing_files(export, folder)):
        others = f", as do {len(existing) - 1} others" if len(existing) > 1 else ""
        raise InputError([Problem(str(existing[0]), f"exists{others}; give another folder, or --overwrite")])
    total, contents = sum(map(len, export.values())), dict[str, bytes]()
    with atomic_write.folders(folder / name for name in export):
        for path, file in ((PurePath(name, file.name), file) for name, files in export.items() for file in files):
            on_progress(f"{len(contents) + 1} of {total}: {path}")
            made = file.make()
            contents[str(path)] = made if isinstance(made, bytes) else made.encode()
        on_progress("all files are put in place")
        atomic_write.write_folder(folder, contents, overwrite=overwrite)
    return len(contents)

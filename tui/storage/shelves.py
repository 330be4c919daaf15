"""Finding and reading shelves: beside the file that uses them, in the user's folder of parts, and bundled."""

from __future__ import annotations

import difflib
import os
from collections.abc import Iterator, Mapping
from functools import lru_cache
from importlib import resources
from pathlib import Path
from typing import Any

import platformdirs

from engine.common.errors import InputError, Problem
from engine.scenario.shelf import FILES, SECTIONS, USE, Shelf, is_shelf
from engine.scenario.shelf_check import ShelfEntry, entries_of
from engine.units import quoted
from tui.storage import paths

MAX_SHELVES = 20
"""Most shelves that one scenario may use; it bounds what a file of others can make loadpath read."""


def folder() -> Path:
    """The user's folder of parts."""
    return platformdirs.user_config_path("loadpath", appauthor=False) / "parts"


def bundled() -> list[Path]:
    """The bundled shelves, by name."""
    return sorted(Path(str(resources.files("scenarios"))).glob("parts/*.toml"))


def known() -> list[Path]:
    """The shelves in the user's folder, then the bundled ones."""
    return [*_files_in(folder()), *bundled()]


def _files_in(folder: Path) -> list[Path]:
    """The *.toml files directly in a folder, by name; none if it cannot be read."""
    try:
        return sorted(folder.glob("*.toml"))
    except OSError:
        return []


def shelves_of(tables: Mapping[str, Any], file: Path) -> tuple[Shelf, ...]:
    """The shelves that a file's tables use, and those that these use, each once.

    Raises:
        InputError: one is missing, cannot be read, or leads back to itself.
    """
    found: dict[Path, Shelf] = {}
    _collect(tables, file, (), found)
    return tuple(found.values())


def named(name: str) -> Path:
    """A shelf by its path, or a bundled one by its name."""
    path = Path(name)
    return next((each for each in bundled() if each.stem == name and not path.is_file()), path)


def entries_at(path: Path) -> tuple[ShelfEntry, ...]:
    """The entries of a shelf's file.

    Raises:
        InputError: everything that is wrong with it, or it is no shelf.
    """
    shelf = shelf_at(path)
    if not is_shelf(shelf.tables):
        raise InputError([Problem(path.name, f"no shelf: it has none of the tables {', '.join(SECTIONS)}")])
    return entries_of(shelf, (shelf, *shelves_of(shelf.tables, path)))


def names_seen_from(tables: Mapping[str, Any], file: Path, target: Path) -> list[str] | None:
    """The names of a file's shelves as another file has to write them; None if the same names lead there.

    Raises:
        InputError: there is no such shelf.
    """
    names = _used(tables, USE)
    there = [_name_from(name, _path_of(name, file, USE), target) for name in names]
    return None if there == list(names) else there


def _name_from(name: str, path: Path, target: Path) -> str:
    """The same name if it leads to a shelf from another file, else the path to it from there."""
    found = next(filter(paths.exists, _places(name, target)), None)
    if found is not None and found.resolve() == path:
        return name
    try:
        return Path(os.path.relpath(path, target.resolve().parent)).as_posix()
    except ValueError:  # on another drive
        return str(path)


def shelf_at(path: Path) -> Shelf:
    """A shelf's file, read.

    Raises:
        InputError: it cannot be read.
    """
    return Shelf(path.name, _parsed(paths.read_text(path), path.name))


@lru_cache(maxsize=MAX_SHELVES)
def _parsed(text: str, name: str) -> Mapping[str, Any]:
    """The tables of a shelf; nobody changes them, so the app reads the text again but not its meaning."""
    return paths.parse(text, name)


def _collect(tables: Mapping[str, Any], file: Path, chain: tuple[Path, ...], found: dict[Path, Shelf]) -> None:
    """Add the shelves that a file uses to those found."""
    where = f"{file.name}: {USE}" if chain else USE
    for name in _used(tables, where):
        path = _path_of(name, file, where)
        if path in chain:
            names = " uses ".join(each.name for each in (*chain[chain.index(path) :], path))
            raise InputError([Problem(where, f"{quoted(name)} given, which leads back to itself: {names}")])
        if path in found:
            continue
        if len(found) == MAX_SHELVES:
            raise InputError(
                [Problem(where, f"{quoted(name)} given; allowed are {MAX_SHELVES} shelves for a scenario")]
            )
        try:
            shelf = shelf_at(path)
        except InputError as wrong:
            raise InputError([Problem(where, str(each)) for each in wrong.problems]) from None
        found[path] = shelf
        _collect(shelf.tables, path, (*chain, path), found)


def _used(tables: Mapping[str, Any], where: str) -> tuple[str, ...]:
    if USE not in tables:
        return ()
    try:
        return FILES.read(tables[USE])
    except ValueError as refusal:
        raise InputError([Problem(where, str(refusal))]) from None


def _path_of(name: str, file: Path, where: str) -> Path:
    """The file of a shelf: beside the file that uses it, else in the user's folder, else bundled.

    Raises:
        InputError: there is none.
    """
    if not name.endswith(".toml"):
        raise InputError([Problem(where, f"{quoted(name)} given; write the name of a file that ends in .toml")])
    for path in _places(name, file):
        if paths.exists(path):
            return path.resolve()
    others = {path.name for path in (*_files_in(file.parent), *known())} - {file.name}
    near = difflib.get_close_matches(name, sorted(others), n=1)
    ending = f"; did you mean {quoted(near[0])}?" if near else ""
    sentence = f"{quoted(name)} given; no such file beside {file.name}, in {folder()} or among the bundled shelves"
    raise InputError([Problem(where, sentence + ending)])


def _places(name: str, file: Path) -> Iterator[Path]:
    yield paths.possible(str(file.parent / name))
    if Path(name).name == name:
        yield folder() / name
        yield from (path for path in bundled() if path.name == name)

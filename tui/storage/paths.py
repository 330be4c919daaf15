"""Finding and reading files: loadpath's own, and the user's."""

from __future__ import annotations

import tomllib
from collections.abc import Iterator
from importlib import resources
from pathlib import Path
from typing import Any

from engine.common.errors import InputError, Problem

DEFAULT = "kestrel_yard.toml"
LARGEST = 2_000_000
"""Largest scenario file read [bytes]."""


def bundled() -> list[Path]:
    """The scenarios that come with loadpath, the default one first."""
    folder = Path(str(resources.files("scenarios")))
    return sorted(folder.glob("*.toml"), key=lambda path: (path.name != DEFAULT, path.name))


def bundled_lessons() -> list[Path]:
    """The lessons that come with loadpath, in the order of their names."""
    return sorted(Path(str(resources.files("scenarios"))).glob("lessons/*.toml"))


def own() -> list[Path]:
    """Everything that comes with loadpath: scenarios, then lessons."""
    return [*bundled(), *bundled_lessons()]


def named(name: str) -> Path:
    """A file by its path, or one of loadpath's own by its name; a folder of that name is neither."""
    return next((path for path in own() if path.stem == name and not Path(name).is_file()), Path(name))


def is_bundled(path: Path) -> bool:
    """Whether a file is one of loadpath's own, which are not written over."""
    return path.resolve() in {each.resolve() for each in own()}


def typed(words: str) -> Path:
    """The path that somebody typed.

    Raises:
        InputError: no path can be made of it.
    """
    return possible(words.strip(), home=True)


def possible(words: str, *, home: bool = False) -> Path:
    """A path that whoever resolves it later can; "~" is a home folder where that is asked.

    Raises:
        InputError: no path can be made of it.
    """
    try:
        path = Path(words).expanduser() if home else Path(words)
        path.resolve()
    except (OSError, RuntimeError, ValueError) as failure:
        raise InputError([Problem(words, f"is no path ({reason(failure)})")]) from None
    return path


def exists(path: Path) -> bool:
    """Whether there is anything at a path.

    Raises:
        InputError: nothing can be there, or it cannot be looked at.
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
        if path.stat().st_size > LARGEST:
            raise InputError([Problem(str(path), f"larger than {LARGEST:,} bytes; a scenario is a few kilobytes")])
        return path.read_text(encoding="utf-8-sig")
    except UnicodeDecodeError:
        raise InputError([Problem(str(path), "not a text file in UTF-8")]) from None
    except OSError as failure:
        raise InputError([Problem(str(path), f"cannot be read ({reason(failure)})")]) from None


def parse(text: str, name: str) -> dict[str, Any]:
    """The tables of a scenario's text.

    Raises:
        InputError: it is not TOML; the sentence says where.
    """
    try:
        return tomllib.loads(text)
    except (tomllib.TOMLDecodeError, RecursionError) as failure:
        raise InputError([Problem(name, f"not TOML ({reason(failure)})")]) from None
    except ValueError:  # Python reads no integer of more than a few thousand digits
        raise InputError([Problem(name, "a number of thousands of digits given; write a shorter one")]) from None


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
        raise InputError([Problem(str(path), f"cannot be read ({reason(failure)})")]) from None


def reason(failure: Exception) -> str:
    """Why something could not be done, in a few words."""
    words = failure.strerror if isinstance(failure, OSError) and failure.strerror else str(failure)
    return " ".join(words.split())[:200].rstrip(".").lower() or type(failure).__name__

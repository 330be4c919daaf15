"""A shelf by itself: its entries listed, and everything that is wrong with them."""

from __future__ import annotations

from dataclasses import dataclass

from engine.common.errors import InputError, Problem
from engine.scenario.resolve import resolved
from engine.scenario.shelf import SECTIONS, Shelf
from engine.scenario.validation import validated
from engine.schema import FROM


@dataclass(frozen=True)
class ShelfEntry:
    """One entry: its path in the shelf ("modules.M420"), the number of its values, and their sources, each once."""

    path: str
    values: int
    sources: tuple[str, ...]

    @property
    def sentence(self) -> str:
        """Number of its values, and their sources."""
        return f"{self.values} value{'s' if self.values != 1 else ''}; {'; '.join(self.sources) or 'no source stated'}"


def entries_of(shelf: Shelf, shelves: tuple[Shelf, ...]) -> tuple[ShelfEntry, ...]:
    """The entries of a shelf, in the order of its sections.

    Args:
        shelf: the shelf.
        shelves: the same, and those that it uses.

    Raises:
        InputError: everything that is wrong with them.
    """
    named = {
        f"{section}.{name}": (model, name) for section, model in SECTIONS.items() for name in shelf.entries(section)
    }
    models = {path: model for path, (model, _) in named.items()}
    plain = resolved({path: {FROM: name} for path, (_, name) in named.items()}, models, shelves)
    problems = list(plain.problems)
    for path, model in models.items():
        validated(path, model, plain.tables[path], problems, partial=True)
    if problems:
        own = (Problem(each.path.removeprefix(f"{shelf.name}: "), each.message) for each in problems)
        raise InputError([plain.origins.located(each) for each in dict.fromkeys(own)])
    found = {path: [each for at, each in plain.origins.by_path.items() if at.startswith(f"{path}.")] for path in models}
    return tuple(
        ShelfEntry(path, len(origins), tuple(dict.fromkeys(each.source for each in origins if each.source)))
        for path, origins in found.items()
    )

"""What the bench works on: a file's text and the changes laid over it. No screen, no computing."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import Any

import tomlkit

from engine.common.errors import InputError
from engine.loads import STANDARDS
from engine.mounting import METHODS
from engine.scenario.read import Scenario, read_scenario
from tui.model.input_field import Entry, entries_of
from tui.storage import atomic_write, paths
from tui.storage.overrides import Changes, laid_over, put, same, value_at


@dataclass(frozen=True)
class Session:
    """An open file and the changes made since; every edit gives a new session, so undo is a list of them."""

    path: Path
    text: str
    changes: Changes = field(default_factory=dict)

    def tables(self) -> dict[str, Any]:
        """The file's tables with the changes laid over them."""
        return laid_over(self._written(), self.changes)

    def scenario(self) -> Scenario:
        """The scenario as it stands.

        Raises:
            InputError: it cannot be read; every problem at once.
        """
        return read_scenario(self.tables(), METHODS, STANDARDS)

    @property
    def readable(self) -> bool:
        """Whether no input is wrong."""
        try:
            self.scenario()
        except InputError:
            return False
        return True

    def entries(self) -> tuple[Entry, ...]:
        """Every input, in the file's order."""
        return tuple(entries_of(self.tables(), self.changes))

    def edited(self, entry: Entry, typed: str) -> Session:
        """The session with one input typed anew; what the file says already is no change."""
        value, written = entry.value_of(typed), value_at(self._written(), entry.path)
        others = {path: change for path, change in self.changes.items() if path != entry.path}
        return replace(self, changes=others if same(value, written) else {**others, entry.path: value})

    def onto(self, saved: Session) -> Session:
        """The same inputs, as changes of the file as it was saved since."""
        if self.text == saved.text:
            return replace(self, path=saved.path)
        tables = saved.tables()
        changes = {
            entry.path: entry.written
            for entry in self.entries()
            if not same(entry.written, value_at(tables, entry.path))
        }
        return Session(saved.path, saved.text, changes)

    def same_file(self, other: Session) -> bool:
        """Whether both are of one file that says the same, whatever was changed since."""
        return (self.path, self.text) == (other.path, other.text)

    def as_on_disk(self) -> bool:
        """Whether the file still says what it said when it was opened."""
        try:
            return paths.read_text(self.path) == self.text
        except InputError:
            return False

    def written_to(self, path: Path) -> Session:
        """Write the file with the changes in it, and go on with that one.

        Raises:
            InputError: it cannot be written.
        """
        text = self.saved_text()
        atomic_write.write_text(path, text, overwrite=True)
        return Session(path, text)

    def saved_text(self) -> str:
        """The file's text with the changes written into it; comments stay."""
        document = tomlkit.parse(self.text)
        for path, value in self.changes.items():
            put(document, path, value)
        return tomlkit.dumps(document)

    def _written(self) -> dict[str, Any]:
        """The file's own tables."""
        return paths.parse(self.text, self.path.name)

"""Every input as a list by table, or those that are sought; what is changed or wrong is marked."""

from __future__ import annotations

from collections.abc import Iterator, Set

from textual.content import Content
from textual.widgets import OptionList
from textual.widgets.option_list import Option

from tui.model.input_field import Entry
from tui.render.styles import MUTED
from tui.storage.overrides import Steps

MARKS = {"changed": "*", "file": " ", "default": "·"}
STYLES = {"changed": "bold $text-warning", "file": "", "default": MUTED}
NAME_WIDTH = 27


class InputList(OptionList):
    """A list of inputs that keeps its place while they change."""

    def __init__(self) -> None:
        super().__init__(markup=False)
        self.entries: tuple[Entry, ...] = ()
        self._wrong: Set[Steps] = frozenset()
        self._sought = ""
        self._in_names = True

    def show(self, entries: tuple[Entry, ...], wrong: Set[Steps]) -> None:
        """Show inputs, and which of them are wrong."""
        (old, were), (self.entries, self._wrong) = (self.entries, self._wrong), (entries, wrong)
        if [entry.path for entry in entries] != [entry.path for entry in old]:
            self._refill()
            return
        for before, now in zip(old, entries, strict=True):
            looked, looks = (
                (before.shown, before.origin, before.path in were),
                (now.shown, now.origin, now.path in wrong),
            )
            if looked != looks and self._is_sought(now):
                self.replace_option_prompt(_id(now), self._prompt(now))

    def seek(self, typed: str) -> None:
        """Show the inputs with this in their name, or where there are none in what they mean; all where nothing is typed."""
        self._sought = " ".join(typed.lower().replace("_", " ").split())
        self._in_names = any(self._sought in _named(entry) for entry in self.entries)
        self._refill()

    def chosen(self) -> Entry | None:
        """The input the list stands on."""
        option = self.highlighted_option
        return next((entry for entry in self.entries if option and _id(entry) == option.id), None)

    def _is_sought(self, entry: Entry) -> bool:
        return self._sought in (_named(entry) if self._in_names else entry.help.lower())

    def _refill(self) -> None:
        """Fill the list; the place in it stays where it can."""
        chosen = self.chosen()
        self.clear_options()
        options = list(self._by_table())
        self.add_options(options)
        ids = [option.id for option in options]
        stays = chosen is not None and _id(chosen) in ids
        self.highlighted = (ids.index(_id(chosen)) if chosen and stays else 1) if options else None

    def _by_table(self) -> Iterator[Option]:
        """The inputs under their tables' names."""
        table: Steps | None = None
        for entry in filter(self._is_sought, self.entries):
            if entry.path[:-1] != table:
                table = entry.path[:-1]
                words = f"── {' · '.join(table).replace('_', ' ') or 'job'} ──"
                yield Option(Content.styled(words, f"bold {MUTED}"), disabled=True)
            yield Option(self._prompt(entry), id=_id(entry))

    def _prompt(self, entry: Entry) -> Content:
        """Mark, name and value; what is wrong carries a sign too."""
        wrong = entry.path in self._wrong
        name = f"{'!' if wrong else MARKS[entry.origin]} {entry.title}"[:NAME_WIDTH].ljust(NAME_WIDTH)
        return Content.styled(
            f"{name} {entry.shown or 'left out'}", "bold $text-error" if wrong else STYLES[entry.origin]
        )


def _named(entry: Entry) -> str:
    """Its whole name in words, behind its mark."""
    return f"{MARKS[entry.origin]} {' '.join(entry.path).replace('_', ' ')}"


def _id(entry: Entry) -> str:
    return "-".join(entry.path)

"""All inputs as a list by table, or those that were searched for; changed and wrong ones are marked."""

from __future__ import annotations

from collections.abc import Iterator, Set

from textual.content import Content
from textual.widgets import OptionList
from textual.widgets.option_list import Option

from engine.common.safe_text import safe_text
from engine.scenario.changes import Steps
from tui.model.input_field import InputField
from tui.render.styles import MUTED

MARKS = {"changed": "*", "file": " ", "default": "·", "shelf": "›"}
STYLES = {"changed": "bold $text-warning", "file": "", "default": MUTED, "shelf": ""}
NAME_WIDTH = 27


class FieldList(OptionList):
    """A list of inputs that keeps its selection while they change."""

    def __init__(self) -> None:
        super().__init__(markup=False)
        self.fields: tuple[InputField, ...] = ()
        self._wrong: Set[Steps] = frozenset()
        self._search = ""
        self._in_names = True

    def show(self, fields: tuple[InputField, ...], wrong: Set[Steps]) -> None:
        """Show inputs, and mark those that are wrong."""
        (old, old_wrong), (self.fields, self._wrong) = (self.fields, self._wrong), (fields, wrong)
        if [field.path for field in fields] != [field.path for field in old]:
            self._refill()
            return
        for before, now in zip(old, fields, strict=True):
            was, looks = (
                (before.shown, before.origin, before.path in old_wrong),
                (now.shown, now.origin, now.path in wrong),
            )
            if was != looks and self._matches(now):
                self.replace_option_prompt(_id(now), self._prompt(now))

    def filter(self, typed: str) -> None:
        """List the inputs with this in their name, else in their help; all if it is empty."""
        self._search = " ".join(typed.lower().replace("_", " ").split())
        self._in_names = any(self._search in _full_name(field) for field in self.fields)
        self._refill()

    def selected(self) -> InputField | None:
        """The selected input."""
        option = self.highlighted_option
        return next((field for field in self.fields if option and _id(field) == option.id), None)

    def ends_at(self, step: int) -> bool:
        """True if no listed input lies beyond the selected one in that direction."""
        listed = [option.id for option in self.options if not option.disabled]
        selected = self.highlighted_option
        return selected is not None and selected.id == listed[-1 if step > 0 else 0]

    def move(self, step: int) -> None:
        """Select the next input, or the one before; past the end go on at the other end."""
        if step > 0:
            self.action_cursor_down()
        else:
            self.action_cursor_up()

    def _matches(self, field: InputField) -> bool:
        return self._search in (_full_name(field) if self._in_names else field.help.lower())

    def _refill(self) -> None:
        """Fill the list; the selection stays if it is still listed."""
        selected = self.selected()
        self.clear_options()
        options = list(self._by_table())
        self.add_options(options)
        ids = [option.id for option in options]
        stays = selected is not None and _id(selected) in ids
        self.highlighted = (ids.index(_id(selected)) if selected and stays else 1) if options else None

    def _by_table(self) -> Iterator[Option]:
        """The inputs under the names of their tables."""
        table: Steps | None = None
        for field in filter(self._matches, self.fields):
            if field.path[:-1] != table:
                table = field.path[:-1]
                words = f"── {' · '.join(table).replace('_', ' ') or 'job'} ──"
                yield Option(Content.styled(words, f"bold {MUTED}"), disabled=True)
            yield Option(self._prompt(field), id=_id(field))

    def _prompt(self, field: InputField) -> Content:
        """Mark, name and value."""
        wrong = field.path in self._wrong
        name = f"{'!' if wrong else MARKS[field.origin]} {field.title}"[:NAME_WIDTH].ljust(NAME_WIDTH)
        return Content.styled(
            f"{name} {safe_text(field.shown) or 'not set'}", "bold $text-error" if wrong else STYLES[field.origin]
        )


def _full_name(field: InputField) -> str:
    """Its mark and its whole path in words."""
    return f"{MARKS[field.origin]} {' '.join(field.path).replace('_', ' ')}"


def _id(field: InputField) -> str:
    return "-".join(field.path)

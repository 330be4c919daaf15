"""The form of inputs: lines that fold, one of them selected, and the editor in the line that is open."""

from __future__ import annotations

from dataclasses import replace
from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import VerticalScroll
from textual.content import Content
from textual.events import Click
from textual.geometry import Region
from textual.message import Message

from engine.scenario.changes import Steps
from engine.units import System
from tui.model.form import Line, Shown, lines
from tui.model.input_field import InputField
from tui.render import form as drawing
from tui.widgets.drawn_anew import DrawnAnew
from tui.widgets.field_editor import FieldEditor
from tui.widgets.words import Words


class Form(DrawnAnew, VerticalScroll):
    """Every input, by groups; up and down select a line, enter opens it."""

    DEFAULT_CSS = """
    Form { scrollbar-gutter: stable; scrollbar-size-vertical: 1; layers: lines editor; }
    Form > Words { width: 1fr; height: auto; layer: lines; }
    Form > FieldEditor { display: none; layer: editor; position: absolute; }
    Form.editing > FieldEditor { display: block; }
    """
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("up", "move(-1)", show=False),
        Binding("down", "move(1)", show=False),
        Binding("home", "move(-10000)", show=False),
        Binding("end", "move(10000)", show=False),
        Binding("pageup", "page(-1)", show=False),
        Binding("pagedown", "page(1)", show=False),
        Binding("enter", "open", show=False),
    ]
    can_focus = True

    class Selected(Message):
        """Another line is selected."""

    class Opened(Message):
        """The selected input is to be opened."""

    def __init__(self, *, id: str) -> None:
        super().__init__(id=id)
        self.lines: tuple[Line, ...] = ()
        self._shown = Shown()
        self._drawn: list[Content] = []  # each line, none of them selected
        self._drawn_of, self._drawn_for = self._shown, ("us", 0)  # the inputs, the units and the width of those
        self._system: System = "us"
        self._key: Steps = ()

    def compose(self) -> ComposeResult:
        """One block of text, and the editor above it."""
        yield Words()
        yield FieldEditor(id="editor", compact=True)

    @property
    def editor(self) -> FieldEditor:
        """The editor of the open input."""
        return self.query_one(FieldEditor)

    @property
    def fields(self) -> tuple[InputField, ...]:
        """The inputs that the lines show, in their order."""
        return tuple(line.field for line in self.lines if line.field and not line.is_result)

    @property
    def line(self) -> Line | None:
        """The selected line."""
        return self.lines[self._number] if self.lines else None

    @property
    def selected(self) -> InputField | None:
        """The selected input; None on a heading."""
        return self.line.field if self.line else None

    @property
    def _number(self) -> int:
        """Number of the selected line; the nearest that holds it, if it is folded away."""
        keys = [line.key for line in self.lines]
        if self._key in keys:
            return keys.index(self._key)
        groups = [number for number, line in enumerate(self.lines) if line.key == self._key[:1]]
        above = [number for number, line in enumerate(self.lines) if self._key[: len(line.key)] == line.key]
        return (above or groups or [min(1, len(self.lines) - 1)])[-1]

    def field_at(self, path: Steps) -> InputField | None:
        """The input of a path, if it is shown."""
        return next((field for field in self.fields if field.path == path), None)

    def show(self, fields: tuple[InputField, ...], wrong: frozenset[Steps], open_path: Steps, system: System) -> None:
        """Show inputs, and mark those that are wrong."""
        self._shown = replace(self._shown, fields=fields, wrong=wrong, open_path=open_path)
        self._system = system
        self._key = open_path or self._key  # a name that is typed anew is another path
        self._draw()

    def filter(self, typed: str) -> None:
        """Show the inputs with this in their name, else in their help; all if it is empty."""
        self._shown = replace(self._shown, search=typed.strip())
        self._draw()
        if typed.strip():
            self._key = next((field.path for field in self.fields), ())
            self._draw()
        self._scroll_to_selected()

    def select(self, path: Steps) -> None:
        """Select an input, and unfold its group if need be."""
        self._key = path
        if not any(line.key == path for line in self.lines):
            group = next((each for each in self._groups() if path in self._paths_of(each)), "")
            self._shown = replace(
                self._shown, folded=self._shown.folded - {group}, in_full=self._shown.in_full | {group}
            )
        self._draw()
        self._scroll_to_selected()
        self.post_message(self.Selected())

    def _groups(self) -> list[str]:
        return [line.group for line in lines(replace(self._shown, search="")) if line.is_heading]

    def _paths_of(self, group: str) -> set[Steps]:
        whole = lines(replace(self._shown, search="", folded=frozenset(), in_full=frozenset(self._groups())))
        return {line.key for line in whole if line.group == group}

    def field_after(self, step: int) -> Steps | None:
        """Path of the next input that is shown, or the one before; None past the end."""
        paths = [field.path for field in self.fields]
        selected = self.selected
        if selected is None or selected.path not in paths:
            return paths[0] if paths else None
        to = paths.index(selected.path) + step
        return paths[to] if 0 <= to < len(paths) else None

    @property
    def first_wrong(self) -> Steps | None:
        """Path of the first input that is to be given or wrong."""
        return next((field.path for field in self.fields if self._shown.is_wrong(field)), None)

    def _draw(self) -> None:
        """Draw what is new: all lines where the inputs are others, only the selected one where the selection moves."""
        width = self.scrollable_content_region.width
        if self._drawn_of is not self._shown or self._drawn_for != (self._system, width):
            self._drawn_of, self._drawn_for = self._shown, (self._system, width)
            self.lines = lines(self._shown)
            self._drawn = [drawing.draw(line, self._shown, self._system, width) for line in self.lines] if width else []
        if not width:
            return
        drawn = list(self._drawn)
        if self.line:
            drawn[self._number] = drawing.draw(
                self.line, self._shown, self._system, width, selected=True, focused=self.has_focus
            )
        self.query_one(Words).show_lines(drawn)
        self._place_editor(width)

    def _place_editor(self, width: int) -> None:
        column = drawing.value_column(width)
        self.editor.styles.offset = (column, self._number if self.lines else 0)
        self.editor.styles.width = max(8, width - column)

    def _scroll_to_selected(self) -> None:
        if self.lines:
            row = Region(0, self._number - 1, 1, 3)
            self.call_after_refresh(self.scroll_to_region, row, animate=False, force=True, immediate=True)

    def action_move(self, steps: int) -> None:
        """Select a line above or below."""
        if not self.lines:
            return
        places = [number for number, line in enumerate(self.lines) if line.can_be_selected]
        at = places.index(self._number) if self._number in places else 0
        self._go_to(places[max(0, min(len(places) - 1, at + steps))])

    def action_page(self, pages: int) -> None:
        """Select a line a page above or below."""
        self.action_move(pages * max(1, self.size.height - 1))

    def _go_to(self, number: int) -> None:
        self._key = self.lines[number].key
        self._draw()
        self._scroll_to_selected()
        self.post_message(self.Selected())

    def action_open(self) -> None:
        """Open the selected input; fold or unfold a group."""
        if self.line and self.line.field is None:
            self.fold()
        else:
            self.post_message(self.Opened())

    def fold(self) -> None:
        """Fold the group of the selected line, or unfold it; show its other inputs, or leave them out."""
        line = self.line
        if line is None:
            return
        if line.count:
            self._shown = replace(self._shown, in_full=self._shown.in_full | {line.group})
        else:
            self._key = (line.group,)
            self._shown = replace(
                self._shown, folded=self._shown.folded ^ {line.group}, in_full=self._shown.in_full - {line.group}
            )
        self._draw()
        self._scroll_to_selected()

    def fold_all(self) -> None:
        """Fold every group; if all are folded, unfold them."""
        groups = frozenset(self._groups())
        is_folded = groups <= self._shown.folded
        self._shown = replace(self._shown, folded=frozenset() if is_folded else groups, in_full=frozenset())
        self._draw()
        self._scroll_to_selected()

    def open_editor(self, field: InputField) -> None:
        """Put the editor in the line of an input."""
        self.add_class("editing")
        self.editor.edit(field)
        self._draw()
        self._scroll_to_selected()
        self.screen.set_focus(self.editor)

    def close_editor(self) -> None:
        """Take the editor away; the line that was open is one like the others again."""
        self.remove_class("editing")
        self._shown = replace(self._shown, open_path=())

    def on_click(self, event: Click) -> None:
        """Do what enter does on the line under the pointer."""
        number = event.screen_y - self.query_one(Words).region.y
        if 0 <= number < len(self.lines) and self.lines[number].can_be_selected and event.widget is not self.editor:
            self._go_to(number)
            self.action_open()

"""The form of inputs as text: one line an input, with its mark, its full name and its value."""

from __future__ import annotations

from textual.content import Content

from engine.common.safe_text import safe_text
from engine.units import System
from tui.model.form import Line, Shown
from tui.model.input_field import InputField, WayField
from tui.render.styles import MUTED, PLACEHOLDER, fitted

SELECTED, WRONG, CHANGED, NOT_SET, DEFAULT, SHELF = "›", "!", "*", "–", "·", "→"
MARKS = (
    f"Marks: {WRONG} to give, or wrong; {PLACEHOLDER} placeholder to replace; {CHANGED} changed, not saved; "
    f"{DEFAULT} default; {SHELF} from a shelf; {NOT_SET} not set."
)
MAX_LABEL = 44
MARK_WIDTH, GAP = 3, 1


def value_column(width: int) -> int:
    """The column at which values begin."""
    return MARK_WIDTH + min(MAX_LABEL, width * 11 // 20) + GAP


def draw(
    line: Line, shown: Shown, system: System, width: int, *, selected: bool = False, focused: bool = False
) -> Content:
    """One line of the form, as wide as the room."""
    if line.is_heading:
        text = _heading(line, shown, width, selected=selected)
    elif line.count:
        text = Content.styled(fitted(f"{_pointer(selected)}  ▸ {line.label}", width), MUTED)
    else:
        text = _field(line, shown, system, width, selected=selected)
    if selected and focused:
        return Content.styled(text.plain, "$block-cursor-foreground on $block-cursor-background")
    return text.stylize("bold") if selected else text


def summary(fields: list[InputField], shown: Shown) -> tuple[str, str]:
    """The values that a group still needs, in a few words, and their style."""
    wrong = sum(shown.is_wrong(field) for field in fields)
    placeholders = sum(field.is_placeholder for field in fields)
    if wrong:
        return f"{WRONG} {wrong} to give", "$text-error"
    if placeholders:
        return f"{PLACEHOLDER} {placeholders} placeholder{'s' if placeholders > 1 else ''}", "$text-warning"
    return "✓", "$text-success"


def _heading(line: Line, shown: Shown, width: int, *, selected: bool) -> Content:
    """The name of a group, whether it is folded, and what it still needs."""
    sign = "▸" if line.group in shown.folded and not shown.search else "▾"
    name = f"{_pointer(selected)}{sign} {line.group} "
    words, style = summary(shown.fields_of(line.group), shown)
    rule = "─" * max(1, width - len(name) - len(words) - 2)
    return Content.assemble(
        (name, "bold"), (rule, "$border-blurred"), f" {(words)}" if not style else (f" {words}", style)
    )


def _field(line: Line, shown: Shown, system: System, width: int, *, selected: bool) -> Content:
    field = line.field
    if field is None:
        return Content("")
    at = value_column(width)
    if line.is_result:
        result = field.result(system) if isinstance(field, WayField) else ""
        words = f"= {result}" if result else ""
        return Content.styled(fitted(" " * max(0, min(at, width - len(words))) + words, width), "$text-success")
    mark, style = _mark(field, shown)
    label = f"{_pointer(selected)}{mark} {'  ' * line.depth}{line.label}"
    value = safe_text(field.editable) or NOT_SET
    return Content.assemble((fitted(label, at - GAP).ljust(at), style), (fitted(value, width - at), style))


def _mark(field: InputField, shown: Shown) -> tuple[str, str]:
    """Mark and style of an input."""
    if shown.is_wrong(field):
        return WRONG, "bold $text-error"
    if field.is_placeholder:
        return PLACEHOLDER, "$text-warning"
    if field.changed:
        return CHANGED, "$text-warning"
    if not field.editable or field.editable in ("[]", "not set"):
        return NOT_SET, MUTED
    return {"file": (" ", ""), "shelf": (SHELF, "")}.get(field.origin, (DEFAULT, MUTED))


def _pointer(selected: bool) -> str:
    return SELECTED if selected else " "


def choices(field: InputField, current: str) -> str:
    """The options of a choice in one line, the current one between brackets."""
    return " · ".join(f"[{option}]" if option == current else option for option in field.options)

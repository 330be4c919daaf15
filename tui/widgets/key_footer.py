"""The footer: one line of keys in one widget; a widget for every key makes the whole app slower."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import ClassVar

from rich.cells import cell_len
from rich.style import Style
from rich.text import Text
from textual.app import ComposeResult
from textual.binding import ActiveBinding
from textual.events import Leave, MouseDown, MouseMove
from textual.reactive import reactive
from textual.screen import Screen
from textual.widget import Widget
from textual.widgets import Footer


@dataclass(frozen=True)
class ShownKey:
    """One key of the footer: its name, its sign, its word, its tooltip, the columns it takes, and what leads them."""

    key: str
    sign: str
    word: str
    tooltip: str
    columns: range
    lead: str = " "


class KeyLine(Widget):
    """The keys side by side; a click on one is the same as the key."""

    ALLOW_SELECT = False
    COMPONENT_CLASSES: ClassVar[set[str]] = {"key-line--key", "key-line--word", "key-line--hovered"}
    DEFAULT_CSS = """
    KeyLine { width: auto; height: 1; text-wrap: nowrap; background: $footer-item-background; }
    KeyLine .key-line--key {
        color: $footer-key-foreground; background: $footer-key-background; text-style: bold;
    }
    KeyLine .key-line--word { color: $footer-description-foreground; background: $footer-description-background; }
    KeyLine .key-line--hovered { background: $block-hover-background; }
    KeyLine:hover { pointer: pointer; }
    """

    keys: reactive[tuple[ShownKey, ...]] = reactive((), layout=True)
    hovered: reactive[ShownKey | None] = reactive(None)

    def render(self) -> Text:
        """Sign and word of every key."""
        line = Text()
        for key in self.keys:
            line.append(self._drawn(key))
        line.stylize_before(self.rich_style)
        return line

    def _drawn(self, key: ShownKey) -> Text:
        text = Text.assemble(
            (f"{key.lead}{key.sign} ", self.get_component_rich_style("key-line--key")),
            (f"{key.word} ", self.get_component_rich_style("key-line--word")),
        )
        if key == self.hovered:
            text.stylize(Style(bgcolor=self.get_component_rich_style("key-line--hovered").bgcolor))
        return text

    def _key_at(self, column: int) -> ShownKey | None:
        return next((key for key in self.keys if column in key.columns), None)

    def on_mouse_move(self, event: MouseMove) -> None:
        """Mark the key under the pointer and explain it."""
        self.hovered = self._key_at(event.x)
        self.tooltip = self.hovered.tooltip if self.hovered else None

    def on_leave(self, event: Leave) -> None:
        """Mark no key."""
        self.hovered = None

    def on_mouse_down(self, event: MouseDown) -> None:
        """Press the key under the pointer."""
        key = self._key_at(event.x)
        if key:
            self.app.simulate_key(key.key)


class KeyFooter(Footer):
    """The keys of the screen, in one widget that stays when they change."""

    def __init__(self) -> None:
        super().__init__()
        self._line = KeyLine()

    def compose(self) -> ComposeResult:
        """One line."""
        yield self._line

    def bindings_changed(self, screen: Screen[object]) -> None:
        """Show the keys that act now."""
        if screen.app.app_focus and self.is_attached and screen is self.screen:
            self.call_after_refresh(self._show_keys)

    def _show_keys(self) -> None:
        if self.is_attached:  # false once the screen is closed
            active = tuple(self.screen.active_bindings.values())
            keys = tuple(self._shown(active, " "))
            is_too_wide = keys and keys[-1].columns.stop > self.size.width > 0
            self._line.keys = tuple(self._shown(active, "")) if is_too_wide else keys

    def on_resize(self) -> None:
        """Use the room there is."""
        self._show_keys()

    def _shown(self, active: Iterable[ActiveBinding], lead: str) -> Iterator[ShownKey]:
        """Of every command its first key, from left to right, each behind a `lead`."""
        of_action: dict[str, ActiveBinding] = {}
        for each in active:
            if each.binding.show:
                of_action.setdefault(each.binding.action, each)
        column = 0
        for _, binding, _, tooltip in of_action.values():
            sign = self.app.get_key_display(binding)
            end = column + cell_len(f"{lead}{sign} {binding.description} ")
            yield ShownKey(binding.key, sign, binding.description, tooltip, range(column, end), lead)
            column = end

    @property
    def keys(self) -> tuple[ShownKey, ...]:
        """The keys shown."""
        return self._line.keys

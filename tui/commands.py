"""Every command of the bench, declared once: its key, footer word, palette line and help come from here."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from textual.binding import Binding, BindingType


@dataclass(frozen=True)
class Command:
    """One thing the bench can do: `action` names the app's method."""

    key: str
    action: str
    title: str
    help: str
    footer: bool = True


COMMANDS: tuple[Command, ...] = (
    Command("c", "show_comparison", "Compare", "See the methods side by side"),
    Command("i", "show_inputs", "Inputs", "Change any input; enter opens one, escape leaves it"),
    Command("n", "study", "Study", "See where each link gives out as spacing grows"),
    Command("w", "why", "Why?", "See how each method's worst clip came about"),
    Command("u", "switch_units", "Units", "Show US or SI units"),
    Command("z", "undo", "Undo", "Take back the last change", footer=False),
    Command("y", "redo", "Redo", "Make the change again", footer=False),
    Command("o", "open_file", "Open", "Open another scenario"),
    Command("s", "save", "Save", "Save the scenario; a bundled one is saved elsewhere"),
    Command("t", "switch_theme", "Theme", "Switch between dark and light", footer=False),
    Command("question_mark", "help", "Help", "Explain what is on the screen, and list every key"),
    Command("ctrl+p", "command_palette", "Palette", "Search every command by name", footer=False),
    Command("ctrl+q", "leave", "Quit", "Leave the bench; unsaved changes are asked about", footer=False),
    Command("q", "leave", "Quit", "Leave the bench; unsaved changes are asked about"),
)


def bindings(commands: Sequence[Command] = COMMANDS) -> list[BindingType]:
    """The commands as key bindings."""
    shown = {"question_mark": "?", "ctrl+p": "^p"}
    return [
        Binding(command.key, command.action, command.title, show=command.footer, key_display=shown.get(command.key), tooltip=command.help)
        for command in commands
    ]

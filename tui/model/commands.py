"""Every command of the bench, declared once: its key, footer word, palette line and help come from here."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from textual.binding import Binding, BindingType

SHOWN = {
    "question_mark": "?",
    "slash": "/",
    "comma": ",",
    "full_stop": ".",
    "left": "←",
    "right": "→",
    "up": "↑",
    "down": "↓",
}


@dataclass(frozen=True)
class Command:
    """One thing the bench can do.

    `action` names the method `action_…` of the app, or of the screen that declares the command.
    `footer` is its word in the footer; without one only help and palette list it.
    """

    key: str
    action: str
    title: str
    help: str
    footer: str = ""

    @property
    def shown_key(self) -> str:
        """The key as it is written on the screen."""
        return SHOWN.get(self.key, self.key.replace("ctrl+", "^"))


COMMANDS: tuple[Command, ...] = (
    Command(
        "comma",
        "lesson_back",
        "Lesson: back",
        "Return to the lesson's step as it was; what was tried is dropped",
        "Lesson",
    ),
    Command("full_stop", "lesson_on", "Lesson: on", "Go on to the lesson's next step", "Next"),
    Command("c", "show_comparison", "Compare", "See the methods side by side", "Compare"),
    Command(
        "i", "show_inputs", "Inputs", "Change any input; enter opens one and keeps it, escape takes back", "Inputs"
    ),
    Command("p", "roof_plan", "Roof plan", "Walk the roof from attachment to attachment", "Plan"),
    Command("l", "load_path", "Load path", "Follow the load link by link, from the module to the structure", "Path"),
    Command("b", "bill", "Bill", "See what each method is built of and what it costs", "Bill"),
    Command("n", "study", "Span study", "See where each link gives out as spacing grows", "Study"),
    Command(
        "h",
        "headroom",
        "Headroom",
        "See how much more wind and snow each method could take, and which input moves the verdict",
    ),
    Command("w", "why", "Why?", "See how the figure in focus came about", "Why?"),
    Command(
        "k",
        "baseline",
        "Baseline",
        "Keep this comparison: every figure then shows its change since; again: drop it",
        "Keep",
    ),
    Command("m", "next_method", "Next method", "Turn to the next method, on every screen about one method"),
    Command("u", "switch_units", "Units", "Switch between feet and pounds (US) and metres and newtons (SI)"),
    Command("z", "undo", "Undo", "Take back the last change"),
    Command("y", "redo", "Redo", "Make the change again"),
    Command("o", "open_file", "Open", "Open another scenario"),
    Command("s", "save", "Save", "Save to the file that is open; a bundled scenario is saved elsewhere"),
    Command("S", "save_as", "Save as", "Save under another name"),
    Command("e", "export", "Export", "Write tables, schedules, plans and the calculation into a folder"),
    Command("t", "switch_theme", "Theme", "Switch between dark and light"),
    Command("question_mark", "help", "Help", "Explain what is on the screen, and list every key", "Help"),
    Command("ctrl+p", "command_palette", "Palette", "Search every command by name"),
    Command("q", "leave", "Quit", "Leave the bench; unsaved changes are asked about"),
    Command("ctrl+q", "leave", "Quit", "The same, from anywhere"),
)
"""What can be done from every screen."""


def bindings(commands: Sequence[Command]) -> list[BindingType]:
    """Commands as key bindings."""
    return [
        Binding(
            command.key,
            command.action,
            command.footer,
            show=bool(command.footer),
            key_display=command.shown_key,
            tooltip=command.help,
        )
        for command in commands
    ]


def action_of(screen: str) -> str:
    """The command that opens a screen of this name."""
    return next(command.action for command in COMMANDS if command.title.lower() == screen)

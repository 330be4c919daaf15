"""Every command of the app, declared once: its keys, footer word, palette line and help come from here."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from textual.binding import Binding, BindingType

KEY_SIGNS = {
    "question_mark": "?",
    "slash": "/",
    "comma": ",",
    "full_stop": ".",
    "left": "←",
    "right": "→",
    "up": "↑",
    "down": "↓",
    "space": "␣",
    "right_square_bracket": "]",
    "plus": "+",
    "minus": "-",
    "less_than_sign": "<",
    "greater_than_sign": ">",
}
"""Keys that are written as a sign on the screen."""


@dataclass(frozen=True)
class Command:
    """One command.

    Attributes:
        id: its name in the file of keys; the app, or the screen that declares it, has a method `action_<id>`.
        key: its default key, or several with commas between.
        title: its name in the palette.
        help: what it does, for help and palette.
        footer: its word in the footer; if empty, only help and palette list it.
        sign: the keys in the footer, where one word stands for several commands.
    """

    id: str
    key: str
    title: str
    help: str
    footer: str = ""
    sign: str = ""

    @property
    def keys(self) -> tuple[str, ...]:
        """Its default keys."""
        return tuple(self.key.split(","))


DRAW = Command(
    "draw", "d", "Draw on the roof", "Move the array, add rows and columns, keep areas clear, leave out modules", "Draw"
)
COMMANDS: tuple[Command, ...] = (
    Command("lesson_back", "comma", "Lesson: back", "Return to the lesson's step and discard what was tried", "Lesson"),
    Command("lesson_next", "full_stop", "Lesson: next", "Go to the lesson's next step", "Next"),
    Command("compare", "c", "Compare", "Show the methods side by side", "Compare"),
    Command("inputs", "i", "Inputs", "Change any input", "Inputs"),
    Command("roof_plan", "p", "Roof plan", "Show the roof from above, attachment by attachment", "Plan"),
    DRAW,
    Command("load_path", "l", "Load path", "Follow the load link by link, from the module to the structure", "Path"),
    Command("bill", "b", "Bill", "Show the parts, the labour and the cost of each method", "Bill"),
    Command("span_study", "n", "Spacing study", "Show the utilisation of each component as spacing grows", "Study"),
    Command("headroom", "h", "Headroom", "Show the wind and snow each method can carry, and the inputs that matter"),
    Command("ways_out", "o", "Ways out", "Show what would make a method hold that is over, and apply it", "Ways"),
    Command("placement", "v", "Placement map", "Show at which places of the array each method holds"),
    Command("alternatives", "A", "Alternatives", "Show the scenario's alternatives and the baseline, ranked"),
    Command("why", "w", "Why?", "Show the calculation of the figure in focus", "Why?"),
    Command("baseline", "k", "Baseline", "Show later changes against this comparison; press again to stop", "Baseline"),
    Command(
        "keep_baseline", "K", "Keep the baseline", "Write the baseline's inputs into the scenario as an alternative"
    ),
    Command("next_method", "m", "Next method", "Show the next method, on every screen about one method"),
    Command("next_slope", "right_square_bracket", "Next slope", "Show the next slope of a building with several"),
    Command("building", "B", "Whole building", "Show the totals of all slopes, and the best method of each"),
    Command("units", "u", "Units", "Switch between feet and pounds (US) and metres and newtons (SI)"),
    Command("undo", "z", "Undo", "Undo the last change"),
    Command("redo", "y", "Redo", "Redo the change that was undone"),
    Command("new", "ctrl+n", "New", "Begin a new job: describe my roof"),
    Command("start", "f2", "Start page", "Show recent files, examples and lessons"),
    Command("tour", "f3", "Tour", "Explain the app in five steps"),
    Command("quick", "f4", "Quick question", "The loads on a roof that nobody has seen, from a dozen values"),
    Command("open", "ctrl+o", "Open", "Open another scenario"),
    Command("save", "s", "Save", "Save to the open file; a bundled scenario is saved under another name"),
    Command("save_as", "S", "Save as", "Save under another name"),
    Command("export", "e", "Export", "Write tables, schedules, plans and the calculation into a folder"),
    Command("theme", "t", "Theme", "Switch between dark and light"),
    Command("help", "question_mark", "Help", "Explain what is in focus, and list every key", "Help"),
    Command("command_palette", "ctrl+p", "Palette", "Search every command by name"),
    Command("quit", "q,ctrl+q", "Quit", "Quit; unsaved changes can be saved first"),
)
"""The commands of every screen."""


def bindings(commands: Sequence[Command]) -> list[BindingType]:
    """Commands as key bindings; users rebind them by id."""
    return [
        Binding(
            command.key,
            command.id,
            command.footer,
            show=bool(command.footer),
            key_display=command.sign or KEY_SIGNS.get(command.key),
            tooltip=command.help,
            id=command.id,
        )
        for command in commands
    ]


def command_of_screen(screen: str) -> str:
    """Id of the command that opens a screen, by the screen's name in lessons: "roof plan"."""
    return screen.replace(" ", "_")

"""A quick question: the loads on a roof that nobody has seen, from a dozen values, answered while they are typed."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from pathlib import Path
from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Grid, Vertical, VerticalScroll
from textual.events import DescendantFocus, Resize
from textual.screen import ModalScreen
from textual.widgets import Input

from engine.common.errors import InputError, Problem
from engine.common.safe_text import safe_lines
from engine.comparison.compare import Comparison, compare
from engine.mounting import METHODS
from engine.studies.quick import question_as_file, roof_loads
from tui.model.inputs import Inputs
from tui.model.new_job import new_job
from tui.model.question import Answers, QuestionField
from tui.model.state import COMPUTING
from tui.render.plain_text import plain_text
from tui.render.quick import NOT_A_DESIGN, quick_parts
from tui.screens.computing import Computing
from tui.widgets.words import Words

ALSO = "also"
ABOUT_ALSO = "Any other value of the site as name=value, such as risk=III or cp_net='cautious fallback'."
MAX_PROBLEMS = 3
"""Problems that are written out: the answer needs the room."""


class Quick(ModalScreen[Inputs | None], Computing[Inputs | None]):
    """Returns the inputs of a job to go on with, or None on escape. `answers` keeps what was typed."""

    CSS_PATH = "quick.tcss"
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("down", "app.focus_next", show=False),
        Binding("up", "app.focus_previous", show=False),
        ("escape", "dismiss(None)", "Close"),
    ]

    def __init__(self, answers: Answers) -> None:
        super().__init__()
        self.answers = answers
        self._comparison: Comparison | None = None

    def compose(self) -> ComposeResult:
        """Heading, fields, explanation, answer, keys."""
        with Vertical(id="page"):
            yield Words(NOT_A_DESIGN, id="not-a-design")
            yield Grid(id="fields")
            yield Words(id="about")
            with VerticalScroll(can_focus=True):
                yield Words(id="answer")
            yield Words("tab ↑ ↓ next field · Enter next, then go on as a new job · Esc close", id="keys")

    async def on_mount(self) -> None:
        """Ask, with what was typed before."""
        await self._ask()
        self._answer()

    async def _ask(self) -> None:
        """One field for each value of the load standard that is chosen; what is in focus stays in focus."""
        focused, grid = self.focused.id if self.focused else None, self.query_one("#fields", Grid)
        await grid.remove_children()
        for each in self.answers.fields():
            typed = self.answers.typed.get(each.name, "")
            await grid.mount(Words(each.label), self._input(each.name, typed, each.hint(self.answers.system)))
        await grid.mount(Words(ALSO), self._input(ALSO, self.answers.others, "risk=III"))
        self.query_one(f"#{focused}" if focused else "Input", Input).focus()

    @staticmethod
    def _input(name: str, typed: str, hint: str) -> Input:
        return Input(typed, placeholder=hint, id=name, compact=True, select_on_focus=False)

    def on_descendant_focus(self, event: DescendantFocus) -> None:
        """Explain the field in focus."""
        if isinstance(event.widget, Input):
            field = self._field(event.widget)
            self.query_one("#about", Words).show(field.help if field else ABOUT_ALSO)

    def _field(self, widget: Input) -> QuestionField | None:
        return next((each for each in self.answers.fields() if each.name == widget.id), None)

    async def on_input_changed(self, message: Input.Changed) -> None:
        """Follow every keystroke."""
        name, standard = message.input.id or "", self.answers.standard
        if name == ALSO:
            self.answers = replace(self.answers, others=message.value)
        else:
            self.answers = replace(self.answers, typed={**self.answers.typed, name: message.value})
        if self.answers.standard != standard:
            await self._ask()
        self._answer()

    def on_input_submitted(self, message: Input.Submitted) -> None:
        """Go to the next value that is needed; once all are given and answered, go on with a job."""
        if self.answers.missing:
            self.query_one(f"#{self.answers.missing[0].name}", Input).focus()
        elif self._comparison:
            text = question_as_file(self.answers.values(), METHODS, self._comparison.scenario)
            self.dismiss(new_job(Path.cwd(), text))

    def on_resize(self, event: Resize) -> None:
        """Use the room there is."""
        if self._comparison:
            self._show(self._comparison)

    def _answer(self) -> None:
        """Answer what is typed, or say what is missing or wrong."""
        self._comparison = None
        try:
            scenario = self.answers.scenario()
        except InputError as wrong:
            self.stop()
            self._say("\n".join(self._wrong(wrong.problems)))
        else:
            self._say(COMPUTING)
            self.compute(self.answers, lambda tell: compare(scenario, tell=tell), self._keep)

    def _wrong(self, problems: Sequence[Problem]) -> Iterator[str]:
        """What is wrong with the values given, and which ones are still to be given."""
        missing = self.answers.missing
        given = [each for each in problems if each.path not in {field.name for field in missing}]
        yield from (f"!! {problem}" for problem in given[:MAX_PROBLEMS])
        if missing:
            yield f"Still to be given: {', '.join(field.label for field in missing)}."

    def show_progress(self, words: str) -> None:
        """Show how far the answer is."""
        self._say(f"{COMPUTING} {words}")

    def show_failure(self, words: str) -> None:
        """Say that there is no answer."""
        self._say(words)

    def _keep(self, comparison: Comparison) -> None:
        self._comparison = comparison
        self._show(comparison)

    def _show(self, comparison: Comparison) -> None:
        width = self.query_one(VerticalScroll).scrollable_content_region.width
        parts = quick_parts(roof_loads(comparison), comparison, comparison.scenario.standard.system, width)
        self._say(plain_text(*parts, "", *comparison.cautions, width=width))

    def _say(self, words: str) -> None:
        self.query_one("#answer", Words).show(safe_lines(words))

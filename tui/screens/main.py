"""The main screen: inputs on the left, the comparison on the right; one at a time if it is narrow."""

from __future__ import annotations

from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import ActiveBinding, BindingType
from textual.containers import Horizontal
from textual.content import Content
from textual.events import Resize
from textual.widgets import Input

from engine.common.errors import Problem
from engine.comparison.compare import Comparison
from engine.comparison.figure import Figure
from engine.comparison.figures import table_figures
from engine.comparison.figures.utilisation import limit_in_words
from engine.project.job import Job
from engine.scenario.changes import Steps
from tui.model.commands import DRAW, Command, bindings
from tui.model.keymap import Keymap
from tui.model.messages import MethodSelected, StopRequested
from tui.model.state import Question, State
from tui.render import comparison as drawing
from tui.render.roof_plan import SIGNS
from tui.render.styles import BEST, PLACEHOLDER
from tui.screens.view import View
from tui.widgets.comparison import ComparisonPane
from tui.widgets.comparison_area import ComparisonArea
from tui.widgets.field_editor import FieldEditor
from tui.widgets.form import Form
from tui.widgets.inputs import InputsPane
from tui.widgets.side import Side
from tui.widgets.words import Words

WIDE = 120
"""Columns from which the roof is always in sight, beside the form or beside the comparison."""

WIDEST = 190
"""Columns from which form, comparison and roof are side by side."""

ABOUT_ANSWER = (
    "Methods that hold come before incomplete ones, and these before those that are over. Among equals the lowest cost "
    "decides; within 5 % of it, or where prices are placeholders, the fewest attachments."
)
ABOUT_TILES = (
    "The picture shows the row with the largest uplift from the side: uplift as arrows, modules, rail, attachments and "
    f"ribs, to one scale for all methods. An attachment is {', '.join(f'{sign} {words}' for sign, words, _ in SIGNS)}. "
    f"{PLACEHOLDER} marks placeholder prices. Left and right select a method, enter shows the calculation of its "
    "verdict, down goes to the figures."
)
ABOUT_FIGURES = (
    "The same array held in different ways, side by side. The arrows go from figure to figure; enter shows the "
    f"calculation of the one in focus. A component above 1.00 is OVER. {BEST} marks the best of a row, {PLACEHOLDER} a "
    "figure that rests on placeholder prices. Enter unfolds a folded group. The other rows:"
)


class Main(View):
    """Inputs and comparison."""

    CSS_PATH = "main.tcss"
    OWN_COMMANDS = (
        Command("find", "slash", "Find an input", "Find an input by part of its name", "Find"),
        Command("answer", "a", "Answer", "Go to the answer"),
        Command("tile_1", "1", "First method", "Go to the first method"),
        Command("tile_2", "2", "Second method", "Go to the second method"),
        Command("tile_3", "3", "Third method", "Go to the third method"),
        Command("figures", "f", "Figures", "Go to the figures"),
        Command("notes", "N", "Notes", "Go to the warnings and notes"),
        Command("fold", "space", "Fold", "Fold or unfold the group of figures in focus", "Fold"),
        Command("big", "g", "Big figures", "Show the tiles alone, as large as they can be, for a projector"),
        Command("fold_all", "x", "Fold all", "Unfold all groups of figures, or fold all"),
    )
    FOOTER = (
        "lesson_back",
        "lesson_next",
        "inputs",
        "roof_plan",
        "draw",
        "load_path",
        "bill",
        "span_study",
        "why",
        "ways_out",
        "help",
    )
    HIDDEN_IN_LESSON = ("find", "fold", "draw")
    BINDINGS: ClassVar[list[BindingType]] = bindings(OWN_COMMANDS)

    def __init__(self, state: State, keymap: Keymap) -> None:
        super().__init__(state)
        self._keys = {command.id: keymap.shown(command) for command in (*self.OWN_COMMANDS, DRAW)}

    def body(self) -> ComposeResult:
        """Inputs, comparison and roof; below the inputs the verdicts, if the comparison has no room."""
        with Horizontal(id="panes"):
            yield InputsPane(self.state.inputs, id="inputs")
            yield ComparisonArea(self._keys, id="area")
            yield Side(self._keys, id="side")
        yield Words(id="verdicts", classes="figures")

    def on_mount(self) -> None:
        """Put the comparison in focus."""
        self.set_focus(self.query_one(ComparisonPane))

    def on_resize(self, event: Resize) -> None:
        """Side by side if there is room."""
        width = event.size.width
        was_wide = self._is_wide
        self.set_class(width < WIDE, "narrow")
        self.set_class(width < WIDEST, "one")
        if was_wide != self._is_wide:
            self.call_after_refresh(self.show, self.state)
        else:
            self.call_after_refresh(self._show_verdicts)

    @property
    def _is_wide(self) -> bool:
        return not self.has_class("narrow")

    def show(self, state: State) -> None:
        """Show the inputs too; they need no comparison."""
        super().show(state)
        self.query_one(InputsPane).show(state)
        self.query_one(Side).show(state)

    def draw(self, comparison: Comparison) -> None:
        """Show a comparison."""
        self.query_one(ComparisonArea).show(self.state, with_notes=not self._is_wide)
        self._show_verdicts()

    def _show_verdicts(self) -> None:
        if self.state.comparison:
            self.query_one("#verdicts", Words).show(drawing.verdicts(self.state.comparison, self.size.width - 2))

    def show_message(self, words: str) -> None:
        """Show a sentence in place of the comparison."""
        self.query_one(ComparisonArea).show(self.state, with_notes=not self._is_wide)
        self.query_one("#verdicts", Words).show(words)

    def problems(self) -> tuple[Problem, ...]:
        """All problems, those of the selected input first; inputs still to be given are marked, and only counted."""
        field = self.query_one(InputsPane).current_field
        first = self.state.problems_of(field.path) if field else ()
        missing = [problem for problem in self.state.problems if _is_missing(problem)]
        if len(missing) > 1:
            first = tuple(problem for problem in first if not _is_missing(problem))
            counted = Problem("", f"{len(missing)} inputs are still to be given; they are marked ! in the form (i)")
            others = [problem for problem in self.state.problems if not _is_missing(problem) and problem not in first]
            return (*first, *others, counted)
        return (*first, *(problem for problem in self.state.problems if problem not in first))

    def on_form_selected(self, message: Form.Selected) -> None:
        """Put the problems of the selected input first."""
        self.show_problems()

    def on_screen_suspend(self) -> None:
        """Accept the open field when a dialog or another screen opens."""
        self.query_one(InputsPane).close_field()

    def question(self) -> Question:
        """The figure in focus; the verdict where a tile or the answer is."""
        row = None if self.focused and self.focused.id in ("answer", "tiles") else self.query_one(ComparisonPane).row
        return Question(self.state.column.id if self.state.column else "", row.key if row else "")

    def show_comparison(self) -> None:
        """Show the comparison alone."""
        self.remove_class("inputs")
        self.action_figures()

    def action_answer(self) -> None:
        """Go to the answer."""
        self._go_to("#answer")

    def action_tile_1(self) -> None:
        """Go to the first method."""
        self._select(0)

    def action_tile_2(self) -> None:
        """Go to the second method."""
        self._select(1)

    def action_tile_3(self) -> None:
        """Go to the third method."""
        self._select(2)

    def _select(self, number: int) -> None:
        columns = self.state.comparison.columns if self.state.comparison else ()
        if number < len(columns):
            self._go_to("#tiles")
            self.post_message(MethodSelected(columns[number].id))

    def action_figures(self) -> None:
        """Go to the figures."""
        self._go_to("#comparison")

    def action_notes(self) -> None:
        """Go to the notes: beside the figures, or below them."""
        if self._is_wide:
            self._go_to("#notes")
        else:
            self._go_to("#comparison")
            self.query_one(ComparisonPane).show_notes()

    def _go_to(self, pane: str) -> None:
        """Put a pane of the comparison in focus; in little room it takes the place of the inputs."""
        if self.has_class("one") and pane != "#notes":
            self.remove_class("inputs")
        self.set_focus(self.query_one(pane))

    def action_fold(self) -> None:
        """Fold the group in focus, or unfold it."""
        if self._folding:
            self._folding.fold()

    def action_fold_all(self) -> None:
        """Unfold every group, or fold all."""
        if self._folding:
            self._folding.fold_all()

    @property
    def _folding(self) -> Form | ComparisonPane | None:
        """The pane in focus, if it has groups that fold."""
        return self.focused if isinstance(self.focused, Form | ComparisonPane) else None

    def show_inputs(self) -> None:
        """Show the inputs."""
        self.add_class("inputs")
        self.query_one(InputsPane).focus_list()

    def go_to_input(self, path: Steps) -> None:
        """Select an input, if the form is shown."""
        if self.has_class("inputs"):
            self.query_one(InputsPane).form.select(path)

    def action_big(self) -> None:
        """Show the tiles alone, large, or the figures below them again."""
        self.remove_class("inputs")
        self.query_one(ComparisonArea).toggle_big()
        self._go_to("#tiles" if self.query_one(ComparisonArea).is_big else "#comparison")

    def open_first_missing(self) -> None:
        """Open the first input that is still to be given."""
        self.query_one(InputsPane).open_first_missing()

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """In a field, / is a letter like any other; groups fold while the inputs or the figures are in focus."""
        if action.startswith("fold"):
            return self._folding is not None
        return not (action == "find" and isinstance(self.focused, Input))

    def _in_footer(self, each: ActiveBinding) -> bool:
        """While an input is open, only its keys act; searching has its place while the inputs are shown."""
        if self.query_one(InputsPane).is_open:
            return isinstance(each.node, FieldEditor)
        has_place = {"find": self.has_class("inputs"), "fold": self._is_wide and not self.has_class("inputs")}
        return super()._in_footer(each) and has_place.get(each.binding.action, True)

    def action_find(self) -> None:
        """Find an input by part of its name."""
        self.add_class("inputs")
        self.query_one(InputsPane).start_search()

    def action_back(self) -> None:
        """Close the search, then go back to the comparison, then stop what is computed."""
        if self.query_one(InputsPane).stop_search():
            return
        if not self.has_class("inputs"):
            self.post_message(StopRequested())
        self.show_comparison()

    def help_text(self) -> Content:
        """Help on the selected input, on the answer, on the tiles, or on every row of the comparison."""
        inputs = self.query_one(InputsPane)
        if inputs.has_focus_within:
            return inputs.help_text()
        if self.state.comparison is None:
            return Content(self.state.no_figures_reason)
        if self.focused is self.query_one("#answer"):
            return Content(f"The answer, in words. {ABOUT_ANSWER}")
        if self.focused is self.query_one("#tiles"):
            return Content(f"One tile a method. {ABOUT_TILES}")
        return self._help_on_figures(self.state.comparison.scenario.job)

    def _help_on_figures(self, job: Job) -> Content:
        """Help on the row in focus, then on the others."""
        row = self.query_one(ComparisonPane).row
        lines = [_help_on(row, job), Content("")] if row else []
        lines.append(Content(ABOUT_FIGURES))
        lines += [_help_on(other, job, shortened=True) for other in table_figures() if other is not row]
        return Content("\n").join(lines)


def _is_missing(problem: Problem) -> bool:
    """True for an input that is needed and not given."""
    return problem.message.startswith("missing;")


def _help_on(row: Figure, job: Job, *, shortened: bool = False) -> Content:
    """A row's name and meaning; shortened, without the words that all utilisations share."""
    words = row.help(job).removesuffix(f"; {limit_in_words(job)}") if shortened else row.help(job)
    return Content.styled(row.label(job), "bold") + Content(f": {words}.")

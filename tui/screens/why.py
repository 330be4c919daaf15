"""Why?: one sentence, then the calculation as a tree whose steps fold, back to the inputs."""

from __future__ import annotations

from typing import ClassVar

from rich.text import Text
from textual.app import ComposeResult
from textual.binding import ActiveBinding, Binding, BindingType
from textual.containers import Container, Vertical, VerticalScroll
from textual.content import Content
from textual.events import Resize
from textual.message import Message
from textual.widgets import Tree
from textual.widgets.tree import TreeNode

from engine.common.progress import ProgressListener
from engine.comparison.compare import Comparison
from engine.explain.tree import Branch
from tui.model.commands import Command, bindings
from tui.model.messages import InputRequested
from tui.model.state import COMPUTING, Question, State
from tui.render import roof_picture
from tui.render import why as drawing
from tui.render.styles import fitted
from tui.screens.computing import ComputedView
from tui.screens.view import GO_TO_INPUT
from tui.widgets.picture import Picture
from tui.widgets.words import Words

UNFOLDED_AT_FIRST = 5
"""Levels of the tree that are unfolded at first."""


class StepsTree(Tree[Branch]):
    """The steps; its key stands in the footer."""

    BINDINGS: ClassVar[list[BindingType]] = [Binding("enter", "select_cursor", "Fold")]
    ICON_NODE, ICON_NODE_EXPANDED = "▸ ", "▾ "

    def __init__(self) -> None:
        super().__init__("", classes="figures")
        self.show_root, self.guide_depth = False, 2

    class Resized(Message):
        """There is other room for the lines."""

    def on_resize(self, event: Resize) -> None:
        """Tell of the room there is."""
        self.post_message(self.Resized())


class WhyScreen(ComputedView[drawing.Reason]):
    """The sentence, the tree of steps, and the step in focus in full."""

    NAME = "Why?"
    CSS_PATH = "why.tcss"
    OWN_COMMANDS: ClassVar[tuple[Command, ...]] = (
        GO_TO_INPUT,
        Command("unfold_steps", "x", "Unfold all", "Unfold every step, or fold all", "All"),
        Command("unfold_step", "right", "Unfold", "Unfold the step in focus"),
        Command("fold_step", "left", "Fold", "Fold the step in focus, or go to the one above it"),
    )
    BINDINGS: ClassVar[list[BindingType]] = bindings(OWN_COMMANDS)
    FOOTER: ClassVar[tuple[str, ...]] = ("select_cursor", "lesson_back", "lesson_next", "compare", "help")

    def __init__(self, state: State, asked: Question) -> None:
        super().__init__(state)
        self.asked = asked

    def body(self) -> ComposeResult:
        """The sentence above the tree, and the step in focus beside or below it."""
        yield Words(COMPUTING, id="text", classes="figures")
        with Container(id="panes"):
            yield StepsTree()
            with Vertical(id="more"):
                with VerticalScroll(id="about", can_focus=False):
                    yield Picture(id="step")
                yield Picture(id="beside")

    def on_mount(self) -> None:
        """Put the tree in focus."""
        self.query_one(StepsTree).focus()

    def subject(self) -> object:
        """The comparison, and the units of the sentence."""
        return self.state.comparison, self.state.system

    def find(self, comparison: Comparison, tell: ProgressListener) -> drawing.Reason:
        """The calculation of the figure."""
        return drawing.why(self.state, self.asked, tell)

    def say(self, words: Content) -> None:
        """Show words in place of the calculation."""
        self.query_one("#text", Words).show(words)
        self.query_one(StepsTree).clear()
        self._show_step(None)
        self._show_roof(drawing.Reason(""))

    def show_found(self, found: drawing.Reason) -> None:
        """Show the sentence and the steps; the line in focus stays in focus."""
        self.query_one("#text", Words).show(found.sentence)
        tree = self.query_one(StepsTree)
        line = tree.cursor_line
        tree.clear()
        self._grow(tree.root, found.branches, UNFOLDED_AT_FIRST)
        self._label_all()
        tree.root.expand()
        self.call_after_refresh(setattr, tree, "cursor_line", max(0, line))
        self._show_step(tree.cursor_node)
        self._show_roof(found)

    def _show_roof(self, found: drawing.Reason) -> None:
        """The roof beside the steps, and the surroundings of the place that the figure is about."""
        drawn, number, system = found.plan, found.attachment, self.state.system
        self.query_one("#beside", Picture).show(
            lambda width, height: (
                roof_picture.with_surroundings(drawn, number, system, width, height, "this place")
                if drawn
                else Content("")
            )
        )

    def _grow(self, node: TreeNode[Branch], branches: tuple[Branch, ...], unfolded: int) -> None:
        for branch in branches:
            child = node.add("", branch, expand=unfolded > 1, allow_expand=bool(branch.behind))
            self._grow(child, branch.behind, unfolded - 1)

    # -- the lines of the tree, and the step in focus ------------------------------------------

    def _label_all(self) -> None:
        """Write every line for the room there is."""
        tree = self.query_one(StepsTree)
        width, nodes = tree.scrollable_content_region.width, [(tree.root, -1)]
        while nodes:
            node, depth = nodes.pop()
            nodes += [(child, depth + 1) for child in node.children]
            if node.data:
                room = max(8, width - 2 * depth - 4)
                node.set_label(Text(fitted(drawing.line(node.data.step, self.state.system), room)))

    def on_steps_tree_resized(self) -> None:
        """Cut the lines to the room there is."""
        self._label_all()

    def on_tree_node_highlighted(self, message: Tree.NodeHighlighted[Branch]) -> None:
        """Show the step in focus in full."""
        self._show_step(message.node)

    def _show_step(self, node: TreeNode[Branch] | None) -> None:
        branch, system = node.data if node else None, self.state.system
        if branch is None:
            self.query_one("#step", Picture).show(lambda width, height: Content(""))
            return
        label = self._label_of(branch)
        self.query_one("#step", Picture).show(lambda width, height: drawing.in_full(branch, system, label, width))

    def _label_of(self, branch: Branch) -> str:
        """Name of a branch's input, as the form has it."""
        field = next((each for each in self.state.inputs.fields() if each.path == branch.input), None)
        return field.label if field else " ".join(branch.input[-1:]).replace("_", " ")

    # -- keys ------------------------------------------------------------------------------------

    def action_go_to_input(self) -> None:
        """Go to the input behind the step in focus."""
        node = self.query_one(StepsTree).cursor_node
        if node and node.data:
            self.post_message(InputRequested(node.data.input))

    def action_unfold_steps(self) -> None:
        """Unfold every step, or fold all."""
        tree = self.query_one(StepsTree)
        folded = any(node.children and not node.is_expanded for node in tree._tree_nodes.values())
        for child in tree.root.children:
            child.expand_all() if folded else child.collapse_all()

    def action_unfold_step(self) -> None:
        """Unfold the step in focus."""
        node = self.query_one(StepsTree).cursor_node
        if node:
            node.expand()

    def action_fold_step(self) -> None:
        """Fold the step in focus, or go to the one above it."""
        tree = self.query_one(StepsTree)
        node = tree.cursor_node
        if node and node.is_expanded and node.children:
            node.collapse()
        elif node and node.parent and node.parent is not tree.root:
            tree.move_cursor(node.parent)

    def question(self) -> Question:
        """The figure that is explained."""
        return self.asked

    def _in_footer(self, each: ActiveBinding) -> bool:
        """Nothing unfolds where there are no steps."""
        has_steps = self.found is not None and bool(self.found.branches)
        return super()._in_footer(each) and (has_steps or each.node is not self)

    def help_text(self) -> Content:
        """The parts of the tree."""
        return Content(
            "The sentence says what the figure is. Below it every step of the calculation stands under the step that "
            "uses it, back to the wind speed: enter or a click folds and unfolds it, left and right too, x all. The "
            "step in focus is shown in full: its equation, its values and its source. g goes to the input behind it."
        )

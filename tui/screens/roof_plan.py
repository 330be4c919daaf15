"""Roof plan: the array from above; walk from attachment to attachment and see what each one brings and uses."""

from __future__ import annotations

from typing import ClassVar

import numpy as np
from textual.app import ComposeResult
from textual.binding import BindingType
from textual.containers import Container
from textual.content import Content
from textual.events import Resize
from textual.widgets import Static

from engine.comparison.compare import Column, Comparison
from engine.comparison.roof_plan import Plan, plan
from tui.model.commands import Command, bindings
from tui.model.state import Question
from tui.render import attachment, roof_plan
from tui.render.method_tabs import names, nothing_to_show
from tui.screens.view import ASKING, View
from tui.widgets.picture import Picture

WIDE = 120
"""From this width on the attachment stands beside the plan, else below."""


class RoofPlan(View):
    """The plan, and the chosen attachment in full."""

    NAME = "Roof plan"
    OWN = (
        Command("left", "point_before", "Attachment before", "Walk to the attachment before"),
        Command("right", "point_after", "Attachment after", "Walk to the next attachment", "Walk"),
        Command("up", "row_above", "Row above", "Walk to the row toward the ridge"),
        Command("down", "row_below", "Row below", "Walk to the row toward the eave"),
        Command("x", "worst", "Worst attachment", "Jump to the attachment that uses most", "Worst"),
        Command("v", "nearer", "View", "Look at the array, at every attachment apart, or at the whole roof", "View"),
        ASKING,
    )
    BINDINGS: ClassVar[list[BindingType]] = bindings(OWN)
    CSS_PATH = "roof_plan.tcss"

    column: Column | None = None
    plan: Plan | None = None
    chosen = 0
    near = ""
    """How near one looks; empty until somebody asks, then what suits the size of the array."""

    def body(self) -> ComposeResult:
        """Methods, the plan beside or above the attachment, and the signs."""
        yield Static(id="methods", markup=False)
        with Container(id="panes"):
            yield Picture(id="plan")
            yield Picture(id="attachment")
        yield Static(id="legend", markup=False)

    def on_resize(self, event: Resize) -> None:
        """Side by side where there is room."""
        self.set_class(event.size.width >= WIDE, "wide")

    def draw(self, comparison: Comparison) -> None:
        """Show the chosen method's plan."""
        column, system = self.state.column, self.state.system
        self.query_one("#methods", Static).update(names(comparison, column))
        if column is not self.column:
            self._turn_to(comparison, column)
        drawn, chosen, near, job = self.plan, self.chosen, self.near, comparison.scenario.job
        self.set_class(drawn is None, "empty")
        if column is None:
            return
        if drawn is None:
            self.query_one("#plan", Picture).show(lambda width, height: nothing_to_show(column, width))
            return
        self.query_one("#legend", Static).update(attachment.legend(drawn))
        self.query_one("#attachment", Picture).show(
            lambda width, height: attachment.draw(job, drawn, column, chosen, system, width),
        )
        self.query_one("#plan", Picture).show(
            lambda width, height: roof_plan.draw(
                drawn, near or roof_plan.nearness(drawn, width, height), chosen, width, height
            ),
        )

    def say(self, words: str) -> None:
        """No plan, and nothing to walk on."""
        super().say(words)
        self.column = self.plan = None
        self.set_class(True, "empty")
        self.query_one("#methods", Static).update()

    def _turn_to(self, comparison: Comparison, column: Column | None) -> None:
        """Draw up another plan; the place on the roof stays where the same method still has it."""
        before, self.column = self.column, column
        self.plan = plan(comparison.scenario.job, column.design) if column and column.design else None
        if self.plan and (
            before is None or column is None or before.id != column.id or self.chosen >= len(self.plan.attachments)
        ):
            self.chosen = roof_plan.start(self.plan)

    def _walk_to(self, attachment: int) -> None:
        if self.plan:
            self.chosen = attachment % len(self.plan.attachments)
            self.show(self.state)

    def _row(self, step: int) -> None:
        """To the nearest attachment of the next row."""
        if self.plan:
            attachments = self.plan.attachments
            beside = np.flatnonzero(attachments.row == attachments.row[self.chosen] + step)
            if len(beside):
                self._walk_to(int(beside[np.argmin(np.abs(attachments.x[beside] - attachments.x[self.chosen]))]))

    def action_point_before(self) -> None:
        """Walk to the attachment before."""
        self._walk_to(self.chosen - 1)

    def action_point_after(self) -> None:
        """Walk to the next attachment."""
        self._walk_to(self.chosen + 1)

    def action_row_above(self) -> None:
        """Walk toward the ridge."""
        self._row(1)

    def action_row_below(self) -> None:
        """Walk toward the eave."""
        self._row(-1)

    def action_worst(self) -> None:
        """Jump to the attachment that uses most."""
        if self.plan:
            self._walk_to(roof_plan.start(self.plan))

    def action_nearer(self) -> None:
        """Look from another distance."""
        if self.plan:
            ways = (roof_plan.ARRAY, roof_plan.POINTS, roof_plan.ROOF)
            size = self.query_one("#plan", Picture).content_size
            now = self.near or roof_plan.nearness(self.plan, size.width, size.height)
            self.near = ways[(ways.index(now) + 1) % len(ways)]
            self.show(self.state)

    def question(self) -> Question:
        """The chosen attachment."""
        return Question(self.column.id, "", self.chosen) if self.column and self.plan else super().question()

    def help_text(self) -> Content:
        """What the plan shows."""
        return Content(
            "The slope that carries the array, to scale, the eave at the bottom. Dotted rectangles are modules, solid lines the array's "
            "exposed edges, dotted lines the borders of the roof's wind zones, crosses what must stay clear.\n\n"
            "Each attachment is marked by the most that is used of it, or of the roof beside it; where several share a place on the "
            "screen, by the worst. Arrows walk from one to the next, x jumps to the worst, v looks from another distance."
        )

"""Roof plan: the array from above, with load and utilisation of one attachment at a time."""

from __future__ import annotations

from typing import ClassVar

import numpy as np
from textual.app import ComposeResult
from textual.binding import BindingType
from textual.containers import Container
from textual.content import Content
from textual.events import Resize

from engine.comparison.compare import Column, Comparison
from engine.comparison.roof_plan import Plan, plan
from tui.model.commands import Command, bindings
from tui.model.state import Question
from tui.render import attachment, roof_plan
from tui.render.method_tabs import names, nothing_to_show, verdict
from tui.screens.view import WHY_KEY, View
from tui.widgets.picture import Picture
from tui.widgets.words import Words

WIDE = 120
"""Width from which the attachment is shown beside the plan, else below it."""


class RoofPlan(View):
    """The plan, and the selected attachment in full."""

    NAME = "Roof plan"
    OWN_COMMANDS = (
        Command("attachment_before", "left", "Attachment before", "Select the attachment before"),
        Command("attachment_after", "right", "Attachment after", "Select the next attachment", "Move"),
        Command("row_above", "up", "Row above", "Select the next row toward the ridge"),
        Command("row_below", "down", "Row below", "Select the next row toward the eave"),
        Command("controlling", "x", "Controlling", "Select the attachment with the largest utilisation", "Controlling"),
        Command("zoom", "v", "View", "Show the array, every attachment separately, or the whole roof", "View"),
        WHY_KEY,
    )
    BINDINGS: ClassVar[list[BindingType]] = bindings(OWN_COMMANDS)
    CSS_PATH = "roof_plan.tcss"

    column: Column | None = None
    plan: Plan | None = None
    selected = 0
    zoom = ""
    """The view; empty for the one that suits the size of the array."""

    def body(self) -> ComposeResult:
        """Methods, the plan beside or above the attachment, and the legend."""
        yield Words(id="methods")
        with Container(id="panes"):
            yield Picture(id="plan")
            yield Picture(id="attachment")
        yield Words(id="legend")

    def on_resize(self, event: Resize) -> None:
        """Side by side if there is room."""
        self.set_class(event.size.width >= WIDE, "wide")

    def draw(self, comparison: Comparison) -> None:
        """Show the plan of the selected method."""
        column, system = self.state.column, self.state.system
        self.query_one("#methods", Words).show(names(comparison, column) + verdict(column))
        if column is not self.column:
            self._change_plan(comparison, column)
        drawn, selected, zoom, job = self.plan, self.selected, self.zoom, comparison.scenario.job
        self.set_class(drawn is None, "empty")
        if column is None:
            return
        if drawn is None:
            self.query_one("#plan", Picture).show(lambda width, height: nothing_to_show(column, width, system))
            return
        self.query_one("#legend", Words).show(attachment.legend(drawn))
        self.query_one("#attachment", Picture).show(
            lambda width, height: attachment.draw(job, drawn, column, selected, system, width),
        )
        self.query_one("#plan", Picture).show(
            lambda width, height: roof_plan.draw(
                drawn, zoom or roof_plan.suitable_zoom(drawn, width, height), selected, width, height
            ),
        )

    def show_message(self, words: str) -> None:
        """Show a sentence in place of the plan."""
        super().show_message(words)
        self.column = self.plan = None
        self.set_class(True, "empty")
        self.query_one("#methods", Words).show()

    def _change_plan(self, comparison: Comparison, column: Column | None) -> None:
        """Take the plan of another column; the selection stays if the same method still has that attachment."""
        before, self.column = self.column, column
        self.plan = plan(column.design) if column and column.design else None
        if self.plan and (
            before is None or column is None or before.id != column.id or self.selected >= len(self.plan.attachments)
        ):
            self.selected = roof_plan.controlling_attachment(self.plan)

    def _select(self, attachment: int) -> None:
        if self.plan:
            self.selected = attachment % len(self.plan.attachments)
            self.show(self.state)

    def _row(self, step: int) -> None:
        """Select the nearest attachment of the next row."""
        if self.plan:
            attachments = self.plan.attachments
            beside = np.flatnonzero(attachments.row == attachments.row[self.selected] + step)
            if len(beside):
                self._select(int(beside[np.argmin(np.abs(attachments.x[beside] - attachments.x[self.selected]))]))

    def action_attachment_before(self) -> None:
        """Select the attachment before."""
        self._select(self.selected - 1)

    def action_attachment_after(self) -> None:
        """Select the next attachment."""
        self._select(self.selected + 1)

    def action_row_above(self) -> None:
        """Select the next row toward the ridge."""
        self._row(1)

    def action_row_below(self) -> None:
        """Select the next row toward the eave."""
        self._row(-1)

    def action_controlling(self) -> None:
        """Select the attachment with the largest utilisation."""
        if self.plan:
            self._select(roof_plan.controlling_attachment(self.plan))

    def action_zoom(self) -> None:
        """Change the view."""
        if self.plan:
            views = (roof_plan.ARRAY, roof_plan.ATTACHMENTS, roof_plan.ROOF)
            size = self.query_one("#plan", Picture).content_size
            now = self.zoom or roof_plan.suitable_zoom(self.plan, size.width, size.height)
            self.zoom = views[(views.index(now) + 1) % len(views)]
            self.show(self.state)

    def question(self) -> Question:
        """The selected attachment."""
        return Question(self.column.id, "", self.selected) if self.column and self.plan else super().question()

    def help_text(self) -> Content:
        """The signs of the plan."""
        return Content(
            "The roof slope under the array, to scale, the eave at the bottom. Dotted rectangles are modules, solid "
            "lines the exposed edges of the array, dotted lines the borders of the wind zones, crosses keep-clear "
            "areas.\n\n"
            "The mark of each attachment shows its utilisation, or that of the roof beside it if larger. Attachments "
            "that share a place on the screen show the largest. The arrows select an attachment, x the controlling "
            "one; v changes the view."
        )

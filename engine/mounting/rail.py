"""Rails along the eave under portrait modules, or up the slope, each over one rib, under landscape modules."""

from __future__ import annotations

from typing import Annotated, ClassVar, Self

from engine.mounting.interface import Alternative, FieldLines, PartQuantity, Refusal, SpacingField, SpacingRule
from engine.mounting.layout import Field, Layout
from engine.mounting.lines_along_eave import IN_LINE, STAGGERED, bar_quantities, clamp_quantities
from engine.mounting.lines_up_slope import RailsUpSlope
from engine.mounting.rails_along_eave import POSITIONS, RailsAlongEave
from engine.project.job import Job
from engine.schema import Choice, Count, InputTable, Quantity, input_field

ALONG, UP = "along the eave", "up the slope"


class Rail(InputTable):
    """Two or three rails under each row or column, in the module maker's clamp zones."""

    id: ClassVar[str] = "rail"
    spacing_is_span: ClassVar[bool] = True
    spacing: Annotated[SpacingRule, SpacingField("ribs")] = input_field(
        "fewest",
        description="spacing of attachments along each rail, in ribs; in purlins or steps if rails run up the slope",
    )
    rails_per_row: Annotated[int, Count(2, 3)] = input_field(
        2, description="rails under each row of modules, or under each column if rails run up the slope"
    )
    rail_place: Annotated[str, Choice(tuple(POSITIONS))] = input_field(
        "middle",
        description="position in the clamp zones of rails along the eave; not set: another if it spares attachments",
    )
    lines: Annotated[str, Choice((IN_LINE, STAGGERED))] = input_field(
        IN_LINE,
        description="neighbouring rails attached at the same ribs or purlins, or every other rail midway between; "
        "not set: staggered if that spares attachments",
    )
    runs: Annotated[str, Choice((ALONG, UP))] = input_field(
        ALONG,
        description="along the eave under portrait modules, or up the slope over one rib under landscape modules",
    )
    step: Annotated[float, Quantity("length", "3 in", "12 ft", shown="small length")] = input_field(
        "24 in",
        description="rails up the slope: distance between possible attachments along the rib; brackets on the "
        "structure are attached at the purlins instead",
    )

    @property
    def arrangement(self) -> RailsAlongEave | RailsUpSlope:
        """The arrangement of rails along the eave or up the slope, which makes the layouts."""
        staggered = self.lines == STAGGERED
        if self.runs == UP:
            return RailsUpSlope(self.rails_per_row, self.step, staggered)
        return RailsAlongEave(self.rails_per_row, self.rail_place, staggered)

    def title(self, job: Job) -> str:
        """Name of the method."""
        return "rails up the slope" if self.runs == UP else "rails"

    def refusal_of_roof(self, job: Job) -> Refusal | None:
        """None: rails suit any roof."""
        return None

    def place_modules(self, job: Job) -> Field | Refusal:
        """Field of portrait modules, or of landscape modules for rails up the slope."""
        return self.arrangement.place_modules(job)

    def candidate_spacings(self, job: Job, field: Field) -> tuple[int, ...]:
        """Ribs, or positions up the slope, from attachment to attachment, largest first."""
        return self.arrangement.candidate_spacings(job, field)

    def field_lines(self, job: Job, field: Field) -> FieldLines | Refusal:
        """The rails under every row or column."""
        return self.arrangement.field_lines(job, field)

    def parts_needed(self, job: Job, field: Field, layout: Layout) -> tuple[PartQuantity, ...]:
        """Quantities of attachments, rails and clamps."""
        return (
            PartQuantity("attachment", "attachments", len(layout.attachments)),
            bar_quantities("rail", "rails", layout.lines),
            *clamp_quantities(layout.lines),
        )

    def spacing_label(self, layout: Layout, job: Job) -> str:
        """Spacing of a layout in words, with options that differ from the usual ones."""
        words = [self.arrangement.spacing_label(layout, job)]
        if self.lines == STAGGERED:
            words.append("staggered")
        if self.rail_place != "middle" and self.runs == ALONG:
            words.append(f"rails {self.rail_place}")
        if self.rails_per_row == 3:
            words.append("3 rails each")
        return ", ".join(words)

    def remedies(self) -> tuple[tuple[Self, ...], ...]:
        """Rails staggered, moved within their clamp zones, or both; then a third rail, in line or staggered."""
        staggered = self.model_copy(update={"lines": STAGGERED})
        positions = () if self.runs == UP else ("toward eave", "toward ridge")
        moved = [
            rails.model_copy(update={"rail_place": position}) for position in positions for rails in (self, staggered)
        ]
        with_third_rail = tuple(rails.model_copy(update={"rails_per_row": 3}) for rails in (self, staggered))
        groups = ((staggered, *moved), with_third_rail)
        return tuple(tuple(rails for rails in group if rails != self) for group in groups)

    def alternatives(self) -> tuple[Alternative, ...]:
        """A third rail, and the other direction of the rails with the modules turned."""
        third = Alternative("extra_rail", "put a third rail under each row", {"rails_per_row": 3})
        if self.runs == UP:
            turned = Alternative("turn", "run the rails along the eave under portrait modules", {"runs": ALONG})
        else:
            turned = Alternative("turn", "run the rails up the slope under landscape modules", {"runs": UP})
        return (third, turned) if self.rails_per_row == 2 else (turned,)

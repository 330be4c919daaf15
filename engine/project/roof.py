"""The metal roof: ribs, supports, fastenings and the panel between them."""

from __future__ import annotations

from typing import Annotated, ClassVar

import numpy as np

from engine.common.arrays import Floats
from engine.common.tolerances import SAME_LENGTH, WHOLE_NUMBER
from engine.project.bracket import PURLIN, ROOF_KINDS, STANDING_SEAM, SUPPORTS
from engine.project.building import Building
from engine.project.heat import MATERIALS, STEEL
from engine.project.rafters import Rafters
from engine.project.roof_member import UP_SLOPE, RoofMember
from engine.project.snow_retention import SnowRetention
from engine.schema import Choice, InputTable, Lengths, Quantity, ShelfTable, Switch, TextLine, input_field
from engine.strength import Capacity
from engine.strength.wood_screws import HOT, WOOD_TEMPERATURES
from engine.units import FOOT, INCH

MERGED_BAY = 1 / 4
"""A last bay shorter than this part of the support spacing has no fastening of its own."""


PER_SEAM = "one seam or rib"
PER_WIDTH = {"a foot of width": FOOT, "a metre of width": 1.0}
"""Widths that tables state moments for [m]."""


LARGEST_LOADED_WIDTH = 24 * INCH
"""Widest strip of panel that one loaded seam or rib bends [m] (judgement)."""


class Panel(ShelfTable):
    """One seam or rib as a beam up the slope, its strength at an attachment, and the weight of the sheet."""

    shelf_section: ClassVar[str] = "panels"

    moment_rib_compressed: Annotated[float, Quantity("moment", "1 lb ft", "100000 lb ft")] = input_field(
        description="allowable or characteristic moment of one seam or rib, rib in compression (down load at midspan)"
    )
    moment_pan_compressed: Annotated[float, Quantity("moment", "1 lb ft", "100000 lb ft")] = input_field(
        description="allowable or characteristic moment of one seam or rib, pan in compression (uplift at midspan)"
    )
    moments_for: Annotated[str, Choice((PER_SEAM, *PER_WIDTH))] = input_field(
        PER_SEAM,
        description="width that both moments are stated for; load tables state them for a foot or a metre of width",
    )
    loaded_width: Annotated[float, Quantity("length", "1 in", "24 in", shown="small length")] | None = input_field(
        None,
        description="width of panel that one loaded seam or rib bends, for moments stated for a width; "
        "not set: one rib spacing, at most 24 in",
    )
    material: Annotated[str, Choice(MATERIALS)] = input_field(
        STEEL, description="metal of the panel, for its travel by heat"
    )
    at_clamp_uplift: Capacity | None = input_field(
        None,
        description="uplift strength of the seam or rib at one attachment, from a test on this profile and gauge; "
        "not set: not checked",
    )
    at_clamp_down: Capacity | None = input_field(
        None,
        description="down-load strength of the seam or rib at one attachment, from a test on this profile and gauge; "
        "not set: not checked",
    )
    stiffness_at_clamp: Annotated[float, Quantity("stiffness", "10 lb/in", "1000000 lb/in")] | None = input_field(
        None,
        description="force on one seam or rib at an attachment, for a length that it gives way there, from a test; "
        "not set: near the ends of rails a stiff rail counts too",
    )
    weight: Annotated[float, Quantity("pressure", "0 psf", "20 psf")] = input_field(
        "1.5 psf", description="weight of the sheet, part of the along-slope load (common for steel, no source)"
    )


class Fastening(ShelfTable):
    """The fastening of the panel: a clip, or the screws at one rib and one support."""

    shelf_section: ClassVar[str] = "fastenings"

    uplift: Capacity | None = input_field(
        None,
        description="uplift strength of one fastening: a clip, or the screws at one rib and support; without the whole "
        "table the strength of the roof is unknown",
    )
    in_plane: Capacity | None = input_field(
        None, description="along-slope strength of one fastening on an exposed fastener roof; not set: not checked"
    )
    travel: Annotated[float, Quantity("length", "0.1 in", "12 in", shown="small length")] | None = input_field(
        None,
        description="free travel of a floating clip, from end to end; not set: the panel's travel is only reported",
    )
    bearing: Capacity | None = input_field(
        None, description="down-load strength (bearing) of one fastening; not set: needs no check, the panel bears"
    )

    @property
    def stated_uplift(self) -> Capacity:
        """The uplift strength.

        Raises:
            ValueError: it is unknown.
        """
        if self.uplift is None:
            raise ValueError("the uplift strength of the fastening is unknown")
        return self.uplift


class FixedPoint(InputTable):
    """The panel anchorage: the place where a floating panel is fixed against sliding."""

    in_plane: Capacity = input_field(description="along-slope strength of the anchorage of one panel")
    at: Annotated[str, Choice(("end", "middle"))] = input_field(
        "end",
        description="place of the fixed point along the panel, for its travel by heat: at one end or in the middle",
    )


class Roof(ShelfTable):
    """The metal roof: seams or ribs up the slope, fastened to supports across the slope."""

    shelf_section: ClassVar[str] = "roofs"

    kind: Annotated[str, Choice(ROOF_KINDS)] = input_field(
        description="kind of panel: standing seam on clips, or ribbed sheet with exposed screws"
    )
    rib_spacing: Annotated[float, Quantity("length", "3 in", "48 in", shown="small length")] = input_field(
        description="spacing of the seams or ribs"
    )
    first_rib: Annotated[float, Quantity("length", "0 in", "48 in", shown="small length")] = input_field(
        "0 in",
        description="distance of the first seam or rib from the left rake, as surveyed; not set: nobody knows, and the "
        "worst place counts",
    )
    support: Annotated[str, Choice(SUPPORTS)] = input_field(
        description="structure under the panel, to which it is fastened"
    )
    support_spacing: Annotated[float, Quantity("length", "3 in", "12 ft")] = input_field(
        description="spacing of the fastenings along a seam or rib"
    )
    first_support: Annotated[float, Quantity("length", "0 in", "12 ft")] = input_field(
        "0 in",
        description="distance of the first fastening from the eave, as surveyed; not set: one is at the eave, nobody "
        "knows where the others are, and the worst place counts",
    )
    first_bay: Annotated[float, Quantity("length", "3 in", "12 ft")] | None = input_field(
        None, description="distance of the second fastening from the first; not set: one support_spacing"
    )
    last_support: Annotated[float, Quantity("length", "0 in", "12 ft")] = input_field(
        description="distance of the last fastening from the ridge or high edge"
    )
    edge_strip: Annotated[float, Quantity("length", "0 ft", "500 ft")] | None = input_field(
        None,
        description="width of the strips at eave, ridge and rakes with closer fastenings; not set: no strips",
    )
    edge_support_spacing: Annotated[float, Quantity("length", "3 in", "12 ft")] | None = input_field(
        None,
        description="largest spacing of fastenings in the edge strips: bays of support_spacing are divided evenly",
    )
    existing: Annotated[bool, Switch()] = input_field(
        True,
        description="true if the roof stands: its strength is shown by others; false if it is still to be chosen",
    )
    end_laps: Annotated[tuple[float, ...], Lengths("0 ft", "10000 ft", rising=True)] = input_field(
        (),
        description="distances of end laps and expansion steps of the panels from the eave: no module bridges one",
    )
    collateral_allowance: Annotated[float, Quantity("pressure", "0.1 psf", "200 psf")] | None = input_field(
        None, description="added load for which the structure was designed; not set: not checked"
    )
    snow_retention: tuple[SnowRetention, ...] = input_field(
        (), description='lines along the eave that hold snow: [{ at = "2 ft", load = "40 lb/ft" }]'
    )
    wood_temperature: Annotated[str, Choice(WOOD_TEMPERATURES)] = input_field(
        HOT,
        description="wood that holds screws, for their uplift without snow: hot 100 to 125 F (factor 0.8), "
        "hot deck 125 to 150 F (0.7), cool at most 100 F (1.0, with a source)",
    )
    wood_temperature_source: Annotated[str, TextLine(300)] | None = input_field(
        None, description="source for cool wood, such as a measurement; needed for wood_temperature 'cool'"
    )
    temperature_range: Annotated[float, Quantity("temperature difference", "20 F", "300 F")] = input_field(
        "180 F", description="range of the roof's temperature over the year (180 F is common practice, no source)"
    )
    panel: Panel = input_field(description="one seam or rib as a beam")
    fastening: Fastening = input_field({}, description="fastening of the panel to its supports")
    rafters: Rafters = input_field({}, description="rafters under a wood deck, up the slope")
    fixed_point: FixedPoint | None = input_field(
        None, description="panel anchorage (fixed point) of a standing seam roof; not set: not checked"
    )

    member: RoofMember = input_field(
        {}, description="the purlins under the panel, or joists or rafters under a deck, as beams"
    )

    @property
    def ribs_surveyed(self) -> bool:
        """True if the place of the first seam or rib is stated."""
        return "first_rib" in self.model_fields_set

    @property
    def supports_surveyed(self) -> bool:
        """True if the place of the first fastening is stated."""
        return "first_support" in self.model_fields_set

    @property
    def stated_member(self) -> RoofMember | None:
        """The members under the panel, where their spans are stated."""
        return self.member if self.member.spans else None

    @property
    def members_up_slope(self) -> bool:
        """True if the members run up the slope: under a deck, unless they are said to run along the eave."""
        return self.solid_deck and self.member.runs == UP_SLOPE

    @property
    def member_word(self) -> str:
        """Name of one of the members, whose spans are stated."""
        if not self.solid_deck:
            return "purlin"
        return "rafter" if self.members_up_slope else "joist"

    @property
    def member_grid(self) -> tuple[float | None, float | None]:
        """Spacing of the members under a deck and distance of the first from its edge [m]; None where not stated."""
        member, rafters = self.member, self.rafters if self.members_up_slope else None
        spacing = member.spacing if member.spacing is not None or rafters is None else rafters.spacing
        first = member.first if member.first is not None or rafters is None else rafters.first
        return spacing, first

    def member_lines(self, building: Building) -> Floats:
        """Positions of the members under a deck (N,) [m from the left rake, or from the eave along the slope].

        Raises:
            ValueError: their spacing or the place of the first is not stated.
        """
        spacing, first = self.member_grid
        if spacing is None or first is None:
            raise ValueError("the places of the members are not stated")
        length = building.length if self.members_up_slope else building.slope_length
        count = int(np.floor((length - first) / spacing + WHOLE_NUMBER)) + 1
        return first + spacing * np.arange(count, dtype=np.float64)

    @property
    def loaded_width(self) -> float:
        """Width of panel that bends with one loaded seam or rib [m]: at most its own cover width."""
        return self.panel.loaded_width or min(self.rib_spacing, LARGEST_LOADED_WIDTH)

    @property
    def moment_rib_compressed(self) -> float:
        """Allowable moment of one seam or rib, rib in compression [N m]."""
        return self._moment_of_rib(self.panel.moment_rib_compressed)

    @property
    def moment_pan_compressed(self) -> float:
        """Allowable moment of one seam or rib, pan in compression [N m]."""
        return self._moment_of_rib(self.panel.moment_pan_compressed)

    def _moment_of_rib(self, stated: float) -> float:
        width = PER_WIDTH.get(self.panel.moments_for)
        return stated * self.loaded_width / width if width else stated

    @property
    def dead_load(self) -> float:
        """Dead load of the roof on its members [Pa]: as stated, else the weight of the panel."""
        stated = self.member.dead_load if self.member else None
        return self.panel.weight if stated is None else stated

    @property
    def solid_deck(self) -> bool:
        """True if the panel lies on a deck: down load then bends no seam."""
        return self.support != PURLIN

    @property
    def floats(self) -> bool:
        """True if the panels float on their clips and are fixed against sliding at one place."""
        return self.kind == STANDING_SEAM

    @property
    def rib_word(self) -> str:
        """Name of a rib on this roof."""
        return "seam" if self.floats else "rib"

    @property
    def fastening_word(self) -> str:
        """Name of a fastening on this roof."""
        return "clip" if self.floats else "panel screws"

    def ribs(self, building: Building) -> Floats:
        """Distances of all seams or ribs from the left rake (R,) [m]."""
        count = int(np.floor((building.length - self.first_rib) / self.rib_spacing + WHOLE_NUMBER)) + 1
        return self.first_rib + self.rib_spacing * np.arange(count, dtype=np.float64)

    def supports(self, building: Building, *, top: float | None = None, close: bool = False) -> Floats:
        """Distances of the fastenings of one rib from the eave (F,) [m]; the last bay may be shorter than the others.

        Args:
            building: the building.
            top: upper end of the panel, from the eave [m]; None for the ridge or high edge, less under a hip.
            close: divide all bays, as near a rake; else only those that reach into the edge strips at eave and ridge.
        """
        top = building.slope_length if top is None else top
        last = top - self.last_support
        if last < self.first_support:
            return np.empty(0)
        even = self._evenly_spaced_supports(last)
        wide = even if last - even[-1] < self.support_spacing * MERGED_BAY else np.append(even, last)
        if self.edge_strip is None or self.edge_support_spacing is None:
            return wide
        near = close | (wide[:-1] < self.edge_strip - SAME_LENGTH) | (wide[1:] > top - self.edge_strip + SAME_LENGTH)
        parts = (
            np.where(near, np.ceil(np.diff(wide) / self.edge_support_spacing - WHOLE_NUMBER), 1).astype(int).tolist()
        )
        within = [
            low + (high - low) * np.arange(n) / n for low, high, n in zip(wide[:-1], wide[1:], parts, strict=True)
        ]
        return np.concatenate([*within, wide[-1:]])

    def _evenly_spaced_supports(self, last: float) -> Floats:
        """Distances from the eave of the fastenings that are `support_spacing` apart, up to `last` [m].

        Where the first bay is stated, the first fastening stands before them.
        """
        start = self.first_support + (self.first_bay or 0.0)
        bays = int(np.floor((last - start) / self.support_spacing + WHOLE_NUMBER))
        even: Floats = start + self.support_spacing * np.arange(bays + 1, dtype=np.float64)
        return np.append(self.first_support, even) if self.first_bay else even

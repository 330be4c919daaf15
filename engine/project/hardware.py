"""The mounting hardware: strengths, stock lengths, masses, prices and labour.

The defaults are placeholders invented for loadpath, no product. Every figure can be set in the scenario's `[hardware]`.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Annotated, ClassVar

from pydantic import model_validator

from engine.project.bracket import BRACKETS, Bracket
from engine.project.heat import ALUMINIUM, MATERIALS
from engine.schema import Choice, Count, InputTable, Number, Quantity, ShelfTable, TextLine, input_field
from engine.strength import Capacity, StrengthBasis

Price = Annotated[float, Number(0, 1e6)]
Minutes = Annotated[float, Number(0, 1e4)]
Mass = Annotated[float, Quantity("mass", "0 lb", "1000 lb")]
Moment = Annotated[float, Quantity("moment", "1 lb ft", "100000 lb ft")]


AT_RIB, IN_PAN = "rib", "pan"

USUAL_SCREWS = 4
"""Screws of one attachment if nothing states them (placeholder)."""


class _Overridable(InputTable):
    """A table whose nested tables may be given in part; the other keys keep their defaults."""

    @model_validator(mode="before")
    @classmethod
    def keep_defaults(cls, written: object) -> object:
        """Fill the keys that a given nested table does not have from its default."""
        if not isinstance(written, dict):
            return written
        defaults = {name: field.default for name, field in cls.model_fields.items() if isinstance(field.default, dict)}
        return written | {
            name: default | written[name]
            for name, default in defaults.items()
            if isinstance(written.get(name), dict) and "allowable" not in default
        }


PRICE_KEYS = frozenset({"price", "minutes", "module_minutes", "labour_rate", "currency"})
"""Keys of prices and labour, in whatever table they are."""

PART_NUMBER = "your own part number, for bills and sheets; not set: none"


class Part(InputTable):
    """Mass, price and labour of one piece, and your own number of it."""

    part_number: Annotated[str, TextLine(40)] | None = input_field(None, description=PART_NUMBER)

    mass: Mass = input_field(description="mass of one piece")
    price: Price = input_field(description="price of one piece, in the scenario's currency")
    minutes: Minutes = input_field(description="labour to install one piece [min]")


class RailSection(ShelfTable):
    """A rail, or one of the two beams of a rack, sold in stock lengths.

    Strong-axis bending is normal to the roof, weak-axis bending along the slope.
    """

    shelf_section: ClassVar[str] = "rails"

    part_number: Annotated[str, TextLine(40)] | None = input_field(None, description=PART_NUMBER)
    moment_strong: Moment = input_field(description="allowable or characteristic moment, bending normal to the roof")
    moment_weak: Moment = input_field(description="allowable or characteristic moment, bending along the slope")
    inertia: Annotated[float, Quantity("second moment of area", "0.001 in4", "1000 in4")] = input_field(
        description="second moment of area, bending normal to the roof"
    )
    material: Annotated[str, Choice(MATERIALS)] = input_field(
        ALUMINIUM, description="metal of the bar, for its travel by heat"
    )
    modulus: Annotated[float, Quantity("stress", "100 ksi", "60000 ksi")] = input_field(
        "10000 ksi", description="modulus of elasticity"
    )
    deflection_ratio: Annotated[float, Number(1, 10000)] | None = input_field(
        None,
        description="deflection limit at midspan (120 means span/120); not set: not checked",
    )
    cantilever_ratio: Annotated[float, Number(0, 1)] = input_field(
        0.333, description="longest overhang over the adjacent span (one third is common practice, no source)"
    )
    stock_length: Annotated[float, Quantity("length", "3 ft", "60 ft")] = input_field(
        "14 ft", description="length of one bar as sold"
    )
    longest_run: Annotated[float, Quantity("length", "5 ft", "400 ft")] = input_field(
        "40 ft", description="longest run without a thermal break (40 ft or less is common practice, no source)"
    )
    mass: Annotated[float, Quantity("mass per length", "0.01 lb/ft", "100 lb/ft")] = input_field(
        description="mass per length"
    )
    price: Price = input_field(description="price of one stock length, in the scenario's currency")
    minutes: Minutes = input_field(description="labour to install one stock length [min]")

    @property
    def is_placeholder(self) -> bool:
        """True if its allowable moments are the placeholders: then nobody has stated them."""
        placeholder = RailSection.model_validate(PLACEHOLDER_SECTION)
        return (self.moment_strong, self.moment_weak) == (placeholder.moment_strong, placeholder.moment_weak)


class Parts(_Overridable):
    """The small parts, by their job."""

    attachment: Part = input_field(
        {"mass": "0.45 lb", "price": 8.5, "minutes": 4},
        description="attachment: grips the seam or is screwed to the roof",
    )
    middle_clamp: Part = input_field(
        {"mass": "0.15 lb", "price": 2.2, "minutes": 1.5}, description="clamp between two modules"
    )
    end_clamp: Part = input_field(
        {"mass": "0.18 lb", "price": 2.6, "minutes": 1.5}, description="clamp at a module's free edge"
    )
    splice: Part = input_field(
        {"mass": "0.6 lb", "price": 6.0, "minutes": 3}, description="joint between two stock lengths of rail"
    )
    leg: Part = input_field(
        {"mass": "1.1 lb", "price": 7.5, "minutes": 3}, description="front or rear leg of a rack frame"
    )
    brace: Part = input_field(
        {"mass": "1.6 lb", "price": 6.5, "minutes": 3}, description="member that closes a rack frame"
    )
    module_hook: Part = input_field(
        {"mass": "0.3 lb", "price": 3.4, "minutes": 1.5},
        description="holds module edges on an attachment, without a rail",
    )
    screw: Part = input_field({"mass": "0.02 lb", "price": 0.25, "minutes": 0.5}, description="screw through the roof")
    seal: Part = input_field(
        {"mass": "0.05 lb", "price": 0.9, "minutes": 1}, description="seal of one attachment that pierces the roof"
    )


PLACEHOLDER_SECTION = {
    "moment_strong": "850 lb ft",
    "moment_weak": "380 lb ft",
    "inertia": "0.60 in4",
    "deflection_ratio": 60,
    "mass": "1.1 lb/ft",
    "price": 52,
    "minutes": 10,
}
"""A placeholder extrusion, for rails and rack beams."""


class Hardware(_Overridable, ShelfTable):
    """All parts between the module and the roof. The defaults are placeholders."""

    shelf_section: ClassVar[str] = "hardware"

    bracket: Annotated[str, Choice(tuple(BRACKETS))] = input_field(
        "seam clamp",
        description="kind of attachment: "
        + "; ".join(f"{name}, {bracket.description}" for name, bracket in BRACKETS.items()),
    )
    place: Annotated[str, Choice((AT_RIB, IN_PAN))] = input_field(
        AT_RIB,
        description="place of the holes of brackets on a deck or on rafters: at a rib, or in the flat pan beside it",
    )
    attachment_uplift: Capacity = input_field({"allowable": "600 lb"}, description="uplift strength of one attachment")
    attachment_down: Capacity = input_field({"allowable": "900 lb"}, description="down-load strength of one attachment")
    attachment_in_plane: Capacity = input_field(
        {"allowable": "350 lb"}, description="along-slope strength of one attachment"
    )
    attachment_across: Capacity | None = input_field(
        None, description="strength of one attachment across the seam or rib, along the eave; not set: not checked"
    )
    attachment_height: Annotated[float, Quantity("length", "0 in", "12 in", shown="small length")] = input_field(
        "2 in", description="height above the pan at which the load acts on an attachment"
    )
    clip_clearance: Annotated[float, Quantity("length", "0 in", "24 in", shown="small length")] | None = input_field(
        None,
        description="clear distance of clamps from a floating clip, so that the panel can move; not set: not checked",
    )
    attachment_length: Annotated[float, Quantity("length", "0.5 in", "24 in", shown="small length")] = input_field(
        "3 in",
        description="length of an attachment along the seam or rib, over which along-slope load pries it",
    )
    attachment_screws: Annotated[int, Count(0, 20)] | None = input_field(
        None,
        description="screws of one attachment on a roof that is pierced, as billed; "
        "not set: as many as its strength states, else 4",
    )
    clamp_uplift: Capacity = input_field({"allowable": "450 lb"}, description="uplift strength of one module clamp")
    frame_moment: Moment | None = input_field(
        None,
        description="allowable or characteristic moment of a module's long frame side, for direct mounting; "
        "not set: its overhangs are checked by the maker's zone",
    )
    rail: RailSection = input_field(PLACEHOLDER_SECTION, description="the rail")
    rack_beam: RailSection = input_field(PLACEHOLDER_SECTION, description="one of the two beams of a tilted row")
    leg_capacity: Capacity = input_field(
        {"allowable": "700 lb"}, description="strength of one leg of a rack frame, uplift or down load"
    )
    parts: Parts = input_field({}, description="the small parts")
    spares: Annotated[float, Number(0, 100)] = input_field(
        0, description="spares bought in addition, in per cent of the pieces and stock lengths of each part, rounded up"
    )
    module_minutes: Minutes = input_field(12, description="labour to set one module [min]")
    labour_rate: Annotated[float, Quantity("rate", "0 / h", "10000 / h")] = input_field(
        "45 / h", description="labour rate per hour, in the scenario's currency"
    )

    @property
    def kind(self) -> Bracket:
        """The kind of attachment: what it is fastened to, and where it may be placed."""
        return BRACKETS[self.bracket]

    @property
    def pierces(self) -> bool:
        """True if an attachment makes holes in the roof."""
        return self.kind.pierces

    @property
    def bypasses_sheet(self) -> bool:
        """True if attachments load what is under the sheet, not the sheet's ribs and fastenings."""
        return not self.kind.loads_sheet

    @property
    def at_fastenings(self) -> bool:
        """True if attachments fit only over the panel's supports up the slope."""
        return self.kind.at_fastenings

    @property
    def screws_per_attachment(self) -> int:
        """Screws of one attachment as billed: as set, else as its strength states, else the usual number."""
        if self.attachment_screws is not None:
            return self.attachment_screws
        return next((basis.screw_count for _, basis in self.attachment_bases if basis.screw_count), USUAL_SCREWS)

    @property
    def attachment_bases(self) -> Iterator[tuple[str, StrengthBasis]]:
        """Each basis of each strength of an attachment, with the key of the strength."""
        for key in ("attachment_uplift", "attachment_down", "attachment_in_plane", "attachment_across"):
            for basis in getattr(self, key) or ():
                yield key, basis

    def price(self, part: str) -> float:
        """Price of one piece, or of one stock length of a bar [currency]."""
        bar = self.section(part)
        if bar:
            return bar.price
        piece: Part = getattr(self.parts, part)
        return piece.price

    def section(self, part: str | None) -> RailSection | None:
        """The bar with a part's name; None if the part is no bar."""
        found = getattr(self, part or "", None)
        return found if isinstance(found, RailSection) else None

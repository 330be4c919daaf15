"""The PV module: sizes, ratings, and the parts of its edges that may be held."""

from __future__ import annotations

from typing import Annotated, ClassVar

from engine.schema import Choice, Count, InputTable, LengthRange, Quantity, ShelfTable, input_field
from engine.strength import ModuleRating
from engine.units import both

LONG, SHORT = SIDES = ("long", "short")
CLAMP, BOLT, LINE = HOLDS = ("clamp", "bolt", "line")
ACROSS, ALONG = RAILS = ("across", "along")


class RatingBySupport(InputTable):
    """One row of the maker's table of ratings: a module held in one way. All of the row must fit, or it does not apply.

    Its zone is for the outermost supports of a side; supports between them only shorten the spans [judgement].
    """

    side: Annotated[str, Choice(SIDES)] = input_field(description="side of the module that is held")
    hold: Annotated[str, Choice(HOLDS)] = input_field(
        CLAMP, description="how the side is held: by clamps, by bolts through the frame, or along its whole length"
    )
    rails: Annotated[str, Choice(RAILS)] | None = input_field(
        None, description="rails across the side that is held, or along it; not set: with any rails, or none"
    )
    zone: Annotated[tuple[float, float], LengthRange()] | None = input_field(
        None, description="from and to, measured from the corner to the middle of the clamp; not set: any place"
    )
    points: Annotated[int, Count(2, 20)] | None = input_field(
        None, description="least number of clamps that hold the module; not set: any number"
    )
    up: ModuleRating = input_field(description="uplift rating, as design or as test load")
    down: ModuleRating = input_field(description="down-load rating, as design or as test load")

    @property
    def words(self) -> str:
        """The way of support in words: "long side, clamp, rails across, 250 mm to 500 mm from a corner"."""
        rails = f"rails {self.rails}" if self.rails else ""
        zone = " to ".join(both(place, "small length") for place in self.zone or ())
        points = f"{self.points} or more points" if self.points else ""
        parts = [f"{self.side} side", self.hold, rails, zone and f"{zone} from a corner", points]
        return ", ".join(filter(None, parts))


class Module(ShelfTable):
    """One PV module, from its data sheet and the maker's installation manual."""

    shelf_section: ClassVar[str] = "modules"

    length: Annotated[float, Quantity("length", "12 in", "10 ft", shown="small length")] = input_field(
        description="length of the longer side"
    )
    width: Annotated[float, Quantity("length", "12 in", "10 ft", shown="small length")] = input_field(
        description="length of the shorter side"
    )
    thickness: Annotated[float, Quantity("length", "0.1 in", "6 in", shown="small length")] = input_field(
        description="thickness of the frame"
    )
    mass: Annotated[float, Quantity("mass", "1 lb", "300 lb")] = input_field(description="mass of one module")
    power: Annotated[float, Quantity("power", "1 W", "2000 W")] = input_field(description="rated power of one module")
    rating_up: ModuleRating | None = input_field(
        None,
        description="the maker's uplift rating on any support, as design or as test load (test = 1.5 x design)",
    )
    rating_down: ModuleRating | None = input_field(
        None, description="the maker's down-load rating on any support, as design or as test load"
    )
    ratings: tuple[RatingBySupport, ...] = input_field(
        (),
        description="the maker's ratings by support, instead of rating_up and rating_down: "
        '[{ side = "long", zone = ["250 mm", "500 mm"], up = { test = "2400 Pa" }, down = { test = "5400 Pa" } }]',
    )
    clamp_zone: Annotated[tuple[float, float], LengthRange()] = input_field(
        description="the maker's clamp zone on the long side, from and to, measured from the corner"
    )
    edge_support: Annotated[tuple[float, float], LengthRange()] = input_field(
        description="part of the long side that a direct mount may support, from and to, measured from the corner"
    )

    @property
    def area(self) -> float:
        """Area of one module [m²]."""
        return self.length * self.width

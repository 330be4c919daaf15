"""The fifth way: screws in wood pulled straight out, NDS chapter 12."""

from __future__ import annotations

from typing import Annotated, ClassVar

from pydantic import Field, model_validator
from pydantic_core import PydanticCustomError

from engine.described import Choice, Count, Number, Quantity
from engine.reference import Confidence, Reference, Step, Term
from engine.strength.vocabulary import Mode, Way
from engine.units import INCH, POUND_FORCE

NDS = Reference("NDS", "2018", "§12.2", Confidence.SEVERAL)
WOOD_SCREW = {"#6": 0.138, "#8": 0.164, "#9": 0.177, "#10": 0.190, "#12": 0.216, "#14": 0.242}
LAG = {"1/4 in": 0.250, "5/16 in": 0.3125, "3/8 in": 0.375, "7/16 in": 0.4375, "1/2 in": 0.500}
DURATION = {"permanent": 0.9, "snow": 1.15, "wind": 1.6, "seismic": 1.6}
"""CD, Table 2.3.2, by the shortest-lived load of a combination."""

WET, HOT = 0.7, 0.8


def wood_screw_withdrawal(gravity: float, diameter: float) -> float:
    """W of a wood screw, Eq. 12.2-2: 2850 G² D, per inch of thread [lb/in]; G specific gravity, D [in]."""
    return 2850 * gravity**2 * diameter


def lag_withdrawal(gravity: float, diameter: float) -> float:
    """W of a lag screw, Eq. 12.2-1: 1800 G^1.5 D^0.75, per inch of thread [lb/in]; G specific gravity, D [in]."""
    return float(1800 * gravity**1.5 * diameter**0.75)


class WoodScrews(Way):
    """`{ wood_screws = 2, size = "#10", thread = "15/32 in", specific_gravity = 0.42 }`, or `lag` for `wood_screws`."""

    signature: ClassVar[str] = "wood_screws"
    wood_screws: Annotated[int, Count(1, 50)] | None = Field(None, description="how many wood screws")
    lag: Annotated[int, Count(1, 50)] | None = Field(None, description="how many lag screws")
    size: Annotated[str, Choice(tuple(WOOD_SCREW | LAG))] = Field(description="screw size by name")
    thread: Annotated[float, Quantity("length", "0.1 in", "12 in")] = Field(
        description="thread in the wood, without its tip; in a panel its thickness"
    )
    specific_gravity: Annotated[float, Number(0.3, 0.75)] = Field(
        description="G of the wood: SPF 0.42, plywood 0.42, OSB 0.50, southern pine 0.55"
    )
    wet: Annotated[str, Choice(("no", "yes"))] = Field("no", description="whether the wood gets wet in service")
    hot: Annotated[str, Choice(("no", "yes"))] = Field("no", description="whether the wood gets 100 to 125 °F hot in service")

    @model_validator(mode="after")
    def one_kind(self) -> WoodScrews:
        """Either wood screws or lag screws, of a size that kind comes in."""
        if (self.wood_screws is None) == (self.lag is None):
            raise PydanticCustomError("loadpath", "give exactly one of 'wood_screws' and 'lag'")
        sizes = WOOD_SCREW if self.lag is None else LAG
        if self.size not in sizes:
            raise PydanticCustomError(
                "loadpath", "size '{size}' given; allowed here is {sizes}", {"size": self.size, "sizes": ", ".join(sizes)}
            )
        return self

    def modes(self) -> tuple[Mode, ...]:
        """Withdrawal of all screws, times CD of the combination."""
        lag = self.lag is not None
        count = self.lag or self.wood_screws or 0
        diameter = (LAG if lag else WOOD_SCREW)[self.size]
        per_inch = (lag_withdrawal if lag else wood_screw_withdrawal)(self.specific_gravity, diameter)
        service = (WET if self.wet == "yes" else 1.0) * (HOT if self.hot == "yes" else 1.0)
        thread = self.thread / INCH
        pounds = count * per_inch * thread * service
        equation = "1800 * G ** 1.5 * D ** 0.75" if lag else "2850 * G ** 2 * D"
        steps = (
            Step(
                "W",
                "withdrawal per inch of thread",
                Term(per_inch, "lb/in"),
                equation,
                {"G": Term(self.specific_gravity), "D": Term(diameter, "in")},
                NDS,
            ),
            Step(
                "Wn",
                "withdrawal of all screws, before the combination's load duration factor",
                Term(pounds, "lb"),
                "n * W * thread * service",
                {"n": Term(count), "W": Term(per_inch, "lb/in"), "thread": Term(thread, "in"), "service": Term(service)},
                NDS,
            ),
        )
        return (Mode("withdrawal from wood", pounds * POUND_FORCE, 1.0, NDS, load_duration=DURATION, steps=steps),)

    def sentence(self) -> str:
        """How it was obtained."""
        kind = "lag" if self.lag is not None else "wood"
        return f"{self.lag or self.wood_screws} {self.size} {kind} screws by NDS withdrawal, times 1.6 for wind or 1.15 for snow"

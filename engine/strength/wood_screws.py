"""Strength of screws in wood in withdrawal, NDS chapter 12."""

from __future__ import annotations

from typing import Annotated, ClassVar

from pydantic import Field, PrivateAttr, model_validator
from pydantic_core import PydanticCustomError

from engine.common.calculation import CalculationStep, Confidence, Recorder, Reference, Term, silent
from engine.schema import Choice, Count, Number, Quantity
from engine.strength.base import FailureMode, StrengthBasis
from engine.units import INCH, POUND_FORCE

LAG_CLAUSE = Reference("NDS", "2018", "Eq. 12.2-1", Confidence.SEVERAL)
WOOD_CLAUSE = Reference("NDS", "2018", "Eq. 12.2-2", Confidence.SEVERAL)
ADJUSTMENT = Reference("NDS", "2018", "Table 11.3.1", Confidence.SEVERAL)

WOOD_SCREW = {"#6": 0.138, "#8": 0.164, "#9": 0.177, "#10": 0.190, "#12": 0.216, "#14": 0.242}
LAG = {"1/4 in": 0.250, "5/16 in": 0.3125, "3/8 in": 0.375, "7/16 in": 0.4375, "1/2 in": 0.500}
"""Screw name → nominal diameter [in]."""

DURATION = {"permanent": 0.9, "snow": 1.15, "wind": 1.6, "seismic": 1.6}
"""CD, Table 2.3.2, by the load of shortest duration in a combination."""


def lag_withdrawal(g: float, d: float, record: Recorder = silent) -> float:
    """W of a lag screw, Eq. 12.2-1: 1800 G^1.5 D^0.75 [lb per inch of thread].

    Args:
        g: G, specific gravity of the wood.
        d: D, diameter of the shank [in].
        record: takes the step.
    """
    result = float(1800 * g**1.5 * d**0.75)
    record(_withdrawal(result, "1800 * G ** 1.5 * D ** 0.75", g, d, LAG_CLAUSE))
    return result


def wood_screw_withdrawal(g: float, d: float, record: Recorder = silent) -> float:
    """W of a wood screw, Eq. 12.2-2: 2850 G² D [lb per inch of thread]; arguments as for `lag_withdrawal`."""
    result = 2850 * g**2 * d
    record(_withdrawal(result, "2850 * G ** 2 * D", g, d, WOOD_CLAUSE))
    return result


def wet_factor(wet: bool) -> float:
    """CM, Table 11.3.3: 0.7 in wood that is wet in service."""
    return 0.7 if wet else 1.0


HOT, HOT_DECK, COOL = "hot", "hot deck", "cool"
WOOD_TEMPERATURES = (HOT, HOT_DECK, COOL)
TEMPERATURE_FACTOR = {HOT: {"dry": 0.8, "wet": 0.7}, HOT_DECK: {"dry": 0.7, "wet": 0.5}, COOL: {"dry": 1.0, "wet": 1.0}}
"""Ct, Table 11.3.4: 100 to 125 °F, 125 to 150 °F, and at most 100 °F (wet from memory)."""


class WoodScrews(StrengthBasis):
    """`{ wood_screws = 2, size = "#10", thread = "15/32 in", specific_gravity = 0.42 }`, or `lag` for `wood_screws`."""

    title: ClassVar[str] = "screws in wood"
    identifying_keys: ClassVar[tuple[str, ...]] = ("wood_screws", "lag")
    wood_screws: Annotated[int, Count(1, 50)] | None = Field(None, description="number of wood screws")
    lag: Annotated[int, Count(1, 50)] | None = Field(None, description="number of lag screws")
    size: Annotated[str, Choice(tuple(WOOD_SCREW | LAG))] = Field(description="screw size by name")
    thread: Annotated[float, Quantity("length", "0.1 in", "12 in")] = Field(
        description="length of thread in the wood without the tip; in a panel the panel's thickness"
    )
    specific_gravity: Annotated[float, Number(0.3, 0.75)] = Field(
        description="G of the wood: SPF 0.42, plywood 0.42, OSB 0.50, southern pine 0.55"
    )
    wet: Annotated[str, Choice(("no", "yes"))] = Field("no", description="the wood gets wet in service")
    hot: Annotated[str, Choice(("no", "yes"))] = Field(
        "no", description="key of older files: yes counts as roof.wood_temperature 'hot'"
    )
    _wood_temperature: str = PrivateAttr(HOT)

    @model_validator(mode="after")
    def one_kind(self) -> WoodScrews:
        """Refuse neither or both kinds of screws, and a size that the kind does not have."""
        if (self.wood_screws is None) == (self.lag is None):
            raise PydanticCustomError("loadpath", "give exactly one of 'wood_screws' and 'lag'")
        if self.size not in self._sizes:
            context = {"size": self.size, "sizes": ", ".join(self._sizes)}
            raise PydanticCustomError("loadpath", "size '{size}' given; allowed here is {sizes}", context)
        return self

    def modes(self) -> tuple[FailureMode, ...]:
        """One mode: withdrawal of all screws without CD and Ct, given by the combination; Ω is 1 (NDS allowables)."""
        steps: list[CalculationStep] = []
        withdrawal = wood_screw_withdrawal if self.lag is None else lag_withdrawal
        per_inch = withdrawal(self.specific_gravity, self._sizes[self.size], steps.append)
        wet = wet_factor(self.wet == "yes")
        terms = {
            "n": Term(self.screw_count),
            "W": Term(per_inch, "lb/in"),
            "thread": Term(self.thread / INCH, "in"),
            "CM": Term(wet),
        }
        pounds = self.screw_count * per_inch * self.thread / INCH * wet
        meaning = "withdrawal of all screws, without load duration and temperature factors"
        steps.append(CalculationStep("Rn", meaning, Term(pounds, "lb"), "n * W * thread * CM", terms, ADJUSTMENT))
        return (
            FailureMode(
                "withdrawal from wood",
                pounds * POUND_FORCE,
                1.0,
                ADJUSTMENT,
                load_duration=DURATION,
                temperature_factor=self._temperature_factor,
                steps=tuple(steps),
            ),
        )

    def shear_modes(self) -> tuple[FailureMode, ...]:
        """None: the lateral yield modes of a screw are not covered."""
        return ()

    @property
    def screw_count(self) -> int:
        """Number of screws."""
        return self.wood_screws or self.lag or 0

    @property
    def screw_diameter(self) -> float:
        """Diameter of the screws [m]."""
        return self._sizes[self.size] * INCH

    @property
    def covers_seam(self) -> bool:
        """False: the seam usually leaves its clip first."""
        return False

    def description(self) -> str:
        """Origin of the strength."""
        kind = "wood" if self.lag is None else "lag"
        loads = {"permanent": "dead load", "snow": "snow", "wind": "wind or earthquake"}
        durations = ", ".join(f"{DURATION[duration]} for {load}" for duration, load in loads.items())
        with_snow = "" if self.wood_temperature == COOL else ", 1.0 with snow"
        temperature = f"temperature factor {self._temperature_factor:g} ({self.wood_temperature}{with_snow})"
        screws = f"{self.screw_count} {self.size} {kind} screws, NDS withdrawal"
        return f"{screws}, load duration factor {durations}, {temperature}"

    @property
    def wood_temperature(self) -> str:
        """Temperature of the wood: that of the roof, at least hot if the key `hot` is "yes"."""
        return HOT if self.hot == "yes" and self._wood_temperature == COOL else self._wood_temperature

    def at_wood_temperature(self, temperature: str) -> WoodScrews:
        """The screws in wood of this temperature, one of `WOOD_TEMPERATURES`."""
        copy = self.model_copy()
        copy._wood_temperature = temperature
        return copy

    @property
    def _temperature_factor(self) -> float:
        return TEMPERATURE_FACTOR[self.wood_temperature]["wet" if self.wet == "yes" else "dry"]

    @property
    def _sizes(self) -> dict[str, float]:
        return WOOD_SCREW if self.lag is None else LAG


def _withdrawal(result: float, equation: str, g: float, d: float, reference: Reference) -> CalculationStep:
    terms = {"G": Term(g), "D": Term(d, "in")}
    return CalculationStep("W", "withdrawal per inch of thread", Term(result, "lb/in"), equation, terms, reference)

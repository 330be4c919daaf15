"""The fourth way: screws in steel, each mode by its clause of AISI S100 J4.

Of the two sets of equations for tension the lower counts unless one is chosen.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Annotated, ClassVar

from pydantic import Field, model_validator
from pydantic_core import PydanticCustomError

from engine.common.calculation import SCENARIO, CalculationStep, Recorder, Reference, Term
from engine.schema import Choice, Count, Number, Quantity
from engine.strength import aisi_s100_j4
from engine.strength.base import FailureMode, StrengthBasis
from engine.strength.sheet_gauge import Thickness
from engine.units import INCH, KSI, POUND_FORCE

DIAMETER = {"#8": 0.164, "#10": 0.190, "#12": 0.216, "#14": 0.242, "1/4 in": 0.250}
"""Screw name → nominal diameter [in]; all within the 0.08 to 0.25 in that J4 is for."""

LOWEST = "lowest"
ONE_SIDED = 0.5
"""What a screw pulled from one side keeps of its pull-over, J4.4.2."""

THIN = 0.017
"""Thinner than this, Grade 80 sheet lies outside the tests behind the equations; set to catch 29 gauge [in]."""

Stress = Annotated[float, Quantity("stress", "30 ksi", "150 ksi")]
Force = Annotated[float, Quantity("force", "1 lb", "100 kip")]


class SteelScrews(StrengthBasis):
    """`{ screws = 2, size = "#12", into = "16 ga", tensile_strength = "65 ksi", sheet = "24 ga", washer = "1/2 in" }`."""

    title: ClassVar[str] = "screws in steel"
    identifying_keys: ClassVar[tuple[str, ...]] = ("screws",)
    needed_for_shear: ClassVar[str] = "the 'sheet' under the head, with its 'washer'"
    screws: Annotated[int, Count(1, 50)] = Field(description="how many screws")
    size: Annotated[str, Choice(tuple(DIAMETER))] = Field(description="screw size by name")
    into: Annotated[float, Thickness()] = Field(description="what the thread holds in, by gauge or thickness")
    tensile_strength: Stress = Field(description="Fu of what the thread holds in")
    sheet: Annotated[float, Thickness()] | None = Field(
        None, description="the sheet under the head; left out: pull-over is not a mode"
    )
    sheet_tensile_strength: Stress | None = Field(
        None, description="Fu of the sheet under the head; that of what the thread holds in unless stated"
    )
    washer: Annotated[float, Quantity("length", "0.1 in", "2 in")] | None = Field(
        None, description="diameter of head or washer"
    )
    eccentric: Annotated[str, Choice(("no", "yes"))] = Field(
        "no", description="whether the screw is pulled from one side, as by a clip"
    )
    prying: Annotated[float, Number(1.0, 5.0)] = Field(
        1.0, description="how many times the clip's load its screws feel, from prying"
    )
    edition: Annotated[str, Choice((LOWEST, *aisi_s100_j4.SETS))] = Field(
        LOWEST, description="which set of equations for tension"
    )
    screw_tension: Force | None = Field(
        None, description="the screw maker's allowable in tension; left out: not a mode"
    )
    screw_shear: Force | None = Field(None, description="the screw maker's allowable in shear; left out: not a mode")

    @model_validator(mode="after")
    def washer_with_sheet(self) -> SteelScrews:
        """Pull-over needs both the sheet and the head."""
        if (self.sheet is None) != (self.washer is None):
            raise PydanticCustomError(
                "loadpath", "'sheet' and 'washer' go together: pull-over needs the sheet and the head's diameter"
            )
        return self

    def modes(self) -> tuple[FailureMode, ...]:
        """Pull-out; pull-over where the sheet is known; the screw itself where its strength is stated."""
        found = [self._lowest(self._pull_out)]
        if self.sheet is not None:
            found.append(self._lowest(self._pull_over))
        if self.screw_tension is not None:
            found.append(self._screw_itself("screw in tension", self.screw_tension, self.prying))
        return tuple(found)

    def shear_modes(self) -> tuple[FailureMode, ...]:
        """Tilting and bearing of the sheets, and the screw itself where its strength is stated; none where the sheet is not known."""
        if self.sheet is None:
            return ()
        found = [self._tilting_and_bearing()]
        if self.screw_shear is not None:
            found.append(self._screw_itself("screw in shear", self.screw_shear, prying=1.0))
        return tuple(found)

    @property
    def covers_seam(self) -> bool:
        """No: the seam usually leaves its clip first."""
        return False

    def sentence(self) -> str:
        """How it was obtained."""
        first_minimum = min(self.modes(), key=_allowable)
        by = (
            "its maker's allowable"
            if first_minimum.reference == SCENARIO
            else f"AISI S100 J4, divided by {first_minimum.safety_factor:g}"
        )
        return f"{self.screws} {self.size} screws in steel; {first_minimum.name} governs, by {by}"

    @property
    def diameter(self) -> float:
        """Nominal diameter d [in]."""
        return DIAMETER[self.size]

    @property
    def sheet_strength(self) -> float:
        """Fu of the sheet under the head [Pa]."""
        return self.sheet_tensile_strength or self.tensile_strength

    def _lowest(self, mode: Callable[[str], FailureMode]) -> FailureMode:
        """A mode by the chosen set of equations, or by the one that allows less."""
        return min(
            (mode(edition) for edition in (aisi_s100_j4.SETS if self.edition == LOWEST else (self.edition,))),
            key=_allowable,
        )

    def _pull_out(self, edition: str) -> FailureMode:
        steps: list[CalculationStep] = []
        fu2 = _counted(self.tensile_strength, "Fu2", steps.append)
        one = aisi_s100_j4.pnot(self.into / INCH, self.diameter, fu2, edition, steps.append)
        source = aisi_s100_j4.PULL_OUT[edition]
        nominal = self._all("Pnot", one, source, steps.append, prying=self.prying)
        cautions = _thin_and_hard("pull-out", self.into, self.tensile_strength)
        return FailureMode(
            "pull-out", nominal, aisi_s100_j4.PULL_OUT_FACTOR[edition], source, steps=tuple(steps), cautions=cautions
        )

    def _pull_over(self, edition: str) -> FailureMode:
        assert self.sheet is not None
        assert self.washer is not None
        steps: list[CalculationStep] = []
        fu1 = _counted(self.sheet_strength, "Fu1", steps.append)
        one = aisi_s100_j4.pnov(self.sheet / INCH, self.washer / INCH, fu1, edition, steps.append)
        source = aisi_s100_j4.PULL_OVER[edition]
        kept = ONE_SIDED if self.eccentric == "yes" else 1.0
        nominal = self._all("Pnov", one, source, steps.append, kept=kept, prying=self.prying)
        cautions = (*_thin_and_hard("pull-over", self.sheet, self.sheet_strength), *self._thin_beneath())
        return FailureMode(
            "pull-over", nominal, aisi_s100_j4.PULL_OVER_FACTOR[edition], source, steps=tuple(steps), cautions=cautions
        )

    def _tilting_and_bearing(self) -> FailureMode:
        assert self.sheet is not None
        steps: list[CalculationStep] = []
        fu1, fu2 = (
            _counted(self.sheet_strength, "Fu1", steps.append),
            _counted(self.tensile_strength, "Fu2", steps.append),
        )
        one = aisi_s100_j4.pnv(self.sheet / INCH, self.into / INCH, self.diameter, fu1, fu2, steps.append)
        nominal = self._all("Pnv", one, aisi_s100_j4.SHEAR, steps.append)
        cautions = (*_thin_and_hard("shear", self.sheet, self.sheet_strength), *self._thin_beneath())
        return FailureMode(
            "tilting and bearing",
            nominal,
            aisi_s100_j4.SHEAR_FACTOR,
            aisi_s100_j4.SHEAR,
            steps=tuple(steps),
            cautions=cautions,
        )

    def _screw_itself(self, name: str, allowable: float, prying: float) -> FailureMode:
        """What the screw's maker allows; its nominal is the allowable itself, for more is not known."""
        steps: list[CalculationStep] = []
        nominal = self._all("Pss", allowable / POUND_FORCE / 1000, SCENARIO, steps.append, prying=prying)
        return FailureMode(name, nominal, 1.0, SCENARIO, steps=tuple(steps))

    def _all(
        self, symbol: str, one: float, source: Reference, record: Recorder, *, kept: float = 1.0, prying: float = 1.0
    ) -> float:
        """Nominal strength of all screws [N] from that of one [kip], after what a one-sided pull and prying take."""
        pounds = self.screws * one * kept / prying * 1000
        terms = {"n": Term(self.screws), symbol: Term(one, "kip"), "kept": Term(kept), "prying": Term(prying)}
        equation = f"n * {symbol} * kept / prying * 1000"
        record(
            CalculationStep(
                "Rn",
                "all screws, less what a one-sided pull and prying take",
                Term(pounds, "lb"),
                equation,
                terms,
                source,
            )
        )
        return pounds * POUND_FORCE

    def _thin_beneath(self) -> tuple[str, ...]:
        """A thread that holds in less than lies under the head: more often two keys exchanged than a roof."""
        if self.sheet is None or self.into >= self.sheet:
            return ()
        return (
            "the thread holds in thinner metal than lies under the screw's head: see that 'into' and 'sheet' are not exchanged",
        )


def _counted(strength: float, symbol: str, record: Recorder) -> float:
    """Fu as it counts [ksi], from Fu [Pa]; a step where less counts than is there."""
    fu = strength / KSI
    counted = aisi_s100_j4.counted_strength(fu)
    if counted < fu:
        meaning = "tensile strength as it counts, of sheet that stretches little"
        record(
            CalculationStep(
                symbol,
                meaning,
                Term(counted, "ksi"),
                "min(0.75 * Fu, 62)",
                {"Fu": Term(fu, "ksi")},
                aisi_s100_j4.DUCTILITY,
            )
        )
    return counted


def _thin_and_hard(mode: str, thickness: float, strength: float) -> tuple[str, ...]:
    """What must be said of thin Grade 80 sheet; thickness [m], strength [Pa]."""
    if strength / KSI < aisi_s100_j4.GRADE_80 or thickness / INCH >= THIN:
        return ()
    sheet = f"{thickness / INCH:.4f} in, {strength / KSI:.0f} ksi"
    return (f"{mode}: sheet this thin and hard ({sheet}) lies outside the tests behind the equation",)


def _allowable(mode: FailureMode) -> float:
    return mode.nominal / mode.safety_factor

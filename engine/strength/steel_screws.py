"""Strength of screws in steel, each failure mode by its clause of AISI S100 J4.

Of the two sets of equations for tension the lower result counts unless one set is chosen.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Annotated, ClassVar

from pydantic import Field, model_validator
from pydantic_core import PydanticCustomError

from engine.common.calculation import SCENARIO, CalculationStep, Recorder, Reference, Term
from engine.common.tolerances import SAME_LENGTH
from engine.schema import Choice, Count, Number, Quantity
from engine.strength import aisi_s100_j4
from engine.strength.base import FailureMode, StrengthBasis
from engine.strength.sheet_gauge import Thickness
from engine.units import INCH, KSI, POUND_FORCE, both

DIAMETER = {"#8": 0.164, "#10": 0.190, "#12": 0.216, "#14": 0.242, "1/4 in": 0.250}
"""Screw name → nominal diameter [in]; all within J4's range of 0.08 to 0.25 in."""

LOWEST = "lowest"
ONE_SIDED = 0.5
"""Part of the pull-over strength that is left if the screw is pulled from one side, J4.4.2."""

THIN = 0.017
"""Grade 80 sheet thinner than this is outside the tests behind the equations [in]; the limit includes 29 gauge."""

Stress = Annotated[float, Quantity("stress", "30 ksi", "150 ksi")]
Force = Annotated[float, Quantity("force", "1 lb", "100 kip")]


class SteelScrews(StrengthBasis):
    """`{ screws = 2, size = "#12", into = "16 ga", tensile_strength = "65 ksi" }`; with `sheet` and `washer` too."""

    title: ClassVar[str] = "screws in steel"
    identifying_keys: ClassVar[tuple[str, ...]] = ("screws",)
    needed_for_shear: ClassVar[str] = "the 'sheet' under the head, with its 'washer'"
    screws: Annotated[int, Count(1, 50)] = Field(description="number of screws")
    size: Annotated[str, Choice(tuple(DIAMETER))] = Field(description="screw size by name")
    into: Annotated[float, Thickness()] = Field(description="metal that holds the thread, by gauge or thickness")
    tensile_strength: Stress = Field(description="Fu of the metal that holds the thread")
    sheet: Annotated[float, Thickness()] | None = Field(
        None, description="sheet under the head; not set: pull-over is not checked"
    )
    sheet_tensile_strength: Stress | None = Field(
        None, description="Fu of the sheet under the head; not set: as tensile_strength"
    )
    washer: Annotated[float, Quantity("length", "0.1 in", "2 in")] | None = Field(
        None, description="diameter of the head or washer"
    )
    eccentric: Annotated[str, Choice(("no", "yes"))] = Field(
        "no", description="the screw is pulled from one side, as by a clip"
    )
    prying: Annotated[float, Number(1.0, 5.0)] = Field(
        1.0, description="load of the screws over the load of the clip, from prying"
    )
    edition: Annotated[str, Choice((LOWEST, *aisi_s100_j4.SETS))] = Field(
        LOWEST, description="set of equations for tension; lowest: the smaller result counts"
    )
    screw_tension: Force | None = Field(
        None, description="the screw maker's allowable tension of one screw; not set: not checked"
    )
    screw_shear: Force | None = Field(
        None, description="the screw maker's allowable shear of one screw; not set: not checked"
    )

    @model_validator(mode="after")
    def washer_with_sheet(self) -> SteelScrews:
        """Refuse a sheet without the head's diameter, the reverse, and a head smaller than the screw."""
        if (self.sheet is None) != (self.washer is None):
            raise PydanticCustomError(
                "loadpath",
                "'sheet' and 'washer' go together: pull-over depends on the sheet and on the diameter of the head",
            )
        if self.washer is not None and self.washer < self.diameter * INCH - SAME_LENGTH:
            context = {
                "given": both(self.washer, "small length"),
                "allowed": both(self.diameter * INCH, "small length"),
                "size": self.size,
            }
            sentence = "'washer' given with {given}; allowed is at least {allowed}, the diameter of a {size} screw"
            raise PydanticCustomError("loadpath", sentence, context)
        return self

    def modes(self) -> tuple[FailureMode, ...]:
        """Pull-out; pull-over if the sheet is given; the screw in tension if its allowable is given."""
        found = [self._lowest(self._pull_out)]
        if self.sheet is not None:
            found.append(self._lowest(self._pull_over))
        if self.screw_tension is not None:
            found.append(self._screw_itself("screw in tension", self.screw_tension, self.prying))
        return tuple(found)

    def shear_modes(self) -> tuple[FailureMode, ...]:
        """Tilting and bearing if the sheet is given, and then the screw in shear if its allowable is given."""
        if self.sheet is None:
            return ()
        found = [self._tilting_and_bearing()]
        if self.screw_shear is not None:
            found.append(self._screw_itself("screw in shear", self.screw_shear, prying=1.0))
        return tuple(found)

    @property
    def screw_count(self) -> int:
        """Number of screws."""
        return self.screws

    @property
    def covers_seam(self) -> bool:
        """False: the seam usually leaves its clip first."""
        return False

    def description(self) -> str:
        """Origin of the strength."""
        lowest = min(self.modes(), key=_allowable)
        stated = lowest.reference == SCENARIO
        source = "the maker's allowable" if stated else f"AISI S100 J4, safety factor {lowest.safety_factor:g}"
        return f"{self.screws} {self.size} screws in steel; {lowest.name} governs, by {source}"

    @property
    def diameter(self) -> float:
        """Nominal diameter d [in]."""
        return DIAMETER[self.size]

    @property
    def sheet_strength(self) -> float:
        """Fu of the sheet under the head [Pa]."""
        return self.sheet_tensile_strength or self.tensile_strength

    def _lowest(self, mode: Callable[[str], FailureMode]) -> FailureMode:
        """A mode by the chosen set of equations, or by the set with the smaller result."""
        return min(
            (mode(edition) for edition in (aisi_s100_j4.SETS if self.edition == LOWEST else (self.edition,))),
            key=_allowable,
        )

    def _pull_out(self, edition: str) -> FailureMode:
        steps: list[CalculationStep] = []
        fu2 = _effective_strength(self.tensile_strength, "Fu2", steps.append)
        one = aisi_s100_j4.pnot(self.into / INCH, self.diameter, fu2, edition, steps.append)
        source = aisi_s100_j4.PULL_OUT[edition]
        nominal = self._of_all_screws("Pnot", one, source, steps.append, prying=self.prying)
        cautions = _thin_grade_80("pull-out", self.into, self.tensile_strength)
        return FailureMode(
            "pull-out", nominal, aisi_s100_j4.PULL_OUT_FACTOR[edition], source, steps=tuple(steps), cautions=cautions
        )

    def _pull_over(self, edition: str) -> FailureMode:
        assert self.sheet is not None
        assert self.washer is not None
        steps: list[CalculationStep] = []
        fu1 = _effective_strength(self.sheet_strength, "Fu1", steps.append)
        one = aisi_s100_j4.pnov(self.sheet / INCH, self.washer / INCH, fu1, edition, steps.append)
        source = aisi_s100_j4.PULL_OVER[edition]
        kept = ONE_SIDED if self.eccentric == "yes" else 1.0
        nominal = self._of_all_screws("Pnov", one, source, steps.append, kept=kept, prying=self.prying)
        cautions = (*_thin_grade_80("pull-over", self.sheet, self.sheet_strength), *self._exchanged_keys())
        return FailureMode(
            "pull-over", nominal, aisi_s100_j4.PULL_OVER_FACTOR[edition], source, steps=tuple(steps), cautions=cautions
        )

    def _tilting_and_bearing(self) -> FailureMode:
        assert self.sheet is not None
        steps: list[CalculationStep] = []
        fu1, fu2 = (
            _effective_strength(self.sheet_strength, "Fu1", steps.append),
            _effective_strength(self.tensile_strength, "Fu2", steps.append),
        )
        one = aisi_s100_j4.pnv(self.sheet / INCH, self.into / INCH, self.diameter, fu1, fu2, steps.append)
        nominal = self._of_all_screws("Pnv", one, aisi_s100_j4.SHEAR, steps.append)
        cautions = (*_thin_grade_80("shear", self.sheet, self.sheet_strength), *self._exchanged_keys())
        return FailureMode(
            "tilting and bearing",
            nominal,
            aisi_s100_j4.SHEAR_FACTOR,
            aisi_s100_j4.SHEAR,
            steps=tuple(steps),
            cautions=cautions,
        )

    def _screw_itself(self, name: str, allowable: float, prying: float) -> FailureMode:
        """The screw itself; its nominal strength is the maker's allowable, with a safety factor of 1."""
        steps: list[CalculationStep] = []
        nominal = self._of_all_screws("Pss", allowable / POUND_FORCE / 1000, SCENARIO, steps.append, prying=prying)
        return FailureMode(name, nominal, 1.0, SCENARIO, steps=tuple(steps))

    def _of_all_screws(
        self, symbol: str, one: float, source: Reference, record: Recorder, *, kept: float = 1.0, prying: float = 1.0
    ) -> float:
        """Nominal strength of all screws [N] from that of one [kip], reduced for a one-sided pull and for prying."""
        pounds = self.screws * one * kept / prying * 1000
        terms = {"n": Term(self.screws), symbol: Term(one, "kip"), "kept": Term(kept), "prying": Term(prying)}
        equation = f"n * {symbol} * kept / prying * 1000"
        record(
            CalculationStep(
                "Rn",
                "all screws, reduced for a one-sided pull and for prying",
                Term(pounds, "lb"),
                equation,
                terms,
                source,
            )
        )
        return pounds * POUND_FORCE

    def _exchanged_keys(self) -> tuple[str, ...]:
        """A caution where the thread holds in thinner metal than the sheet: often the two keys are exchanged."""
        if self.sheet is None or self.into >= self.sheet:
            return ()
        return (
            "the thread holds in thinner metal than the sheet under the head: "
            "check that 'into' and 'sheet' are not exchanged",
        )


def _effective_strength(strength: float, symbol: str, record: Recorder) -> float:
    """Effective Fu [ksi] from Fu [Pa]; recorded where it is reduced."""
    fu = strength / KSI
    counted = aisi_s100_j4.counted_strength(fu)
    if counted < fu:
        meaning = "effective tensile strength of Grade 80 sheet"
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


def _thin_grade_80(mode: str, thickness: float, strength: float) -> tuple[str, ...]:
    """A caution for thin Grade 80 sheet; thickness [m], strength [Pa]."""
    if strength / KSI < aisi_s100_j4.GRADE_80 or thickness / INCH >= THIN:
        return ()
    sheet = f"{thickness / INCH:.4f} in, {strength / KSI:.0f} ksi"
    return (f"{mode}: sheet of {sheet} is outside the tests behind the equation: use a test of this sheet",)


def _allowable(mode: FailureMode) -> float:
    return mode.nominal / mode.safety_factor

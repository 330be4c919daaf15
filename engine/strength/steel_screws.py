"""The fourth way: screws in steel sheet, AISI S100 J4 (formerly E4).

Two sets of equations: editions to 2016, and the newer one. Which edition first has the newer set
was not confirmed, so the lower of the two is the default and the edition is a choice.
"""

from __future__ import annotations

import re
from typing import Annotated, Any, ClassVar

from pydantic import Field, model_validator
from pydantic_core import PydanticCustomError

from engine.described import Choice, Count, Kind, Number, Quantity
from engine.reference import SCENARIO, Confidence, Reference, Step, Term
from engine.strength.vocabulary import Mode, Way
from engine.units import INCH, KSI, POUND_FORCE

J4 = Reference("AISI S100", "2016", "J4.4", Confidence.SEVERAL)
J4_NEWER = Reference("AISI S100", "newer set", "J4.4", Confidence.SEVERAL)
DIAMETER = {"#8": 0.164, "#10": 0.190, "#12": 0.216, "#14": 0.242, "1/4 in": 0.250}
"""Screw name → nominal diameter [in]."""

SHEET = {"29 ga": 0.0135, "26 ga": 0.0179, "24 ga": 0.0239, "22 ga": 0.0299, "20 ga": 0.0359, "18 ga": 0.0478}
STRUCTURE = {"16 ga": 0.0598, "14 ga": 0.0747, "12 ga": 0.1046}
DELIVERED = 0.95
"""A thickness given by gauge counts so much of its nominal: delivered base metal may be that thin."""

OLD, NEW, LOWEST = "to 2016", "newer", "lowest"
EDITIONS = (LOWEST, OLD, NEW)
LARGEST_WASHER = 0.75
GRADE_80 = 80.0
"""From this tensile strength on, sheet counts as min(0.75 Fu, 62 ksi): Grade 80 stretches little."""

OLD_FACTOR, PULL_OUT_FACTOR, PULL_OVER_FACTOR = 3.0, 2.80, 2.90


class Thickness(Kind):
    """Base metal of sheet or purlin, by gauge ("26 ga", counted at 95 %) or in figures ("0.018 in")."""

    def read(self, written: object) -> float:
        """Thickness in metres."""
        words = " ".join(written.split()) if isinstance(written, str) else ""
        gauges = SHEET | STRUCTURE
        if words in gauges:
            return gauges[words] * DELIVERED * INCH
        if re.fullmatch(r"\d+ ?(ga|gauge)", words) or not isinstance(written, str):
            raise ValueError(f"{str(written)[:60]!r} given; {self.allowed}")
        return float(Quantity("length", "0.01 in", "0.5 in").read(written))

    @property
    def allowed(self) -> str:
        """What may be written."""
        return f"allowed is {', '.join(SHEET | STRUCTURE)}, or a thickness such as '0.036 in'"


def counted_strength(fu: float) -> float:
    """Fu as it counts in J4 [ksi]: Grade 80 sheet as min(0.75 Fu, 62 ksi)."""
    return min(0.75 * fu, 62.0) if fu >= GRADE_80 else fu


def pull_out(thickness: float, diameter: float, fu: float, edition: str) -> float:
    """Pnot of one screw, J4.4.1: 0.85 tc d Fu2, in the newer set x 1.63 tc^0.18 [kip].

    Args:
        thickness: tc, of the member the thread holds in [in].
        diameter: d [in].
        fu: Fu2 of that member, as it counts [ksi].
        edition: "to 2016" or "newer".
    """
    old = 0.85 * thickness * diameter * fu
    return float(old if edition == OLD else old * 1.63 * thickness**0.18)


def pull_over(thickness: float, washer: float, fu: float, edition: str) -> float:
    """Pnov of one screw, J4.4.2: 1.5 t1 d'w Fu1, in the newer set 0.90 t1 d'w Fu1 [kip].

    Args:
        thickness: t1, of the sheet under the head [in].
        washer: d'w, head or washer diameter, not above 3/4 in [in].
        fu: Fu1 of that sheet, as it counts [ksi].
        edition: "to 2016" or "newer".
    """
    return (1.5 if edition == OLD else 0.90) * thickness * min(washer, LARGEST_WASHER) * fu


def tilting_and_bearing(under: float, beneath: float, diameter: float, fu_under: float, fu_beneath: float) -> float:
    """Pnv of one screw in shear, J4.3.1, by t2/t1 [kip].

    Args:
        under: t1, the sheet under the head [in].
        beneath: t2, the member the thread holds in [in].
        diameter: d [in].
        fu_under: Fu1 [ksi].
        fu_beneath: Fu2 [ksi].
    """
    bearing = min(2.7 * under * diameter * fu_under, 2.7 * beneath * diameter * fu_beneath)
    tilting = min(4.2 * (beneath**3 * diameter) ** 0.5 * fu_beneath, bearing)
    ratio = beneath / under
    if ratio <= 1:
        return float(tilting)
    if ratio >= 2.5:
        return float(bearing)
    return float(tilting + (bearing - tilting) * (ratio - 1) / 1.5)


class SteelScrews(Way):
    """`{ screws = 2, size = "#12", into = "16 ga", tensile_strength = "65 ksi", sheet = "24 ga" }`."""

    signature: ClassVar[str] = "screws"
    screws: Annotated[int, Count(1, 50)] = Field(description="how many screws")
    size: Annotated[str, Choice(tuple(DIAMETER))] = Field(description="screw size by name")
    into: Annotated[float, Thickness()] = Field(description="what the thread holds in, by gauge or thickness")
    tensile_strength: Annotated[float, Quantity("stress", "30 ksi", "150 ksi")] = Field(description="Fu of what the thread holds in")
    sheet: Annotated[float, Thickness()] | None = Field(None, description="the sheet under the head; left out: pull-over is not a mode")
    sheet_tensile_strength: Annotated[float, Quantity("stress", "30 ksi", "150 ksi")] | None = Field(
        None, description="Fu of the sheet under the head; that of what the thread holds in unless stated"
    )
    washer: Annotated[float, Quantity("length", "0.1 in", "2 in")] | None = Field(None, description="diameter of head or washer")
    eccentric: Annotated[str, Choice(("no", "yes"))] = Field("no", description="whether the screw is pulled from one side, as by a clip")
    prying: Annotated[float, Number(1.0, 5.0)] = Field(1.0, description="how many times the clip's load its screws feel, from prying")
    edition: Annotated[str, Choice(EDITIONS)] = Field(LOWEST, description="which set of equations")
    screw_tension: Annotated[float, Quantity("force", "1 lb", "100 kip")] | None = Field(
        None, description="the screw maker's allowable in tension; left out: not a mode"
    )

    @model_validator(mode="after")
    def washer_with_sheet(self) -> SteelScrews:
        """Pull-over needs both the sheet and the head."""
        if (self.sheet is None) != (self.washer is None):
            raise PydanticCustomError("loadpath", "'sheet' and 'washer' go together: pull-over needs the sheet and the head's diameter")
        return self

    def modes(self) -> tuple[Mode, ...]:
        """Pull-out, pull-over where the sheet is known, and the screw itself where its strength is stated."""
        found = [self._lowest(self._pull_out)]
        if self.sheet is not None:
            found.append(self._lowest(self._pull_over))
        if self.screw_tension is not None:
            nominal = self.screws * self.screw_tension / self.prying
            found.append(
                Mode("screw in tension", nominal, 1.0, SCENARIO, steps=(_stated("Pss", "allowable tension of the screws", nominal),))
            )
        return tuple(found)

    def _lowest(self, mode: Any) -> Mode:
        editions = (OLD, NEW) if self.edition == LOWEST else (self.edition,)
        found: list[Mode] = [mode(edition) for edition in editions]
        return min(found, key=lambda one: one.nominal / one.safety_factor)

    def _pull_out(self, edition: str) -> Mode:
        t, d = self.into / INCH, DIAMETER[self.size]
        fu = counted_strength(self.tensile_strength / KSI)
        equation = "n * 0.85 * tc * d * Fu2 / prying * 1000" + ("" if edition == OLD else " * 1.63 * tc ** 0.18")
        terms = {"n": Term(self.screws), "tc": Term(t, "in"), "d": Term(d, "in"), "Fu2": Term(fu, "ksi"), "prying": Term(self.prying)}
        nominal = self.screws * pull_out(t, d, fu, edition) / self.prying
        factor = OLD_FACTOR if edition == OLD else PULL_OUT_FACTOR
        return self._mode("pull-out", "Pnot", equation, terms, nominal, factor, edition)

    def _pull_over(self, edition: str) -> Mode:
        t, washer = (self.sheet or 0.0) / INCH, min((self.washer or 0.0) / INCH, LARGEST_WASHER)
        fu = counted_strength((self.sheet_tensile_strength or self.tensile_strength) / KSI)
        held = 0.5 if self.eccentric == "yes" else 1.0
        equation = f"n * {1.5 if edition == OLD else 0.90} * t1 * dw * Fu1 * held / prying * 1000"
        terms = {
            "n": Term(self.screws),
            "t1": Term(t, "in"),
            "dw": Term(washer, "in"),
            "Fu1": Term(fu, "ksi"),
            "held": Term(held),
            "prying": Term(self.prying),
        }
        nominal = self.screws * pull_over(t, washer, fu, edition) * held / self.prying
        factor = OLD_FACTOR if edition == OLD else PULL_OVER_FACTOR
        return self._mode("pull-over", "Pnov", equation, terms, nominal, factor, edition)

    def _mode(self, name: str, symbol: str, equation: str, terms: dict[str, Term], kips: float, factor: float, edition: str) -> Mode:
        pounds = kips * 1000
        reference = J4 if edition == OLD else J4_NEWER
        steps = (
            Step(symbol, f"nominal {name} of the screws", Term(pounds, "lb"), equation, terms, reference),
            Step(
                "Ra",
                f"allowable {name}",
                Term(pounds / factor, "lb"),
                f"{symbol} / Omega",
                {symbol: Term(pounds, "lb"), "Omega": Term(factor)},
                reference,
            ),
        )
        return Mode(name, pounds * POUND_FORCE, factor, reference, steps=steps, cautions=tuple(self._cautions(name)))

    def _cautions(self, name: str) -> list[str]:
        """What lies outside the range in which the equations were tested."""
        said = []
        thickness = (self.into if name == "pull-out" else self.sheet or 0.0) / INCH
        strength = (self.tensile_strength if name == "pull-out" else self.sheet_tensile_strength or self.tensile_strength) / KSI
        if strength >= GRADE_80 and thickness < 0.017:
            said.append(f"{name}: sheet this thin and hard ({thickness:.4f} in, {strength:.0f} ksi) lies outside the equation's tests")
        if DIAMETER[self.size] > LARGEST_SCREW or DIAMETER[self.size] < SMALLEST_SCREW:
            said.append(
                f"{name}: a screw of {DIAMETER[self.size]:.3f} in lies outside the equation's range of "
                f"{SMALLEST_SCREW} to {LARGEST_SCREW} in"
            )
        return said

    def sentence(self) -> str:
        """How it was obtained."""
        modes = self.modes()
        least = min(modes, key=lambda mode: mode.nominal / mode.safety_factor)
        return f"{self.screws} {self.size} screws in steel by AISI S100 J4; {least.name} governs, divided by {least.safety_factor:g}"


SMALLEST_SCREW, LARGEST_SCREW = 0.08, 0.25


def _stated(symbol: str, meaning: str, force: float) -> Step:
    return Step(symbol, meaning, Term(force / POUND_FORCE, "lb"), "", {}, SCENARIO)

"""Drifts at a step in height: at rows of modules and parapets, ASCE 7 §7.8, and beside a higher roof, §7.7.

Lengths in feet, pressures in psf, both horizontal. A drift adds to balanced snow only.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from engine.common.calculation import CalculationStep, Recorder, Reference, Term
from engine.common.tolerances import SAME_RATIO
from engine.loads.asce7.references import clause, memory, single
from engine.loads.asce7.site import SEVEN_16, Site
from engine.loads.asce7.snow.balanced import importance
from engine.loads.asce7.snow.drift import SHORT_RUN, density, drift_height
from engine.loads.asce7.snow.surcharge import Profile
from engine.units import PSF

CUT_OFF = 0.2
"""No drift if hc/hb is smaller, §7.7.1."""

WINDWARD = 0.75
"""Height of a windward drift over that of Fig. 7.6-1, §7.7.1; also at parapets and projections, §7.8."""

LEE_SPREAD, WIND_SPREAD_22 = 4.0, 8.0
"""Width of a drift over its height, §7.7.1: leeward, and windward in 7-16; windward in 7-22."""

ADJACENT = 20.0
"""Distance from which no drift comes from a separate higher roof [ft], §7.7.2."""


@dataclass(frozen=True)
class Snowpack:
    """Balanced snow beside a step: smallest and largest pressure on the surfaces there [psf]."""

    site: Site
    smallest: float
    largest: float

    @property
    def density(self) -> float:
        """γ [pcf]."""
        return density(self.site)

    @property
    def depth(self) -> float:
        """hb, of the smallest snow: the step above it is then largest [ft]."""
        return self.smallest / self.density

    @property
    def deepest(self) -> float:
        """Depth of the largest balanced snow [ft]."""
        return self.largest / self.density

    def leaves(self, top: float) -> bool:
        """True if a step of height `top` [ft] rises far enough above the balanced snow: hc/hb ≥ 0.2, §7.7.1."""
        clear = top - self.depth
        return clear > 0 and clear >= (CUT_OFF - SAME_RATIO) * self.depth


@dataclass(frozen=True)
class Step:
    """A step: its height `top` above the roof, the fetch lu [ft], its clause and what it is, for the steps."""

    top: float
    fetch: float
    source: Reference
    name: str


def windward_profiles(pack: Snowpack, step: Step, *, at_wall: bool = False) -> tuple[Profile, ...]:
    """Drift of snow blown against the step, height 0.75 hd (n,).

    7-16: height h, width 4h; where h is more than hc: hc and 4h²/hc, at most 8hc. 7-22: width 8h.

    Args:
        pack: the balanced snow.
        step: the step; its fetch is that of the roof with the drift.
        at_wall: the step is the wall of a higher roof.

    Notes:
        7-22, h more than hc: public sources differ: (hc, 8h²/hc), (hc, 8h) or, at a wall, (h, 8h). Both the first and
        at a wall the last are given; of several the larger counts at each place.
    """
    if not pack.leaves(step.top):
        return ()
    steps = list[CalculationStep]()
    clear, height = _clear_height(pack, step, steps.append), WINDWARD * _height(pack, step.fetch, steps.append)
    edition = pack.site.standard
    terms = {"hd": steps[-1].result}
    steps.append(_step("h", "height of the windward drift", height, "0.75 * hd", terms, clause(edition, "§7.7.1")))
    if edition == SEVEN_16 or height <= clear:
        spread = LEE_SPREAD if edition == SEVEN_16 else WIND_SPREAD_22
        return (_profile(pack, step, steps, clear, height, spread),)
    cut = _profile(pack, step, steps, clear, height, WIND_SPREAD_22)
    return (cut, _uncut(pack, step, steps, height)) if at_wall else (cut,)


def leeward_profiles(pack: Snowpack, step: Step, distance: float) -> tuple[Profile, ...]:
    """Drift of snow blown off a higher roof, height hd, width 4h (or hc and 4h²/hc, at most 8hc), §7.7.1 (n,).

    Beside a separate roof, at a distance s [ft] below 20 ft and 6h: height min(hd, h - s/6), width min(6hd, 6h - s),
    from the edge of the lower roof, §7.7.2 (from memory).
    """
    steps = list[CalculationStep]()
    if not pack.leaves(step.top):
        return ()
    clear, height = _clear_height(pack, step, steps.append), _height(pack, step.fetch, steps.append)
    if distance <= 0:
        steps.append(_step("h", "height of the leeward drift", height, "hd", {"hd": steps[-1].result}, step.source))
        return (_profile(pack, step, steps, clear, height, LEE_SPREAD),)
    if distance >= min(ADJACENT, 6 * step.top):
        return ()
    return (_adjacent(pack, step, steps, clear, height, distance),)


def _clear_height(pack: Snowpack, step: Step, record: Recorder) -> float:
    """hc, from the balanced snow to the top of the step [ft], §7.7.1."""
    edition, gamma = pack.site.standard, density(pack.site, record)
    depth, clear = pack.depth, step.top - pack.depth
    terms = {"pb": Term(pack.smallest, "psf"), "gamma": Term(gamma, "pcf")}
    meaning = "depth of the balanced snow, the smaller of roof and modules"
    record(_step("hb", meaning, depth, "pb / gamma", terms, clause(edition, "§7.7.1")))
    terms = {"htop": Term(step.top, "ft"), "hb": Term(depth, "ft")}
    record(_step("hc", f"height of {step.name} above the balanced snow", clear, "htop - hb", terms, step.source))
    return clear


def _height(pack: Snowpack, fetch: float, record: Recorder) -> float:
    """hd, Fig. 7.6-1 [ft]; 7-16, lu below 20 ft: hd at 20 ft, at most √(Is pg lu/(4γ)). 7-22 has no smallest lu."""
    site, gamma, meaning = pack.site, pack.density, "height of the drift, before it is reduced"
    if site.standard != SEVEN_16 or fetch >= SHORT_RUN:
        return drift_height(site, gamma, fetch, record, meaning)
    at_20 = drift_height(site, gamma, SHORT_RUN, lambda step: None)
    factor, ground = importance(site), site.ground_snow / PSF
    height = min(at_20, math.sqrt(factor * ground * fetch / (4 * gamma)))
    terms = {
        "Is": Term(factor),
        "pg": Term(ground, "psf"),
        "lu": Term(fetch, "ft"),
        "gamma": Term(gamma, "pcf"),
        "l20": Term(SHORT_RUN, "ft"),
    }
    at_shortest = "sqrt(Is) * (0.43 * l20 ** (1 / 3) * (pg + 10) ** (1 / 4) - 1.5)"
    equation = f"min({at_shortest}, sqrt(Is * pg * lu / (4 * gamma)))"
    record(_step("hd", f"{meaning} (lu below 20 ft)", height, equation, terms, single(site.standard, "Fig. 7.6-1")))
    return height


def _profile(
    pack: Snowpack, step: Step, steps: list[CalculationStep], clear: float, height: float, spread: float
) -> Profile:
    """The drift of a height, cut off at hc: width `spread` x h, or spread x h²/hc; with spread 4 at most 8hc."""
    if height <= clear:
        width, equation, terms = spread * height, f"{spread:g} * h", {"h": Term(height, "ft")}
    else:
        width, equation = spread * height**2 / clear, f"{spread:g} * h ** 2 / hc"
        terms = {"h": Term(height, "ft"), "hc": Term(clear, "ft")}
    if height > clear and spread == LEE_SPREAD:
        width, equation = min(width, 8 * clear), f"min({equation}, 8 * hc)"
    source = clause(pack.site.standard, "§7.7.1")
    peak = pack.density * min(height, clear)
    weight = {"gamma": Term(pack.density, "pcf"), "h": Term(height, "ft"), "hc": Term(clear, "ft")}
    surcharge = _step("pd", f"drift surcharge at {step.name}", peak, "gamma * min(h, hc)", weight, step.source, "psf")
    drift = (*steps, _step("w", "width of the drift", width, equation, terms, source), surcharge)
    return Profile(peak, 0.0, width, step.source, drift, disputed=height > clear and spread != LEE_SPREAD)


def _uncut(pack: Snowpack, step: Step, steps: list[CalculationStep], height: float) -> Profile:
    """The drift of its full height, although it is higher than the step: one source's reading of 7-22."""
    edition, terms = pack.site.standard, {"h": Term(height, "ft")}
    peak, width, source = pack.density * height, 8 * height, single(edition, "§7.7.1")
    weight = terms | {"gamma": Term(pack.density, "pcf")}
    surcharge = _step("pd", f"drift surcharge at {step.name}", peak, "gamma * h", weight, source, "psf")
    drift = (*steps, _step("w", "width of the drift", width, "8 * h", terms, source), surcharge)
    return Profile(peak, 0.0, width, step.source, drift, disputed=True)


def _adjacent(
    pack: Snowpack, step: Step, steps: list[CalculationStep], clear: float, height: float, distance: float
) -> Profile:
    """The leeward drift on a separate lower roof, §7.7.2."""
    source = memory(pack.site.standard, "§7.7.2")
    cut = min(height, (6 * step.top - distance) / 6, clear)
    width = min(6 * height, 6 * step.top - distance)
    terms = {"hd": Term(height, "ft"), "htop": Term(step.top, "ft"), "s": Term(distance, "ft")}
    steps.append(
        _step(
            "h",
            "height of the drift on a separate roof",
            cut,
            "min(hd, (6 * htop - s) / 6, hc)",
            terms | {"hc": Term(clear, "ft")},
            source,
        )
    )
    steps.append(_step("w", "width of the drift", width, "min(6 * hd, 6 * htop - s)", terms, source))
    weight = {"gamma": Term(pack.density, "pcf"), "h": Term(cut, "ft")}
    peak = pack.density * cut
    surcharge = _step("pd", f"drift surcharge at {step.name}", peak, "gamma * h", weight, source, "psf")
    return Profile(peak, 0.0, width, step.source, (*steps, surcharge))


def _step(
    symbol: str, meaning: str, value: float, equation: str, terms: dict[str, Term], source: Reference, unit: str = "ft"
) -> CalculationStep:
    return CalculationStep(symbol, meaning, Term(value, unit), equation, terms, source)

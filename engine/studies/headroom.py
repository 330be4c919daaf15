"""How much wind and snow each method could still take, and what fastening it would need at the rail's own span.

Found on the same road that every other figure comes from: one input is changed until a link is just used up.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from engine.common.progress import ProgressListener, no_listener
from engine.comparison.compare import Comparison
from engine.design.design import Design, prepare
from engine.design.search import scan_spacings, widest_member_holds
from engine.design.trial import Candidate, DesignContext
from engine.links import Check, check_bare_roof, check_roof_fastening
from engine.mounting.interface import MountingMethod, Refusal
from engine.mounting.layout import Layout
from engine.scenario.read import Scenario
from engine.scenario.vary import VariedInput, bounds_at, number_at, with_change

LIMIT_REACHED = (
    VariedInput("site.wind_speed", "wind speed", "speed"),
    VariedInput("site.ground_snow", "ground snow", "pressure"),
)
FASTENING = "roof.fastening.uplift"
MAX_FACTOR = 5.0
"""Nothing is looked for beyond so many times what is stated."""

SNOW_MORE = 2400.0
"""But this much more snow, about 50 psf [Pa], where little or none is stated."""

ROOT_TOLERANCE = 1e-4
"""A crossing is found to this part of the range that is searched."""


@dataclass(frozen=True)
class CapacityMargin:
    """One input [SI]: as stated, and where the first link is just used up.

    `at` is None where nothing up to `searched` takes it there: the weakest link is then `over`, or held, throughout.
    """

    input: VariedInput
    stated: float
    searched: float
    at: float | None
    link: str
    over: bool


@dataclass(frozen=True)
class RequiredStrength:
    """What a fastening must be able to carry [N] for the roof to hold at the rail's own span [m], and can [N] as stated."""

    span: float
    fastening: str
    needed: float
    stated: float


@dataclass(frozen=True)
class Headroom:
    """One method as it is laid out."""

    id: str
    title: str
    spacing: str
    reaches: tuple[CapacityMargin, ...]
    needed: RequiredStrength | None


def headroom(comparison: Comparison, tell: ProgressListener = no_listener) -> tuple[Headroom, ...]:
    """Every method that was laid out and checked."""
    scenario = comparison.scenario
    return tuple(
        Headroom(
            column.id,
            column.title,
            column.spacing,
            tuple(_reaches(scenario, column.design, tell)),
            _needed(scenario, column.design),
        )
        for column in comparison.columns
        if column.design and column.design.candidate
    )


def _reaches(scenario: Scenario, design: Design, tell: ProgressListener) -> Iterator[CapacityMargin]:
    for asked in LIMIT_REACHED:
        stated = number_at(scenario, asked.path)
        if stated is None:
            continue
        tell(f"{design.title}: how much {asked.name}")
        _, most = bounds_at(scenario, asked.path)
        searched = min(MAX_FACTOR * stated + (SNOW_MORE if asked.dimension == "pressure" else 0.0), most)

        def weakest(value: float, path: str = asked.path) -> Check | None:
            return _weakest(with_change(scenario, path, lambda _: value), design)

        at = find_root(lambda value: _used(weakest(value)), 0.0, searched)
        found = weakest(stated if at is None else at)
        yield CapacityMargin(asked, stated, searched, at, found.title if found else "", _used(found) > 1)


def _weakest(scenario: Scenario | None, design: Design) -> Check | None:
    """The weakest link of a design's very layout in another scenario, the bare roof among the links."""
    candidate = _attempt(scenario, design.method, design.layout)
    if scenario is None or candidate is None:
        return None
    return max((candidate.weakest, check_bare_roof(candidate.demands)), key=_used)


def used_in(scenario: Scenario, design: Design) -> float | None:
    """How far the weakest link of a design's very layout is used in another scenario; None where nothing is checked there."""
    weakest = _weakest(scenario, design)
    return weakest.utilisation if weakest else None


def _used(check: Check | None) -> float:
    return check.used if check else 0.0


def _attempt(scenario: Scenario | None, method: MountingMethod, layout: Layout) -> Candidate | None:
    """A method's layout followed in another scenario; None where it cannot be."""
    context = prepare(scenario.job, method, scenario.standard) if scenario else None
    return context.candidate(layout) if isinstance(context, DesignContext) else None


def _needed(scenario: Scenario, design: Design) -> RequiredStrength | None:
    """For methods whose member spans: the strength of a fastening at which it is just used up at the member's own span.

    Of the method with its options as stated, as the comparison's span limits are, even where others were taken.
    """
    (stated,) = scenario.methods_named((design.method.id,))
    context = prepare(scenario.job, stated, scenario.standard)
    if not isinstance(context, DesignContext) or not stated.spacing_is_span:
        return None
    scanned = scan_spacings(context)
    widest = None if isinstance(scanned, Refusal) else widest_member_holds(scanned)
    if widest is None:
        return None
    layout = widest.layout

    def fastening(times: float) -> Check | None:
        candidate = _attempt(with_change(scenario, FASTENING, lambda one: times * one), stated, layout)
        return candidate.check(check_roof_fastening) if candidate else None

    now, times = fastening(1.0), find_root(lambda times: _used(fastening(times)), 1.0 / MAX_FACTOR, MAX_FACTOR)
    if now is None or now.resistance is None or times is None:
        return None
    return RequiredStrength(layout.longest_span, now.title, times * now.resistance, now.resistance)


def find_root(used: Callable[[float], float], low: float, high: float) -> float | None:
    """Where a function that rises, or falls, throughout meets 1; None where it does not between `low` and `high`.

    By false position, an end that stays halved (the Illinois rule): each step is a whole comparison, so few must do.
    """
    at_low, at_high = used(low) - 1, used(high) - 1
    if at_low * at_high > 0:
        return None
    width = high - low
    while high - low > ROOT_TOLERANCE * width:
        middle = low + (high - low) * min(max(at_low / (at_low - at_high), ROOT_TOLERANCE), 1 - ROOT_TOLERANCE)
        at_middle = used(middle) - 1
        if at_middle * at_low > 0:
            low, at_low, at_high = middle, at_middle, at_high / 2
        else:
            high, at_high, at_low = middle, at_middle, at_low / 2
        if abs(at_middle) < ROOT_TOLERANCE:
            return middle
    return (low + high) / 2

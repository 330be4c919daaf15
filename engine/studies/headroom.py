"""How much wind and snow each method could still take, and what fastening it would need at the rail's own span.

Found on the same road that every other figure comes from: one input is changed until a link is just used up.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from engine.common.progress import Tell, nobody
from engine.comparison.compare import Comparison
from engine.design.design import Design, prepare
from engine.design.search import as_the_member_spans, explore
from engine.design.trial import Attempt, Stage
from engine.links import Check, check_bare_roof, check_roof_fastening
from engine.mounting.interface import MountingMethod, Refusal
from engine.mounting.layout import Layout
from engine.scenario.read import Scenario
from engine.scenario.vary import Varied, bounds_of, changed, value_of

REACHED = (Varied("site.wind_speed", "wind speed", "speed"), Varied("site.ground_snow", "ground snow", "pressure"))
FASTENING = "roof.fastening.uplift"
MOST_TIMES = 5.0
"""Nothing is looked for beyond so many times what is stated."""

SNOW_MORE = 2400.0
"""But this much more snow, about 50 psf [Pa], where little or none is stated."""

CLOSE = 1e-4
"""A crossing is found to this part of the range that is searched."""


@dataclass(frozen=True)
class Reach:
    """One input [SI]: as stated, and where the first link is just used up.

    `at` is None where nothing up to `searched` takes it there: the weakest link is then `over`, or held, throughout.
    """

    input: Varied
    stated: float
    searched: float
    at: float | None
    link: str
    over: bool


@dataclass(frozen=True)
class Needed:
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
    reaches: tuple[Reach, ...]
    needed: Needed | None


def headroom(comparison: Comparison, tell: Tell = nobody) -> tuple[Headroom, ...]:
    """Every method that was laid out and checked."""
    scenario = comparison.scenario
    return tuple(
        Headroom(column.id, column.title, column.spacing, tuple(_reaches(scenario, column.design, tell)), _needed(scenario, column.design))
        for column in comparison.columns
        if column.design and column.design.attempt
    )


def _reaches(scenario: Scenario, design: Design, tell: Tell) -> Iterator[Reach]:
    for asked in REACHED:
        stated = value_of(scenario, asked.path)
        if stated is None:
            continue
        tell(f"{design.title}: how much {asked.name}")
        _, most = bounds_of(scenario, asked.path)
        searched = min(MOST_TIMES * stated + (SNOW_MORE if asked.dimension == "pressure" else 0.0), most)

        def weakest(value: float, path: str = asked.path) -> Check | None:
            return _weakest(changed(scenario, path, lambda _: value), design)

        at = crossing(lambda value: _used(weakest(value)), 0.0, searched)
        found = weakest(stated if at is None else at)
        yield Reach(asked, stated, searched, at, found.title if found else "", _used(found) > 1)


def _weakest(scenario: Scenario | None, design: Design) -> Check | None:
    """The weakest link of a design's very layout in another scenario, the bare roof among the links."""
    attempt = _attempt(scenario, design.method, design.layout)
    if scenario is None or attempt is None:
        return None
    return max((attempt.weakest, check_bare_roof(attempt.demands)), key=_used)


def used_in(scenario: Scenario, design: Design) -> float | None:
    """How far the weakest link of a design's very layout is used in another scenario; None where nothing is checked there."""
    weakest = _weakest(scenario, design)
    return weakest.utilisation if weakest else None


def _used(check: Check | None) -> float:
    return check.used if check else 0.0


def _attempt(scenario: Scenario | None, method: MountingMethod, layout: Layout) -> Attempt | None:
    """A method's layout followed in another scenario; None where it cannot be."""
    stage = prepare(scenario.job, method, scenario.standard) if scenario else None
    return stage.attempt(layout) if isinstance(stage, Stage) else None


def _needed(scenario: Scenario, design: Design) -> Needed | None:
    """For methods whose member spans: the strength of a fastening at which it is just used up at the member's own span.

    Of the method with its options as stated, as the comparison's span limits are, even where others were taken.
    """
    (stated,) = scenario.methods_named((design.method.id,))
    stage = prepare(scenario.job, stated, scenario.standard)
    if not isinstance(stage, Stage) or not stated.spans:
        return None
    explored = explore(stage)
    widest = None if isinstance(explored, Refusal) else as_the_member_spans(explored)
    if widest is None:
        return None
    layout = widest.layout

    def fastening(times: float) -> Check | None:
        attempt = _attempt(changed(scenario, FASTENING, lambda one: times * one), stated, layout)
        return attempt.check(check_roof_fastening) if attempt else None

    now, times = fastening(1.0), crossing(lambda times: _used(fastening(times)), 1.0 / MOST_TIMES, MOST_TIMES)
    if now is None or now.resistance is None or times is None:
        return None
    return Needed(layout.longest_span, now.title, times * now.resistance, now.resistance)


def crossing(used: Callable[[float], float], low: float, high: float) -> float | None:
    """Where a function that rises, or falls, throughout meets 1; None where it does not between `low` and `high`.

    By false position, an end that stays halved (the Illinois rule): each step is a whole comparison, so few must do.
    """
    at_low, at_high = used(low) - 1, used(high) - 1
    if at_low * at_high > 0:
        return None
    width = high - low
    while high - low > CLOSE * width:
        middle = low + (high - low) * min(max(at_low / (at_low - at_high), CLOSE), 1 - CLOSE)
        at_middle = used(middle) - 1
        if at_middle * at_low > 0:
            low, at_low, at_high = middle, at_middle, at_high / 2
        else:
            high, at_high, at_low = middle, at_middle, at_low / 2
        if abs(at_middle) < CLOSE:
            return middle
    return (low + high) / 2

"""Headroom: the wind and snow at which each method reaches its limit, and the strengths that its rail span needs.

One input is changed until the controlling link reaches a utilisation of 1; every figure comes from the same
calculation as the comparison.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import cache, partial

from engine.common.progress import ProgressListener, no_listener, part_of
from engine.common.tolerances import SAME_ROOT
from engine.common.vocabulary import Vocabulary
from engine.comparison.compare import Comparison
from engine.design.design import Design, prepare
from engine.design.search import scan_spacings, widest_member_holds
from engine.design.trial import Candidate, DesignContext
from engine.links import Check, Link, attachment, check_roof_alone, roof_fastening
from engine.mounting.interface import MountingMethod, Refusal
from engine.mounting.layout import Layout
from engine.scenario.read import Scenario
from engine.scenario.vary import VariedInput, bounds_at, number_at, with_change

LIMIT_REACHED = (
    VariedInput("site.wind_speed", "wind speed", "speed"),
    VariedInput("site.ground_snow", "ground snow", "pressure"),
)
FASTENING = "roof.fastening.uplift"
ATTACHMENT = "hardware.attachment_uplift"
MAX_FACTOR = 5.0
"""Limits are searched up to this multiple of the stated value [-]."""

SNOW_MORE = 2400.0
"""Ground snow added to the range that is searched, about 50 psf, because the stated value may be 0 [Pa]."""


@dataclass(frozen=True)
class CapacityMargin:
    """One input [SI]: its `stated` value, and the value `at` which the first link reaches its limit.

    `at` is None if that happens nowhere up to `searched`. The controlling `link` is then over its allowable at every
    value (`over`), or at none.
    """

    input: VariedInput
    stated: float
    searched: float
    at: float | None
    link: str
    over: bool


@dataclass(frozen=True)
class RequiredStrength:
    """Strength against uplift that a part of the roof needs at the rail span limit.

    `span`: rail span limit [m]; `part`: name of the part; `needed` and `stated`: its resistances [N],
    in the `words` of the load standard.
    """

    span: float
    part: str
    needed: float
    stated: float
    words: Vocabulary


@dataclass(frozen=True)
class Headroom:
    """Margins of one method with its layout unchanged, and the strengths needed at its rail span.

    `needed`: of the roof's fastening; `attachment_needed`: of the attachment, where it pierces the roof.
    """

    id: str
    title: str
    spacing: str
    reaches: tuple[CapacityMargin, ...]
    needed: RequiredStrength | None
    attachment_needed: RequiredStrength | None = None


def headroom(comparison: Comparison, tell: ProgressListener = no_listener) -> tuple[Headroom, ...]:
    """Headroom of every method that was checked."""
    checked = [(column, column.design) for column in comparison.columns if column.design and column.candidate]
    return tuple(
        Headroom(
            column.id,
            column.title,
            design.spacing_label,
            tuple(_margins(comparison.scenario_of(column), design, part_of(tell, number, len(checked)))),
            *_required_strengths(comparison.scenario_of(column), design),
        )
        for number, (column, design) in enumerate(checked, 1)
    )


def _margins(scenario: Scenario, design: Design, tell: ProgressListener) -> Iterator[CapacityMargin]:
    """Margin of each input in `LIMIT_REACHED` that the scenario states."""
    for varied in LIMIT_REACHED:
        stated = number_at(scenario, varied.path)
        if stated is not None:
            tell(f"{design.title}: limit of {varied.name}")
            yield _margin(scenario, design, varied, stated)


def _margin(scenario: Scenario, design: Design, varied: VariedInput, stated: float) -> CapacityMargin:
    """Margin of one input with its stated value [SI]: upward where the layout holds, else downward.

    At lower values it need not be monotonic: members were designed for the stated snow, and less is an allowance less.
    """
    _, upper_bound = bounds_at(scenario, varied.path)
    searched = min(MAX_FACTOR * stated + (SNOW_MORE if varied.dimension == "pressure" else 0.0), upper_bound)

    @cache  # the ends of the search and its result are asked for again
    def controlling(value: float) -> Check | None:
        return _controlling_check(with_change(scenario, varied.path, lambda _: value), design)

    holds = _utilisation(controlling(stated)) <= 1
    at = find_root(lambda value: _utilisation(controlling(value)), *((stated, searched) if holds else (0.0, stated)))
    check = controlling(stated if at is None else at)
    return CapacityMargin(varied, stated, searched, at, check.title if check else "", _utilisation(check) > 1)


def _controlling_check(scenario: Scenario | None, design: Design) -> Check | None:
    """The controlling check of a design's layout in another scenario, the roof alone included; None if not checked."""
    candidate = _candidate_in(scenario, design.method, design.layout)
    if candidate is None:
        return None
    return max((candidate.controlling, check_roof_alone(candidate.demands)), key=_utilisation)


def utilisation_in(scenario: Scenario, design: Design) -> float | None:
    """Utilisation of the controlling link of a design's layout in another scenario [-]; None if nothing is checked."""
    check = _controlling_check(scenario, design)
    return check.utilisation if check else None


def _utilisation(check: Check | None) -> float:
    """Utilisation of a check [-], 0 if there is none."""
    return check.ratio if check else 0.0


def _candidate_in(scenario: Scenario | None, method: MountingMethod, layout: Layout) -> Candidate | None:
    """Candidate of a method's layout in another scenario; None if the method is refused or outside the scope there."""
    context = prepare(scenario.job, method, scenario.standard) if scenario else None
    return context.candidate(layout) if isinstance(context, DesignContext) else None


def _required_strengths(scenario: Scenario, design: Design) -> tuple[RequiredStrength | None, RequiredStrength | None]:
    """Strengths of fastening and attachment needed at the rail span limit; None for one that does not limit the roof.

    The method has its options as stated, like the span limits of the comparison, even if a remedy was taken.
    """
    (stated,) = scenario.methods_named((design.method.id,))
    context = prepare(scenario.job, stated, scenario.standard)
    if not isinstance(context, DesignContext) or not stated.spacing_is_span:
        return None, None
    scanned = scan_spacings(context)
    widest = None if isinstance(scanned, Refusal) else widest_member_holds(scanned)
    if widest is None:
        return None, None
    unknown = scenario.job.roof.fastening.uplift is None
    at_span = partial(_required_strength, scenario, stated, widest.layout)
    fastening = None if unknown else at_span(roof_fastening.LINK, FASTENING)
    return fastening, at_span(attachment.LINK, ATTACHMENT)


def _required_strength(
    scenario: Scenario, method: MountingMethod, layout: Layout, link: Link, path: str
) -> RequiredStrength | None:
    """Strength of a link needed in a layout; None if it does not limit the roof, or no strength suffices.

    Args:
        scenario: the scenario.
        method: the method with its options as stated.
        layout: its layout at the rail span limit.
        link: the link.
        path: of its strength against uplift in the scenario.
    """
    if not link.limits_roof(scenario.job):
        return None

    @cache
    def check_at(factor: float) -> Check | None:
        candidate = _candidate_in(with_change(scenario, path, lambda value: factor * value), method, layout)
        return candidate.check(link) if candidate else None

    def strength_in_use(factor: float) -> float:
        """The reciprocal of the utilisation, because that is a straight line."""
        return 1 / max(_utilisation(check_at(factor)), SAME_ROOT)

    factor = find_root(strength_in_use, 1.0 / MAX_FACTOR, MAX_FACTOR)
    at_limit = check_at(factor) if factor else None
    if factor is None or at_limit is None or not at_limit.loads:
        return None
    resistance = at_limit.loads[0].resistance
    words = scenario.job.words
    return RequiredStrength(layout.longest_span, at_limit.title, resistance, resistance / factor, words)


def find_root(utilisation: Callable[[float], float], low: float, high: float) -> float | None:
    """Value between `low` and `high` at which a monotonic function is 1; None if there is none.

    By false position. The value at an end that stays twice in a row is halved (the Illinois rule), so that both ends
    close in and few steps are needed: each of them is a whole calculation.
    """
    at_low, at_high = utilisation(low) - 1, utilisation(high) - 1
    if at_low * at_high > 0:
        return None
    width, moved = high - low, ""
    while high - low > SAME_ROOT * width:
        # Kept off both ends: a root at an end would otherwise shrink the range by nothing.
        middle = low + (high - low) * min(max(at_low / (at_low - at_high), SAME_ROOT), 1 - SAME_ROOT)
        at_middle = utilisation(middle) - 1
        if abs(at_middle) < SAME_ROOT:
            return middle
        if at_middle * at_low > 0:
            low, at_low, at_high, moved = middle, at_middle, at_high / (2 if moved == "low" else 1), "low"
        else:
            high, at_high, at_low, moved = middle, at_middle, at_low / (2 if moved == "high" else 1), "high"
    return (low + high) / 2

"""What happens to every link as attachments move apart: the trainer's table."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace

import numpy as np

from engine.common.arrays import Floats
from engine.common.progress import ProgressListener, no_listener
from engine.comparison.compare import Column, column_of
from engine.design.design import Design, Refused, make_design, prepare
from engine.design.search import SpanLimits, scan_spacings, span_limits
from engine.design.trial import Candidate, DesignContext
from engine.design.verdict import span_sentence, verdict_sentence
from engine.links import Check
from engine.mounting.interface import MountingMethod, Refusal
from engine.mounting.layout import Layout
from engine.scenario.read import Scenario

BEYOND = 2
"""So many spacings are shown beyond the first that neither member nor roof can take."""

SAME_LEVEL = 1e-6
"""Points closer than this across the member stand in one row [m]."""


@dataclass(frozen=True, eq=False)
class Elevation:
    """The row with the most loaded attachment, seen from the side; places along it, from the rake or the eave [m].

    `members` (B, 2): from where to where each rail, rack or module edge of the row reaches; `at` (N,): its
    attachments; `force` (N,): the largest load each of them brings to the roof [N].
    """

    members: Floats
    at: Floats
    force: Floats


@dataclass(frozen=True, eq=False)
class SpacingRow:
    """One spacing: its words, the longest span [m], how many points, what they bring [N], every link, the hardware's price.

    `sentence` says in plain words what holds; `at_largest_uplift` and `at_largest_down_load` are the rows where that is most; `design` is all of it.
    """

    words: str
    sentence: str
    span: float
    attachments: int
    attachment_up: float
    attachment_down_load: float
    links: tuple[Check, ...]
    hardware_cost: float
    at_largest_uplift: Elevation
    at_largest_down_load: Elevation
    design: Design


@dataclass(frozen=True, eq=False)
class SpacingStudy:
    """One method over all its spacings, closest first; `sentence` says both limits, or why there is nothing to show.

    `first_failure`: link → the first spacing at which it is over, in words. `member` is what carries the modules
    between attachments; `up`: it runs up the slope. `crossed_at` (Q,): the ribs it crosses, or the roof's fastenings
    where it runs up the slope [m].
    """

    id: str
    title: str
    sentence: str
    rows: tuple[SpacingRow, ...] = ()
    limits: SpanLimits | None = None
    first_failure: Mapping[str, str] | None = None
    member: str = ""
    up: bool = False
    crossed_at: Floats = field(default_factory=lambda: np.empty(0))


def study(
    scenario: Scenario, only: tuple[str, ...] = (), tell: ProgressListener = no_listener
) -> tuple[SpacingStudy, ...]:
    """Study every method, or only those named by id."""
    return tuple(_study(scenario, method, tell) for method in scenario.methods_named(only))


def column_at(scenario: Scenario, method: str, number: int, tell: ProgressListener = no_listener) -> Column | None:
    """One spacing of a study as a column of a comparison; `number` counts from the closest, from 0."""
    for studied in study(scenario, (method,), tell):
        if number < len(studied.rows):
            row = studied.rows[number]
            return replace(column_of(scenario, row.design), title=f"{studied.title}, {row.words}")
    return None


def _study(scenario: Scenario, method: MountingMethod, tell: ProgressListener) -> SpacingStudy:
    job, title = scenario.job, method.title(scenario.job)
    context = prepare(job, method, scenario.standard, tell)
    if not isinstance(context, DesignContext):
        reason = context.refusal.reason if isinstance(context, Refused) else str(context.loads.outside[0])
        return SpacingStudy(method.id, title, reason)
    candidates = scan_spacings(replace(context, keep_demands=True), BEYOND)
    if isinstance(candidates, Refusal):
        return SpacingStudy(method.id, title, candidates.reason)
    rows = tuple(_spaced(context, candidate) for candidate in candidates)
    limits = span_limits(candidates) if method.spacing_is_span else None
    sentence = span_sentence(job, candidates[0].layout.member, limits) if limits else _held(rows)
    member = candidates[0].layout.member
    crossed_at = job.roof.supports(job.building) if member.up else job.roof.ribs(job.building)
    return SpacingStudy(
        method.id, title, sentence, rows, limits, _first_failure(rows), member.link, member.up, crossed_at
    )


def _spaced(context: DesignContext, candidate: Candidate) -> SpacingRow:
    demands, layout = candidate.demands, candidate.layout
    return SpacingRow(
        context.method.spacing_label(layout, context.job),
        verdict_sentence(context.job, candidate),
        layout.longest_span,
        len(layout.attachments),
        float(demands.attachment_up.max()),
        float(demands.attachment_down_load.max()),
        candidate.checks,
        candidate.bill.hardware_cost,
        _elevation(layout, demands.attachment_up),
        _elevation(layout, demands.attachment_down_load),
        make_design(context, candidate, None),
    )


def _elevation(layout: Layout, force: Floats) -> Elevation:
    """The row of attachments with the largest of these forces (P,)."""
    along, across = layout.member.on_roof(layout.attachments.x, layout.attachments.y)
    level = across[int(np.argmax(force))]
    row = np.flatnonzero(np.abs(across - level) < SAME_LEVEL)
    row = row[np.argsort(along[row])]
    members = [
        (lines.start, lines.end)
        for lines in layout.lines
        if (np.abs(lines.across[:, None] + [foot.offset for foot in lines.feet] - level) < SAME_LEVEL).any()
    ]
    return Elevation(np.array(sorted(members)), along[row], force[row])


def _held(rows: Sequence[SpacingRow]) -> str:
    """For a method whose spacing is no span: which of its spacings hold, sparsest first."""
    held = [row.words for row in reversed(rows) if all(check.holds for check in row.links)]
    return f"holds with {', '.join(held)}" if held else "holds with none of its spacings"


def _first_failure(rows: Sequence[SpacingRow]) -> dict[str, str]:
    first: dict[str, str] = {}
    for row in rows:
        for check in row.links:
            if not check.holds:
                first.setdefault(check.title, row.words)
    return first

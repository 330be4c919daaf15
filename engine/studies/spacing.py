"""Spacing study: the utilisation of every link at every attachment spacing, for training."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace

import numpy as np

from engine.common.arrays import Floats, Ints
from engine.common.progress import ProgressListener, counted, no_listener
from engine.common.tolerances import SUMMED_LENGTH
from engine.comparison.compare import Column, column_of
from engine.design.design import Design, Refused, make_design, prepare
from engine.design.search import SPACINGS_BEYOND_LIMITS, SpanLimits, scan_spacings, span_limits
from engine.design.trial import DesignContext
from engine.design.unknown_places import worst_job
from engine.design.verdict import span_sentence, verdict_sentence
from engine.links import Check
from engine.mounting.interface import MountingMethod, Refusal
from engine.mounting.layout import Layout, Member
from engine.mounting.places import places_along_eave
from engine.project.job import Job
from engine.scenario.read import Scenario
from engine.units import ordered


@dataclass(frozen=True, eq=False)
class Elevation:
    """Elevation of the row with the most loaded attachment; positions along it from the rake or the eave [m].

    `members` (B, 2): both ends of each rail, rack or module edge of the row; `attachment` (N,): numbers of its
    attachments; `at` (N,): their positions; `force` (N,): the largest force of each on the roof [N].
    """

    members: Floats
    attachment: Ints
    at: Floats
    force: Floats


@dataclass(frozen=True, eq=False)
class SpacingRow:
    """One spacing of a study.

    `label`: the spacing in words; `sentence`: the verdict; `span`: the longest span [m]; `attachments`: their number;
    `attachment_up` and `attachment_down_load`: largest forces of one attachment [N]; `links`: the checks of all links;
    `at_largest_uplift` and `at_largest_down_load`: the rows of attachments with these forces. `moved` [m]: how far the
    array is moved along its rows, in a study of its places; else None.
    """

    label: str
    sentence: str
    span: float
    attachments: int
    attachment_up: float
    attachment_down_load: float
    checks: Mapping[str, Check]
    member_utilisation: float | None
    roof_utilisation: float | None
    hardware_cost: float
    at_largest_uplift: Elevation
    at_largest_down_load: Elevation
    design: Design
    moved: float | None = None


@dataclass(frozen=True, eq=False)
class SpacingStudy:
    """One method at all its spacings, closest first; or at one spacing, with its array moved.

    `sentence` states the span limits, or the reason why there are no rows. `first_failure`: title of a link → words of
    the first spacing at which it fails. `member`: id of the member that carries the modules; `runs_up_slope`: it does
    not run along the eave. `crossed_at` (Q,) [m]: the ribs that members along the eave cross, or the fastenings that
    those up the slope cross.
    """

    id: str
    title: str
    sentence: str
    rows: tuple[SpacingRow, ...] = ()
    limits: SpanLimits | None = None
    first_failure: Mapping[str, str] | None = None
    member: str = ""
    runs_up_slope: bool = False
    crossed_at: Floats = field(default_factory=lambda: np.empty(0))


def study(
    scenario: Scenario, only: tuple[str, ...] = (), tell: ProgressListener = no_listener
) -> tuple[SpacingStudy, ...]:
    """Spacing studies of all methods, or only of those with the ids in `only`."""
    return tuple(_study(scenario, method, tell) for method in scenario.methods_named(only))


def column_at(scenario: Scenario, method: str, number: int, tell: ProgressListener = no_listener) -> Column | None:
    """Column of one spacing of a study, `number` counted from 0 at the closest; None if there is no such spacing."""
    for studied in study(scenario, (method,), tell):
        if number < len(studied.rows):
            row = studied.rows[number]
            return replace(column_of(row.design), title=f"{studied.title}, {row.label}")
    return None


def row_of(studied: SpacingStudy, column: Column) -> int:
    """Number of the spacing of a column in a study, else of the one with the most similar number of attachments."""
    design = column.design
    label, count = (design.spacing_label, len(design.layout.attachments)) if design else ("", 0)
    apart = [(row.label != label, abs(row.attachments - count)) for row in studied.rows]
    return apart.index(min(apart))


def _study(scenario: Scenario, method: MountingMethod, tell: ProgressListener) -> SpacingStudy:
    """Spacing study of one method, on a roof that nobody has surveyed at the places that are worst for it."""
    job, title = worst_job(scenario.job, method, scenario.standard, tell), method.title(scenario.job)
    context = prepare(job, method, scenario.standard, tell)
    if not isinstance(context, DesignContext):
        reason = context.refusal.reason if isinstance(context, Refused) else str(context.loads.outside[0])
        return SpacingStudy(method.id, title, reason)
    most = len(method.candidate_spacings(job, context.field))
    context = replace(context, keep_demands=True, tell=counted(tell, most))
    candidates = scan_spacings(context, SPACINGS_BEYOND_LIMITS)
    if isinstance(candidates, Refusal):
        return SpacingStudy(method.id, title, candidates.reason)
    rows = tuple(row_of_design(make_design(context, candidate, None)) for candidate in candidates)
    limits = span_limits(candidates) if method.spacing_is_span else None
    member = candidates[0].layout.member
    sentence = span_sentence(job, member, limits) if limits else _spacings_that_hold(rows)
    return SpacingStudy(
        id=method.id,
        title=title,
        sentence=ordered(sentence, scenario.standard.system),
        rows=rows,
        limits=limits,
        first_failure=_first_failure(rows),
        member=member.link,
        runs_up_slope=member.runs_up_slope,
        crossed_at=crossed_by(member, job),
    )


def crossed_by(member: Member, job: Job) -> Floats:
    """Positions of what a member crosses [m]: the ribs along the eave, or the fastenings up the slope."""
    return job.roof.supports(job.building) if member.runs_up_slope else places_along_eave(job).x


def row_of_design(design: Design, moved: float | None = None) -> SpacingRow:
    """The row of a design that was checked, with its array moved [m] or where it is stated."""
    candidate = design.candidate
    if candidate is None:
        raise ValueError("a design outside the standard's scope has no loads to show")
    demands, layout = candidate.demands, candidate.layout
    return SpacingRow(
        label=design.spacing_label,
        sentence=verdict_sentence(design.job, candidate),
        span=layout.longest_span,
        attachments=len(layout.attachments),
        attachment_up=float(demands.attachment_up.max()),
        attachment_down_load=float(demands.attachment_down_load.max()),
        checks=candidate.checks,
        member_utilisation=candidate.member_check.utilisation,
        roof_utilisation=candidate.roof_check.utilisation,
        hardware_cost=candidate.bill.hardware_cost,
        at_largest_uplift=elevation(layout, demands.attachment_up),
        at_largest_down_load=elevation(layout, demands.attachment_down_load),
        design=design,
        moved=moved,
    )


def elevation(layout: Layout, force: Floats) -> Elevation:
    """Elevation of the row with the largest of the attachments' forces (P,) [N]."""
    along, across = layout.member.on_roof(layout.attachments.x, layout.attachments.y)
    level = across[int(np.argmax(force))]
    row = np.flatnonzero(np.abs(across - level) < SUMMED_LENGTH)
    row = row[np.argsort(along[row])]
    members = []
    for lines in layout.lines:
        levels = lines.across[:, None] + [foot.offset for foot in lines.feet]
        if (np.abs(levels - level) < SUMMED_LENGTH).any():
            members.append((lines.start, lines.end))
    return Elevation(np.array(sorted(members)), row, along[row], force[row])


def _spacings_that_hold(rows: Sequence[SpacingRow]) -> str:
    """Sentence that lists the spacings that hold, fewest attachments first, for a method whose spacing is no span."""
    holding = [row.label for row in reversed(rows) if all(check.holds for check in row.checks.values())]
    return f"Holds at {', '.join(holding)}" if holding else "Fails at every spacing"


def _first_failure(rows: Sequence[SpacingRow]) -> dict[str, str]:
    """Title of each link that fails → words of the first spacing at which it fails."""
    first: dict[str, str] = {}
    for row in rows:
        for check in row.checks.values():
            if not check.holds:
                first.setdefault(check.title, row.label)
    return first

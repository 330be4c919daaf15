"""Modules straight on the ribs: landscape, long edges held where they cross a seam or rib."""

from __future__ import annotations

from itertools import combinations
from math import comb
from typing import Annotated, ClassVar, Self

import numpy as np

from engine.common.arrays import Floats, Ints, first_minimum, group_nearby
from engine.mounting.influence import SAME_PLACE, build_layout, shares_of_lines
from engine.mounting.interface import PartQuantity, Refusal, SpacingField, SpacingRule
from engine.mounting.layout import Field, Layout, Member, SpacingPattern, SupportLines
from engine.mounting.line_position import find_line_position
from engine.mounting.module_grid import in_landscape, place
from engine.mounting.spacing_pattern import describe_strips
from engine.project.job import Job
from engine.schema import InputTable, input_field
from engine.statics.continuous_beam import UnitForces, solve_beams
from engine.units import both

MAX_CHOICES = 300
"""Up to so many ways to choose crossings are all looked at."""

MIN_SHARE = 0.05
"""A crossing that takes less than this of its edge's load carries next to nothing: not counted on."""


MEMBER = Member("module_frame", None, clamped=False)


class Direct(InputTable):
    """No rails: each long edge is its own small beam on two or more crossings; neighbours share points."""

    id: ClassVar[str] = "direct"
    spans: ClassVar[bool] = False
    spacing: Annotated[SpacingRule, SpacingField("per edge", by_span=False)] = input_field(
        "fewest", description="how many points hold each long edge"
    )

    def title(self, job: Job) -> str:
        """What people call it on this roof."""
        return f"modules on {job.roof.rib_word}s"

    def refusal_of_roof(self, job: Job) -> Refusal | None:
        """Two crossings must fit in the stretch of the edge that may be supported."""
        room = job.module.length - 2 * job.module.edge_support[0]
        if room < job.roof.rib_spacing:
            return Refusal(
                "too_few_ribs",
                f"the supportable stretch of a module's long edge is {both(room, 'small length')} and {job.roof.rib_word}s stand "
                f"{both(job.roof.rib_spacing, 'small length')} apart: an edge cannot stand on two",
            )
        return None

    def place(self, job: Job) -> Field | Refusal:
        """The array as it is counted: landscape."""
        return place(job, *in_landscape(job), None, by_column=True)

    def candidate_spacings(self, job: Job, field: Field) -> tuple[int, ...]:
        """Points per edge, from two to as many ribs as an edge can cross."""
        room = job.module.length - 2 * job.module.edge_support[0]
        return tuple(range(2, max(3, int(room / job.roof.rib_spacing) + 2)))

    def lay_out(self, job: Job, field: Field, pattern: SpacingPattern, minimum: int) -> Layout | Refusal:
        """Every long edge on as many crossings as are asked for, or on all it has where it has fewer."""
        ribs, height = job.roof.ribs(job.building), job.hardware.attachment_height
        missed = self._misses_supports(job, field)
        if missed:
            return missed
        half_gap, depth = field.gap / 2, float(field.outlines.high[0] - field.outlines.low[0])
        edges = np.array([-half_gap, depth + half_gap])
        share, couple = shares_of_lines(edges, 0.0, depth, field.attitude.middle - height)
        lines: list[SupportLines] = []
        for left, modules in columns_of(field):
            column = _edge_lines(field, modules, edges, share, couple)
            asked = _asked_by_edges(column.across, np.repeat(pattern.at_modules[modules].astype(np.int64), 2))
            for min_attachments in np.unique(asked):
                chosen = best_crossings(job, left, ribs, int(min_attachments))
                if isinstance(chosen, Refusal):
                    return chosen
                lines.append(column.some(asked == min_attachments, chosen))
        return build_layout(pattern, MEMBER, lines, ribs, height)

    def _misses_supports(self, job: Job, field: Field) -> Refusal | None:
        """Brackets fastened to the structure need a support within every gap that edges share."""
        for edge in np.unique(np.concatenate([field.outlines.low - field.gap, field.outlines.high])):
            place = find_line_position(job, float(edge), float(edge + field.gap), "a module's long edge")
            if isinstance(place, Refusal):
                return place
        return None

    def remedies(self) -> tuple[Self, ...]:
        """None but more points per edge, which the search looks at anyway."""
        return ()

    def parts_needed(self, job: Job, field: Field, layout: Layout) -> tuple[PartQuantity, ...]:
        """Attachments, and on each the hook that holds the edges."""
        return PartQuantity("attachment", "attachments", len(layout.attachments)), PartQuantity(
            "module_hook", "module hooks", len(layout.attachments)
        )

    def spacing_label(self, layout: Layout, job: Job) -> str:
        """The spacing in words."""
        most = max(len(lines.stands_on) for lines in layout.lines)
        return describe_strips(layout.pattern, lambda min_attachments: f"{min(min_attachments, most):.0f} per edge")


def columns_of(field: Field) -> list[tuple[float, Ints]]:
    """The columns of the field: left edge [m] and modules of each."""
    lefts, column = np.unique(np.rint(field.outlines.left * 1e6), return_inverse=True)
    return [(float(left) / 1e6, np.flatnonzero(column == number)) for number, left in enumerate(lefts)]


def _asked_by_edges(y: Floats, min_attachments: Ints) -> Ints:
    """How many points each edge asks for (n,): edges of neighbours that share points ask for the most that either does."""
    _, edge = group_nearby(y, SAME_PLACE)
    most = np.zeros(edge.max() + 1, dtype=np.int64)
    np.maximum.at(most, edge, min_attachments)
    return most[edge]


def _edge_lines(field: Field, modules: Ints, edges: Floats, share: Floats, couple: Floats) -> SupportLines:
    """Both long edges of every module of a column, each a small beam evenly loaded, on no ribs yet."""
    left, right = field.outlines.left[modules[:1]], field.outlines.right[modules[:1]]
    depth = float(field.outlines.high[modules[0]] - field.outlines.low[modules[0]])
    return SupportLines(
        across=(field.outlines.low[modules][:, None] + edges).ravel(),
        stands_on=np.empty(0, dtype=np.int64),
        start=float(left[0]),
        end=float(right[0]),
        load_start=left,
        load_end=right,
        clamp=np.array([0]),
        module=np.repeat(modules, 2)[:, None],
        share=np.tile(share, len(modules)),
        couple=np.tile(couple, len(modules))[:, None],
        width=depth / 2,
    )


def best_crossings(job: Job, left: float, ribs: Floats, min_attachments: int) -> Ints | Refusal:
    """The crossings with the smallest largest share of an edge's load.

    Args:
        job: the job.
        left: the edge's left end [m].
        ribs: every rib's place [m].
        min_attachments: points per edge; an edge with fewer useful crossings stands on all of them.
    """
    (nearest, farthest), length = job.module.edge_support, job.module.length
    from_corner = np.minimum(ribs - left, left + length - ribs)
    crossed = np.flatnonzero((from_corner >= nearest - 1e-9) & (from_corner <= farthest + 1e-9))
    stretches = f"{both(nearest, 'small length')} to {both(farthest, 'small length')} from a corner"
    refusal = Refusal(
        "too_few_ribs",
        f"the long edges of the modules {both(left, 'length')} from the rake cross {len(crossed)} {job.roof.rib_word}s in the stretches "
        f"that may be supported ({stretches}): no two of them hold an edge",
    )
    if len(crossed) < 2:
        return refusal
    choices = _choices(crossed, min(min_attachments, len(crossed)))
    largest = _largest_shares(ribs[choices], left, length)
    best = first_minimum(largest)
    if largest[best] < 1:
        return np.asarray(choices[best])
    return best_crossings(job, left, ribs, min_attachments - 1) if min_attachments > 2 else refusal


def _choices(crossed: Ints, count: int) -> Ints:
    """Ways to choose `count` of the crossings (n, count): all, or where they are too many the evenly spread ones."""
    if comb(len(crossed), count) <= MAX_CHOICES:
        return np.array(list(combinations(crossed.tolist(), count)))
    spread = {
        tuple(np.rint(np.linspace(first, last, count)).astype(int))
        for first, last in combinations(range(len(crossed)), 2)
        if last - first >= count - 1
    }
    return np.asarray(crossed[np.array(sorted(spread))])


def _largest_shares(supports: Floats, left: float, length: float) -> Floats:
    """The largest part of an evenly loaded edge that any of its supports takes, for each choice of supports (n, S)."""
    start = np.full((len(supports), 1), left)
    shares = solve_beams(supports, UnitForces(start, start + length)).reactions[:, :, 0]
    worst: Floats = np.where(shares.min(axis=1) < MIN_SHARE, shares.max(axis=1) + 1.0, shares.max(axis=1))
    return worst

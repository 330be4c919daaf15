"""Modules straight on the ribs: landscape, long edges held where they cross a seam or rib."""

from __future__ import annotations

from itertools import combinations
from math import comb
from typing import Annotated, ClassVar, Self

import numpy as np

from engine.common.arrays import Floats, Ints, grouped, least
from engine.mounting.influence import SAME_PLACE, assemble, share_among
from engine.mounting.interface import Need, Refusal, Spacing, SpacingKind
from engine.mounting.layout import Field, Layout, Member, Pattern, SupportLines
from engine.mounting.line_position import standing_place
from engine.mounting.module_grid import in_landscape, place
from engine.mounting.spacing_pattern import in_words
from engine.project.job import Job
from engine.schema import Described, entry
from engine.statics.continuous_beam import Spread, respond
from engine.units import both

MOST_CHOICES = 300
"""Up to so many ways to choose crossings are all looked at."""

LEAST_PART = 0.05
"""A crossing that takes less than this of its edge's load carries next to nothing: not counted on."""


MEMBER = Member("module_frame", None, clamped=False)


class Direct(Described):
    """No rails: each long edge is its own small beam on two or more crossings; neighbours share points."""

    id: ClassVar[str] = "direct"
    spans: ClassVar[bool] = False
    spacing: Annotated[Spacing, SpacingKind("per edge", by_span=False)] = entry("fewest", description="how many points hold each long edge")

    def title(self, job: Job) -> str:
        """What people call it on this roof."""
        return f"modules on {job.roof.rib_word}s"

    def suits(self, job: Job) -> Refusal | None:
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

    def sparsest(self, job: Job, field: Field) -> tuple[int, ...]:
        """Points per edge, from two to as many ribs as an edge can cross."""
        room = job.module.length - 2 * job.module.edge_support[0]
        return tuple(range(2, max(3, int(room / job.roof.rib_spacing) + 2)))

    def lay(self, job: Job, field: Field, pattern: Pattern, minimum: int) -> Layout | Refusal:
        """Every long edge on as many crossings as are asked for, or on all it has where it has fewer."""
        ribs, height = job.roof.ribs(job.building), job.hardware.attachment_height
        missed = self._misses_supports(job, field)
        if missed:
            return missed
        half_gap, depth = field.gap / 2, float(field.outlines.high[0] - field.outlines.low[0])
        edges = np.array([-half_gap, depth + half_gap])
        share, couple = share_among(edges, 0.0, depth, field.attitude.middle - height)
        lines: list[SupportLines] = []
        for left, modules in columns_of(field):
            column = _edge_lines(field, modules, edges, share, couple)
            asked = _asked_by_edges(column.y, np.repeat(pattern.at_modules[modules].astype(np.int64), 2))
            for wanted in np.unique(asked):
                chosen = best_crossings(job, left, ribs, int(wanted))
                if isinstance(chosen, Refusal):
                    return chosen
                lines.append(column.some(asked == wanted, chosen))
        return assemble(pattern, MEMBER, lines, ribs, height)

    def _misses_supports(self, job: Job, field: Field) -> Refusal | None:
        """Brackets fastened to the structure need a support within every gap that edges share."""
        for edge in np.unique(np.concatenate([field.outlines.low - field.gap, field.outlines.high])):
            place = standing_place(job, float(edge), float(edge + field.gap), "a module's long edge")
            if isinstance(place, Refusal):
                return place
        return None

    def remedies(self) -> tuple[Self, ...]:
        """None but more points per edge, which the search looks at anyway."""
        return ()

    def needs(self, job: Job, field: Field, layout: Layout) -> tuple[Need, ...]:
        """Attachments, and on each the hook that holds the edges."""
        return Need("attachment", "attachments", len(layout.points)), Need("module_hook", "module hooks", len(layout.points))

    def says(self, layout: Layout, job: Job) -> str:
        """The spacing in words."""
        most = max(len(lines.ribs) for lines in layout.lines)
        return in_words(layout.pattern, lambda wanted: f"{min(wanted, most):.0f} per edge")


def columns_of(field: Field) -> list[tuple[float, Ints]]:
    """The columns of the field: left edge [m] and modules of each."""
    lefts, column = np.unique(np.rint(field.outlines.left * 1e6), return_inverse=True)
    return [(float(left) / 1e6, np.flatnonzero(column == number)) for number, left in enumerate(lefts)]


def _asked_by_edges(y: Floats, wanted: Ints) -> Ints:
    """How many points each edge asks for (n,): edges of neighbours that share points ask for the most that either does."""
    _, edge = grouped(y, SAME_PLACE)
    most = np.zeros(edge.max() + 1, dtype=np.int64)
    np.maximum.at(most, edge, wanted)
    return most[edge]


def _edge_lines(field: Field, modules: Ints, edges: Floats, share: Floats, couple: Floats) -> SupportLines:
    """Both long edges of every module of a column, each a small beam evenly loaded, on no ribs yet."""
    left, right = field.outlines.left[modules[:1]], field.outlines.right[modules[:1]]
    depth = float(field.outlines.high[modules[0]] - field.outlines.low[modules[0]])
    return SupportLines(
        y=(field.outlines.low[modules][:, None] + edges).ravel(),
        ribs=np.empty(0, dtype=np.int64),
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


def best_crossings(job: Job, left: float, ribs: Floats, wanted: int) -> Ints | Refusal:
    """The crossings with the smallest largest share of an edge's load.

    Args:
        job: the job.
        left: the edge's left end [m].
        ribs: every rib's place [m].
        wanted: points per edge; an edge with fewer useful crossings stands on all of them.
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
    choices = _choices(crossed, min(wanted, len(crossed)))
    largest = _largest_shares(ribs[choices], left, length)
    best = least(largest)
    if largest[best] < 1:
        return np.asarray(choices[best])
    return best_crossings(job, left, ribs, wanted - 1) if wanted > 2 else refusal


def _choices(crossed: Ints, count: int) -> Ints:
    """Ways to choose `count` of the crossings (n, count): all, or where they are too many the evenly spread ones."""
    if comb(len(crossed), count) <= MOST_CHOICES:
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
    shares = respond(supports, Spread(start, start + length)).reactions[:, :, 0]
    worst: Floats = np.where(shares.min(axis=1) < LEAST_PART, shares.max(axis=1) + 1.0, shares.max(axis=1))
    return worst

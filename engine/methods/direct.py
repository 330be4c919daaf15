"""Modules straight on the ribs: landscape, long edges held where they cross a seam or rib."""

from __future__ import annotations

from collections import defaultdict
from itertools import combinations
from typing import Annotated, ClassVar

import numpy as np

from engine.arrays import Floats, Ints
from engine.beam import Spread, respond
from engine.described import Described, entry
from engine.influence import assemble, share_among
from engine.job import Job
from engine.layout import Attitude, Field, Layout, Member, SupportLine
from engine.mounting import Need, Refusal, Spacing, SpacingKind
from engine.placing import Grid, place
from engine.rows import standing_place
from engine.units import both

LEAST_PART = 0.05
"""A crossing that takes less than this of its edge's load carries next to nothing: not counted on."""


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
        module, array = job.module, job.array
        grid = Grid(
            module.length, module.width, module.length + array.gap, module.width + array.gap, array.columns, array.rows * array.columns
        )
        top = array.height_above_roof
        return place(job, grid, Attitude(0.0, top, top, module.width, module.length), None)

    def sparsest(self, job: Job, field: Field) -> tuple[int, ...]:
        """Points per edge, from two to as many ribs as an edge can cross."""
        room = job.module.length - 2 * job.module.edge_support[0]
        return tuple(range(2, max(3, int(room / job.roof.rib_spacing) + 2)))

    def lay(self, job: Job, field: Field, spacing: int, minimum: int) -> Layout | Refusal:
        """Every long edge on `spacing` crossings, or on all it has where it has fewer."""
        ribs, height = job.roof.ribs(job.building), job.hardware.attachment_height
        crossings = best_crossings(job, field, ribs, spacing)
        if isinstance(crossings, Refusal):
            return crossings
        missed = self._misses_supports(job, field)
        if missed:
            return missed
        half_gap, depth = field.gap / 2, float(field.outlines.high[0] - field.outlines.low[0])
        edges = np.array([-half_gap, depth + half_gap])
        shares, couples = share_among(edges, 0.0, depth, field.attitude.middle - height)
        lines = [
            self._edge_line(field, module, float(field.outlines.low[module] + edge), crossings[module], share, couple, depth / 2)
            for module in range(field.modules)
            for edge, share, couple in zip(edges, shares, couples, strict=True)
        ]
        return assemble(spacing, Member("module_frame", 1, clamped=False), lines, ribs, height)

    def _misses_supports(self, job: Job, field: Field) -> Refusal | None:
        """Brackets fastened to the structure need a support within every gap that edges share."""
        for edge in np.unique(np.concatenate([field.outlines.low - field.gap, field.outlines.high])):
            place = standing_place(job, float(edge), float(edge + field.gap), "a module's long edge")
            if isinstance(place, Refusal):
                return place
        return None

    def _edge_line(self, field: Field, module: int, y: float, chosen: Ints, share: float, couple: float, width: float) -> SupportLine:
        start, end = field.outlines.left[module], field.outlines.right[module]
        return SupportLine(
            y=y,
            ribs=chosen,
            start=float(start),
            end=float(end),
            load_start=np.array([start]),
            load_end=np.array([end]),
            module=np.array([module]),
            share=np.array([share]),
            couple=np.array([couple]),
            width=width,
            clamp=np.array([0]),
        )

    def needs(self, job: Job, field: Field, layout: Layout) -> tuple[Need, ...]:
        """Attachments, and on each the hook that holds the edges."""
        return Need("attachment", "attachments", len(layout.points)), Need("module_hook", "module hooks", len(layout.points))

    def says(self, layout: Layout, job: Job) -> str:
        """The spacing in words."""
        return f"{layout.spacing} per edge"


def best_crossings(job: Job, field: Field, ribs: Floats, wanted: int) -> dict[int, Ints] | Refusal:
    """For every module, the crossings with the smallest largest share of its edge's load.

    Args:
        job: the job.
        field: landscape modules.
        ribs: every rib's place [m].
        wanted: points per edge; an edge with fewer useful crossings stands on all of them.
    """
    inset = job.module.edge_support[0]
    best: dict[float, Ints] = {}
    by_shape: dict[int, list[tuple[float, tuple[int, ...]]]] = defaultdict(list)
    for start in np.unique(field.outlines.left):
        low, high = start + inset, start + job.module.length - inset
        crossed = np.flatnonzero((ribs >= low - 1e-9) & (ribs <= high + 1e-9))
        if len(crossed) < 2:
            return Refusal(
                "too_few_ribs",
                f"the long edges of the modules {both(start, 'length')} from the rake cross {len(crossed)} {job.roof.rib_word} in the "
                "stretch that may be supported; two are needed",
            )
        for subset in combinations(crossed.tolist(), min(wanted, len(crossed))):
            by_shape[len(subset)].append((float(start), subset))
    largest: dict[float, float] = {}
    for trials in by_shape.values():
        for (start, subset), worst in zip(trials, _largest_shares(trials, ribs, job.module.length), strict=True):
            if worst < largest.get(start, np.inf) - 1e-9:
                largest[start], best[start] = float(worst), np.array(subset)
    return {module: best[float(field.outlines.left[module])] for module in range(field.modules)}


def _largest_shares(trials: list[tuple[float, tuple[int, ...]]], ribs: Floats, length: float) -> Floats:
    """The largest part of an evenly loaded edge that any of its crossings takes, trial by trial."""
    supports = ribs[np.array([subset for _, subset in trials])]
    start = np.array([[start] for start, _ in trials])
    shares = respond(supports, Spread(start, start + length), np.empty((len(trials), 0))).reactions[:, :, 0]
    worst: Floats = np.where(shares.min(axis=1) < LEAST_PART, shares.max(axis=1) + 1.0, shares.max(axis=1))
    return worst

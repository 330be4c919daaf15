"""Support lines along rows of modules: shared by every method whose members run along the eave."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from engine.common.arrays import Floats, Ints
from engine.mounting.interface import PartQuantity, Refusal
from engine.mounting.layout import Field, Foot, Layout, Member, SpacingPattern, SupportLines
from engine.mounting.spacing_pattern import add_attachments, describe_strips, stagger, stepped_ribs
from engine.project.hardware import RailSection
from engine.project.job import Job
from engine.units import both

IN_LINE, STAGGERED = "in line", "staggered"
"""Whether neighbouring lines stand on the same ribs, or every other one midway between."""


@dataclass(frozen=True, eq=False)
class ModuleRows:
    """Runs of modules that lie alike along x: R rows of n modules each, `module` (R, n).

    `left`, `right` (n,) are the modules' edges along x, `steps` (n,) how many ribs apart they ask for
    points, `number` (R,) the rows' numbers from the eave, `low` (R,) their lower edges [m]; `depth` is their
    size up the slope [m].
    """

    module: Ints
    left: Floats
    right: Floats
    steps: Floats
    number: Ints
    low: Floats
    depth: float

    @property
    def start(self) -> float:
        """Left end [m]."""
        return float(self.left[0])

    @property
    def end(self) -> float:
        """Right end [m]."""
        return float(self.right[-1])


def module_rows(field: Field, pattern: SpacingPattern | None = None) -> list[ModuleRows]:
    """The field's runs, those that lie alike along x, and ask alike for points, together."""
    steps = np.ones(field.modules) if pattern is None else pattern.at_modules
    order = np.argsort(field.run, kind="stable")
    runs = np.split(order, np.flatnonzero(np.diff(field.run[order])) + 1)
    alike: dict[tuple[float, bytes], list[Ints]] = defaultdict(list)
    for run in runs:
        alike[round(float(field.outlines.left[run[0]]), 6), steps[run].tobytes()].append(run)
    depth = float(field.outlines.high[0] - field.outlines.low[0])
    return [
        ModuleRows(
            np.stack(these),
            field.outlines.left[these[0]],
            field.outlines.right[these[0]],
            steps[these[0]],
            field.row[[run[0] for run in these]],
            field.outlines.low[[run[0] for run in these]],
            depth,
        )
        for these in alike.values()
    ]


def split_rows(rows: ModuleRows) -> list[ModuleRows]:
    """Each row alone."""
    each = (slice(n, n + 1) for n in range(len(rows.low)))
    return [replace(rows, module=rows.module[n], number=rows.number[n], low=rows.low[n]) for n in each]


def lines_under_rows(
    rows: ModuleRows, places: Floats, share: Floats, couple: Floats, width: float, feet: tuple[Foot, ...] = (Foot(),)
) -> SupportLines:
    """Lines under rows of modules, on no ribs yet: clamps at every module edge, one clamp for two neighbours.

    Args:
        rows: the rows.
        places: the lines' places in each row, from the eave [m], (R, K).
        share: each line's share of a module's forces, (K,); half of it at either edge.
        couple: each line's normal force per unit of in-plane force, (K,); (K, 2) where a module's two edges differ.
        width: the strip of module a line carries [m].
        feet: how a support stands on the roof.
    """
    edges = np.ravel(np.column_stack([rows.left, rows.right]))
    count, lines = len(rows.module), places.shape[1]
    return SupportLines(
        across=places.ravel(),
        stands_on=np.empty(0, dtype=np.int64),
        start=rows.start,
        end=rows.end,
        load_start=edges,
        load_end=edges,
        clamp=(np.arange(len(edges)) + 1) // 2,
        module=np.repeat(np.repeat(rows.module, 2, axis=1), lines, axis=0),
        share=np.tile(share / 2, count),
        couple=np.tile(np.broadcast_to(couple.reshape(lines, -1) / 2, (lines, 2)), (count, rows.module.shape[1])),
        width=width,
        feet=feet,
    )


def place_on_ribs(
    rows: ModuleRows, lines: SupportLines, places: Floats, free_end: float, min_attachments: int, *, staggered: bool
) -> list[SupportLines]:
    """Lines set on the ribs that their rows ask for, with single ones added until each has `min_attachments`; none where no two can be met.

    Args:
        rows: the rows.
        lines: their lines, on no ribs yet.
        places: every rib's place [m].
        free_end: longest end allowed beyond the outermost point for each rib of the step beside it [m].
        min_attachments: points that each line must have.
        staggered: whether every other line stands midway between the points of its neighbours.
    """
    asked = stepped_ribs(places, rows.left, rows.right, rows.steps, free_end)
    if len(asked) < 2:
        return []
    in_row = len(lines) // len(rows.number)
    odd = (rows.number[:, None] * in_row + np.arange(in_row)).ravel() % 2 == 1
    turns = ((~odd, asked), (odd, stagger(asked))) if staggered else ((odd | ~odd, asked),)
    standing = []
    for these, stand in turns:
        chosen = add_attachments(stand, places, rows.start, rows.end, min_attachments)
        standing += [lines.some(these, chosen, len(chosen) - len(stand))] if these.any() else []
    return standing


def lines_on_ribs(
    job: Job,
    rows: ModuleRows,
    lines: SupportLines,
    section: RailSection,
    min_attachments: int,
    *,
    staggered: bool = False,
) -> list[SupportLines] | Refusal:
    """Lines along the eave set on the roof's ribs; see `place_on_ribs`."""
    free_end = section.cantilever_ratio * job.roof.rib_spacing
    return place_on_ribs(
        rows, lines, job.roof.ribs(job.building), free_end, min_attachments, staggered=staggered
    ) or too_few_ribs(job, rows)


def too_few_ribs(job: Job, rows: ModuleRows) -> Refusal:
    """The refusal where a line crosses fewer than two ribs."""
    return Refusal(
        "too_few_ribs",
        f"a row of {both(rows.end - rows.start, 'length')} at {both(rows.start, 'length')} from the rake "
        f"crosses fewer than two {job.roof.rib_word}s, "
        "and a line needs two to stand on",
    )


def too_few_attachments(
    job: Job, lines: Sequence[SupportLines], min_attachments: int, member: Member
) -> Refusal | None:
    """The refusal where not even every rib, or what a member stands on, gives the points that the count rule asks for."""
    available = sum(len(these) * len(these.stands_on) * len(these.feet) for these in lines)
    if available >= min_attachments:
        return None
    word = support_word(job, member)
    return Refusal(
        "below_count_rule",
        f"even on every {word} the lines have {available} attachments and the count rule asks for {min_attachments}: "
        f"more lines are needed, or {word}s closer together",
    )


def support_word(job: Job, member: Member) -> str:
    """What people call the places where a member may stand, one after another along it."""
    if member.up:
        return "support" if job.hardware.bracket == "structure" else "step"
    return job.roof.rib_word


def bar_quantities(part: str, name: str, lines: tuple[SupportLines, ...], bars: int = 1) -> PartQuantity:
    """The bars of all lines, to be cut from stock."""
    return PartQuantity(part, name, lengths=tuple(these.length for these in lines for _ in range(bars * len(these))))


def clamp_quantities(lines: tuple[SupportLines, ...], bars: int = 1) -> tuple[PartQuantity, PartQuantity]:
    """Middle clamps hold two modules, end clamps one."""
    middle = bars * sum(len(these) * (these.clamps - 2) for these in lines)
    return PartQuantity("middle_clamp", "middle clamps", middle), PartQuantity(
        "end_clamp", "end clamps", bars * 2 * sum(map(len, lines))
    )


def candidate_steps(job: Job, field: Field) -> tuple[int, ...]:
    """Every whole number of ribs up to the longest run, sparsest first."""
    longest = max(rows.end - rows.start for rows in module_rows(field))
    return tuple(range(max(1, int(longest / job.roof.rib_spacing)), 0, -1))


def describe_spacing(job: Job, layout: Layout) -> str:
    """The pattern, and how many single points were added to it: "every 2nd seam + 32"."""
    return describe_pattern(layout, job.roof.rib_spacing, job.roof.rib_word)


def describe_pattern(layout: Layout, pitch: float, word: str) -> str:
    """The pattern of a layout whose lines may stand every `pitch` [m], at places called `word`."""
    pattern = layout.pattern
    if pattern.even:
        pattern = pattern.with_even(min(pattern.spacings[0], round(layout.longest_span / pitch)))
    return describe_strips(pattern, lambda step: _every(step, word), layout.added)


def _every(step: float, word: str) -> str:
    if step % 1:
        return f"2 of every {2 * step:.0f} {word}s"
    step = int(step)
    ending = "th" if step % 100 in (11, 12, 13) else {1: "st", 2: "nd", 3: "rd"}.get(step % 10, "th")
    return f"every {word}" if step == 1 else f"every {step}{ending} {word}"

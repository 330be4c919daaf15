"""Support lines along rows of modules, common to all methods whose members run along the eave."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from engine.common.arrays import Floats, Ints
from engine.mounting.build_layout import LinesAtPlaces
from engine.mounting.interface import PartQuantity, Refusal, RunGroup
from engine.mounting.layout import Field, Foot, Layout, Member, SupportLines
from engine.mounting.line_position import structure_word
from engine.mounting.minimum_attachments import minimum_attachments
from engine.mounting.places import places_along_eave, rafter_cure
from engine.mounting.spacing_pattern import add_attachments, describe_strips, stagger, stepped_ribs
from engine.project.job import Job
from engine.units import both

IN_LINE, STAGGERED = "in line", "staggered"
"""Neighbouring lines are attached at the same ribs, or every other line midway between the ribs of its neighbours."""


@dataclass(frozen=True, eq=False)
class ModuleRows:
    """R rows of n modules each, `module` (R, n), with the same positions along x.

    `left`, `right` (n,) are the modules' edges along x [m], `number` (R,) the rows' numbers from the eave, `low` (R,)
    their lower edges [m]; `depth` is their size up the slope [m].
    """

    module: Ints
    left: Floats
    right: Floats
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


def alike_runs(field: Field, strip: Ints) -> list[RunGroup]:
    """The runs of a field, those with the same positions along x and the same strips together; `strip` (M,)."""
    order = np.argsort(field.run, kind="stable")
    runs = np.split(order, np.flatnonzero(np.diff(field.run[order])) + 1)
    groups: dict[tuple[float, bytes], list[Ints]] = defaultdict(list)
    for run in runs:
        groups[round(float(field.outlines.left[run[0]]), 6), strip[run].tobytes()].append(run)
    return [RunGroup(np.stack(group), start, strip[group[0]]) for (start, _), group in groups.items()]


def rows_of(field: Field, group: RunGroup) -> ModuleRows:
    """The rows of a run group."""
    first, in_rows = group.module[0], group.module[:, 0]
    at = field.outlines
    return ModuleRows(
        module=group.module,
        left=at.left[first],
        right=at.right[first],
        number=field.row[in_rows],
        low=at.low[in_rows],
        depth=float(at.high[0] - at.low[0]),
    )


def longest_run(field: Field) -> float:
    """Length of the longest run along x [m]."""
    groups = alike_runs(field, np.zeros(field.modules, dtype=np.int64))
    return max(float(field.outlines.right[g.module[0, -1]] - field.outlines.left[g.module[0, 0]]) for g in groups)


def split_rows(rows: ModuleRows) -> list[ModuleRows]:
    """The rows one by one."""
    each = (slice(n, n + 1) for n in range(len(rows.low)))
    return [replace(rows, module=rows.module[n], number=rows.number[n], low=rows.low[n]) for n in each]


def lines_under_rows(
    rows: ModuleRows, positions: Floats, share: Floats, couple: Floats, width: float, feet: tuple[Foot, ...] = (Foot(),)
) -> SupportLines:
    """Lines under rows of modules, not yet attached to ribs: clamps at every module edge, one clamp for two neighbours.

    Args:
        rows: the rows.
        positions: positions of the K lines in each row, from the eave [m], (R, K).
        share: each line's share of a module's forces, (K,); half of it at either edge.
        couple: each line's normal force per unit of in-plane force, (K,); (K, 2) if a module's two edges differ.
        width: the strip of module a line carries [m].
        feet: the feet of each support.
    """
    edges = np.ravel(np.column_stack([rows.left, rows.right]))
    count, lines = len(rows.module), positions.shape[1]
    return SupportLines(
        across=positions.ravel(),
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


@dataclass(frozen=True, eq=False, kw_only=True)
class LinesUnderRows(LinesAtPlaces):
    """Lines under rows of modules, attached at the ribs of a pattern; for columns the axes are exchanged.

    `staggered`: every other line is attached midway between the ribs of its neighbours.
    """

    staggered: bool = False

    def attach(
        self, group: RunGroup, lines: Sequence[SupportLines], spacing: Floats, *, enough: bool
    ) -> list[SupportLines] | Refusal:
        """The lines attached at the ribs of their rows' spacing, or a refusal if they cross fewer than two."""
        section, rows = self.job.hardware.section(self.member.section), self.rows(group)
        assert section is not None
        free_end = section.cantilever_ratio * self.pitch
        pattern = stepped_ribs(self.stands, rows.left, rows.right, spacing, free_end)
        if len(pattern) < 2:
            return self.too_few(rows)
        in_row = sum(map(len, lines)) // len(rows.number)
        of_row = minimum_attachments(rows.module.shape[1], 1) if enough else 0
        of_line = math.ceil(of_row / (in_row * len(lines[0].feet)))

        def attached(some: SupportLines, pattern: Ints) -> SupportLines:
            chosen = add_attachments(pattern, self.stands, rows.start, rows.end, of_line)
            return replace(some, stands_on=chosen, added_ribs=len(chosen) - len(pattern))

        if not self.staggered:
            return [attached(some, pattern) for some in lines]
        odd = (rows.number[:, None] * in_row + np.arange(in_row)).ravel() % 2 == 1
        of_set = zip(lines, np.split(odd, np.cumsum([len(some) for some in lines])[:-1]), strict=True)
        turns = [
            (some.subset(chosen), each)
            for some, odd in of_set
            for chosen, each in ((~odd, pattern), (odd, stagger(pattern)))
        ]
        return [attached(some, each) for some, each in turns if len(some)]

    def rows(self, group: RunGroup) -> ModuleRows:
        """The rows of a run group."""
        return rows_of(self.field, group)

    @property
    def stands(self) -> Floats:
        """Positions along the lines at which they may be attached [m]."""
        return self.places.x

    @property
    def pitch(self) -> float:
        """Distance between these positions [m]."""
        return self.places.pitch

    def too_few(self, rows: ModuleRows) -> Refusal:
        """The refusal if a line crosses fewer than two of them."""
        length, start, words = both(rows.end - rows.start, "length"), both(rows.start, "length"), self.places.words
        return Refusal(
            "too_few_ribs",
            f"The row of {length} at {start} from the left rake crosses fewer than two {words}, and a line needs "
            f"two attachments. Put more modules in the row, or move it across two {words}",
        )


@dataclass(frozen=True, eq=False, kw_only=True)
class LinesAlongEave(LinesUnderRows):
    """Lines along rows of modules, common to all methods with members along the eave."""

    def groups(self, strip: Ints) -> list[RunGroup]:
        """Rows with the same positions along x, in groups; `strip` (M,) of every module."""
        return alike_runs(self.field, strip)


def too_few_attachments(
    job: Job,
    lines: Sequence[SupportLines],
    min_attachments: int,
    member: Member,
    cure: str = "Use another mounting method",
) -> Refusal | None:
    """The refusal if the lines have fewer attachments than the minimum, although every rib is used; else None.

    Args:
        job: the job.
        lines: the lines with all attachments that could be added.
        min_attachments: minimum number of attachments of the field.
        member: kind of member that the lines are.
        cure: sentence that says what helps.
    """
    available = sum(len(line) * len(line.stands_on) * len(line.feet) for line in lines)
    if available >= min_attachments:
        return None
    return Refusal(
        "below_count_rule",
        f"Even at every {support_word(job, member)} the array has {available} attachments; the minimum by rule of "
        f"practice is {min_attachments}. {rafter_cure(job) or cure}",
    )


def support_word(job: Job, member: Member) -> str:
    """Name of the positions along a member at which it may be attached."""
    if member.runs_up_slope:
        return structure_word(job) if job.hardware.at_fastenings else "step"
    return places_along_eave(job).word


def bar_quantities(part: str, name: str, lines: tuple[SupportLines, ...], bars: int = 1) -> PartQuantity:
    """Lengths of the bars of all lines, to be cut from stock."""
    return PartQuantity(part, name, lengths=tuple(line.length for line in lines for _ in range(bars * len(line))))


def clamp_quantities(lines: tuple[SupportLines, ...], bars: int = 1) -> tuple[PartQuantity, PartQuantity]:
    """Numbers of middle clamps, which hold two modules, and of end clamps, which hold one."""
    middle = bars * sum(len(line) * (line.clamps - 2) for line in lines)
    ends = bars * 2 * sum(map(len, lines))
    return PartQuantity("middle_clamp", "middle clamps", middle), PartQuantity("end_clamp", "end clamps", ends)


def candidate_steps(job: Job, field: Field) -> tuple[int, ...]:
    """All whole numbers of ribs, or other places, up to the longest run, largest first."""
    return tuple(range(max(1, int(longest_run(field) / places_along_eave(job).pitch)), 0, -1))


def describe_spacing(job: Job, layout: Layout) -> str:
    """The spacing along the eave in words, with the number of single attachments added: "every 2nd seam + 32"."""
    places = places_along_eave(job)
    return describe_pattern(layout, places.pitch, places.word, places.words)


def describe_pattern(layout: Layout, pitch: float, word: str, words: str) -> str:
    """The spacing of a layout in words.

    Args:
        layout: the layout.
        pitch: distance between the positions at which lines may be attached [m].
        word: name of one of these positions.
        words: name of several.
    """
    pattern = layout.pattern
    if pattern.is_uniform:
        # On short rows the spans are shorter than the pattern says: the words give the real span.
        pattern = pattern.with_uniform(min(pattern.spacings[0], round(layout.longest_span / pitch)))
    return describe_strips(pattern, lambda step: _every(step, word, words), layout.added_attachments)


def _every(step: float, word: str, words: str) -> str:
    """A step in words: "every seam", "every 2nd seam", "2 of every 3 seams"."""
    if step % 1:
        return f"2 of every {2 * step:.0f} {words}"
    step = int(step)
    ending = "th" if step % 100 in (11, 12, 13) else {1: "st", 2: "nd", 3: "rd"}.get(step % 10, "th")
    return f"every {word}" if step == 1 else f"every {step}{ending} {word}"

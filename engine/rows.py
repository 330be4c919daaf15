"""Support lines along rows of modules: shared by every method whose members run along the eave."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass

import numpy as np

from engine.arrays import Floats, Ints
from engine.hardware import Beam
from engine.job import Job
from engine.layout import Field, Foot, Layout, Member, SupportLines
from engine.mounting import Need, Refusal
from engine.pattern import even_ribs, thicken
from engine.units import both


@dataclass(frozen=True, eq=False)
class Rows:
    """Runs of modules that lie alike along x: R rows of n modules each, `module` (R, n).

    `left`, `right` (n,) are the modules' edges along x, `low` (R,) the rows' lower edges [m];
    `depth` is their size up the slope [m].
    """

    module: Ints
    left: Floats
    right: Floats
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


def rows_of(field: Field) -> list[Rows]:
    """The field's runs, those that lie alike along x together."""
    order = np.argsort(field.run, kind="stable")
    runs = np.split(order, np.flatnonzero(np.diff(field.run[order])) + 1)
    alike: dict[tuple[float, int], list[Ints]] = defaultdict(list)
    for run in runs:
        alike[round(float(field.outlines.left[run[0]]), 6), len(run)].append(run)
    depth = float(field.outlines.high[0] - field.outlines.low[0])
    return [
        Rows(
            np.stack(these),
            field.outlines.left[these[0]],
            field.outlines.right[these[0]],
            field.outlines.low[[run[0] for run in these]],
            depth,
        )
        for these in alike.values()
    ]


def one_by_one(rows: Rows) -> list[Rows]:
    """Each row alone."""
    return [Rows(rows.module[n : n + 1], rows.left, rows.right, rows.low[n : n + 1], rows.depth) for n in range(len(rows.low))]


def row_lines(
    rows: Rows, places: Floats, share: Floats, couple: Floats, width: float, chosen: Ints, feet: tuple[Foot, ...] = (Foot(),)
) -> SupportLines:
    """Lines under rows of modules: clamps at every module edge, one clamp for two neighbours.

    Args:
        rows: the rows.
        places: the lines' places in each row, from the eave [m], (R, K).
        share: each line's share of a module's forces, (K,); half of it at either edge.
        couple: each line's normal force per unit of in-plane force, (K,); (K, 2) where a module's two edges differ.
        width: the strip of module a line carries [m].
        chosen: the ribs the lines stand on.
        feet: how a support stands on the roof.
    """
    edges = np.ravel(np.column_stack([rows.left, rows.right]))
    count, lines = len(rows.module), places.shape[1]
    return SupportLines(
        y=places.ravel(),
        ribs=chosen,
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


def chosen_ribs(job: Job, ribs: Floats, rows: Rows, step: int, beam: Beam, wanted: int) -> tuple[Ints, int]:
    """Every `step`-th rib under rows, with single ribs added until there are `wanted`: the ribs, and how many were added."""
    cantilever = beam.cantilever_ratio * step * job.roof.rib_spacing
    even = even_ribs(ribs, rows.start, rows.end, step, cantilever)
    chosen = thicken(even, ribs, rows.start, rows.end, wanted)
    return chosen, len(chosen) - len(even)


def too_few_ribs(job: Job, rows: Rows) -> Refusal:
    """The refusal where a line crosses fewer than two ribs."""
    return Refusal(
        "too_few_ribs",
        f"a row of {both(rows.end - rows.start, 'length')} at {both(rows.start, 'length')} from the rake "
        f"crosses fewer than two {job.roof.rib_word}s, "
        "and a line needs two to stand on",
    )


def below_rule(job: Job, available: int, wanted: int, member: Member | None = None) -> Refusal:
    """The refusal where not even every rib, or what a member stands on, gives the points that the count rule asks for."""
    word = footing(job, member) if member else job.roof.rib_word
    return Refusal(
        "below_count_rule",
        f"even on every {word} the lines have {available} attachments and the count rule asks for {wanted}: "
        f"more lines are needed, or {word}s closer together",
    )


def footing(job: Job, member: Member) -> str:
    """What people call the places where a member may stand, one after another along it."""
    if member.up:
        return "support" if job.hardware.bracket == "structure" else "step"
    return job.roof.rib_word


def standing_place(job: Job, low: float, high: float, what: str) -> float | Refusal:
    """Where a line may stand between `low` and `high` [m up the slope].

    Clamps on a seam and brackets on the sheet stand anywhere: the middle, or where a clearance from
    clips is asked for the nearest place that keeps it. Brackets fastened to the structure stand only over a support.
    """
    middle = (low + high) / 2
    supports = job.roof.supports(job.building)
    if job.hardware.bracket != "structure":
        return clear_of_clips(job, supports, low, middle, high)
    nearest = float(supports[np.argmin(np.abs(supports - middle))])
    if low - 1e-9 <= nearest <= high + 1e-9:
        return nearest
    miss = max(low - nearest, nearest - high)
    return Refusal(
        "misses_support",
        f"{what} may stand {both(low, 'length')} to {both(high, 'length')} from the eave, and the nearest support "
        f"misses that by {both(miss, 'small length')}",
    )


def clear_of_clips(job: Job, supports: Floats, low: float, middle: float, high: float) -> float:
    """The place nearest to the middle that keeps the clearance; the middle where none does, which is flagged."""
    clearance = job.hardware.clip_clearance
    if not clearance or not job.roof.floats:
        return middle
    places = np.concatenate([[middle], supports - clearance, supports + clearance])
    apart = np.abs(places[:, None] - supports).min(axis=1)
    kept = places[(places >= low) & (places <= high) & (apart >= clearance - 1e-9)]
    return float(kept[np.argmin(np.abs(kept - middle))]) if len(kept) else middle


def bar_needs(part: str, name: str, lines: tuple[SupportLines, ...], bars: int = 1) -> Need:
    """The bars of all lines, to be cut from stock."""
    return Need(part, name, lengths=tuple(these.length for these in lines for _ in range(bars * len(these))))


def clamp_needs(lines: tuple[SupportLines, ...], bars: int = 1) -> tuple[Need, Need]:
    """Middle clamps hold two modules, end clamps one."""
    middle = bars * sum(len(these) * (these.clamps - 2) for these in lines)
    return Need("middle_clamp", "middle clamps", middle), Need("end_clamp", "end clamps", bars * 2 * sum(map(len, lines)))


def steps_worth_a_look(job: Job, field: Field) -> tuple[int, ...]:
    """Every whole number of ribs up to the longest run, sparsest first."""
    longest = max(rows.end - rows.start for rows in rows_of(field))
    return tuple(range(max(1, int(longest / job.roof.rib_spacing)), 0, -1))


def spacing_in_words(job: Job, layout: Layout) -> str:
    """The pattern, and how many single points were added to it: "every 2nd seam + 32"."""
    step = min(layout.spacing, round(layout.longest_span / job.roof.rib_spacing))
    return every(step, job.roof.rib_word, layout.added)


def every(step: int, word: str, added: int) -> str:
    """A pattern in words: "every 2nd seam + 32"."""
    ending = "th" if step % 100 in (11, 12, 13) else {1: "st", 2: "nd", 3: "rd"}.get(step % 10, "th")
    often = "every" if step == 1 else f"every {step}{ending}"
    return f"{often} {word}" + (f" + {added}" if added else "")

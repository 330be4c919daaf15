"""Support lines along rows of modules: shared by every method whose members run along the eave."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from engine.arrays import Floats, Ints
from engine.hardware import Beam
from engine.job import Job
from engine.layout import Field, Foot, SupportLine
from engine.mounting import Need, Refusal
from engine.pattern import even_ribs, thicken
from engine.units import both


@dataclass(frozen=True)
class Carried:
    """What one line carries of its modules: `share` of the normal force, `couple` of the in-plane, `width` of module."""

    share: float
    couple: float
    width: float


def modules_of_runs(field: Field) -> list[Ints]:
    """The modules of each run, from its first to its last."""
    order = np.argsort(field.run, kind="stable")
    return np.split(order, np.flatnonzero(np.diff(field.run[order])) + 1)


def row_line(field: Field, modules: Ints, y: float, carried: Carried, chosen: Ints, feet: tuple[Foot, ...] = (Foot(),)) -> SupportLine:
    """One line under one run of a row: clamps at every module edge, one clamp for two neighbours."""
    left, right = field.outlines.left[modules], field.outlines.right[modules]
    places = np.ravel(np.column_stack([left, right]))
    both_edges = np.repeat(modules, 2)
    half = np.full(len(both_edges), 0.5)
    return SupportLine(
        y=y,
        ribs=chosen,
        start=float(left[0]),
        end=float(right[-1]),
        load_start=places,
        load_end=places,
        module=both_edges,
        share=half * carried.share,
        couple=half * carried.couple,
        width=carried.width,
        clamp=(np.arange(len(both_edges)) + 1) // 2,
        feet=feet,
    )


def chosen_ribs(job: Job, ribs: Floats, start: float, end: float, step: int, beam: Beam, wanted: int) -> Ints:
    """Every `step`-th rib under a line, with single ribs added until there are `wanted`."""
    cantilever = beam.cantilever_ratio * step * job.roof.rib_spacing
    return thicken(even_ribs(ribs, start, end, step, cantilever), ribs, start, end, wanted)


def too_few_ribs(job: Job, start: float, end: float) -> Refusal:
    """The refusal where a line crosses fewer than two ribs."""
    return Refusal(
        "too_few_ribs",
        f"a row of {both(end - start, 'length')} at {both(start, 'length')} from the rake crosses fewer than two {job.roof.rib_word}s, "
        "and a line needs two to stand on",
    )


def below_rule(job: Job, available: int, wanted: int) -> Refusal:
    """The refusal where not even every rib gives the points that the count rule asks for."""
    return Refusal(
        "below_count_rule",
        f"even on every {job.roof.rib_word} the lines have {available} attachments and the count rule asks for {wanted}: "
        f"more lines are needed, or {job.roof.rib_word}s closer together",
    )


def standing_place(job: Job, low: float, high: float, what: str) -> float | Refusal:
    """Where a line may stand between `low` and `high` [m up the slope].

    Clamps on a seam and brackets on the sheet stand anywhere: the middle. Brackets fastened to
    the structure stand only over a support.
    """
    middle = (low + high) / 2
    if job.hardware.bracket != "structure":
        return middle
    supports = job.roof.supports(job.building)
    nearest = float(supports[np.argmin(np.abs(supports - middle))])
    if low - 1e-9 <= nearest <= high + 1e-9:
        return nearest
    miss = max(low - nearest, nearest - high)
    return Refusal(
        "misses_support",
        f"{what} may stand {both(low, 'length')} to {both(high, 'length')} from the eave, and the nearest support "
        f"misses that by {both(miss, 'small length')}",
    )


def bar_needs(part: str, name: str, lines: tuple[SupportLine, ...], bars: int = 1) -> Need:
    """The bars of all lines, to be cut from stock."""
    return Need(part, name, lengths=tuple(line.end - line.start for line in lines for _ in range(bars)))


def clamp_needs(lines: tuple[SupportLine, ...], bars: int = 1) -> tuple[Need, Need]:
    """Middle clamps hold two modules, end clamps one."""
    middle = bars * sum(len(line.module) // 2 - 1 for line in lines)
    return Need("middle_clamp", "middle clamps", middle), Need("end_clamp", "end clamps", bars * 2 * len(lines))


def steps_worth_a_look(job: Job, field: Field) -> tuple[int, ...]:
    """Every whole number of ribs up to the longest run, sparsest first."""
    longest = max(float(field.outlines.right[run].max() - field.outlines.left[run].min()) for run in modules_of_runs(field))
    return tuple(range(max(1, int(longest / job.roof.rib_spacing)), 0, -1))


def spacing_in_words(job: Job, step: int) -> str:
    """ "every 2nd seam"."""
    ordinal = {1: "every", 2: "every 2nd", 3: "every 3rd"}.get(step, f"every {step}th")
    return f"{ordinal} {job.roof.rib_word}"

"""Setting out of one design on the roof: attachments by seam and line, module runs, bars with their splices.

All places are measured from the left rake and from the eave [m], each from that edge and not from the place before it:
so the rounding of a tape does not add up. Lines and numbers are those of the attachment schedule.
"""

from __future__ import annotations

from collections import Counter, defaultdict
from dataclasses import dataclass, replace

import numpy as np

from engine.bill.cutting import DECIMALS, Cut, Splice, SplicedBar, cut_from_stock, spliced_bar
from engine.bill.take_off import with_number
from engine.common.arrays import Floats, Ints, group_nearby
from engine.common.tolerances import SAME_PLACE
from engine.design.design import Design
from engine.mounting.layout import Layout


@dataclass(frozen=True)
class ModuleRun:
    """One unbroken run of modules: their number, and the edges of the run [m from rake and eave]."""

    modules: int
    left: float
    right: float
    low: float
    high: float


@dataclass(frozen=True)
class AlikeBars:
    """Bars of one length at the same start, with the same pieces and splices.

    `start` and `end` [m] from the left rake, or from the eave for bars up the slope; `on`: numbers of the lines of
    attachments that carry them, or of the seams or ribs for bars up the slope.
    """

    count: int
    start: float
    end: float
    bar: SplicedBar
    on: tuple[int, ...]

    @property
    def length(self) -> float:
        """Length of each bar [m]."""
        return self.end - self.start

    @property
    def splices(self) -> tuple[Splice, ...]:
        """Its splices, their places [m] from the left rake, or from the eave."""
        return tuple(replace(each, place=self.start + each.place) for each in self.bar.splices)


@dataclass(frozen=True)
class CutBars:
    """All bars of one part, their stock length [m] and the cutting plan."""

    part: str
    name: str
    part_number: str | None
    up_slope: bool
    stock_length: float
    bars: tuple[AlikeBars, ...]
    cut: Cut

    @property
    def name_and_number(self) -> str:
        """Its name, and your own number of it where one is stated."""
        return with_number(self.name, self.part_number)

    @property
    def stock_pieces(self) -> tuple[tuple[int, tuple[float, ...]], ...]:
        """Number of stock lengths that are cut alike, and their pieces [m]; whole stock lengths come first."""
        whole = self.cut.stock - len(self.cut.pieces)
        alike = Counter(tuple(round(piece, DECIMALS) for piece in pieces) for pieces in self.cut.pieces)
        uncut = [(whole, (self.stock_length,))] if whole else []
        return (*uncut, *((count, pieces) for pieces, count in alike.items()))


@dataclass(frozen=True, eq=False)
class SettingOut:
    """Attachments at the crossings of N places along the eave and L lines, module runs and bars.

    `x` (N,) and `y` (L,) [m]; `rib` (N,): number of the seam or rib at each place, or nearest to it, from 1 at the left
    rake; `number` (N, L): the attachment at each crossing, 0 if there is none.
    """

    x: Floats
    rib: Ints
    y: Floats
    number: Ints
    runs: tuple[ModuleRun, ...]
    cut_bars: tuple[CutBars, ...]

    @property
    def count_by_rib(self) -> Ints:
        """Number of attachments at each place along the eave (N,)."""
        return np.asarray(np.count_nonzero(self.number, axis=1))

    @property
    def count_by_line(self) -> Ints:
        """Number of attachments on each line (L,)."""
        return np.asarray(np.count_nonzero(self.number, axis=0))


def setting_out(design: Design) -> SettingOut:
    """The setting out of one design."""
    attachments = design.layout.attachments
    places, column = group_nearby(attachments.x, SAME_PLACE)
    lines, line = group_nearby(attachments.y, SAME_PLACE)
    number = np.zeros((len(places), len(lines)), dtype=np.int64)
    number[column, line] = np.arange(1, len(attachments) + 1)
    rib = attachments.rib + 1
    carriers = rib if design.layout.member.runs_up_slope else line + 1
    return SettingOut(
        x=attachments.x[places],
        rib=rib[places],
        y=attachments.y[lines],
        number=number,
        runs=tuple(_runs(design)),
        cut_bars=tuple(_cut_bars(design, carriers)),
    )


def _runs(design: Design) -> list[ModuleRun]:
    field, at, found = design.field, design.field.outlines, []
    for run in np.unique(field.run):
        own = np.flatnonzero(field.run == run)
        found.append(
            ModuleRun(
                modules=len(own),
                left=float(at.left[own].min()),
                right=float(at.right[own].max()),
                low=float(at.low[own].min()),
                high=float(at.high[own].max()),
            )
        )
    return sorted(found, key=lambda each: (each.low, each.left))


def _cut_bars(design: Design, carriers: Ints) -> list[CutBars]:
    """The bars of the layout's lines, with the stock length and the cuts of their part of the bill.

    `carriers` (P,): number of the line or rib of each attachment.
    """
    found, up_slope = [], design.layout.member.runs_up_slope
    for item in design.bill.items:
        if item.stock_length is not None and item.part == design.layout.member.section:
            bars = _alike_bars(design.layout, item.stock_length, carriers)
            cut = cut_from_stock(item.lengths, item.stock_length)
            found.append(CutBars(item.part, item.name, item.part_number, up_slope, item.stock_length, bars, cut))
    return found


def _alike_bars(layout: Layout, stock: float, carriers: Ints) -> tuple[AlikeBars, ...]:
    counts: Counter[tuple[float, float, SplicedBar]] = Counter()
    on = defaultdict[tuple[float, float, SplicedBar], set[int]](set)
    for lines, attachment in zip(layout.lines, layout.attachment, strict=True):
        bar = spliced_bar(round(lines.length, DECIMALS), stock, layout.supports(lines) - lines.start)
        key = round(lines.start, DECIMALS), round(lines.end, DECIMALS), bar
        counts[key] += len(lines) * layout.member.bars
        on[key] |= set(carriers[attachment.ravel()].tolist())
    ordered = sorted(counts, key=lambda key: (key[:2], min(on[key])))
    return tuple(AlikeBars(counts[key], *key, tuple(sorted(on[key]))) for key in ordered)

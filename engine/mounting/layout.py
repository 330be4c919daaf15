"""Positions of modules, of the lines that support them and of the attachments.

Lengths along the roof are in the plane of the slope that carries the array: x along the eave
from its left rake, y up the slope from the eave.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np

from engine.common.arrays import Bools, Floats, Ints
from engine.mounting.minimum_attachments import minimum_attachments
from engine.project.array import Array


@dataclass(frozen=True)
class Attitude:
    """Tilt and height of the modules above the roof.

    `tilt` from the roof plane [deg], positive when the low edge is toward the eave; `low` and
    `high` are the heights of its two edges above the pan [m] (equal when it lies parallel);
    `chord` is its size up the slope and `long_side` its longer side, both as manufactured [m].
    `net_coefficient` is the net pressure coefficient of a wind-tunnel report, None if the user has none.
    """

    tilt: float
    low: float
    high: float
    chord: float
    long_side: float
    net_coefficient: float | None = None

    @property
    def middle(self) -> float:
        """Height of the module's middle above the pan [m]."""
        return (self.low + self.high) / 2


@dataclass(frozen=True, eq=False)
class Rectangles:
    """Rectangles on the roof plane [m], four arrays of shape (n,)."""

    left: Floats
    low: Floats
    right: Floats
    high: Floats

    def __len__(self) -> int:
        return len(self.left)

    def subset(self, chosen: Bools | Ints) -> Rectangles:
        """The chosen rectangles."""
        return Rectangles(self.left[chosen], self.low[chosen], self.right[chosen], self.high[chosen])


@dataclass(eq=False)
class Field:
    """The modules of one method, row after row from the eave, each from the left rake.

    `outlines` are the modules projected on the roof plane. `run` numbers the unbroken sequences of modules that share
    attachments. `area` is one module's own surface [m²], `gap` the clear distance between neighbours [m]; `lost`
    counts the modules removed for keep-clear areas, `bridging` those removed because they would bridge an end lap.
    `row` and `column` are counted from 0 in the module's own array, `arrays[array[m]]`.
    """

    outlines: Rectangles
    row: Ints
    column: Ints
    run: Ints
    attitude: Attitude
    area: float
    gap: float
    array: Ints
    arrays: tuple[Array, ...]
    lost: int = 0
    bridging: int = 0

    def place_of(self, module: int) -> str:
        """Row and column of a module in words, with the name of its array if there are several."""
        place = f"row {self.row[module] + 1}, column {self.column[module] + 1}"
        return f"{self.arrays[self.array[module]].title}, {place}" if len(self.arrays) > 1 else place

    @property
    def modules(self) -> int:
        """Number of modules."""
        return len(self.row)

    @cached_property
    def runs(self) -> int:
        """Number of unbroken sequences of modules."""
        return len(np.unique(self.run))

    @property
    def covered(self) -> float:
        """Area of roof under the modules [m²]."""
        at = self.outlines
        return float(((at.right - at.left) * (at.high - at.low)).sum())

    @property
    def minimum_attachments(self) -> int:
        """The minimum number of attachments by rule of practice."""
        return minimum_attachments(self.modules, self.runs)


@dataclass(frozen=True, eq=False)
class SpacingPattern:
    """Spacing of attachments in each strip of a field: ribs from attachment to attachment, or attachments per edge.

    Half numbers alternate spans of the two whole numbers beside them: 1.5 is two of every three ribs.
    `strip` (n,) is the number of each module's strip; `spacings` and `names` have one entry for each strip.
    """

    spacings: tuple[float, ...]
    strip: Ints
    names: tuple[str, ...]

    @property
    def is_uniform(self) -> bool:
        """True if every strip has the same spacing."""
        return len(set(self.spacings)) == 1

    @property
    def has_half(self) -> bool:
        """True if a spacing alternates."""
        return any(spacing % 1 for spacing in self.spacings)

    @property
    def at_modules(self) -> Floats:
        """Spacing at every module (n,)."""
        return np.array(self.spacings, dtype=np.float64)[self.strip]

    def with_uniform(self, spacing: float) -> SpacingPattern:
        """The same strips, all with one spacing."""
        return replace(self, spacings=(spacing,) * len(self.names))


@dataclass(frozen=True)
class Foot:
    """One foot of a support: its offset from the line, and its part of the support's forces.

    `offset` from the line up the slope [m]; `normal` and `in_plane`: parts of the support's own forces that this foot
    carries [-]; `couple`: force normal to the roof per unit of in-plane force at the support [-]. The support's whole
    tributary area sets each foot's effective wind area.
    """

    offset: float = 0.0
    normal: float = 1.0
    couple: float = 0.0
    in_plane: float = 1.0


@dataclass(frozen=True, eq=False)
class SupportLines:
    """B parallel members along x, from `start` to `end` [m], at `across` (B,) [m] up the slope.

    All of them are attached at the ribs `stands_on` (S,). Each has L loads. Load i is spread from `load_start[i]` to
    `load_end[i]` [m] (a clamp if the two are equal). On line b it is `share[b]` of the force of module `module[b, i]`,
    normal to the roof and in its plane, plus `couple[b, i]` times its in-plane force as a force normal to the roof.
    `clamp[i]` numbers the clamps along the line: two neighbouring modules share one. `width` is the strip of module
    that each line carries [m]; `added_ribs` counts the single ribs added to the spacing pattern.

    For members up the slope (`Member.runs_up_slope`) the axes are exchanged: `across` (B,) are their positions along x,
    each over a rib, and `stands_on` (S,) are numbers of positions up the slope.
    """

    across: Floats
    stands_on: Ints
    start: float
    end: float
    load_start: Floats
    load_end: Floats
    clamp: Ints
    module: Ints
    share: Floats
    couple: Floats
    width: float
    feet: tuple[Foot, ...] = (Foot(),)
    added_ribs: int = 0

    def __len__(self) -> int:
        return len(self.across)

    def subset(self, chosen: Bools) -> SupportLines:
        """The chosen lines (B,)."""
        return replace(
            self,
            across=self.across[chosen],
            module=self.module[chosen],
            share=self.share[chosen],
            couple=self.couple[chosen],
        )

    @property
    def length(self) -> float:
        """Length of each line [m]."""
        return self.end - self.start

    @property
    def clamps(self) -> int:
        """Number of clamps on each line."""
        return int(self.clamp[-1]) + 1


@dataclass(frozen=True)
class Member:
    """Kind of member that the support lines of a method are: a rail, a rack or the module's own frame.

    `link` is its id in the load path and `section` the hardware it is made of (None: the module's own frame); `bars`
    share a line's load evenly; `clamped`: modules are clamped to the member itself (else they are held at its
    attachments); `legs`: it stands on legs; `runs_up_slope`: it runs up the slope.
    """

    link: str
    section: str | None
    bars: int = 1
    clamped: bool = True
    legs: bool = False
    runs_up_slope: bool = False

    def on_roof(self, along: Floats, across: Floats) -> tuple[Floats, Floats]:
        """Positions x and y on the roof [m] from those along a line and across it."""
        return (across, along) if self.runs_up_slope else (along, across)

    @property
    def title(self) -> str:
        """Name of the member."""
        return self.link.replace("_", " ")


@dataclass(frozen=True, eq=False)
class Attachments:
    """P attachments: numbers of the `rib` at or nearest to each, positions `x` and `y` [m].

    `height` above the pan is where forces enter [m].
    """

    rib: Ints
    x: Floats
    y: Floats
    height: float

    def __len__(self) -> int:
        return len(self.rib)

    def same_as(self, other: Attachments) -> bool:
        """True if all attachments have the same positions as the others."""
        return np.array_equal(self.x, other.x) and np.array_equal(self.y, other.y)


@dataclass(frozen=True, eq=False)
class LaidLines:
    """Support lines and their attachments.

    `stand_positions` [m along the lines] are the positions at which lines may be attached: `SupportLines.stands_on` are
    numbers of these. `attachment` holds for each of `lines` the number of the attachment under each of its G feet at
    each support (G, S, B).
    """

    member: Member
    lines: tuple[SupportLines, ...]
    stand_positions: Floats
    attachments: Attachments
    attachment: tuple[Ints, ...]

    @property
    def added_attachments(self) -> int:
        """Number of the single attachments added to the pattern."""
        return sum(len(line) * len(line.feet) * line.added_ribs for line in self.lines)

    def supports(self, lines: SupportLines) -> Floats:
        """Positions of the supports of some lines (S,) [m along them]."""
        return self.stand_positions[lines.stands_on]

    def span(self, lines: SupportLines) -> float:
        """Longest span of some lines from attachment to attachment [m]."""
        return float(np.diff(self.supports(lines)).max())

    @property
    def longest_span(self) -> float:
        """Longest span of all lines from attachment to attachment [m]."""
        return max(map(self.span, self.lines))


@dataclass(frozen=True, eq=False)
class Layout(LaidLines):
    """One layout of a field, by a `pattern`.

    It consists of the lines of `runs` that share no attachment with one another. `order` (P,): where the attachments of
    all runs, one run after the other, have their place among those of the layout.
    """

    pattern: SpacingPattern
    runs: tuple[LaidLines, ...]
    order: Ints

    def in_order(self, of_runs: Floats) -> Floats:
        """Values of the attachments of all runs, one run after another (P, ...), in the order of the layout."""
        ordered = np.empty_like(of_runs)
        ordered[self.order] = of_runs
        return ordered

    def place_among_runs(self, attachment: int) -> int:
        """Number of an attachment among those of all runs, one run after another."""
        return int(np.flatnonzero(self.order == attachment)[0])

"""Where modules lie and what holds them: fields, support lines, points.

Lengths along the roof are in the plane of the slope that carries the array: x along the eave
from its left rake, y up the slope from the eave.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np

from engine.common.arrays import Bools, Floats, Ints


@dataclass(frozen=True)
class Attitude:
    """How a module stands on the roof.

    `tilt` from the roof plane [deg], positive when the low edge is toward the eave; `low` and
    `high` are the heights of its two edges above the pan [m] (equal when it lies parallel);
    `chord` is its size up the slope and `long_side` its longer side, both as manufactured [m].
    `net_coefficient` is a wind-tunnel report's net pressure coefficient, where the user has one.
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


@dataclass(frozen=True, eq=False)
class Field:
    """The modules of one method, in order of row and column.

    `outlines` are the modules' shadows on the roof plane. `run` numbers the unbroken sequences
    of modules that share points. `area` is one module's own surface [m²]; `lost` counts modules
    that keep-clear areas took away. `gap` [m] is the clear distance between neighbours that the array
    asks for.
    """

    outlines: Rectangles
    row: Ints
    column: Ints
    run: Ints
    attitude: Attitude
    area: float
    gap: float
    lost: int = 0

    @property
    def modules(self) -> int:
        """How many modules there are."""
        return len(self.row)

    @cached_property
    def runs(self) -> int:
        """How many unbroken sequences they form."""
        return len(np.unique(self.run))

    @property
    def covered(self) -> float:
        """Area of roof in the modules' shadow [m²]."""
        at = self.outlines
        return float(((at.right - at.left) * (at.high - at.low)).sum())

    @property
    def minimum_attachments(self) -> int:
        """Four points a module, shared: two a module plus the edges (common practice, no source)."""
        return 2 * (self.modules + self.runs)


@dataclass(frozen=True, eq=False)
class SpacingPattern:
    """How often a field is held, in the method's own measure: ribs from point to point, or points per edge.

    Half a rib more means spans of both whole numbers by turns: 1.5 is two of every three ribs.
    `strip` (n,) numbers the strip of the field that each module lies in; `spacings` has one for each
    strip and `names` says each strip in words.
    """

    spacings: tuple[float, ...]
    strip: Ints
    names: tuple[str, ...]

    @property
    def even(self) -> bool:
        """Whether every strip has the same spacing."""
        return len(set(self.spacings)) == 1

    @property
    def at_modules(self) -> Floats:
        """The spacing asked for at every module (n,)."""
        return np.array(self.spacings, dtype=np.float64)[self.strip]

    def with_even(self, spacing: float) -> SpacingPattern:
        """The same strips, all at one spacing."""
        return replace(self, spacings=(spacing,) * len(self.names))


@dataclass(frozen=True)
class Foot:
    """How a support of a line stands on the roof.

    `offset` from the line up the slope [m]; `normal`, `in_plane`: parts of the support's own
    forces that arrive here; `couple`: force normal to the roof per unit of in-plane force at the
    support. The support's whole tributary area sets each foot's effective wind area.
    """

    offset: float = 0.0
    normal: float = 1.0
    couple: float = 0.0
    in_plane: float = 1.0


@dataclass(frozen=True, eq=False)
class SupportLines:
    """B members along x, alike but for their place up the slope and the modules they carry.

    They stand on the roof at `stands_on` (S,), from `start` to `end` [m]. Load i of L is spread from
    `load_start[i]` to `load_end[i]` (a clamp where they meet) and, on line b, carries `share[b]` of
    module `module[b, i]`'s force normal to the roof and in the plane, and `couple[b, i]` of its in-plane
    force as a force normal to the roof. `clamp[i]` numbers the clamps along the line: neighbours
    share one. `width` is the strip of module each line carries [m]; `added` counts the single ribs
    added to the pattern they stand in.

    Members up the slope (`Member.up`) are described with the axes exchanged: `across` are their places along x,
    each over a rib, and `stands_on` number the places up the slope where they stand.
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
    added: int = 0

    def __len__(self) -> int:
        return len(self.across)

    def some(self, chosen: Bools, stands_on: Ints, added: int = 0) -> SupportLines:
        """Some of these lines, on ribs of their own."""
        at, module, share = self.across[chosen], self.module[chosen], self.share[chosen]
        return replace(
            self, across=at, module=module, share=share, couple=self.couple[chosen], stands_on=stands_on, added=added
        )

    @property
    def length(self) -> float:
        """Of each line [m]."""
        return self.end - self.start

    @property
    def clamps(self) -> int:
        """How many clamps sit on each line."""
        return int(self.clamp[-1]) + 1


@dataclass(frozen=True)
class Member:
    """What the lines of a method are, for their own check.

    `link` is its name in the load path and `section` the hardware it is made of (None: the module's
    own frame); `bars` share a line's load evenly; `clamped`: modules are clamped to it where they
    load it (otherwise where it stands on the roof); `legs`: it stands on legs; `up`: it runs up the slope.
    """

    link: str
    section: str | None
    bars: int = 1
    clamped: bool = True
    legs: bool = False
    up: bool = False

    def on_roof(self, along: Floats, across: Floats) -> tuple[Floats, Floats]:
        """Places along a line and across it, as x and y."""
        return (across, along) if self.up else (along, across)

    @property
    def title(self) -> str:
        """What people call it."""
        return self.link.replace("_", " ")


@dataclass(frozen=True, eq=False)
class Attachments:
    """Attachments: which rib, where up the slope, and how high above the pan the force enters [m]."""

    rib: Ints
    x: Floats
    y: Floats
    height: float

    def __len__(self) -> int:
        return len(self.rib)

    def same_as(self, other: Attachments) -> bool:
        """Whether others stand at the very same places."""
        return np.array_equal(self.x, other.x) and np.array_equal(self.y, other.y)


@dataclass(frozen=True, eq=False)
class Layout:
    """One way to hold a field: its lines and the points they stand on. `added` counts the single points added to the pattern.

    Lines stand at some of `stand_positions` [m along them], of which `SupportLines.stands_on` are the numbers; of each of `lines`,
    `attachment` (G, S, B) is the number of the point under every foot of every support.
    """

    pattern: SpacingPattern
    added: int
    member: Member
    lines: tuple[SupportLines, ...]
    stand_positions: Floats
    attachments: Attachments
    attachment: tuple[Ints, ...]

    def supports(self, lines: SupportLines) -> Floats:
        """Where some of its lines stand (S,) [m along them]."""
        return self.stand_positions[lines.stands_on]

    def span(self, lines: SupportLines) -> float:
        """From point to point along some of its lines, the longest [m]."""
        return float(np.diff(self.supports(lines)).max())

    @property
    def longest_span(self) -> float:
        """From point to point along a line, the longest there is [m]."""
        return max(map(self.span, self.lines))

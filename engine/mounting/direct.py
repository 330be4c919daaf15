"""Landscape modules mounted directly on the ribs, held at crossings of their long edges with seams or ribs."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from dataclasses import field as dataclass_field
from functools import cached_property
from itertools import combinations
from math import comb
from typing import Annotated, ClassVar, Self

import numpy as np

from engine.common.arrays import Bools, Floats, Ints, first_minimum, group_nearby
from engine.common.tolerances import SAME_LENGTH, SAME_PLACE
from engine.mounting.build_layout import LinesAtPlaces
from engine.mounting.holding import LONGEST_OVERHANG
from engine.mounting.influence import shares_of_lines
from engine.mounting.interface import Alternative, PartQuantity, Refusal, RunGroup, SpacingField, SpacingRule
from engine.mounting.layout import Field, Layout, Member, SupportLines
from engine.mounting.line_position import find_line_position
from engine.mounting.module_grid import in_landscape, place_modules
from engine.mounting.places import places_along_eave, rafter_cure
from engine.mounting.spacing_pattern import describe_strips
from engine.project.job import Job
from engine.schema import InputTable, input_field
from engine.statics.continuous_beam import UnitForces, solve_beams
from engine.units import both

MAX_CHOICES = 300
"""Largest number of ways to choose crossings that are all evaluated."""

MIN_SHARE = 0.05
"""Smallest share of its edge's load for which a crossing counts as an attachment [-]."""

NEARLY_EQUAL_SHARE = MIN_SHARE
"""Difference of the largest shares of two choices of crossings that counts less than their overhangs (judgement) [-]:
as for a crossing, a share as small as this does next to nothing."""

MEMBER = Member("module_frame", None, clamped=False)


class Direct(InputTable):
    """Modules without rails: each long edge is a beam over two or more crossings; neighbours share attachments."""

    id: ClassVar[str] = "direct"
    spacing_is_span: ClassVar[bool] = False
    spacing: Annotated[SpacingRule, SpacingField("per edge", by_span=False)] = input_field(
        "fewest", description="number of attachments along each long edge"
    )

    def title(self, job: Job) -> str:
        """Name of the method on this roof."""
        return f"modules on {job.roof.rib_word}s"

    def refusal_of_roof(self, job: Job) -> Refusal | None:
        """Refusal if a module's long edge is too short to cross two ribs where it may be supported; else None."""
        room, places = _supported_length(job), places_along_eave(job)
        if room >= places.pitch:
            return None
        cure = rafter_cure(job) or "Use rails"
        return Refusal(
            "too_few_ribs",
            f"The {places.words} are {both(places.pitch, 'small length')} apart; the part of a module's long edge "
            f"that may be supported is {both(room, 'small length')} long and cannot cross two. {cure}",
        )

    def place_modules(self, job: Job) -> Field | Refusal:
        """Field of the stated rows and columns in landscape."""
        return place_modules(job, *in_landscape(job), None, by_column=True)

    def candidate_spacings(self, job: Job, field: Field) -> tuple[int, ...]:
        """Attachments per edge, from two to the number of ribs that an edge can cross."""
        return tuple(range(2, max(3, int(_supported_length(job) / places_along_eave(job).pitch) + 2)))

    def field_lines(self, job: Job, field: Field) -> EdgeLines | Refusal:
        """The long edges of every column, or a refusal if a gap between edges takes no attachment."""
        return self._misses_structure(job, field) or EdgeLines(job, field, MEMBER, places_along_eave(job))

    def _misses_structure(self, job: Job, field: Field) -> Refusal | None:
        """Refusal if a gap between edges lies on an overhang, or brackets on the structure find no purlin there."""
        for edge in np.unique(np.concatenate([field.outlines.low - field.gap, field.outlines.high])):
            position = find_line_position(
                job, float(edge), float(edge + field.gap), "the gap at a module's long edge", other_cure="use rails"
            )
            if isinstance(position, Refusal):
                return position
        return None

    def remedies(self) -> tuple[tuple[Self, ...], ...]:
        """No remedies: the search itself tries more attachments per edge."""
        return ()

    def alternatives(self) -> tuple[Alternative, ...]:
        """None: modules lie in landscape on the ribs."""
        return ()

    def parts_needed(self, job: Job, field: Field, layout: Layout) -> tuple[PartQuantity, ...]:
        """Quantities of attachments and of the module hooks, one on each."""
        count = len(layout.attachments)
        return PartQuantity("attachment", "attachments", count), PartQuantity("module_hook", "module hooks", count)

    def spacing_label(self, layout: Layout, job: Job) -> str:
        """Spacing of a layout in words: "3 per edge"."""
        most = max(len(lines.stands_on) for lines in layout.lines)
        return describe_strips(layout.pattern, lambda number: f"{min(number, most):.0f} per edge")


def _supported_length(job: Job) -> float:
    """Length of a module's long edge between its outermost supportable points [m]."""
    return job.module.length - 2 * job.module.edge_support[0]


@dataclass(frozen=True, eq=False)
class EdgeLines(LinesAtPlaces):
    """Every long edge on a pattern's number of crossings, or on all it has if these are fewer."""

    _found: dict[int, dict[float, Ints | Refusal]] = dataclass_field(default_factory=dict)

    def groups(self, strip: Ints) -> list[RunGroup]:
        """The columns; `strip` (M,) of every module."""
        return [RunGroup(modules[None], left, strip[modules]) for left, modules in columns_of(self.field)]

    def lines_of(self, group: RunGroup) -> list[SupportLines]:
        """The edges of one column."""
        return [_edge_lines(self.field, group.module[0], *self._edges)]

    def attach(
        self, group: RunGroup, lines: Sequence[SupportLines], spacing: Floats, *, enough: bool
    ) -> list[SupportLines] | Refusal:
        """The edges of one column, those with equally many attachments together."""
        (column,), attached = lines, list[SupportLines]()
        per_edge = _attachments_per_edge(column.across, np.repeat(spacing.astype(np.int64), 2))
        for number in np.unique(per_edge).tolist():
            chosen = self._crossings(column.start, number)
            if isinstance(chosen, Refusal):
                return chosen
            attached.append(replace(column.subset(per_edge == number), stands_on=chosen))
        return attached

    def _crossings(self, left: float, number: int) -> Ints | Refusal:
        """The best crossings of the edges that begin at `left` [m]; those of all edges are found at once."""
        if number not in self._found:
            lefts = np.unique(self.field.outlines.left)
            best = best_crossings(self.job, lefts, self.places.x, number)
            self._found[number] = dict(zip(lefts.tolist(), best, strict=True))
        return self._found[number][left]

    @cached_property
    def _edges(self) -> tuple[Floats, Floats, Floats]:
        """Positions of a module's two lines from its lower edge [m], and their shares of its forces, (2,) each."""
        field, half_gap = self.field, self.field.gap / 2
        depth = float(field.outlines.high[0] - field.outlines.low[0])
        edges = np.array([-half_gap, depth + half_gap])
        return edges, *shares_of_lines(edges, 0.0, depth, field.attitude.middle - self.job.hardware.attachment_height)


def columns_of(field: Field) -> list[tuple[float, Ints]]:
    """Left edge [m] and modules (n,) of each column of the field."""
    lefts, column = np.unique(np.rint(field.outlines.left * 1e6), return_inverse=True)
    return [(float(left) / 1e6, np.flatnonzero(column == number)) for number, left in enumerate(lefts)]


def _attachments_per_edge(y: Floats, by_module: Ints) -> Ints:
    """Number of attachments of each edge (n,); edges that share attachments take the larger number of the two modules.

    Args:
        y: positions of the edges up the slope [m], (n,).
        by_module: attachments per edge in the pattern, at each edge's own module (n,).
    """
    _, edge = group_nearby(y, SAME_PLACE)
    largest = np.zeros(edge.max() + 1, dtype=np.int64)
    np.maximum.at(largest, edge, by_module)
    return largest[edge]


def _edge_lines(field: Field, modules: Ints, edges: Floats, share: Floats, couple: Floats) -> SupportLines:
    """Both long edges of every module of a column as evenly loaded beams, not yet attached to ribs.

    Args:
        field: the field.
        modules: the column's modules (n,).
        edges: positions of the two lines from a module's lower edge [m].
        share: each line's share of the force normal to the roof (2,) [-].
        couple: each line's force normal to the roof per unit of in-plane force (2,) [-].
    """
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


def best_crossings(job: Job, lefts: Floats, ribs: Floats, min_attachments: int) -> list[Ints | Refusal]:
    """Numbers of the ribs that hold each edge best, see `_most_balanced`, or a refusal if no two hold it.

    All edges are solved together, because each call is slow whatever its size.

    Args:
        job: the job.
        lefts: the edges' left ends (n,) [m].
        ribs: positions of all ribs, or of the other places for attachments [m].
        min_attachments: attachments per edge; an edge with fewer useful crossings uses all of them.
    """
    length, zone = job.module.length, job.module.clamp_zone
    crossed = [_crossed(job, left, ribs) for left in lefts.tolist()]
    found: dict[int, Ints] = {}
    for number in range(min_attachments, 1, -1):
        choices = {
            edge: _choices(each, number)
            for edge, each in enumerate(crossed)
            if edge not in found and len(each) >= number
        }
        if not choices:
            continue
        supports = np.concatenate([ribs[chosen] - lefts[edge] for edge, chosen in choices.items()])
        shares, end = _shares_of_even_load(supports, length), 0
        for edge, chosen in choices.items():
            here = slice(end, end := end + len(chosen))
            best = _most_balanced(supports[here], shares[here], length, zone)
            if best is not None:
                found[edge] = chosen[best]
    return [
        found[edge] if edge in found else _too_few_crossings(job, left, len(crossed[edge]))
        for edge, left in enumerate(lefts.tolist())
    ]


def _crossed(job: Job, left: float, ribs: Floats) -> Ints:
    """Numbers of the ribs that an edge from `left` [m] crosses where it may be supported."""
    (nearest, farthest), length = job.module.edge_support, job.module.length
    from_corner = np.minimum(ribs - left, left + length - ribs)
    return np.flatnonzero((from_corner >= nearest - SAME_LENGTH) & (from_corner <= farthest + SAME_LENGTH))


def _shares_of_even_load(supports: Floats, length: float) -> Floats:
    """Shares of supports (n, S) [m] of edges of `length` [m] under an even load (n, S) [-]."""
    start = np.zeros((len(supports), 1))
    return solve_beams(supports, UnitForces(start, start + length)).reactions[:, :, 0]


def _too_few_crossings(job: Job, left: float, crossed: int) -> Refusal:
    """The refusal if the long edges of the modules at `left` [m] cross no two ribs that can hold them."""
    nearest, farthest = (both(distance, "small length") for distance in job.module.edge_support)
    found = f"{crossed} {places_along_eave(job).words}"
    return Refusal(
        "too_few_ribs",
        f"The long edges of the modules {both(left, 'length')} from the left rake cross {found} "
        f"between {nearest} and {farthest} from a corner, no two of which hold an edge. Move the array along the "
        "eave, or use rails",
    )


def _choices(crossed: Ints, count: int) -> Ints:
    """Ways to choose `count` of the crossings (n, count): all, or only the evenly spread ones if there are too many."""
    if comb(len(crossed), count) <= MAX_CHOICES:
        return np.array(list(combinations(crossed.tolist(), count)))
    spread = {
        tuple(np.rint(np.linspace(first, last, count)).astype(int))
        for first, last in combinations(range(len(crossed)), 2)
        if last - first >= count - 1
    }
    return np.asarray(crossed[np.array(sorted(spread))])


def _most_balanced(supports: Floats, shares: Floats, length: float, zone: tuple[float, float]) -> int | None:
    """Number of the best choice of supports of an evenly loaded edge, or None if no choice holds it.

    Of the choices whose largest share of the load is within `NEARLY_EQUAL_SHARE` of the smallest, those with both last
    supports in the maker's zone come first, then that with the shortest longest overhang, then that with the smallest
    share; one with an overhang beyond `LONGEST_OVERHANG` of the edge is taken only if there is no other.

    Args:
        supports: positions of the supports from the edge's left end (n, S) [m].
        shares: their shares of the load (n, S) [-].
        length: of the edge [m].
        zone: the maker's clamp zone, from and to, measured from the corner [m].
    """
    largest, ends = shares.max(axis=1), np.column_stack([supports[:, 0], length - supports[:, -1]])
    overhang = ends.max(axis=1)
    in_zone = (ends.min(axis=1) >= zone[0] - SAME_LENGTH) & (overhang <= zone[1] + SAME_LENGTH)
    chosen = np.flatnonzero(shares.min(axis=1) >= MIN_SHARE)
    if not len(chosen):
        return None
    chosen = _preferred(chosen, overhang <= LONGEST_OVERHANG * length + SAME_LENGTH)
    chosen = _preferred(chosen, largest <= largest[chosen].min() + NEARLY_EQUAL_SHARE)
    chosen = _preferred(chosen, in_zone)
    chosen = _preferred(chosen, overhang <= overhang[chosen].min() + SAME_LENGTH)
    return int(chosen[first_minimum(largest[chosen])])


def _preferred(chosen: Ints, good: Bools) -> Ints:
    """Those of the chosen (n,) that are good, or all of them if none is."""
    better = chosen[good[chosen]]
    return better if len(better) else chosen

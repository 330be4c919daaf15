"""Rails up the slope under columns of modules, each over one rib: what `rows` is for lines along the eave, with the axes exchanged."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import product

import numpy as np

from engine.common.arrays import Floats, first_minimum
from engine.mounting.influence import build_layout
from engine.mounting.interface import Refusal
from engine.mounting.layout import Field, Layout, Member, Rectangles, SpacingPattern, SupportLines
from engine.mounting.line_position import clear_of_clips
from engine.mounting.lines_along_eave import (
    ModuleRows,
    describe_pattern,
    lines_under_rows,
    module_rows,
    place_on_ribs,
    split_rows,
    support_word,
    too_few_attachments,
)
from engine.mounting.module_grid import in_landscape, place
from engine.project.job import Job
from engine.statics.continuous_beam import UnitForces, solve_beams
from engine.units import both

MEMBER = Member("rail", "rail", up=True)


@dataclass(frozen=True)
class RailsUpSlope:
    """Modules in landscape, each column on `rails` rails that stand on supports, or every `step` [m] along their rib."""

    rails: int
    step: float
    staggered: bool

    def place(self, job: Job) -> Field | Refusal:
        """The array as it is counted; a column breaks at the rail's longest run."""
        return place(job, *in_landscape(job), job.hardware.rail.longest_run, by_column=True)

    def candidate_spacings(self, job: Job, field: Field) -> tuple[int, ...]:
        """Supports, or steps, from attachment to attachment, sparsest first."""
        longest = max(rows.end - rows.start for rows in module_rows(turned(field)))
        return tuple(range(max(1, int(longest / self._pitch(job))), 0, -1))

    def lay_out(self, job: Job, field: Field, pattern: SpacingPattern, minimum: int) -> Layout | Refusal:
        """Attachments at the places that every column asks for, single ones added until there are `minimum`."""
        places, free_end = self._places(job, field), job.hardware.rail.cantilever_ratio * self._pitch(job)
        ribs, height = job.roof.ribs(job.building), job.hardware.attachment_height
        arm = (
            2 * (field.attitude.middle - height) / job.module.width
        )  # what slides turns the module on its lower and upper clamps
        lines: list[SupportLines] = []
        for column in (each for alike in module_rows(turned(field), pattern) for each in split_rows(alike)):
            under = best_ribs(job, float(column.low[0]), ribs, self.rails)
            if isinstance(under, Refusal):
                return under
            x, share = under
            rails = lines_under_rows(
                column, x[None], share, share[:, None] * np.array([arm, -arm]), column.depth / self.rails
            )
            min_attachments = math.ceil(2 * (column.module.shape[1] + 1) / self.rails) if minimum else 0
            standing = place_on_ribs(column, rails, places, free_end, min_attachments, staggered=self.staggered)
            if not standing:
                return self._too_few(job, column)
            lines += standing
        return too_few_attachments(job, lines, minimum, MEMBER) or build_layout(
            pattern, MEMBER, lines, ribs, height, places
        )

    def spacing_label(self, layout: Layout, job: Job) -> str:
        """The spacing in words."""
        return describe_pattern(layout, self._pitch(job), support_word(job, MEMBER))

    def _pitch(self, job: Job) -> float:
        return job.roof.support_spacing if job.hardware.bracket == "structure" else self.step

    def _places(self, job: Job, field: Field) -> Floats:
        """Where rails may stand, from the eave [m]: over supports, or at steps centred on the field, clear of clips where asked."""
        supports = job.roof.supports(job.building)
        if job.hardware.bracket == "structure":
            return supports
        low, high = float(field.outlines.low.min()), float(field.outlines.high.max())
        steps = int((high - low) / self.step + 1e-9)
        lattice = (low + high - steps * self.step) / 2 + self.step * np.arange(steps + 1)
        room = self.step / 4
        return np.array(
            [clear_of_clips(job, supports, max(low, y - room), y, min(high, y + room)) for y in lattice.tolist()]
        )

    def _too_few(self, job: Job, column: ModuleRows) -> Refusal:
        length, word = both(column.end - column.start, "length"), support_word(job, MEMBER)
        return Refusal(
            "too_few_supports",
            f"a rail of {length} up the slope meets fewer than two {word}s, and needs two to stand on",
        )


def turned(field: Field) -> Field:
    """The field with x and y exchanged: its columns as rows."""
    at = field.outlines
    return replace(field, outlines=Rectangles(at.low, at.left, at.high, at.right), row=field.column, column=field.row)


def best_ribs(job: Job, left: float, ribs: Floats, rails: int) -> tuple[Floats, Floats] | Refusal:
    """The ribs under a column's rails: one in each clamp zone, any third between, the largest share as small as can be.

    Args:
        job: the job.
        left: the column's left edge [m].
        ribs: every rib's place [m].
        rails: two or three.

    Returns:
        The rails' places along x [m] and their shares of a module's force normal to the roof, (K,) each.
    """
    within = []
    for low, high in _zones(job, left, rails):
        inside = ribs[(ribs >= low - 1e-9) & (ribs <= high + 1e-9)]
        if not len(inside):
            return _misses(job, left, low, high, ribs)
        within.append(inside)
    choices = np.array([places for places in product(*within) if np.all(np.diff(places) > 0)])
    if not len(choices):
        word = job.roof.rib_word
        return Refusal(
            "misses_zone",
            f"two rails of a column would stand over the same {word}: fewer rails, or {word}s closer together",
        )
    start = np.full((len(choices), 1), left)
    shares = solve_beams(choices, UnitForces(start, start + job.module.length)).reactions[:, :, 0]
    best = first_minimum(shares.max(axis=1))
    return choices[best], shares[best]


def _zones(job: Job, left: float, rails: int) -> Iterator[tuple[float, float]]:
    """The stretches along x in which a column's rails may stand [m]."""
    (near, far), length = job.module.clamp_zone, job.module.length
    yield left + near, left + far
    if rails == 3:
        yield left + length / 4, left + 3 * length / 4
    yield left + length - far, left + length - near


def _misses(job: Job, left: float, low: float, high: float, ribs: Floats) -> Refusal:
    miss = float(np.maximum(low - ribs, ribs - high).min())
    word, stretch = job.roof.rib_word, f"{both(low - left, 'small length')} to {both(high - left, 'small length')}"
    return Refusal(
        "misses_zone",
        f"the modules {both(left, 'length')} from the rake may be held {stretch} from their left side, "
        f"and the nearest {word} misses that by {both(miss, 'small length')}",
    )

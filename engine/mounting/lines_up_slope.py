"""Rails up the slope under columns of modules, each over one rib.

The code of `lines_along_eave` is used with the axes exchanged: columns are its rows, and the positions up the slope at
which rails may be attached are its ribs.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import cached_property
from itertools import product

import numpy as np

from engine.common.arrays import Floats, Ints, first_minimum
from engine.common.tolerances import SAME_LENGTH, WHOLE_NUMBER
from engine.mounting.interface import Miss, Refusal, RunGroup
from engine.mounting.layout import Field, Layout, Member, Rectangles, SupportLines
from engine.mounting.line_position import clear_of_clips
from engine.mounting.lines_along_eave import (
    LinesUnderRows,
    ModuleRows,
    alike_runs,
    describe_pattern,
    lines_under_rows,
    longest_run,
    rows_of,
    split_rows,
    support_word,
)
from engine.mounting.module_grid import in_landscape, place_modules
from engine.mounting.places import places_along_eave
from engine.project.job import Job
from engine.statics.continuous_beam import UnitForces, solve_beams
from engine.units import both

MEMBER = Member("rail", "rail", runs_up_slope=True)


@dataclass(frozen=True)
class RailsUpSlope:
    """Modules in landscape, each column on `rails` rails, attached to purlins or every `step` [m] along their rib."""

    rails: int
    step: float
    staggered: bool

    def place_modules(self, job: Job) -> Field | Refusal:
        """Field of the stated rows and columns in landscape; a column is divided at the rail's longest run."""
        return place_modules(job, *in_landscape(job), job.hardware.rail.longest_run, by_column=True)

    def candidate_spacings(self, job: Job, field: Field) -> tuple[int, ...]:
        """Purlins, or steps, from attachment to attachment, largest first."""
        return tuple(range(max(1, int(longest_run(exchange_axes(field)) / self.pitch(job))), 0, -1))

    def field_lines(self, job: Job, field: Field) -> RailLinesUpSlope:
        """The rails under every column."""
        cure = "Use three rails a column" if self.rails == 2 else "Use another mounting method"
        positions = self._positions(job, field)
        return RailLinesUpSlope(
            job, field, MEMBER, places_along_eave(job), positions, cure, staggered=self.staggered, arrangement=self
        )

    def spacing_label(self, layout: Layout, job: Job) -> str:
        """The spacing in words."""
        word = support_word(job, MEMBER)
        return describe_pattern(layout, self.pitch(job), word, f"{word}s")

    def pitch(self, job: Job) -> float:
        """Distance between the positions at which a rail may be attached [m]."""
        return job.roof.support_spacing if job.hardware.at_fastenings else self.step

    def _positions(self, job: Job, field: Field) -> Floats:
        """Positions from the eave at which rails may be attached [m]: purlins, or steps centred on the field.

        Overhangs are left out of both. Each step is moved by at most a quarter of its length to stay clear of clips.
        """
        supports, (_, (start, end)) = job.roof.supports(job.building), job.building.stands_from_to
        if job.hardware.at_fastenings:
            return supports[(supports >= start - SAME_LENGTH) & (supports <= end + SAME_LENGTH)]
        low, high = max(float(field.outlines.low.min()), start), min(float(field.outlines.high.max()), end)
        steps = int((high - low) / self.step + WHOLE_NUMBER)
        centred = (low + high - steps * self.step) / 2 + self.step * np.arange(steps + 1)
        shift = self.step / 4
        return np.array(
            [clear_of_clips(job, supports, max(low, y - shift), y, min(high, y + shift)) for y in centred.tolist()]
        )


@dataclass(frozen=True, eq=False, kw_only=True)
class RailLinesUpSlope(LinesUnderRows):
    """Rails of every column, each over one rib, attached at the positions of a pattern."""

    arrangement: RailsUpSlope

    def groups(self, strip: Ints) -> list[RunGroup]:
        """Columns with the same positions up the slope, in groups; `strip` (M,) of every module."""
        return alike_runs(self._turned, strip)

    def rows(self, group: RunGroup) -> ModuleRows:
        """The columns of a run group."""
        return rows_of(self._turned, group)

    def lines_of(self, group: RunGroup) -> list[SupportLines] | Refusal:
        """The rails of columns that are alike."""
        rails, number = list[SupportLines](), self.arrangement.rails
        # A load along the slope turns the module: down on its lower clamps, up on its upper ones.
        arm = self.field.attitude.middle - self.job.hardware.attachment_height
        couple = 2 * arm / self.job.module.width * np.array([1, -1])
        for column in split_rows(self.rows(group)):
            chosen = best_ribs(self.job, float(column.low[0]), self.places.x, number)
            if isinstance(chosen, Refusal):
                return chosen
            x, share = chosen
            rails.append(lines_under_rows(column, x[None], share, share[:, None] * couple, column.depth / number))
        return rails

    @property
    def stands(self) -> Floats:
        """Positions from the eave at which rails may be attached [m]."""
        assert self.positions is not None
        return self.positions

    @property
    def pitch(self) -> float:
        """Distance between these positions [m]."""
        return self.arrangement.pitch(self.job)

    @cached_property
    def _turned(self) -> Field:
        return exchange_axes(self.field)

    def too_few(self, rows: ModuleRows) -> Refusal:
        """The refusal if a rail has fewer than two positions at which it may be attached."""
        length, word = both(rows.end - rows.start, "length"), support_word(self.job, MEMBER)
        shorter_step = "" if self.job.hardware.at_fastenings else ", use a shorter step"
        return Refusal(
            "too_few_supports",
            f"The rail of {length} up the slope meets fewer than two {word}s, and needs two attachments. "
            f"Put more modules in the column{shorter_step}, or run the rails along the eave",
        )


def exchange_axes(field: Field) -> Field:
    """The field with x and y exchanged: its columns as rows."""
    at = field.outlines
    return replace(field, outlines=Rectangles(at.low, at.left, at.high, at.right), row=field.column, column=field.row)


def best_ribs(job: Job, left: float, ribs: Floats, rails: int) -> tuple[Floats, Floats] | Refusal:
    """The ribs under a column's rails for which the largest share of a rail is smallest.

    One rib is chosen in each clamp zone, and one between them for a third rail.

    Args:
        job: the job.
        left: the column's left edge [m].
        ribs: positions of all ribs, or of the other places for attachments [m].
        rails: two or three.

    Returns:
        The rails' positions along x [m] and their shares of a module's force normal to the roof, (K,) each; or a
        refusal if a zone has no rib.
    """
    ribs_in_zones = []
    for low, high in _zones(job, left, rails):
        in_zone = ribs[(ribs >= low - SAME_LENGTH) & (ribs <= high + SAME_LENGTH)]
        if not len(in_zone):
            return _misses_zone(job, left, low, high, ribs)
        ribs_in_zones.append(in_zone)
    choices = np.array([choice for choice in product(*ribs_in_zones) if np.all(np.diff(choice) > 0)])
    if not len(choices):
        return Refusal(
            "misses_zone",
            f"Two rails of a column would lie over the same {places_along_eave(job).word}. "
            f"{'Use two rails a column, or run' if rails == 3 else 'Run'} the rails along the eave",
        )
    start = np.full((len(choices), 1), left)
    shares = solve_beams(choices, UnitForces(start, start + job.module.length)).reactions[:, :, 0]
    best = first_minimum(shares.max(axis=1))
    return choices[best], shares[best]


def _zones(job: Job, left: float, rails: int) -> Iterator[tuple[float, float]]:
    """Stretches along x for a column's rails [m]: the clamp zones, and the middle half for a third rail."""
    (near, far), length = job.module.clamp_zone, job.module.length
    yield left + near, left + far
    if rails == 3:
        yield left + length / 4, left + 3 * length / 4
    yield left + length - far, left + length - near


def _misses_zone(job: Job, left: float, low: float, high: float, ribs: Floats) -> Refusal:
    """The refusal if no rib lies in the zone from `low` to `high` [m] of a column."""
    misses = np.maximum(low - ribs, ribs - high)
    distance, word = both(float(misses.min()), "small length"), places_along_eave(job).word
    nearest = float(ribs[np.argmin(misses)])
    toward = "right" if nearest > high else "left"
    zone = f"{both(low - left, 'small length')} to {both(high - left, 'small length')}"
    return Refusal(
        "misses_zone",
        f"No {word} lies in the zone for a rail under the modules {both(left, 'length')} from the left rake "
        f"({zone} from their left side); the nearest is {distance} away. Move the array {distance} to the {toward}, "
        "or run the rails along the eave",
        Miss(low, high, nearest, up_slope=False),
    )

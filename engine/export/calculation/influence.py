"""Influence coefficients in the calculation: each beam with its supports and load places, for a calculation by hand."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np

from engine.common.arrays import Floats
from engine.common.sentences import capitalized
from engine.comparison.compare import Column, Comparison
from engine.export.document import Block, Grid, Heading, Words
from engine.export.stamp import Stamp
from engine.links import roof_fastening
from engine.links.attachment import governing_attachment
from engine.links.trail import CalculationTrail
from engine.load_path.sharing import CONTINUOUS, ways_near_ends
from engine.mounting.layout import Field, Foot, SupportLines
from engine.statics.continuous_beam import UnitForces, solve_beams
from engine.units import System, number, unit

MAX_LOADS = 8
"""Loads of a beam that are listed, those with the largest effect: as many as the sums of section 5 write out."""

READING = (
    "Beams are continuous over unyielding supports, of one stiffness, and solved by the three-moment equation; a "
    "reaction r is that of the support in question to a load of 1 at the place given (spread evenly where a stretch is "
    "given). The share is what a load has of its module's force: the part of its line, with the module as a beam up "
    "the slope over the lines beneath it, divided among the clamps of that line. c = share x r x the foot's part. "
    "Listed are the {count} loads of a line with the largest effect."
)

RULES = {
    CONTINUOUS: "r as a continuous beam",
    "tributary load": "r by the lever rule between neighbouring supports, an overhang's load to the last support",
    "stiff beam on equal supports": "r by a stiff beam on n equal supports: 1/n + (xs - xm)(x - xm) / sum (xi - xm)^2",
}
"""Way of a line near its ends → its rule for a reaction r at xs to a load at x, with supports xi and their mean xm."""


def blocks(comparison: Comparison, stamp: Stamp) -> Iterator[Block]:
    """The beams of each method beneath its controlling attachment and clip."""
    checked = [column for column in comparison.columns if column.candidate]
    if checked:
        yield Words(READING.format(count=MAX_LOADS), quiet=True)
    for column in checked:
        yield Heading(capitalized(column.title), 2)
        yield from _of_method(column, stamp.system)


def _of_method(column: Column, system: System) -> Iterator[Block]:
    assert column.candidate
    trail = CalculationTrail(column.candidate.demands)
    attachment, combination = governing_attachment(trail.demands)
    found = {attachment: combination}
    beams = list[Block]()
    if not trail.job.hardware.bypasses_sheet:
        row, level, number = roof_fastening.governing_fastening(trail)
        found.setdefault(roof_fastening.main_attachment(trail, row, level, number), number)
        beams += _rib(trail, row, level, number, system)
    for each, in_combination in found.items():
        yield Heading(f"{capitalized(trail.layout.member.title)} under {trail.attachment_name(each)}", 3)
        yield from _lines_of(trail, each, in_combination, system)
    yield from beams


@dataclass(frozen=True, eq=False)
class _Line:
    """A line on a support under an attachment: its loads L, and each one's reaction r there and coefficient c (L,)."""

    lines: SupportLines
    which: int
    foot: Foot
    support: int
    reactions: Floats

    @property
    def coefficients(self) -> Floats:
        """Part of each load's module that the attachment carries, normal to the roof."""
        found: Floats = self.reactions * self.lines.share[self.which] * self.foot.normal
        return found


def _lines_of(trail: CalculationTrail, attachment: int, combination: int, system: System) -> Iterator[Block]:
    """The lines that stand on an attachment; those over the same supports together."""
    way = trail.demands.on_attachments.governing(attachment, combination).way
    alike = dict[tuple[float, ...], list[_Line]]()
    for line, feet in zip(trail.layout.lines, trail.layout.attachment, strict=True):
        for foot, support, which in np.argwhere(feet == attachment).tolist():
            found = _Line(line, which, line.feet[foot], support, _reactions(trail, line, way)[support])
            alike.setdefault(tuple(trail.layout.supports(line)), []).append(found)
    for group in alike.values():
        yield _words(trail, group, way, system)
        yield _loads(trail, group, system)


def _reactions(trail: CalculationTrail, line: SupportLines, way: str) -> Floats:
    """Reactions (S, L) of a line to its unit loads, by a way."""
    supports = trail.layout.supports(line)
    response = solve_beams(supports[None], UnitForces(line.load_start[None], line.load_end[None]))
    rule = ways_near_ends(trail.job, trail.layout.member).get(way)
    reactions: Floats = (response.reactions if rule is None or len(supports) <= 2 else rule(response))[0]
    return reactions


def _words(trail: CalculationTrail, group: Sequence[_Line], way: str, system: System) -> Words:
    """Lines over the same supports: their places, what they stand on and carry, and the rule for r."""
    first, member, name = group[0], trail.layout.member, unit("length", system)
    axis, across = ("y", "x") if member.runs_up_slope else ("x", "y")
    supports = trail.layout.supports(first.lines)
    rule = RULES.get(way, f"r of a {way}") if len(supports) > 2 else RULES[CONTINUOUS]
    place = _length(float(first.lines.across[first.which]), system)
    largest = [(line, load) for line in group for load in _largest(line.coefficients)[:1]]
    modules = dict.fromkeys(int(line.lines.module[line.which, load]) for line, load in largest)
    parts = [
        f"Line at {across} = {place} {name}, {axis} from the {'eave' if axis == 'y' else 'rake'}: {rule}.",
        _supports(axis, supports, first.support, system),
        *(_module_beam(trail, module, system) for module in modules),
        _foot(first.foot),
    ]
    return Words(" ".join(filter(None, parts)))


def _supports(axis: str, places: Floats, here: int, system: System) -> str:
    listed = ", ".join(_length(place, system) for place in places.tolist())
    return f"Supports at {axis} = {listed} {unit('length', system)}; r at {axis} = {_length(places[here], system)}."


def _module_beam(trail: CalculationTrail, module: int, system: System) -> str:
    """The module as a beam over its lines, in words."""
    if trail.layout.member.runs_up_slope:
        return ""
    at, name = trail.demands.field.outlines, unit("length", system)
    lines = sorted(
        {float(line.across[which]) for line in trail.layout.lines for which in np.argwhere(line.module == module)[:, 0]}
    )
    low, high = (_length(float(side[module]), system) for side in (at.low, at.high))
    return f"Module from y = {low} to {high} over lines at y = {', '.join(_length(y, system) for y in lines)} {name}."


def _foot(foot: Foot) -> str:
    if foot == Foot():
        return ""
    normal, couple = f"{foot.normal:.4g} of a normal force at the frame", f"{foot.couple:.4g} of one in its plane"
    return f"This foot carries {normal} and {couple}."


def _loads(trail: CalculationTrail, group: Sequence[_Line], system: System) -> Grid:
    """The loads with the largest effect: place, module, share of the line, reaction and coefficient."""
    field, axis = trail.demands.field, "y" if trail.layout.member.runs_up_slope else "x"
    columns = []
    for line, load in [(each, load) for each in group for load in _largest(each.coefficients)]:
        lines, module = line.lines, line.lines.module[line.which, load]
        start, end = _length(lines.load_start[load], system), _length(lines.load_end[load], system)
        figures = lines.share[line.which], line.reactions[load], line.coefficients[load]
        columns.append(
            (
                start if start == end else f"{start} to {end}",
                _row_and_column(field, int(module)),
                *(f"{figure:.4g}" for figure in figures),
            )
        )
    return _across((f"load at {axis} [{unit('length', system)}]", "module (row.column)", "share", "r", "c"), columns)


def _row_and_column(field: Field, module: int) -> str:
    """Row and column of a module, with its array's name if there are several."""
    place = f"{field.row[module] + 1}.{field.column[module] + 1}"
    return f"{field.arrays[field.array[module]].title}, {place}" if len(field.arrays) > 1 else place


def _across(names: Sequence[str], columns: Sequence[Sequence[str]]) -> Grid:
    """A table without headings: a row for each name, a column for each load."""
    rows = tuple((name, *(column[number] for column in columns)) for number, name in enumerate(names))
    return Grid((), rows, numeric=tuple(range(1, len(columns) + 1)))


def _rib(trail: CalculationTrail, row: int, level: int, number: int, system: System) -> Iterator[Block]:
    """The rib over its fastenings, with the reaction of the controlling one to each attachment."""
    demands, roof = trail.demands, trail.job.roof
    on_rib, per_force, _ = roof_fastening.shares_of_fastening(trail, row, level)
    supports = demands.fastening_y[demands.is_fastened[row]]
    here = int(demands.is_fastened[row][:level].sum())
    rib = f"{roof.rib_word} {demands.rib[row] + 1}"
    yield Heading(f"{capitalized(rib)} over its {roof.fastening_word} at y = {_length(supports[here], system)}", 3)
    combination = demands.combinations[number].name
    yield Words(f"r as a continuous beam, N in {combination}. {_supports('y', supports, here, system)}")
    normal, places = demands.attachment_normal[on_rib, number], trail.layout.attachments.y[on_rib]
    rows = [
        (
            str(on_rib[each] + 1),
            _length(places[each], system),
            f"{per_force[each]:.4g}",
            f"{_force(normal[each], system)}",
            f"{_force(per_force[each] * normal[each], system)}",
        )
        for each in _largest(per_force * normal)
    ]
    force, length = unit("force", system), unit("length", system)
    yield _across(("attachment", f"y [{length}]", "r", f"N [{force}]", f"r N [{force}]"), rows)


def _largest(effects: Floats) -> Sequence[int]:
    """Numbers of the largest effects, largest first."""
    order = np.argsort(-np.abs(effects), kind="stable")[:MAX_LOADS]
    return [int(each) for each in order if abs(effects[each]) > 1e-6]


def _length(metres: float, system: System) -> str:
    return f"{number(float(metres), 'length', system):.3f}"


def _force(newtons: float, system: System) -> str:
    return f"{number(float(newtons), 'force', system):.4g}"

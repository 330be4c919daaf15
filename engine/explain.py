"""Why? One point and one fastening, from the wind speed to the utilisation, step by step.

The very functions that computed the comparison run again for one point, with a recorder.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from engine import units
from engine.beam import Couples, Spread, respond
from engine.checks.check import resistances
from engine.comparison import Column, Comparison
from engine.design import Design
from engine.errors import InputError, Problem
from engine.influence import solve
from engine.job import Job
from engine.module_forces import ModuleForces
from engine.reference import STATICS, Recorder, Step, Term
from engine.stage import Attempt
from engine.strength import shear_strength, strength
from engine.units import FOOT, GRAVITY, INCH, POUND_FORCE

LEAST_SHARE = 0.005
"""Modules with a smaller share of a point are summed up as "others"."""


@dataclass(frozen=True)
class Explanation:
    """The steps of one chain, under a heading, or the sentence that says why there is none."""

    heading: str
    steps: tuple[Step, ...]


def explain(comparison: Comparison, column: Column, point: int | None = None) -> Explanation:
    """Explain one attachment of a method and the fastening it loads most.

    Args:
        comparison: the comparison the column is of.
        column: the method's column.
        point: the attachment's number from 0; None for the one that brings most to the worst fastening.

    Raises:
        InputError: there is no attachment of that number.
    """
    design, job = column.design, comparison.scenario.job
    if design is None or design.attempt is None:
        return Explanation(f"{column.title}: {column.status}; {column.flags[0].text if column.flags else 'nothing was checked'}", ())
    if point is not None and point >= len(design.layout.points):
        raise InputError([Problem("--point", f"{point + 1} given; {column.title} has attachments 1 to {len(design.layout.points)}")])
    chain = Chain(job, design, design.attempt)
    row, fastening, combination = chain.worst_fastening()
    chosen = chain.most_from(row, fastening, combination) if point is None else point
    if point is not None:
        row, fastening = chain.most_loaded_by(point)
        combination = int(np.argmin(design.attempt.demands.fastening[row, fastening]))
    return Explanation(chain.heading(chosen, column.title), tuple(chain.steps(chosen, row, fastening, combination)))


def explain_force(comparison: Comparison, column: Column, *, up: bool) -> Explanation:
    """Explain the largest pull, or push, that one attachment of a checked design brings to the roof."""
    design, job = column.design, comparison.scenario.job
    if design is None or design.attempt is None:
        return Explanation("", ())
    chain = Chain(job, design, design.attempt)
    normal = design.attempt.demands.point_normal
    worst = np.argmin(normal) if up else np.argmax(normal)
    point, combination = (int(part) for part in np.unravel_index(int(worst), normal.shape))
    return Explanation(chain.heading(point, column.title), tuple(chain.force(point, combination)))


class Chain:
    """One layout's road, walked again for one point."""

    def __init__(self, job: Job, design: Design, attempt: Attempt) -> None:
        self.job, self.design, self.attempt = job, design, attempt
        self.layout, self.demands = attempt.layout, attempt.demands
        weight = attempt.bill.mass * GRAVITY / design.field.modules
        self.solved = solve(self.layout)
        self.forces = ModuleForces(design.field, design.loads, job.building.slope, weight)

    def heading(self, point: int, title: str) -> str:
        """Which attachment, and where it stands."""
        points = self.layout.points
        place = f"{units.both(points.x[point], 'length')} from the rake, {units.both(points.y[point], 'length')} from the eave"
        return f"{title}: attachment {point + 1} on {self.job.roof.rib_word} {points.rib[point] + 1}, {place}"

    def worst_fastening(self) -> tuple[int, int, int]:
        """The fastening pulled hardest with the array in place: its row, its level, and the combination."""
        can = resistances(strength(self.job.roof.fastening.uplift), self.demands.combinations)
        worst = np.argmax(-self.demands.fastening / can)
        row, fastening, combination = np.unravel_index(int(worst), self.demands.fastening.shape)
        return int(row), int(fastening), int(combination)

    def shares(self, row: int, fastening: int) -> list[tuple[int, float, float]]:
        """Each point on a rib, and what the fastening takes of its normal force and of its couple [1/m]."""
        points = self.layout.points
        on_rib = np.flatnonzero(points.rib == self.demands.rib[row])
        held, none, y = self.demands.held[row], np.empty((1, 0)), points.y[on_rib][None]
        supports, number = self.demands.fastening_y[held][None], int(held[:fastening].sum())
        pressed = respond(supports, Spread(y, y), none).reactions[0, number]
        turned = respond(supports, Couples(y), none).reactions[0, number]
        return [(int(point), float(part), float(turn)) for point, part, turn in zip(on_rib, pressed, turned, strict=True)]

    def most_from(self, row: int, fastening: int, combination: int) -> int:
        """The point that brings most to a fastening."""
        normal = self.demands.point_normal[:, combination]
        return max(self.shares(row, fastening), key=lambda part: abs(part[1] * normal[part[0]]))[0]

    def most_loaded_by(self, point: int) -> tuple[int, int]:
        """The fastening that takes most of a point's load."""
        points = self.layout.points
        row = int(np.flatnonzero(self.demands.rib == points.rib[point])[0])
        y, at = points.y[point].reshape(1, 1), np.flatnonzero(self.demands.held[row])
        taken = respond(self.demands.fastening_y[at][None], Spread(y, y), np.empty((1, 0))).reactions[0, :, 0]
        return row, int(at[np.argmax(taken)])

    def force(self, point: int, combination: int) -> list[Step]:
        """From the wind to the force on one attachment."""
        steps: list[Step] = []
        record = steps.append
        area = float(self.demands.point_area[point])
        record(_step("A_j", "effective wind area of the attachment, from its reaction under even pressure", area / FOOT**2, "ft2"))
        factors = self.demands.combinations[combination].factors
        for case in factors:
            self._case(case, point, area, record)
        self._combined(point, combination, record)
        return steps

    def steps(self, point: int, row: int, fastening: int, combination: int) -> list[Step]:
        """From the wind to the shares of one attachment and one fastening that are used."""
        steps = self.force(point, combination)
        record = steps.append
        self.attachment(point, combination, record)
        self._fastening(row, fastening, combination, record)
        return steps

    def _case(self, case: str, point: int, area: float, record: Recorder) -> None:
        """One load case: the module that brings most with its clauses, then the sum over all modules."""
        influence = self.solved.influence
        entries = np.flatnonzero(influence.point == point)
        entries = entries[np.argsort(-np.abs(influence.share[entries]), kind="stable")]
        total = self.demands.point_cases[case][0][point]
        terms: dict[str, Term] = {}
        shown = entries[np.abs(influence.share[entries]) >= LEAST_SHARE]
        for number, entry in enumerate(shown):
            module = influence.module[entry : entry + 1]
            name = f"module in row {self.design.field.row[module[0]] + 1}, column {self.design.field.column[module[0]] + 1}"
            quiet: list[Step] = []
            normal, in_plane = self.forces.of(case, module, np.array([area]), record if number == 0 else quiet.append)
            if number == 0:
                record(_step("F", f"{case}: force of the {name}, normal to the roof", normal[0] / POUND_FORCE, "lb"))
            terms[f"c{number + 1}"] = Term(float(influence.share[entry]))
            terms[f"F{number + 1}"] = Term(float(normal[0] / POUND_FORCE), "lb")
            if influence.couple[entry] * in_plane[0]:
                terms[f"k{number + 1}"] = Term(float(influence.couple[entry]))
                terms[f"H{number + 1}"] = Term(float(in_plane[0] / POUND_FORCE), "lb")
        parts = [f"{a} * {b}" for a, b in zip(list(terms)[::2], list(terms)[1::2], strict=True)]
        if len(shown) < len(entries):
            brought = sum(terms[a].value * terms[b].value for a, b in zip(list(terms)[::2], list(terms)[1::2], strict=True))
            terms["others"] = Term(total / POUND_FORCE - brought, "lb")
            parts.append("others")
        symbol = f"N_{_plain(case)}"
        meaning = f"{case}: what the attachment gets, by share and force of every module it has to do with"
        record(Step(symbol, meaning, Term(total / POUND_FORCE, "lb"), " + ".join(parts), terms, STATICS))

    def _combined(self, point: int, combination: int, record: Recorder) -> None:
        chosen = self.demands.combinations[combination]
        terms: dict[str, Term] = {}
        for number, (case, factor) in enumerate(chosen.factors.items()):
            terms[f"f{number + 1}"] = Term(factor)
            terms[f"N_{_plain(case)}"] = Term(self.demands.point_cases[case][0][point] / POUND_FORCE, "lb")
        parts = [f"{a} * {b}" for a, b in zip(list(terms)[::2], list(terms)[1::2], strict=True)]
        result = Term(self.demands.point_normal[point, combination] / POUND_FORCE, "lb")
        record(Step("N", f"force on the attachment in {chosen.name} (down positive)", result, " + ".join(parts), terms, STATICS))

    def attachment(self, point: int, combination: int, record: Recorder) -> None:
        """The share of an attachment that is used."""
        hardware, chosen = self.job.hardware, self.demands.combinations[combination]
        normal, along = self.demands.point_normal[point, combination], self.demands.point_in_plane[point, combination]
        known = strength(hardware.attachment_uplift if normal < 0 else hardware.attachment_down)
        can, can_along = known.resistance(chosen), shear_strength(hardware.attachment_in_plane).resistance(chosen)
        terms = {
            "N": Term(abs(normal) / POUND_FORCE, "lb"),
            "Na": Term(can / POUND_FORCE, "lb"),
            "V": Term(abs(along) / POUND_FORCE, "lb"),
            "Va": Term(can_along / POUND_FORCE, "lb"),
            "e": Term(self.layout.points.height / INCH, "in"),
            "L": Term(hardware.attachment_length / INCH, "in"),
        }
        used = (abs(normal) + abs(along) * self.layout.points.height / hardware.attachment_length) / can + abs(along) / can_along
        equation = "(N + V * e / L) / Na + V / Va"
        across = self.demands.point_across[point, combination]
        if hardware.attachment_across is not None and across:
            can_across = shear_strength(hardware.attachment_across).resistance(chosen)
            terms |= {"X": Term(abs(across) / POUND_FORCE, "lb"), "Xa": Term(can_across / POUND_FORCE, "lb")}
            used, equation = used + abs(across) / can_across, f"{equation} + X / Xa"
        words = "share of the attachment that is used: pulled or pushed, pried, and slid"
        record(Step("u_attachment", words, Term(used), equation, terms, STATICS))

    def _fastening(self, row: int, fastening: int, combination: int, record: Recorder) -> None:
        demands, chosen, points = self.demands, self.demands.combinations[combination], self.layout.points
        terms: dict[str, Term] = {}
        bypassed = self.job.hardware.bracket == "structure"
        for number, (point, part, turn) in enumerate([] if bypassed else self.shares(row, fastening)):
            normal, along = demands.point_normal[point, combination], demands.point_in_plane[point, combination]
            if self.job.roof.solid_deck:
                normal = min(normal, 0.0)
            terms |= {f"r{number + 1}": Term(part), f"N{number + 1}": Term(normal / POUND_FORCE, "lb")}
            if along:
                terms |= {f"t{number + 1}": Term(-turn * points.height), f"V{number + 1}": Term(along / POUND_FORCE, "lb")}
        surface = demands.fastening_surface[row, fastening, combination]
        parts = [f"{a} * {b}" for a, b in zip(list(terms)[::2], list(terms)[1::2], strict=True)]
        terms["surface"] = Term(surface / POUND_FORCE, "lb")
        covered = demands.roof.covered[demands.rib[row], fastening]
        word, rib = self.job.roof.fastening_word, self.job.roof.rib_word
        place = f"{units.both(demands.fastening_y[fastening], 'length')} from the eave"
        total = demands.fastening[row, fastening, combination]
        meaning = (
            f"{word} on {rib} {demands.rib[row] + 1}, {place}: the {rib} as a continuous beam, and the air on its own area "
            f"({covered:.0%} of it under modules)"
        )
        record(Step("R", meaning, Term(total / POUND_FORCE, "lb"), " + ".join([*parts, "surface"]), terms, STATICS))
        mode = strength(self.job.roof.fastening.uplift).governing(chosen)
        for step in mode.steps:
            record(step)
        can = mode.resistance(chosen)
        record(mode.answer(chosen))
        used, equation = max(-total, 0.0) / can, "max(-R, 0) / Ra"
        terms = {"R": Term(total / POUND_FORCE, "lb"), "Ra": Term(can / POUND_FORCE, "lb")}
        in_plane = self.job.roof.fastening.in_plane
        if in_plane is not None and not self.job.roof.floats:
            shear = abs(demands.panel_in_plane[row, combination]) / demands.held[row].sum()
            along = shear_strength(in_plane).resistance(chosen)
            terms |= {"V": Term(shear / POUND_FORCE, "lb"), "Va": Term(along / POUND_FORCE, "lb")}
            used, equation = used + shear / along, f"{equation} + V / Va"
        record(Step(f"u_{_plain(word)}", f"share of the {word} that is used", Term(used), equation, terms, STATICS))


def _step(symbol: str, meaning: str, value: float, unit: str) -> Step:
    return Step(symbol, meaning, Term(float(value), unit), "", {}, STATICS)


def _plain(words: str) -> str:
    return "".join(letter if letter.isalnum() else "_" for letter in words)

"""One layout's road, walked again: from the wind to the force on one attachment."""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np

from engine.common.arrays import Floats, Ints
from engine.common.calculation import CalculationStep, Term
from engine.design.design import Design
from engine.design.trial import Candidate
from engine.links.trail_terms import combined, given, of_case, pounds, products_of, sum_of
from engine.load_path.module_forces import ModuleForces
from engine.project.job import Job
from engine.units import FOOT, POUND_FORCE

Cases = Mapping[str, tuple[Floats, Floats]]
"""Load case → every point's forces normal to the roof and in its plane [N], (P,)."""


class Road:
    """A layout with its demands, and who loads whom; the very functions that computed them run again, with a recorder."""

    def __init__(self, job: Job, design: Design, candidate: Candidate) -> None:
        self.job, self.design = job, design
        self.layout, self.demands = candidate.layout, candidate.demands
        self.influence = self.demands.solved.influence

    def force(self, attachment: int, number: int) -> list[CalculationStep]:
        """From the wind to what an attachment gets in a combination, by their numbers."""
        demands = self.demands
        return self._force(
            "attachment", attachment, number, demands.forces, demands.attachment_cases, demands.attachment_normal
        )

    def force_on_hook(self, attachment: int, number: int) -> list[CalculationStep]:
        """The same to what holds the modules on it, where that is not clamped to a member."""
        demands = self.demands
        return self._force(
            "module clamp", attachment, number, demands.forces_on_clamps, demands.module_hook_cases, demands.clamp_force
        )

    def _force(
        self, what: str, attachment: int, number: int, forces: ModuleForces, by_case: Cases, by_combination: Floats
    ) -> list[CalculationStep]:
        area, combination = float(self.demands.attachment_area[attachment]), self.demands.combinations[number]
        steps = [
            given(
                "A_j",
                "effective wind area of the attachment, from its reaction under even pressure",
                area / FOOT**2,
                "ft2",
            )
        ]
        found = {case: float(by_case[case][0][attachment]) / POUND_FORCE for case in combination.factors}
        for case in combination.factors:
            steps += self._of_case(what, case, attachment, area, forces, found[case])
        total = pounds(by_combination[attachment, number])
        return [*steps, combined("N", f"force on the {what} (down positive)", total, combination, found)]

    def _of_case(
        self, what: str, case: str, attachment: int, area: float, forces: ModuleForces, found: float
    ) -> list[CalculationStep]:
        """One load case: the module that brings most with its clauses, then the sum over all modules."""
        field, influence, steps = self.design.field, self.influence, list[CalculationStep]()
        here = np.flatnonzero(influence.attachment == attachment)
        module, share, couple = influence.module[here], influence.share[here], influence.couple[here]
        top = int(np.argmax(np.abs(share)))
        normal, in_plane = told(forces, case, module, area, top, steps)
        name = f"module in row {field.row[module[top]] + 1}, column {field.column[module[top]] + 1}"
        steps.append(given("F", f"{case}: force of the {name}, normal to the roof", normal[top] / POUND_FORCE, "lb"))
        turning = np.flatnonzero(couple * in_plane)
        products = products_of("c", share, "", "F", normal) + products_of(
            "k", couple[turning], "", "H", in_plane[turning]
        )
        meaning = f"{case}: what the {what} gets, by share and force of every module it has to do with"
        return [*steps, sum_of(of_case("N", case), meaning, Term(found, "lb"), products)]

    def slide(self, attachment: int, number: int) -> list[CalculationStep]:
        """From the loads to what slides at an attachment in a combination, by their numbers."""
        demands, influence, forces = self.demands, self.influence, self.demands.forces
        here, combination = np.flatnonzero(influence.attachment == attachment), demands.combinations[number]
        module, part, area = (
            influence.module[here],
            influence.in_plane[here],
            float(demands.attachment_area[attachment]),
        )
        top, steps, found = int(np.argmax(np.abs(part))), list[CalculationStep](), {}
        for case in combination.factors:
            _, along = told(forces, case, module, area, top, steps)
            found[case] = float(demands.attachment_cases[case][1][attachment]) / POUND_FORCE
            meaning = f"{case}: what slides at the attachment, by share and force down the slope of every module it has to do with"
            steps.append(
                sum_of(of_case("V", case), meaning, Term(found[case], "lb"), products_of("i", part, "", "H", along))
            )
        total = pounds(demands.attachment_in_plane[attachment, number])
        return [
            *steps,
            combined("V", "what slides at the attachment (down the slope positive)", total, combination, found),
        ]


def told(
    forces: ModuleForces, case: str, module: Ints, area: float, top: int, steps: list[CalculationStep]
) -> tuple[Floats, Floats]:
    """What modules give in a case, normal to the roof and in its plane (n,) [N]; of one of them the clauses are told."""
    forces.of(case, module[[top]], np.array([area]), steps.append)
    return forces.of(case, module, np.full(len(module), area))

"""One layout's road, walked again: from the wind to the force on one attachment."""

from __future__ import annotations

import numpy as np

from engine.chains.sums import combined, given, of_case, pounds, products_of, sum_of
from engine.design import Design
from engine.job import Job
from engine.reference import Step
from engine.stage import Attempt
from engine.units import FOOT, POUND_FORCE


class Road:
    """A layout with its demands, and who loads whom; the very functions that computed them run again, with a recorder."""

    def __init__(self, job: Job, design: Design, attempt: Attempt) -> None:
        self.job, self.design = job, design
        self.layout, self.demands = attempt.layout, attempt.demands
        self.forces, self.influence = self.demands.forces, self.demands.solved.influence

    def force(self, point: int, number: int) -> list[Step]:
        """From the wind to what an attachment gets in a combination, by their numbers."""
        area, combination = float(self.demands.point_area[point]), self.demands.combinations[number]
        steps = [given("A_j", "effective wind area of the attachment, from its reaction under even pressure", area / FOOT**2, "ft2")]
        for case in combination.factors:
            steps += self._of_case(case, point, area)
        cases = {case: float(self.demands.point_cases[case][0][point]) / POUND_FORCE for case in combination.factors}
        total = pounds(self.demands.point_normal[point, number])
        return [*steps, combined("N", "force on the attachment (down positive)", total, combination, cases)]

    def _of_case(self, case: str, point: int, area: float) -> list[Step]:
        """One load case: the module that brings most with its clauses, then the sum over all modules."""
        field, influence, steps = self.design.field, self.influence, list[Step]()
        here = np.flatnonzero(influence.point == point)
        module, share, couple = influence.module[here], influence.share[here], influence.couple[here]
        top = int(np.argmax(np.abs(share)))
        self.forces.of(case, module[[top]], np.array([area]), steps.append)
        normal, in_plane = self.forces.of(case, module, np.full(len(module), area))
        name = f"module in row {field.row[module[top]] + 1}, column {field.column[module[top]] + 1}"
        steps.append(given("F", f"{case}: force of the {name}, normal to the roof", normal[top] / POUND_FORCE, "lb"))
        turning = np.flatnonzero(couple * in_plane)
        products = products_of("c", share, "", "F", normal) + products_of("k", couple[turning], "", "H", in_plane[turning])
        meaning = f"{case}: what the attachment gets, by share and force of every module it has to do with"
        return [*steps, sum_of(of_case("N", case), meaning, pounds(self.demands.point_cases[case][0][point]), products)]

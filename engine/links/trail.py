"""The calculation trail of one layout: the functions that computed its loads run again, with a recorder."""

from __future__ import annotations

import numpy as np

from engine.common.arrays import Floats, Ints, index_of_largest
from engine.common.calculation import CalculationStep, Term
from engine.links.trail_terms import (
    case_symbol,
    combination_step,
    pounds,
    products_of,
    sum_step,
    value_step,
)
from engine.load_path.demands import Demands
from engine.load_path.module_forces import ModuleForces
from engine.load_path.sharing import CONTINUOUS, AttachmentForces, Way
from engine.mounting.influence import Influence
from engine.units import FOOT, POUND_FORCE, both


class CalculationTrail:
    """Explains the forces of one layout from the wind speed on.

    Attachments and combinations are given by their numbers, from 0. Every list of steps runs forward, from the
    loads to the result.
    """

    def __init__(self, demands: Demands) -> None:
        self.demands = demands
        self.job, self.layout = demands.job, demands.layout
        self.influence = demands.solved.influence

    def attachment_force(self, attachment: int, combination: int) -> list[CalculationStep]:
        """Steps to the force on an attachment, normal to the roof."""
        demands = self.demands
        of = demands.on_attachments
        return self._force(
            "attachment", attachment, combination, of.forces, of.governing(attachment, combination), of.normal
        )

    def attachment_force_for(self, attachment: int, number: int, area: float, what: str) -> list[CalculationStep]:
        """As `attachment_force`, with wind at the effective wind `area` [m²] of another part, named by `what`."""
        demands, areas = self.demands, np.full(len(self.layout.attachments), area)
        of = AttachmentForces(demands.forces, demands.solved, areas)
        normal = of.normal_by_beams
        return self._force("attachment", attachment, number, demands.forces, of.by_beams, normal, area, what)

    def module_hook_force(self, attachment: int, combination: int) -> list[CalculationStep]:
        """Steps to the force on a module clamp that sits on an attachment, without a rail between them."""
        of = self.demands.on_hooks
        return self._force(
            "module clamp", attachment, combination, of.forces, of.governing(attachment, combination), of.normal
        )

    def largest_force(self, *, up: bool) -> tuple[int, list[CalculationStep]]:
        """The attachment with the largest uplift, or down load, and the steps to that force."""
        normal = self.demands.attachment_normal
        attachment, combination = index_of_largest(-normal if up else normal)
        return attachment, self.attachment_force(attachment, combination)

    def attachment_name(self, attachment: int) -> str:
        """Number and place of an attachment, in words."""
        at = self.layout.attachments
        place = f"{both(at.x[attachment], 'length')} from the rake, {both(at.y[attachment], 'length')} from the eave"
        return f"attachment {attachment + 1} on {self.job.place_word} {at.rib[attachment] + 1}, {place}"

    def _force(
        self,
        part: str,
        attachment: int,
        number: int,
        forces: ModuleForces,
        way: Way,
        by_combination: Floats,
        of_area: float | None = None,
        area_meaning: str = "effective wind area of the attachment, from its reaction under uniform pressure",
    ) -> list[CalculationStep]:
        area = float(self.demands.attachment_area[attachment]) if of_area is None else of_area
        combination = self.demands.combinations[number]
        steps = [value_step("A_j", area_meaning, area / FOOT**2, "ft2")]
        found = {case: float(way.cases[case][0][attachment]) / POUND_FORCE for case in combination.factors}
        for case in combination.factors:
            steps += self._force_of_case(part, case, attachment, area, forces, way.influence, found[case])
        total = pounds(by_combination[attachment, number])
        near_end = "" if way.name == CONTINUOUS else f", near the end of a line: {way.name}"
        meaning = f"force on the {part} (down positive{near_end})"
        return [*steps, combination_step("N", meaning, total, combination, found)]

    def _force_of_case(
        self,
        part: str,
        case: str,
        attachment: int,
        area: float,
        forces: ModuleForces,
        influence: Influence,
        found: float,
    ) -> list[CalculationStep]:
        """One load case: the module with the largest share and its clauses, then the sum over all modules."""
        field, steps = self.demands.field, list[CalculationStep]()
        here = np.flatnonzero(influence.attachment == attachment)
        module, share, couple = influence.module[here], influence.share[here], influence.couple[here]
        largest = int(np.argmax(np.abs(share)))
        normal, in_plane = recorded_forces(forces, case, module, area, largest, steps)
        name = f"module in row {field.row[module[largest]] + 1}, column {field.column[module[largest]] + 1}"
        meaning = f"{case}: force of the {name}, normal to the roof"
        steps.append(value_step("F", meaning, normal[largest] / POUND_FORCE, "lb"))
        turning = np.flatnonzero(couple * in_plane)
        products = products_of("c", share, "", "F", normal)
        products += products_of("k", couple[turning], "", "H", in_plane[turning])
        meaning = f"{case}: force on the {part}, by share and force of every module that loads it"
        return [*steps, sum_step(case_symbol("N", case), meaning, Term(found, "lb"), products)]

    def along_slope_force(self, attachment: int, number: int) -> list[CalculationStep]:
        """Steps to the along-slope load of an attachment."""
        demands, influence, forces = self.demands, self.influence, self.demands.forces
        here, combination = np.flatnonzero(influence.attachment == attachment), demands.combinations[number]
        module, share = influence.module[here], influence.in_plane[here]
        area, largest = float(demands.attachment_area[attachment]), int(np.argmax(np.abs(share)))
        steps, found = list[CalculationStep](), {}
        for case in combination.factors:
            _, along = recorded_forces(forces, case, module, area, largest, steps)
            found[case] = float(demands.attachment_cases[case][1][attachment]) / POUND_FORCE
            meaning = f"{case}: along-slope load of the attachment, by share and force of every module that loads it"
            products = products_of("i", share, "", "H", along)
            steps.append(sum_step(case_symbol("V", case), meaning, Term(found[case], "lb"), products))
        total = pounds(demands.attachment_in_plane[attachment, number])
        meaning = "along-slope load of the attachment (toward the eave positive)"
        return [*steps, combination_step("V", meaning, total, combination, found)]


def recorded_forces(
    forces: ModuleForces, case: str, module: Ints, area: float, recorded: int, steps: list[CalculationStep]
) -> tuple[Floats, Floats]:
    """Forces of modules in a load case, normal to the roof and in its plane, shape (n,) each [N].

    The clauses of one of them, number `recorded` of `module`, are added to `steps`.
    """
    forces.of(case, module[[recorded]], np.array([area]), steps.append)
    return forces.of(case, module, np.full(len(module), area))

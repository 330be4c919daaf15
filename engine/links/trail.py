"""The calculation trail of one layout: the functions that computed its loads run again, with a recorder."""

from __future__ import annotations

import numpy as np

from engine.common.arrays import Floats, Ints, index_of_largest
from engine.common.calculation import CalculationStep, Term
from engine.links.force_of_module import force_of_module
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
from engine.load_path.sharing import CONTINUOUS, AttachmentForce
from engine.units import FOOT, POUND_FORCE, both

OWN_AREA = "effective wind area of the attachment, from its reaction under uniform pressure"


class CalculationTrail:
    """Explains the forces of one layout from the wind speed on.

    Attachments and combinations are given by their numbers, from 0. Every list of steps runs forward, from the
    loads to the result.
    """

    def __init__(self, demands: Demands) -> None:
        self.demands = demands
        self.job, self.layout = demands.job, demands.layout

    def attachment_force(self, attachment: int, number: int) -> list[CalculationStep]:
        """Steps to the force on an attachment, normal to the roof."""
        of = self.demands.on_attachments
        return self._force("attachment", number, of.governing(attachment, number), of.normal[attachment, number])

    def attachment_force_for(self, attachment: int, number: int, area: float, what: str) -> list[CalculationStep]:
        """As `attachment_force`, with wind at the effective wind `area` [m²] of another part, named by `what`."""
        force = self.demands.on_attachments.at_area(attachment, area)
        total = force.in_combination(self.demands.combinations[number])
        return self._force("attachment", number, force, total, what)

    def module_hook_force(self, attachment: int, number: int) -> list[CalculationStep]:
        """Steps to the force on a module clamp that sits on an attachment, without a rail between them."""
        of = self.demands.on_hooks
        return self._force("module clamp", number, of.governing(attachment, number), of.normal[attachment, number])

    def largest_force(self, *, up: bool) -> tuple[int, list[CalculationStep]]:
        """The attachment with the largest uplift, or down load, and the steps to that force."""
        normal = self.demands.attachment_normal
        attachment, combination = index_of_largest(-normal if up else normal)
        return attachment, self.attachment_force(attachment, combination)

    def attachment_name(self, attachment: int) -> str:
        """Number and place of an attachment, in words."""
        at = self.layout.attachments
        x, y = (both(place[attachment], "length", self.job.system) for place in (at.x, at.y))
        place = f"{x} from the rake, {y} from the eave"
        return f"attachment {attachment + 1} on {self.job.place_word} {at.rib[attachment] + 1}, {place}"

    def _force(
        self, part: str, number: int, force: AttachmentForce, total: float, area_meaning: str = OWN_AREA
    ) -> list[CalculationStep]:
        combination = self.demands.combinations[number]
        steps = [value_step("A_j", area_meaning, force.area / FOOT**2, "ft2")]
        found = {case: force.normal[case] / POUND_FORCE for case in combination.factors}
        for case in combination.factors:
            steps += self._force_of_case(part, case, force, found[case])
        near_end = "" if force.way == CONTINUOUS else f", near the end of a line: {force.way}"
        meaning = f"force on the {part} (down positive{near_end})"
        return [*steps, combination_step("N", meaning, pounds(total), combination, found)]

    def _force_of_case(self, part: str, case: str, force: AttachmentForce, found: float) -> list[CalculationStep]:
        """One load case: the module with the largest share and its clauses, then the sum over all modules."""
        steps, module, share, couple = list[CalculationStep](), force.module, force.share, force.couple
        largest = int(np.argmax(np.abs(share)))
        normal, in_plane = recorded_forces(
            force.forces, case, module, force.area, largest, steps, with_in_plane=bool(couple.any())
        )
        turning = np.flatnonzero(couple * in_plane)
        products = products_of("c", share, "", "F", normal)
        products += products_of("k", couple[turning], "", "H", in_plane[turning])
        meaning = f"{case}: force on the {part}, by share and force of every module that loads it"
        return [*steps, sum_step(case_symbol("N", case), meaning, Term(found, "lb"), products)]

    def along_slope_force(self, attachment: int, number: int) -> list[CalculationStep]:
        """Steps to the along-slope load of an attachment."""
        force, combination = self.demands.on_attachments.by_beams(attachment), self.demands.combinations[number]
        module, share = force.module, force.along
        largest, steps, found = int(np.argmax(np.abs(share))), list[CalculationStep](), {}
        for case in combination.factors:
            _, along = recorded_forces(force.forces, case, module, force.area, largest, steps)
            found[case] = force.in_plane[case] / POUND_FORCE
            meaning = f"{case}: along-slope load of the attachment, by share and force of every module that loads it"
            products = products_of("i", share, "", "H", along)
            steps.append(sum_step(case_symbol("V", case), meaning, Term(found[case], "lb"), products))
        total = pounds(self.demands.attachment_in_plane[attachment, number])
        meaning = "along-slope load of the attachment (toward the eave positive)"
        return [*steps, combination_step("V", meaning, total, combination, found)]


def recorded_forces(
    forces: ModuleForces,
    case: str,
    module: Ints,
    area: float,
    recorded: int,
    steps: list[CalculationStep],
    *,
    with_in_plane: bool = True,
) -> tuple[Floats, Floats]:
    """Forces of modules in a load case, normal to the roof and in its plane, shape (n,) each [N].

    The clauses of one of them, number `recorded` of `module`, are added to `steps`, and its force; `with_in_plane`
    that in the plane of the roof too.
    """
    forces.of(case, module[[recorded]], np.array([area]), steps.append)
    normal, in_plane = forces.of(case, module, np.full(len(module), area))
    along = float(in_plane[recorded]) if with_in_plane else 0.0
    steps += force_of_module(forces, case, int(module[recorded]), float(normal[recorded]), along)
    return normal, in_plane

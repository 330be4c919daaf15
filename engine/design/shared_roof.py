"""The roof without an array, bent and checked once for all methods of a job that leave its loads the same."""

from __future__ import annotations

from dataclasses import dataclass
from dataclasses import field as dataclass_field

from engine.links import Check, check_roof_alone
from engine.load_path.bare_roof import BareRoof, find_bare_roof
from engine.load_path.demands import Demands
from engine.loads.interface import Loads
from engine.mounting.layout import Field
from engine.project.job import Job
from engine.statics.rib_bending import LoadedRibs


@dataclass(eq=False)
class SharedRoof:
    """The bare roofs of one job that were worked out so far, and their checks."""

    _roofs: list[tuple[tuple[object, ...], BareRoof]] = dataclass_field(default_factory=list)
    _checks: dict[LoadedRibs, Check] = dataclass_field(default_factory=dict)

    def bare(self, job: Job, field: Field, loads: Loads) -> BareRoof:
        """The bare roof under these loads; an earlier one if it has the same loads.

        Where the modules of a field lie makes no difference.
        """
        inputs = job.building, job.roof, job.seam_drift, field.attitude, loads.snow_cases
        known = next((roof for of_inputs, roof in self._roofs if of_inputs == inputs), None)
        if known is None:
            found = find_bare_roof(job, loads)
            known = next((earlier for _, earlier in self._roofs if earlier.same_as(found)), found)
            self._roofs.append((inputs, known))
        return known

    def check_alone(self, demands: Demands) -> Check:
        """The controlling check of the roof without the array."""
        ribs = demands.roof.alone
        if ribs not in self._checks:
            self._checks[ribs] = check_roof_alone(demands)
        return self._checks[ribs]

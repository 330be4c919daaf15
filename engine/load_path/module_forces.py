"""What modules give to what holds them: wind, snow and weight as one force normal to the roof and one in its plane."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from engine.common.arrays import Floats, Ints
from engine.common.calculation import Recorder, silent
from engine.load_path.roof_loads import factors
from engine.loads.interface import Loads
from engine.mounting.layout import Field
from engine.project.job import Job
from engine.units import GRAVITY


@dataclass(frozen=True, eq=False)
class ModuleForces:
    """What each module gives in each load case: forces normal to the roof and down the slope.

    `weight` [N] is what weighs on one link of the road, a module's part of it: the module, and the hardware above that link.
    """

    field: Field
    loads: Loads
    slope: float
    weight: float

    @classmethod
    def of_job(cls, job: Job, field: Field, loads: Loads, mass: float) -> ModuleForces:
        """The forces of a job's modules, where they and some hardware weigh so much [kg]."""
        return cls(field, loads, job.building.slope, mass * GRAVITY / field.modules)

    def of(self, case: str, module: Ints, area: Floats, record: Recorder = silent) -> tuple[Floats, Floats]:
        """Forces of the modules named, for effective wind areas [m²]: (normal, down the slope) [N].

        Wind acts normal to the module, weight and snow act vertically; snow counts per horizontal area.
        """
        if case in self.loads.wind_cases:
            tilt = np.radians(self.field.attitude.tilt)
            force = self.loads.wind(case, module, area, record) * self.field.area
            return force * np.cos(tilt), -force * np.sin(tilt)
        if record is not silent:
            self._gravity(case, module, record)
        normal, in_plane = self._steady[case]
        return normal[module], in_plane[module]

    @cached_property
    def _steady(self) -> dict[str, tuple[Floats, Floats]]:
        """What does not depend on an effective area, of every module, case by case."""
        every, slope = np.arange(self.field.modules), np.radians(self.slope)
        forces = {}
        for case in (*self.loads.weight_cases, *self.loads.snow_cases):
            downward, toward_eave = self._gravity(case, every)
            forces[case] = (
                downward * np.cos(slope) - toward_eave * np.sin(slope),
                downward * np.sin(slope) + toward_eave * np.cos(slope),
            )
        return forces

    def _gravity(self, case: str, module: Ints, record: Recorder = silent) -> tuple[Floats, Floats]:
        """What acts upright and horizontally toward the eave: parts of the weight, or snow [N]."""
        if case in self.loads.weight_cases:
            part = self.loads.weight_cases[case]
            for step in part.steps:
                record(step)
            return np.full(len(module), part.downward * self.weight), np.full(
                len(module), part.toward_eave * self.weight
            )
        to_horizontal = np.radians(self.slope + self.field.attitude.tilt)
        snow: Floats = self.loads.snow(case, module, record) * self.field.area * np.cos(to_horizontal)
        return snow, np.zeros(len(module))

    def combined(self, module: Ints, area: Floats) -> tuple[Floats, Floats]:
        """`of` in every combination, (n, C) each [N]."""
        normal, in_plane = zip(*(self.of(case, module, area) for case in self.cases), strict=True)
        return self.in_combinations(normal), self.in_combinations(in_plane)

    def in_combinations(self, by_case: Sequence[Floats]) -> Floats:
        """What each case brings (n,), by its factors: (n, C)."""
        return np.stack(by_case, axis=1) @ self._factors

    @property
    def cases(self) -> tuple[str, ...]:
        """Every load case."""
        return (*self.loads.weight_cases, *self.loads.snow_cases, *self.loads.wind_cases)

    @cached_property
    def _factors(self) -> Floats:
        return np.stack([factors(self.loads.combinations, case) for case in self.cases])

    @property
    def across_combined(self) -> Floats:
        """What each module gives along the eave in every combination (C,) [N]."""
        across: Floats = np.array([self.across(case) for case in self.cases]) @ self._factors
        return across

    def across(self, case: str) -> float:
        """What each module gives along the eave [N]: an earthquake's part of its weight."""
        part = self.loads.weight_cases.get(case)
        return part.across * self.weight if part else 0.0

    def pressure(self, case: str) -> Floats:
        """What presses on every module itself, normal to it [Pa]: for its maker's rating."""
        every = np.arange(self.field.modules)
        if case in self.loads.wind_cases:
            return self.loads.wind(case, every, np.full(len(every), self.field.area))
        to_horizontal = np.radians(self.slope + self.field.attitude.tilt)
        downward, toward_eave = self._gravity(case, every)
        pressure: Floats = (downward * np.cos(to_horizontal) - toward_eave * np.sin(to_horizontal)) / self.field.area
        return pressure

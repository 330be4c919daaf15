"""Forces of wind, snow and weight on modules, as one normal to the roof and one in its plane."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from engine.common.arrays import Floats, Ints
from engine.common.calculation import Recorder, silent
from engine.load_path.bare_roof import factors
from engine.loads.interface import Loads
from engine.mounting.layout import Field


@dataclass(eq=False)
class ModuleForces:
    """Forces that each module passes on in each load case, normal to the roof and down the slope.

    `slope` of the roof [deg]. `weight` [N] is that of one module with its part of the hardware that lies above the
    link in question: none for clamps, the members for rails, all of it for attachments.
    """

    field: Field
    loads: Loads
    slope: float
    weight: float

    def same_as(self, other: ModuleForces) -> bool:
        """True if the same modules have the same forces at another place on the roof."""
        if self.field.attitude != other.field.attitude or self.loads.snow_cases != other.loads.snow_cases:
            return False
        cases = zip(self._weight_and_snow.values(), other._weight_and_snow.values(), strict=True)
        return np.array_equal(self.loads.kind, other.loads.kind) and all(map(np.array_equal, *zip(*cases, strict=True)))

    def of(self, case: str, module: Ints, area: Floats, record: Recorder = silent) -> tuple[Floats, Floats]:
        """Forces in one load case, normal to the roof and down the slope, (n,) each [N].

        Wind acts normal to the module, weight and snow act vertically; snow counts per horizontal area.

        Args:
            case: the load case.
            module: numbers of the modules (n,).
            area: effective wind area of each (n,) [m²].
            record: recorder of the calculation's steps.
        """
        if case in self.loads.wind_cases:
            tilt = np.radians(self.field.attitude.tilt)
            force = self.loads.wind(case, module, area, record) * self.field.area
            return force * np.cos(tilt), -force * np.sin(tilt)
        if record is not silent:
            self._gravity(case, module, record)
        normal, in_plane = self._weight_and_snow[case]
        return normal[module], in_plane[module]

    def on_parts(self, case: str, module: Ints, part: Ints, area: Floats) -> tuple[Floats, Floats]:
        """As `of`, for modules on parts: the wind on each kind of module is read once at each part's area.

        Args:
            case: the load case.
            module: numbers of the modules (n,).
            part: number of the part that carries each (n,).
            area: effective wind areas of the parts (P,) [m²].
        """
        if case not in self.loads.wind_cases:
            return self.of(case, module, area)
        first, kind = self._kinds
        at_parts = self.of(case, np.tile(first, len(area)), np.repeat(area, len(first)))
        normal, in_plane = (force.reshape(len(area), len(first))[part, kind[module]] for force in at_parts)
        return normal, in_plane

    @cached_property
    def _kinds(self) -> tuple[Ints, Ints]:
        """The first module of each kind, and the kind of each module (M,), from 0."""
        _, first, kind = np.unique(self.loads.kind, return_index=True, return_inverse=True)
        return first, kind

    @cached_property
    def _weight_and_snow(self) -> dict[str, tuple[Floats, Floats]]:
        """Case → forces of all modules (M,) each [N], for the cases that do not depend on an effective wind area."""
        every, slope = np.arange(self.field.modules), np.radians(self.slope)
        forces = {}
        for case in (*self.loads.weight_cases, *self.loads.snow_cases):
            downward, toward_eave = self._gravity(case, every)
            normal = downward * np.cos(slope) - toward_eave * np.sin(slope)
            in_plane = downward * np.sin(slope) + toward_eave * np.cos(slope)
            forces[case] = normal, in_plane
        return forces

    def _gravity(self, case: str, module: Ints, record: Recorder = silent) -> tuple[Floats, Floats]:
        """Forces of weight or snow, vertical and horizontal toward the eave, (n,) each [N]."""
        if case in self.loads.weight_cases:
            part = self.loads.weight_cases[case]
            for step in part.steps:
                record(step)
            one = np.ones(len(module))
            return one * (part.downward * self.weight), one * (part.toward_eave * self.weight)
        to_horizontal = np.radians(self.slope + self.field.attitude.tilt)
        snow: Floats = self.loads.snow(case, module, record) * self.field.area * np.cos(to_horizontal)
        return snow, np.zeros(len(module))

    def combined(self, module: Ints, part: Ints, area: Floats) -> tuple[Floats, Floats]:
        """Forces in every combination, normal and down the slope, (n, C) each [N]; arguments as in `on_parts`."""
        gravity_normal, gravity_in_plane = self._gravity_in_combinations
        normal, in_plane = gravity_normal[module], gravity_in_plane[module]
        for case in self.loads.wind_cases:
            wind_normal, wind_in_plane = self.on_parts(case, module, part, area)
            factor = factors(self.loads.combinations, case)
            normal += wind_normal[:, None] * factor
            in_plane += wind_in_plane[:, None] * factor
        return normal, in_plane

    @cached_property
    def _gravity_in_combinations(self) -> tuple[Floats, Floats]:
        """Weight and snow of all modules in every combination, normal and down the slope, (M, C) each [N]."""
        normal, in_plane = zip(*self._weight_and_snow.values(), strict=True)
        factor = self._factors[: len(normal)]
        return np.stack(normal, axis=1) @ factor, np.stack(in_plane, axis=1) @ factor

    def in_combinations(self, by_case: Sequence[Floats]) -> Floats:
        """Sums of the cases' values (n,) by their factors, in every combination (n, C)."""
        return np.stack(by_case, axis=1) @ self._factors

    def at_weight(self, by_case: Floats) -> Floats:
        """Forces in every combination (..., C), from those that modules of 1 N bring in each case (..., K)."""
        combined: Floats = by_case @ (self._weight_factors[:, None] * self._factors)
        return combined

    @cached_property
    def _weight_factors(self) -> Floats:
        return np.array([self.weight_factor(case) for case in self.cases])

    @property
    def cases(self) -> tuple[str, ...]:
        """All load cases, those in proportion to the weight first."""
        return (*self.loads.weight_cases, *self.loads.snow_cases, *self.loads.wind_cases)

    @cached_property
    def _factors(self) -> Floats:
        """Factor of each case in each combination (cases, C) [-]."""
        return np.stack([factors(self.loads.combinations, case) for case in self.cases])

    def weight_factor(self, case: str) -> float:
        """Factor of a case's forces that are known for modules of 1 N: the weight, 1 for wind and snow."""
        return self.weight if case in self.loads.weight_cases else 1.0

    @property
    def across_combined(self) -> Floats:
        """Force of each module along the eave in every combination (C,) [N]."""
        across: Floats = np.array([self.across(case) for case in self.cases]) @ self._factors
        return across

    def across(self, case: str) -> float:
        """Force of each module along the eave [N]: the seismic part of its weight, else 0."""
        part = self.loads.weight_cases.get(case)
        return part.across * self.weight if part else 0.0

    @cached_property
    def pressure_combined(self) -> Floats:
        """Pressure normal to every module in every combination (M, C) [Pa]."""
        return self.in_combinations([self.pressure(case) for case in self.cases])

    def pressure(self, case: str) -> Floats:
        """Pressure normal to every module (M,) [Pa], to be compared with its maker's rating."""
        every = np.arange(self.field.modules)
        if case in self.loads.wind_cases:
            return self.loads.wind(case, every, np.full(len(every), self.field.area))
        to_horizontal = np.radians(self.slope + self.field.attitude.tilt)
        downward, toward_eave = self._gravity(case, every)
        pressure: Floats = (downward * np.cos(to_horizontal) - toward_eave * np.sin(to_horizontal)) / self.field.area
        return pressure

"""Layouts of one method under one field; the lines of a run group are made once for each of its spacings."""

from __future__ import annotations

from dataclasses import dataclass
from dataclasses import field as dataclass_field
from functools import cached_property

import numpy as np

from engine.common.arrays import Floats, Ints
from engine.mounting.build_layout import join_runs
from engine.mounting.interface import FieldLines, MountingMethod, Refusal, RunGroup
from engine.mounting.layout import Field, LaidLines, Layout, SpacingPattern
from engine.mounting.lines_along_eave import too_few_attachments
from engine.project.job import Job


@dataclass(eq=False)
class Layouts:
    """Layouts of a method under a field whose modules lie in strips `strip` (M,)."""

    job: Job
    method: MountingMethod
    field: Field
    strip: Ints
    _laid: dict[tuple[tuple[int, ...], bytes, bool], LaidLines | Refusal] = dataclass_field(default_factory=dict)

    def lay_out(self, pattern: SpacingPattern, minimum: int) -> Layout | Refusal:
        """The layout of one pattern, with single attachments added until there are at least `minimum`."""
        field_lines = self._field_lines
        if isinstance(field_lines, Refusal):
            return field_lines
        runs: list[LaidLines] = []
        for groups, spacing in self._alike(np.array(pattern.spacings, dtype=np.float64)):
            laid = self._laid_together(field_lines, groups, spacing, enough=minimum > 0)
            if isinstance(laid, Refusal):
                return laid
            runs.append(laid)
        lines = [line for laid in runs for line in laid.lines]
        refusal = too_few_attachments(self.job, lines, minimum, field_lines.member, field_lines.cure)
        return refusal or join_runs(pattern, runs) or _as_one(field_lines, pattern, runs)

    def _alike(self, spacings: Floats) -> list[tuple[list[int], Floats]]:
        """Numbers of the run groups that have the same positions and spacings, and the spacing at each module (n,)."""
        alike: dict[tuple[float, bytes], tuple[list[int], Floats]] = {}
        for number, group in enumerate(self._groups):
            spacing = spacings[group.strip]
            alike.setdefault((group.start, spacing.tobytes()), ([], spacing))[0].append(number)
        return list(alike.values())

    def _laid_together(
        self, field_lines: FieldLines, numbers: list[int], spacing: Floats, *, enough: bool
    ) -> LaidLines | Refusal:
        """The lines of run groups that are alike under a pattern, made once for their spacings."""
        key = tuple(numbers), spacing.tobytes(), enough
        if key not in self._laid:
            first, *others = (self._groups[number] for number in numbers)
            lines = field_lines.lines_of(first.together_with(others), spacing, enough=enough)
            self._laid[key] = lines if isinstance(lines, Refusal) else field_lines.lay(lines)
        return self._laid[key]

    @cached_property
    def _field_lines(self) -> FieldLines | Refusal:
        return self.method.field_lines(self.job, self.field)

    @cached_property
    def _groups(self) -> list[RunGroup]:
        return [] if isinstance(self._field_lines, Refusal) else self._field_lines.groups(self.strip)


def _as_one(field_lines: FieldLines, pattern: SpacingPattern, runs: list[LaidLines]) -> Layout:
    """The layout of runs that share attachments: they are laid together."""
    joined = join_runs(pattern, [field_lines.lay([line for laid in runs for line in laid.lines])])
    assert joined is not None
    return joined

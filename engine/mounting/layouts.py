"""Layouts of one method under one field; what a run group contributes is made once for each of its spacings."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from dataclasses import field as dataclass_field
from functools import cached_property

import numpy as np

from engine.common.arrays import Floats, Ints
from engine.mounting.build_layout import join_runs
from engine.mounting.interface import FieldLines, MountingMethod, Refusal, RunGroup
from engine.mounting.layout import Field, LaidLines, Layout, SpacingPattern, SupportLines
from engine.mounting.lines_along_eave import too_few_attachments
from engine.project.job import Job


@dataclass(eq=False)
class Layouts:
    """Layouts of a method under a field whose modules lie in strips `strip` (M,).

    `together`: all run groups are laid at once, which is quicker where there is but one layout.
    """

    job: Job
    method: MountingMethod
    field: Field
    strip: Ints
    together: bool = False
    _laid: dict[tuple[int, bytes, bool], LaidLines | Refusal] = dataclass_field(default_factory=dict)
    _by_ribs: dict[tuple[object, ...], LaidLines] = dataclass_field(default_factory=dict)

    def lay_out(self, pattern: SpacingPattern, minimum: int) -> Layout | Refusal:
        """The layout of one pattern, with single attachments added until there are at least `minimum`."""
        runs, field_lines = self.runs(pattern, enough=minimum > 0), self._field_lines
        if isinstance(field_lines, Refusal):
            return field_lines
        if isinstance(runs, Refusal):
            return runs
        lines = [line for laid in runs for line in laid.lines]
        refusal = too_few_attachments(self.job, lines, minimum, field_lines.member, field_lines.cure)
        return refusal or join_runs(pattern, runs) or _as_one(field_lines, pattern, runs)

    def runs(self, pattern: SpacingPattern, *, enough: bool) -> tuple[LaidLines, ...] | Refusal:
        """The run groups of one pattern, with single attachments added until each has `enough`; made once."""
        field_lines = self._field_lines
        if isinstance(field_lines, Refusal):
            return field_lines
        spacings = np.array(pattern.spacings, dtype=np.float64)
        lay = self._laid_together if self.together else self._laid_apart
        return lay(field_lines, [spacings[group.strip] for group in self._groups], enough=enough)

    def _laid_together(
        self, field_lines: FieldLines, spacings: Sequence[Floats], *, enough: bool
    ) -> tuple[LaidLines, ...] | Refusal:
        """The lines of all run groups with their attachments, with the spacing at each module of each group (n,)."""
        lines = list[SupportLines]()
        for number, spacing in enumerate(spacings):
            attached = self._attached(field_lines, number, spacing, enough=enough)
            if isinstance(attached, Refusal):
                return attached
            lines += attached
        return (field_lines.lay(lines),)

    def _laid_apart(
        self, field_lines: FieldLines, spacings: Sequence[Floats], *, enough: bool
    ) -> tuple[LaidLines, ...] | Refusal:
        """As `_laid_together`, the lines of each run group by themselves, made once for its spacing."""
        runs = list[LaidLines]()
        for number, spacing in enumerate(spacings):
            key = number, spacing.tobytes(), enough
            if key not in self._laid:
                lines = self._attached(field_lines, number, spacing, enough=enough)
                self._laid[key] = lines if isinstance(lines, Refusal) else self._on_ribs(field_lines, number, lines)
            laid = self._laid[key]
            if isinstance(laid, Refusal):
                return laid
            runs.append(laid)
        return tuple(runs)

    def _attached(
        self, field_lines: FieldLines, number: int, spacing: Floats, *, enough: bool
    ) -> list[SupportLines] | Refusal:
        """The attached lines of a run group, by its number, with the spacing at each of its modules (n,)."""
        unattached = self._unattached[number]
        if isinstance(unattached, Refusal):
            return unattached
        return field_lines.attach(self._groups[number], unattached, spacing, enough=enough)

    def _on_ribs(self, field_lines: FieldLines, number: int, lines: Sequence[SupportLines]) -> LaidLines:
        """The lines of a run group with their attachments, made once for their ribs: wide spacings may share them."""
        key = number, *((line.across.tobytes(), line.stands_on.tobytes(), line.added_ribs) for line in lines)
        if key not in self._by_ribs:
            self._by_ribs[key] = field_lines.lay(lines)
        return self._by_ribs[key]

    @cached_property
    def _field_lines(self) -> FieldLines | Refusal:
        return self.method.field_lines(self.job, self.field)

    @cached_property
    def _groups(self) -> list[RunGroup]:
        return [] if isinstance(self._field_lines, Refusal) else self._field_lines.groups(self.strip)

    @cached_property
    def _unattached(self) -> list[list[SupportLines] | Refusal]:
        """The lines of each run group."""
        return [] if isinstance(self._field_lines, Refusal) else list(map(self._field_lines.lines_of, self._groups))


def _as_one(field_lines: FieldLines, pattern: SpacingPattern, runs: Sequence[LaidLines]) -> Layout:
    """The layout of runs that share attachments: they are laid together."""
    joined = join_runs(pattern, [field_lines.lay([line for laid in runs for line in laid.lines])])
    assert joined is not None
    return joined

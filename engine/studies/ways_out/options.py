"""Ways out by other options of a method: a closer spacing, a third rail, modules turned, a lower tilt."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from engine.comparison.compare import Column, Comparison
from engine.design.design import Design
from engine.design.search import HALF_SPACING_BELOW
from engine.mounting.interface import MountingMethod, SpacingField
from engine.scenario.changes import Changes
from engine.schema import InputTable
from engine.schema.introspection import field_type_of
from engine.studies.ways_out.proposal import Proposal

CLOSER = "attach it more closely"


def closer_spacing(column: Column, comparison: Comparison) -> Iterator[Proposal]:
    """The spacing left to the search where it is stated, then closer uniform spacings, the widest first.

    The search has tried the uniform ones at the stated place; they are tried again where it found a layout that does
    not hold within the tolerance, or where the spacing is stated.
    """
    (stated,) = comparison.scenario.methods_named((column.id,))
    is_searched = stated.spacing.rule == "fewest"
    if not is_searched:
        yield Proposal(CLOSER, _as_changes(column, {"spacing": "fewest"}), names_spacing=True)
    if column.design and (column.status.nothing_over or not is_searched):
        for spacing in _closer_uniform(column.design):
            options = {**_other_options(stated, column.design.method), "spacing": spacing}
            yield Proposal(CLOSER, _as_changes(column, options), names_spacing=True)


def _closer_uniform(design: Design) -> Iterator[str]:
    """Uniform spacings closer than the widest of a design, the fewest attachments first, as a file has them."""
    method, spacings = design.method, design.layout.pattern.spacings
    if not isinstance(method, InputTable):
        return
    kind = field_type_of(type(method).model_fields["spacing"])
    if not isinstance(kind, SpacingField):
        return
    candidates: list[float] = list(method.candidate_spacings(design.job, design.field))
    if not kind.by_span:
        yield from (f"{number} {kind.unit}" for number in sorted(candidates) if number > min(spacings))
        return
    candidates += [spacing + 0.5 for spacing in candidates if spacing < HALF_SPACING_BELOW]
    for spacing in sorted(candidates, reverse=True):
        if spacing < max(spacings):
            yield f"{spacing:g} {kind.unit}"


def _other_options(stated: MountingMethod, found: MountingMethod) -> dict[str, object]:
    """The options of the method found that are not as stated: those of a remedy."""
    if not (isinstance(stated, InputTable) and isinstance(found, InputTable)):
        return {}
    names = (name for name in type(found).model_fields if getattr(found, name) != getattr(stated, name))
    return {name: getattr(found, name) for name in names}


def other_options(kind: str, column: Column) -> Iterator[Proposal]:
    """The method's alternatives of one kind."""
    if column.design is None:
        return
    for alternative in column.design.method.alternatives():
        if alternative.kind == kind:
            yield Proposal(alternative.text, _as_changes(column, alternative.options))


def _as_changes(column: Column, options: Mapping[str, object]) -> Changes:
    """Options of a method by their paths in the file."""
    return {("methods", column.id, name): value for name, value in options.items()}

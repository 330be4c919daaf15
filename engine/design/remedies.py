"""The same method with other options: where those stated hold at no spacing, or where open ones spare attachments."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import numpy as np

from engine import links
from engine.design.search import sparsest_holding
from engine.design.trial import Candidate, DesignContext
from engine.links import Check
from engine.links.ratios import resistances
from engine.load_path.demands import Demands
from engine.mounting.interface import MountingMethod
from engine.strength import strength

REMEDY_MAX_SPACING = 3
"""Largest spacing at which remedies are tried [ribs]: with staggered lines neighbours do not help beyond it."""


def layout_may_help(candidate: Candidate, roof_alone: Check) -> bool:
    """True if every link that fails could hold in another layout.

    No layout helps if the roof fails without the array, if the wind alone overloads a fastening under the array, or if
    a link fails whose load is the same in every layout.
    """
    unaffected = [link for link in links.LINKS if not link.depends_on_layout(candidate.job)]
    if not roof_alone.holds or not all(candidate.check(link).holds for link in unaffected):
        return False
    return wind_alone_utilisation(candidate.demands) <= 1


def wind_alone_utilisation(demands: Demands) -> float:
    """Utilisation of a fastening under the array by wind alone, even at the closest attachment spacing [-].

    0 where its strength is unknown.
    """
    uplift = demands.job.roof.fastening.uplift
    if uplift is None:
        return 0.0
    resistance = resistances(strength(uplift), demands.combinations)
    return float(np.max(-demands.unavoidable_fastening_load / resistance))


def best_remedy(context: DesignContext) -> tuple[DesignContext, Candidate] | None:
    """The remedy with the fewest attachments of the first group in which one holds; None if none holds."""
    for group in context.method.remedies():
        found = list(_holding(context, group))
        if found:
            return min(found, key=_attachments)
    return None


def sparser_with_open_options(context: DesignContext, attachments: int) -> tuple[DesignContext, Candidate] | None:
    """Other options that need no more hardware and fewer than so many attachments; None if there are none.

    What the user has written stays.
    """
    groups = context.method.remedies()
    left_open = [other for other in groups[0] if _keeps_what_is_written(context.method, other)] if groups else []
    found = (each for each in _holding(context, left_open) if _attachments(each) < attachments)
    return min(found, key=_attachments, default=None)


def _attachments(each: tuple[DesignContext, Candidate]) -> int:
    return len(each[1].layout.attachments)


def _keeps_what_is_written(method: MountingMethod, other: MountingMethod) -> bool:
    """True if the options that differ are none that the user has written."""
    before, after = vars(method), vars(other)
    return all(before[option] == after[option] for option in method.model_fields_set)


def _holding(context: DesignContext, methods: Sequence[MountingMethod]) -> Iterator[tuple[DesignContext, Candidate]]:
    """Each of the methods that holds, with its sparsest layout; no others once one needs only the minimum."""
    for method in methods:
        remedy = context.with_method(method)
        candidate = sparsest_holding(remedy, range(1, REMEDY_MAX_SPACING + 1))
        if candidate:
            yield remedy, candidate
            if len(candidate.layout.attachments) <= context.field.minimum_attachments:
                return

"""A building of several slopes as plain values for JSON: SI, unrounded, the suffix says the unit."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from engine.comparison.building_comparison import SUMMED, BuildingComparison, Total
from engine.comparison.record import WaysOfMethods, comparison_record


def building_record(
    building: BuildingComparison,
    ways_out: Sequence[WaysOfMethods | None] | None = None,
    *,
    with_attachments: bool = False,
) -> dict[str, Any]:
    """Totals by method, the comparison of each slope with its ways out, and the methods of the best mix."""
    of_slopes = zip(building.slopes, ways_out or [None] * len(building.slopes), strict=True)
    mix, first = building.best_mix, building.slopes[0]
    return {
        "format": 1,
        "title": building.title,
        "standard": first.scenario.standard.title,
        "cautions": list(building.cautions),
        "answer": building.answer,
        "methods": [{"method": each.columns[0].id, **_total(each)} for each in building.totals],
        "slopes": [
            {
                "name": slope.scenario.slope,
                **comparison_record(slope, ways, with_attachments=with_attachments),
            }
            for slope, ways in of_slopes
        ],
        "best_mix": _mix(mix) if mix else None,
    }


def _mix(mix: Total) -> dict[str, Any]:
    methods = {name: column.id for name, column in zip(mix.slopes, mix.columns, strict=True)}
    return {"methods": methods, **_total(mix)}


def _total(total: Total) -> dict[str, Any]:
    decisive = total.decisive
    check = decisive[1].decisive if decisive else None
    return {
        "title": total.title,
        "status": str(total.status),
        **{key: total.total(key) for key in SUMMED},
        "weakest_link": check.link if check else None,
        "weakest_utilisation": check.ratio if check else None,
        "weakest_slope": decisive[0] if decisive else None,
    }

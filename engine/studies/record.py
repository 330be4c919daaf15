"""The studies as plain values for JSON: SI, unrounded, the suffix says the unit. The keys are a contract."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from engine.comparison.record import verdict_record
from engine.studies.headroom import CapacityMargin, Headroom, RequiredStrength
from engine.studies.placement import Place, Placement, PlacementMap
from engine.studies.quick import RoofLoads
from engine.studies.sensitivity import InputEffect, Sensitivity, VariedOutcome
from engine.studies.spacing import SpacingRow, SpacingStudy
from engine.studies.ways_out import WayOut, WaysOut

Record = dict[str, Any]


def spacing_record(studies: Sequence[SpacingStudy]) -> list[Record]:
    """The spacing study of each method."""
    return [
        {
            "method": study.id,
            "title": study.title,
            "sentence": study.sentence,
            "rail_span_limit_m": study.limits.member if study.limits else None,
            "roof_span_limit_m": study.limits.roof if study.limits else None,
            "overspan": study.limits.overspan if study.limits else None,
            "overspan_basis": study.limits.overspan_basis if study.limits else None,
            "gives_out": dict(study.first_failure or {}),
            "spacings": [_spacing(row) for row in study.rows],
        }
        for study in studies
    ]


def _spacing(row: SpacingRow) -> Record:
    return {
        "spacing": row.label,
        "sentence": row.sentence,
        "longest_span_m": row.span,
        "attachments": row.attachments,
        "point_load_up_n": row.attachment_up,
        "point_load_down_n": row.attachment_down_load,
        "hardware_cost": row.hardware_cost,
        "links": {check.link: check.utilisation for check in row.checks.values()},
    }


def headroom_record(found: Sequence[Headroom]) -> list[Record]:
    """The headroom of each method."""
    return [
        {
            "method": each.id,
            "spacing": each.spacing,
            "reaches": [_margin(margin) for margin in each.reaches],
            "fastening_needed_at_member_span": _required(each.needed),
            "attachment_needed_at_member_span": _required(each.attachment_needed),
        }
        for each in found
    ]


def _required(required: RequiredStrength | None) -> Record | None:
    if required is None:
        return None
    return {"span_m": required.span, "needed_n": required.needed, "stated_n": required.stated}


def _margin(margin: CapacityMargin) -> Record:
    return {
        "input": margin.input.path,
        "stated": margin.stated,
        "searched_to": margin.searched,
        "used_up_at": margin.at,
        "link": margin.link,
        "over": margin.over,
    }


def sensitivity_record(found: Sequence[Sensitivity]) -> list[Record]:
    """The sensitivity of each method, the largest effect first."""
    return [
        {"method": each.id, "now": _outcome(each.now), "effects": [_effect(effect) for effect in each.effects]}
        for each in found
    ]


def _effect(effect: InputEffect) -> Record:
    perturbation = effect.perturbation
    return {
        "input": perturbation.input.path,
        "step": perturbation.part,
        "down": _outcome(effect.down),
        "up": _outcome(effect.up),
    }


def ways_out_record(found: Sequence[WaysOut]) -> list[Record]:
    """The ways out of each method that is over."""
    return [{"method": method, "ways_out": ways} for method, ways in ways_by_method(found).items()]


def ways_by_method(found: Sequence[WaysOut]) -> dict[str, list[Record]]:
    """Id of each method that is over → its ways out."""
    return {each.column.id: [_way(way) for way in each.ways] for each in found}


def quick_record(found: Sequence[RoofLoads]) -> list[Record]:
    """The loads that each method brings to a roof of unknown strength."""
    return [
        {
            "method": each.column.id,
            "attachments": len(each.column.design.layout.attachments) if each.column.design else None,
            "attachments_minimum": each.column.design.field.minimum_attachments if each.column.design else None,
            "uplift_by_zone_n": dict(each.uplift_by_zone),
            "point_load_down_n": each.down,
            "clip_uplift_with_array_n": each.with_array,
            "clip_uplift_without_array_n": each.without,
            "test_pressure_pa": each.test_pressure,
            "seam_moment_nm": each.seam_moment,
        }
        for each in found
    ]


def placement_record(found: Placement) -> Record:
    """The map of each method, and the best place of the array."""
    return {"methods": [_map(each) for each in found.maps], "best_for_all_m": found.shared}


def _map(shown: PlacementMap) -> Record:
    return {
        "method": shown.column.id,
        "along": {"axis": shown.along.key, "places_m": shown.along.places},
        "up": {"axis": shown.up.key, "places_m": shown.up.places},
        "best": _place(shown.best) if shown.best else None,
        "places": [_place(place) for place in shown.places],
    }


def _place(place: Place) -> Record:
    within = place.within_tolerance
    return {
        "at_m": (place.along, place.up),
        "status": str(place.verdict.status),
        "weakest_utilisation": place.verdict.utilisation,
        "within_tolerance": verdict_record(within) if within else None,
        "attachments": place.attachments,
        "modules": place.modules,
        "clear_of_setbacks": place.clear,
    }


def _way(way: WayOut) -> Record:
    return {
        "kind": way.kind,
        "text": way.text,
        "set": {".".join(path): value for path, value in way.proposal.changes.items()},
        "result": {
            "status": str(way.column.status),
            "attachments": len(way.design.layout.attachments),
            "modules": way.design.field.modules,
            "weakest_utilisation": way.column.controlling.utilisation if way.column.controlling else None,
        },
    }


def _outcome(outcome: VariedOutcome | None) -> Record | None:
    if outcome is None:
        return None
    return {"weakest_utilisation": outcome.used, "attachments": outcome.attachments, "holds": outcome.holds}

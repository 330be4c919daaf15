"""The inputs behind the symbols of a calculation: where a value comes from that no step works out."""

from __future__ import annotations

import re
from collections.abc import Mapping

from engine.common.calculation import CalculationStep
from engine.scenario.changes import Steps

BY_TERM: Mapping[str, str] = {
    "pg": "site.ground_snow",
    "Is": "site.risk_category",
    "Ce": "site.snow_exposure",
    "ze": "site.ground_elevation",
    "Kzt": "site.topographic_factor",
    "zg": "site.exposure",
    "z": "building.mean_roof_height",
    "h": "building.mean_roof_height",
    "W": "module.mass",
    "theta": "building.slope",
    "omega": "methods.tilted_rack.tilt",
    "WL": "building.length",
    "Ws": "building.width",
    "Lp": "module.width",
    "hpt": "building.parapet_height",
    "htop": "building.higher_roofs",
    "modules": "array.rows",
    "runs": "array.aisles",
    "s_rib": "roof.rib_spacing",
    "screws": "hardware.attachment_screws",
    "rate": "hardware.labour_rate",
    "labour": "hardware.module_minutes",
    "power": "module.power",
    "dT": "roof.temperature_range",
    "e": "hardware.attachment_height",
    "Va": "hardware.attachment_in_plane",
    "Ua": "hardware.attachment_uplift",
    "Da": "hardware.attachment_down",
}
"""Symbol of a term, wherever it stands, and the input that it is read from."""

BY_STEP: Mapping[tuple[str, str], str] = {
    ("V", "mph"): "site.wind_speed",
    ("vb", "m/s"): "site.wind_speed",
    ("sk", "N/m2"): "site.ground_snow",
    ("gammaE", ""): "site.array_edges",
    ("GCp", ""): "building.roof_shape",
    ("GCrn_nom", ""): "methods.tilted_rack.tilt",
    ("GCpi", ""): "building.enclosure",
    ("cpi", ""): "building.enclosure",
    ("Ct", ""): "building.thermal",
    ("c", ""): "site.cp_net",
    ("modules", ""): "array.rows",
    ("dT", "F"): "roof.temperature_range",
    ("L", "in"): "module.clamp_zone",
    ("z", "in"): "module.clamp_zone",
}
"""Symbol and unit of a step, and the input that it is read or chosen by."""

PARTS = {"rails": "rail", "rack_beams": "rack_beam", "frame_legs": "leg", "frame_braces": "brace"}
"""Parts of the bill whose tables have another name than the part without its last letter."""

OF_STRENGTH = {"Rn", "Ra", "Ma", "Mwa", "Omega", "phi", "VP", "Se", "Fy"}
"""Symbols of what a strength is worked out from: they lead to the strength of the link that is explained."""


def input_of(step: CalculationStep, strength: Steps) -> Steps:
    """Path of the input that a step itself reads, the first it names; empty where it reads none.

    Args:
        step: the step.
        strength: path of the strength of the link that is explained; empty where there is none.
    """
    symbol = re.sub(r"\d+$", "", step.symbol)
    if symbol in OF_STRENGTH and strength:
        return strength
    by_step = BY_STEP.get((symbol, step.result.unit))
    if by_step:
        return tuple(by_step.split("."))
    if "price" in step.terms:
        return _price_of(symbol)
    names = (re.sub(r"\d+$", "", name) for name in step.terms)
    by_term = next((tuple(BY_TERM[name].split(".")) for name in names if name in BY_TERM), ())
    is_utilisation = symbol in ("u", "used") or symbol.startswith("u_")
    return by_term or (strength if is_utilisation else ())


def _price_of(part: str) -> Steps:
    table = PARTS.get(part, part.removesuffix("s"))
    return ("hardware", table, "price") if table in ("rail", "rack_beam") else ("hardware", "parts", table, "price")

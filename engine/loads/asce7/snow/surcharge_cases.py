"""The load cases of drifts and sliding snow: each adds its surcharges to balanced snow only, ASCE 7 §7.7 to §7.9."""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np

from engine.common.arrays import Bools, Floats
from engine.common.calculation import CalculationStep, Recorder, Term, silent
from engine.loads.asce7.references import clause
from engine.loads.asce7.site import SEVEN_16, Site
from engine.loads.asce7.snow.array_drift import array_drifts
from engine.loads.asce7.snow.roof_edges import leeward_drifts, parapet_drifts, sliding_snow, windward_drifts
from engine.loads.asce7.snow.step_drift import Snowpack
from engine.loads.asce7.snow.surcharge import Surcharge, largest_of_all, mean_of_all
from engine.mounting.layout import Field, Rectangles
from engine.project.building import Building

ARRAY, PARAPET = "S drift array", "S drift parapet"
STEP, LEEWARD, WINDWARD = "S drift step", "S drift lee", "S drift wind"
SLIDING = "S sliding"


def surcharge_cases(
    pack: Snowpack, building: Building, field: Field, thermal_factor: float
) -> Mapping[str, tuple[Surcharge, ...]]:
    """Case → its surcharges; only cases that have some.

    7-16 takes the larger of the leeward and the windward drift at a higher roof, as one case; 7-22 has two cases.

    Args:
        pack: the balanced snow.
        building: the building, with parapets and higher roofs.
        field: the modules.
        thermal_factor: Ct of the roof.
    """
    if pack.site.ground_snow <= 0:
        return {}
    lee, wind = tuple(leeward_drifts(pack, building)), tuple(windward_drifts(pack, building))
    steps = {STEP: lee + wind} if pack.site.standard == SEVEN_16 else {LEEWARD: lee, WINDWARD: wind}
    found = {
        ARRAY: tuple(array_drifts(pack, building, field)),
        PARAPET: tuple(parapet_drifts(pack, building)),
        **steps,
        SLIDING: tuple(sliding_snow(pack, building, thermal_factor)),
    }
    return {case: surcharges for case, surcharges in found.items() if surcharges}


def without_array(case: str) -> bool:
    """True if the surcharges of a case act on the roof alone too: all but the drift that the array itself makes."""
    return case != ARRAY


def snowpack(site: Site, *balanced: float) -> Snowpack:
    """Balanced snow beside steps, from that of the surfaces there [psf]."""
    return Snowpack(site, min(balanced), max(balanced))


def with_surcharge(
    edition: str,
    balanced: Floats,
    surcharges: tuple[Surcharge, ...],
    plan: Rectangles,
    partly: Bools | None = None,
    record: Recorder = silent,
) -> Floats:
    """Balanced snow and surcharges on rectangles (n,) [psf].

    Args:
        edition: of the standard.
        balanced: balanced snow on the rectangles (n,) [psf].
        surcharges: the surcharges of one case.
        plan: the rectangles on plan [ft].
        partly: True where the largest surcharge counts instead of the mean (n,); None: nowhere.
        record: takes the steps.
    """
    largest = partly is not None and bool(partly[:1].any())
    steps = list[CalculationStep]()
    added = mean_of_all(surcharges, plan, silent if largest else steps.append)
    if partly is not None:
        added = np.where(partly, largest_of_all(surcharges, plan, steps.append if largest else silent), added)
    if record is not silent:
        for step in steps:
            record(step)
        total, terms = Term(float(balanced[0] + added[0]), "psf"), {"ps": Term(float(balanced[0]), "psf")}
        terms["psur"] = Term(float(added[0]), "psf")
        source, meaning = clause(edition, "§7.7"), "balanced snow with the surcharge"
        record(CalculationStep("pds", meaning, total, "ps + psur", terms, source))
    return balanced + added

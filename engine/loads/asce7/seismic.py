"""Earthquake on a rooftop array as a part of its weight, ASCE 7 chapter 13."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from engine.common.calculation import CalculationStep, Recorder, Term, silent
from engine.loads.asce7.references import clause, memory
from engine.loads.asce7.site import SEVEN_16, Site
from engine.loads.interface import DEAD, DEAD_LOAD_ONLY, WeightCase

AP, RP = 1.0, 1.5
"""ap and Rp of rooftop arrays, ASCE 7-16 Table 13.6-1 (from memory)."""

MIN_FACTOR, MAX_FACTOR = 0.3, 1.6
"""Bounds of Fp as parts of SDS Ip Wp, §13.3.1."""

VERTICAL = 0.2
"""Vertical part of SDS Wp, either way, §13.3.1."""

TO_EAVE, TO_RIDGE, ACROSS, UPRIGHT = "E to eave", "E to ridge", "E across", "Ev"
HORIZONTAL = (TO_EAVE, TO_RIDGE, ACROSS)


def horizontal_part(site: Site, record: Recorder = silent) -> float:
    """Fp/Wp at the roof, z = h [-].

    7-16: 0.4 ap SDS (1 + 2 z/h) / (Rp/Ip), Eq. 13.3-1; 7-22: 0.4 SDS Ip (Hf/Rmu)(CAR/Rpo), Eq. 13.3-1;
    both within 0.3 and 1.6 SDS Ip.
    """
    sds, ip = site.seismic_sds or 0.0, site.seismic_importance
    terms = {"SDS": Term(sds), "Ip": Term(ip)}
    if site.standard == SEVEN_16:
        part, equation = 0.4 * AP * sds * (1 + 2) / (RP / ip), "0.4 * ap * SDS * (1 + 2 * 1) / (Rp / Ip)"
        terms |= {"ap": Term(AP), "Rp": Term(RP)}
    else:
        part, equation = 0.4 * sds * ip * site.seismic_amplification, "0.4 * SDS * Ip * H"
        terms |= {"H": Term(site.seismic_amplification)}
    bounded = min(max(part, MIN_FACTOR * sds * ip), MAX_FACTOR * sds * ip)
    unavoidable_fastening_load = f"min(max({equation}, {MIN_FACTOR} * SDS * Ip), {MAX_FACTOR} * SDS * Ip)"
    words = "horizontal force of an earthquake, as a part of the weight"
    record(
        CalculationStep("Fp", words, Term(bounded), unavoidable_fastening_load, terms, memory(site.standard, "§13.3.1"))
    )
    return bounded


def vertical_part(site: Site, record: Recorder = silent) -> float:
    """Ev/Wp, §13.3.1: 0.2 SDS, either way [-]."""
    sds = site.seismic_sds or 0.0
    terms = {"SDS": Term(sds)}
    words = "vertical force of an earthquake, as a part of the weight, either way"
    record(
        CalculationStep("Ev", words, Term(VERTICAL * sds), f"{VERTICAL} * SDS", terms, clause(site.standard, "§13.3.1"))
    )
    return VERTICAL * sds


def weight_cases(site: Site) -> Mapping[str, WeightCase]:
    """The weight, and what an earthquake makes of it where one is stated: toward the eave, the ridge, along the eave, upright."""
    if site.seismic_sds is None:
        return DEAD_LOAD_ONLY
    steps: list[CalculationStep] = []
    sideways = horizontal_part(site, steps.append)
    how = tuple(steps)
    steps.clear()
    upright = vertical_part(site, steps.append)
    return MappingProxyType(
        {
            DEAD: DEAD_LOAD_ONLY[DEAD],
            TO_EAVE: WeightCase(toward_eave=sideways, steps=how),
            TO_RIDGE: WeightCase(toward_eave=-sideways, steps=how),
            ACROSS: WeightCase(across=sideways, steps=how),
            UPRIGHT: WeightCase(downward=upright, steps=tuple(steps)),
        }
    )

"""Earthquake on a rooftop array, in proportion to its weight, ASCE 7 chapter 13."""

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
"""Bounds of Fp over SDS Ip Wp, §13.3.1."""

VERTICAL_FACTOR = 0.2
"""Vertical force over SDS Wp, up or down, §13.3.1."""

TO_EAVE, TO_RIDGE, ACROSS, VERTICAL = "E to eave", "E to ridge", "E across", "Ev"
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
    equation = f"min(max({equation}, {MIN_FACTOR} * SDS * Ip), {MAX_FACTOR} * SDS * Ip)"
    meaning = "horizontal earthquake force over the weight"
    record(CalculationStep("Fp", meaning, Term(bounded), equation, terms, memory(site.standard, "§13.3.1")))
    return bounded


def vertical_part(site: Site, record: Recorder = silent) -> float:
    """Ev/Wp, §13.3.1: 0.2 SDS, up or down [-]."""
    sds = site.seismic_sds or 0.0
    terms = {"SDS": Term(sds)}
    part, source = VERTICAL_FACTOR * sds, clause(site.standard, "§13.3.1")
    meaning = "vertical earthquake force over the weight, up or down"
    record(CalculationStep("Ev", meaning, Term(part), f"{VERTICAL_FACTOR} * SDS", terms, source))
    return part


def weight_cases(site: Site) -> Mapping[str, WeightCase]:
    """The weight and, if SDS is set, the earthquake: toward eave and ridge, along the eave, and vertical."""
    if site.seismic_sds is None:
        return DEAD_LOAD_ONLY
    steps: list[CalculationStep] = []
    horizontal = horizontal_part(site, steps.append)
    horizontal_steps = tuple(steps)
    steps.clear()
    vertical = vertical_part(site, steps.append)
    return MappingProxyType(
        {
            DEAD: DEAD_LOAD_ONLY[DEAD],
            TO_EAVE: WeightCase(toward_eave=horizontal, steps=horizontal_steps),
            TO_RIDGE: WeightCase(toward_eave=-horizontal, steps=horizontal_steps),
            ACROSS: WeightCase(across=horizontal, steps=horizontal_steps),
            VERTICAL: WeightCase(downward=vertical, steps=tuple(steps)),
        }
    )

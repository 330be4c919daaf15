"""How each link's worst figure came about, step by step from the loads: one small file a link.

The arrays that the checks looked at are read again at their worst place; clauses are recorded by the very
functions that computed them. A sum's terms are shown with the engine's own result, so that whoever
evaluates the equation checks the engine.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from types import MappingProxyType

from engine.chains.attachment import attachment
from engine.chains.clamp import clamp
from engine.chains.fastening import fastening
from engine.chains.member import member
from engine.chains.module import module
from engine.chains.rib import fixed_point, rib
from engine.common.calculation import CalculationStep
from engine.links import Check
from engine.links.trail import Road

CHAINS: Mapping[str, Callable[[Road, Check], list[CalculationStep]]] = MappingProxyType(
    {
        "module": module,
        "clamp": clamp,
        "member": member,
        "attachment": attachment,
        "rib": rib,
        "roof_fastening": fastening,
        "fixed_point": fixed_point,
    }
)
"""A link's key → the steps to its worst figure, forward; none where it is not checked or has nothing to add."""

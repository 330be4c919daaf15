"""The load standards."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import Any

from engine.loads.asce7.site import SEVEN_16, SEVEN_22
from engine.loads.asce7.standard import Asce7
from engine.loads.en1991.site import EN_1991
from engine.loads.en1991.standard import En1991
from engine.loads.interface import LoadStandard
from engine.units import System

STANDARDS: Mapping[str, type[LoadStandard]] = MappingProxyType({SEVEN_16: Asce7, SEVEN_22: Asce7, EN_1991: En1991})
"""Title as the scenario's `site.standard` names it → the standard."""


def system_of(site: Any) -> System:
    """The units of the standard that a written `[site]` table names; US where there is none."""
    name = site.get("standard") if isinstance(site, Mapping) else None
    return STANDARDS[name].system if isinstance(name, str) and name in STANDARDS else "us"

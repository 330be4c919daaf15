"""Registry of the mounting methods."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from engine.mounting.direct import Direct
from engine.mounting.interface import MountingMethod
from engine.mounting.rail import Rail
from engine.mounting.tilted_rack import TiltedRack

METHODS: Mapping[str, type[MountingMethod]] = MappingProxyType(
    {method.id: method for method in (Rail, TiltedRack, Direct)}
)
"""Method id → class of the method with its options, in the order of the comparison."""

"""The mounting methods loadpath knows."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from engine.methods.direct import Direct
from engine.methods.rail import Rail
from engine.methods.tilted_rack import TiltedRack
from engine.mounting import MountingMethod

METHODS: Mapping[str, type[MountingMethod]] = MappingProxyType({method.id: method for method in (Rail, TiltedRack, Direct)})
"""Method id → its options and what it does with them, in the order of the comparison."""

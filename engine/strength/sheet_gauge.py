"""Thickness of sheet and purlins, by gauge or as a length."""

from __future__ import annotations

import re

from engine.schema import FieldType, Quantity
from engine.units import INCH, quoted

SHEET = {29: 0.0135, 26: 0.0179, 24: 0.0239, 22: 0.0299, 20: 0.0359, 18: 0.0478}
STRUCTURE = {16: 0.0598, 14: 0.0747, 12: 0.1046}
NOMINAL = SHEET | STRUCTURE
"""Gauge → nominal thickness of the base metal [in]."""

DELIVERED = 0.95
"""Part of the nominal thickness that counts for a gauge: delivered base metal may be that thin."""

_GAUGE = re.compile(r"(\d+) ?(?:ga|gauge)\.?")


class Thickness(FieldType):
    """Base metal of sheet or purlin, by gauge ("26 ga", of which 95 % counts) or as a length ("0.018 in")."""

    def read(self, written: object) -> float:
        """Thickness [m]."""
        words = " ".join(written.split()) if isinstance(written, str) else ""
        gauge = _GAUGE.fullmatch(words)
        if gauge and int(gauge[1]) in NOMINAL:
            return NOMINAL[int(gauge[1])] * DELIVERED * INCH
        if gauge or not words:
            raise ValueError(f"{quoted(str(written))} given; allowed is {self.allowed}")
        return Quantity("length", "0.01 in", "0.5 in").read(written)

    @property
    def allowed(self) -> str:
        """The thicknesses allowed, in words."""
        return f"{', '.join(f'{gauge} ga' for gauge in NOMINAL)}, or a thickness such as '0.036 in'"

"""Wind on tilted rows by a net coefficient of the scenario, such as that of a wind-tunnel report."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from engine.common.arrays import Bools, Floats, Ints
from engine.common.calculation import SCENARIO, CalculationStep, Recorder, Term, silent
from engine.loads.asce7.gcp_figures import GcpFigure
from engine.loads.asce7.net_pressure import UP
from engine.loads.asce7.roof_zones import zones
from engine.loads.asce7.site import Site
from engine.loads.interface import ExceededLimit, Remark
from engine.mounting.layout import Field
from engine.project.job import Job


@dataclass(frozen=True, eq=False)
class StatedWind:
    """Wind by one net coefficient for all modules, up and down: p = qh [Kd] C, no other factor."""

    net_coefficient: float
    zone: Ints
    exposed: Bools
    zone_names: tuple[str, ...]
    outside: tuple[ExceededLimit, ...] = ()
    zone_widths: tuple[CalculationStep, ...] = ()

    @classmethod
    def on(cls, site: Site, job: Job, field: Field, figure: GcpFigure, net_coefficient: float) -> StatedWind:
        """Wind on a field of this job; its zones are those of the roof and do not change the wind."""
        zone = zones(site.standard, job.building, field.outlines, figure.zone_names)
        return cls(net_coefficient, zone, np.zeros(field.modules, dtype=bool), figure.zone_names)

    @property
    def remarks(self) -> tuple[Remark, ...]:
        """The caution that the coefficient is not from the standard."""
        text = (
            f"wind on modules uses the net coefficient {self.net_coefficient:g} of the scenario, "
            "not one of the standard: show the wind-tunnel report"
        )
        return (Remark("own_coefficient", "caution", text),)

    @property
    def kind(self) -> Ints:
        """One kind: the coefficient is the same for all modules (M,)."""
        return np.zeros_like(self.zone)

    def coefficient(self, case: str, module: Ints, area: Floats, record: Recorder = silent) -> Floats:
        """The stated coefficient, negative in uplift; areas [ft²] do not change it."""
        net = -self.net_coefficient if case == UP else self.net_coefficient
        if record is not silent:
            record(CalculationStep("C", "net coefficient of the scenario", Term(net), "", {}, SCENARIO))
        return np.full(len(module), net)

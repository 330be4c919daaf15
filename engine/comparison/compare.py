"""All methods side by side on one job: the object that screens, tables and files are made from."""

from __future__ import annotations

from dataclasses import dataclass, replace

from engine.bill.take_off import penetrations
from engine.common.progress import ProgressListener, no_listener
from engine.comparison.flags import Flag, flags_of
from engine.design.design import Design, Refused, design
from engine.links import Check, check_roof_fastening
from engine.scenario.read import Scenario

CAUTIONS = (
    "Preliminary. A licensed engineer and the local code decide.",
    "Coefficients were transcribed from public sources, not read from the printed standards: check them against the adopted code.",
    "Fall protection and electrical rules apply.",
)


@dataclass(frozen=True, eq=False)
class Column:
    """One method's column of the comparison: plain figures in SI, None where one cannot be had."""

    id: str
    title: str
    status: str
    flags: tuple[Flag, ...]
    spacing: str = ""
    modules: int | None = None
    power: float | None = None
    attachments: int | None = None
    minimum: int | None = None
    runs: int | None = None
    attachment_up: float | None = None
    attachment_down_load: float | None = None
    evenness: float | None = None
    fastening: float | None = None
    bare_roof: float | None = None
    links: tuple[Check, ...] = ()
    weakest: Check | None = None
    member_limit: float | None = None
    roof_limit: float | None = None
    overspan: float | None = None
    penetrations: int | None = None
    mass: float | None = None
    dead_load: float | None = None
    line_load: float | None = None
    hardware_cost: float | None = None
    labour_hours: float | None = None
    total_cost: float | None = None
    design: Design | None = None

    @property
    def per_module(self) -> float | None:
        """Attachments a module."""
        return self.attachments / self.modules if self.attachments and self.modules else None

    @property
    def cost_per_watt(self) -> float | None:
        """Hardware and labour per watt of modules."""
        return self.total_cost / self.power if self.total_cost is not None and self.power else None


@dataclass(frozen=True, eq=False)
class Comparison:
    """One column a method, and what holds for all of them."""

    scenario: Scenario
    columns: tuple[Column, ...]
    site: tuple[tuple[str, float, str], ...]
    cautions: tuple[str, ...] = CAUTIONS

    @property
    def title(self) -> str:
        """The job's title."""
        return self.scenario.job.title

    def column(self, method: str) -> Column | None:
        """A method's column, by its id."""
        return next((column for column in self.columns if column.id == method), None)


def compare(scenario: Scenario, only: tuple[str, ...] = (), tell: ProgressListener = no_listener) -> Comparison:
    """Lay out, follow and check the array with every method, or only with those named by id."""
    answers = [design(scenario.job, method, scenario.standard, tell) for method in scenario.methods_named(only)]
    columns = tuple(column_of(scenario, answer) for answer in answers)
    return Comparison(scenario, _with_common_flags(columns), scenario.standard.summary(scenario.job))


def column_of(scenario: Scenario, answer: Design | Refused) -> Column:
    """One method's column, without what follows from the others."""
    if isinstance(answer, Refused):
        flag = Flag(answer.refusal.code, "warning", answer.refusal.reason)
        return Column(answer.method.id, answer.title, "refused", (flag,))
    job, layout, bill = scenario.job, answer.layout, answer.bill
    figures = _loads_and_links(answer)
    limits = answer.limits
    weight = bill.pressure_on(answer.field)
    return Column(
        id=answer.method.id,
        title=answer.title,
        status=answer.status,
        flags=flags_of(job, answer),
        spacing=answer.method.spacing_label(layout, job),
        modules=answer.field.modules,
        power=bill.power,
        attachments=len(layout.attachments),
        minimum=answer.field.minimum_attachments,
        runs=answer.field.runs,
        member_limit=limits.member if limits else None,
        roof_limit=limits.roof if limits else None,
        overspan=limits.overspan if limits else None,
        penetrations=penetrations(job, layout),
        mass=bill.mass,
        dead_load=weight,
        line_load=weight * job.roof.support_spacing,
        hardware_cost=bill.hardware_cost,
        labour_hours=bill.hours,
        total_cost=bill.total_cost(job.hardware.labour_rate),
        design=answer,
        **figures,  # type: ignore[arg-type]
    )


def _loads_and_links(answer: Design) -> dict[str, object]:
    """What only a design that was followed and checked can say."""
    if answer.candidate is None or answer.bare_roof is None:
        return {}
    candidate = answer.candidate
    up = candidate.demands.attachment_up
    fastening = candidate.check(check_roof_fastening)
    return {
        "attachment_up": float(up.max()),
        "attachment_down_load": float(candidate.demands.attachment_down_load.max()),
        "evenness": float(up.mean() / up.max()) if up.max() > 0 else 1.0,
        "fastening": fastening.utilisation,
        "bare_roof": answer.bare_roof.utilisation,
        "links": candidate.checks,
        "weakest": candidate.weakest,
    }


def _with_common_flags(columns: tuple[Column, ...]) -> tuple[Column, ...]:
    """Say where the methods do not carry the same number of modules."""
    numbers = {column.modules for column in columns if column.modules is not None}
    if len(numbers) <= 1:
        return columns
    flag = Flag(
        "unequal_arrays",
        "caution",
        f"the methods carry different numbers of modules here: {', '.join(map(str, sorted(numbers)))}",
    )
    return tuple(
        replace(column, flags=(*column.flags, flag)) if column.modules is not None else column for column in columns
    )

"""A link of the load path, declared once."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from engine.common.calculation import CalculationStep
from engine.links.check import Check
from engine.links.trail import CalculationTrail
from engine.load_path.demands import Demands
from engine.project.job import Job

Strengths = Callable[[Job, Check], tuple[str, ...]]
"""The paths in the scenario of the strengths that a check rests on; where several loads act together, one for each."""


def never(job: Job) -> bool:
    """No: for every job."""
    return False


def _none(job: Job, check: Check) -> tuple[str, ...]:
    return ()


def _always(job: Job) -> bool:
    return True


@dataclass(frozen=True)
class Link:
    """One link between module and structure: its words, its check and the explanation of that check.

    Tables, JSON, bars, elevation, lesson names and "why?" are made from the list of these records.

    Attributes:
        key: its name in tables and explanations.
        title: its name on screens, in the words that fit the roof.
        help: what it is, in one phrase.
        check: its controlling case in one layout.
        explain: the steps from the loads to the utilisation of a check; no steps where there is nothing to add.
        check_roof_alone: its controlling case without the array, for links of the roof itself.
        limits_member: it limits the span of the rail or rack beam.
        limits_roof: it limits the attachment spacing for the sake of the roof.
        depends_on_layout: another layout of the same modules may relieve it.
        strengths: the strengths that a check of it rests on; none where no single number makes it hold.
        ids: the ids of its checks in JSON where they differ from the key, by method for instance.
        search_rank: order in which a search checks links; those that often fail and cost little come first.
    """

    key: str
    title: Callable[[Job], str]
    help: Callable[[Job], str]
    check: Callable[[Demands], Check]
    explain: Callable[[CalculationTrail, Check], list[CalculationStep]]
    check_roof_alone: Callable[[Demands], Check] | None = None
    limits_member: bool = False
    limits_roof: Callable[[Job], bool] = never
    depends_on_layout: Callable[[Job], bool] = _always
    strengths: Strengths = _none
    ids: tuple[str, ...] = ()
    search_rank: int = 9

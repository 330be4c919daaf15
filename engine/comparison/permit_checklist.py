"""The documents that a plan reviewer asks for first, and those still outstanding."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from engine.comparison.compare import Comparison
from engine.project.array import Setbacks
from engine.project.job import Job
from engine.scenario.listing import sources_listed
from engine.units import System, both


@dataclass(frozen=True)
class ChecklistItem:
    """One document that a plan reviewer asks for; `statement` is the scenario's answer, empty if outstanding."""

    requirement: str
    statement: str = ""


def permit_checklist(comparison: Comparison) -> tuple[ChecklistItem, ...]:
    """Every document, in the order in which reviewers usually ask; it is given where `statement` has words."""
    return tuple(_items(comparison))


def _items(comparison: Comparison) -> Iterator[ChecklistItem]:
    roof, papers = comparison.scenario.job.roof, comparison.scenario.job.papers
    yield ChecklistItem(
        f"Test report for this panel, this {roof.fastening_word} and this {roof.support}", papers.roof_test or ""
    )
    yield ChecklistItem(
        "The module maker's consent to how edges are held", papers.maker_consent or _no_consent_needed(comparison)
    )
    yield ChecklistItem(
        "Access and setbacks for the fire service",
        papers.fire_access or _setbacks(comparison.scenario.job),
    )
    yield ChecklistItem("Roof live load with the array absent", papers.roof_live_load or "")
    yield ChecklistItem(
        f"The adopted code edition (these figures follow {comparison.scenario.standard.title})",
        papers.adopted_code or "",
    )
    yield ChecklistItem(
        "Review of the existing members for the added weight and the changed loads", papers.member_review or ""
    )
    yield ChecklistItem("Base-metal thickness as measured on this roof", papers.base_metal or "")
    sources = sources_listed(comparison.scenario)
    if sources:
        listed = "; ".join(f"{source}: {', '.join(paths)}" for source, paths in sources.items())
        yield ChecklistItem("Sources of inputs, as far as they are stated", listed)


def _no_consent_needed(comparison: Comparison) -> str:
    """The statement where every method holds modules as their maker intends; empty otherwise."""
    laid = [column for column in comparison.columns if column.design]
    in_question = [column for column in laid for flag in column.flags if flag.code == "edge_consent"]
    if in_question or not laid:
        return ""
    if comparison.scenario.job.module.ratings:
        return "not needed: modules are held as the maker's ratings say"
    return "not needed: modules are clamped at their long sides, within the stated clamp zone"


def _setbacks(job: Job) -> str:
    """The setbacks stated, those of every array if they differ."""
    stated = [(array, _in_words(array.setbacks, job.system)) for array in job.arrays]
    different = len({words for _, words in stated}) > 1
    return "; ".join(f"{array.title}: {words}" for array, words in stated if words) if different else stated[0][1]


def _in_words(stated: Setbacks, first: System) -> str:
    found = {"eave": stated.eave, "ridge": stated.ridge, "rakes": stated.rakes}
    return ", ".join(f"{both(size, 'length', first)} from the {edge}" for edge, size in found.items() if size)

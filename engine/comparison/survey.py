"""Survey of the roof before anything is ordered: each line names the input that its value goes into."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from engine.project.job import Job
from engine.scenario.listing import NOT_SET, ListedInput, inputs_of
from engine.scenario.read import Scenario
from engine.scenario.slopes import OWN, SLOPES


@dataclass(frozen=True)
class SurveyLine:
    """One thing to find out on the roof: path of its input, and how to measure or see it."""

    path: str
    method: str


@dataclass(frozen=True)
class SurveySection:
    """Lines about one subject; `applies` says on which jobs they are of use."""

    title: str
    lines: tuple[SurveyLine, ...]
    applies: Callable[[Job], bool] = lambda job: True


@dataclass(frozen=True)
class AnsweredLine:
    """A line of the survey, the path of its input in the file, and that input as the scenario has it now."""

    line: SurveyLine
    path: str
    input: ListedInput


SECTIONS = (
    SurveySection(
        "Roof and building",
        (
            SurveyLine("building.length", "along the eave, from rake to rake"),
            SurveyLine("building.slope", "rise over run, with the longest level at hand, at three places"),
            SurveyLine("building.mean_roof_height", "middle between eave and ridge, above the ground"),
            SurveyLine("building.parapet_height", "above the roof, where there is one"),
            SurveyLine("building.overhang.eave", "from the outer face of the wall to the eave, along the slope"),
            SurveyLine("building.overhang.rake", "from the outer face of the wall to the rake"),
        ),
    ),
    SurveySection(
        "Seams or ribs",
        (
            SurveyLine("roof.kind", "standing seam on clips, or sheet with screws that are seen"),
            SurveyLine("roof.rib_spacing", "over ten spacings, divided by ten, at three places"),
            SurveyLine("roof.first_rib", "from the edge of the left rake to the middle of the first seam or rib"),
            SurveyLine("roof.end_laps", "every lap or expansion step: distance from the eave"),
        ),
    ),
    SurveySection(
        "Purlins or deck, and what holds the panel",
        (
            SurveyLine("roof.support", "seen from inside"),
            SurveyLine(
                "roof.support_spacing", "spacing of clips or screws along one seam: purlin to purlin, from inside"
            ),
            SurveyLine("roof.first_support", "from the eave to the first row of clips or screws"),
            SurveyLine("roof.first_bay", "from the first to the second row, where it differs from the others"),
            SurveyLine("roof.last_support", "from the ridge or high edge to the last row"),
            SurveyLine("roof.edge_strip", "width of the strips at eave, ridge and rakes with closer rows"),
            SurveyLine("roof.edge_support_spacing", "spacing in these strips"),
        ),
    ),
    SurveySection(
        "Panel and clip",
        (
            SurveyLine("roof.panel.material", "steel or aluminium: a magnet tells"),
            SurveyLine(
                "papers.base_metal", "gauge: bare metal without coatings, by micrometer at a cut edge; tool, date"
            ),
            SurveyLine(
                "papers.roof_test", "maker, profile and clip type as marked on panel or drawing; its test report"
            ),
        ),
    ),
    SurveySection(
        "Clip travel and panel anchorage",
        (
            SurveyLine("roof.fastening.travel", "free travel of a clip, from its maker or from one that is in sight"),
            SurveyLine("roof.fixed_point.at", "where panels are fixed: under the ridge cap, at the eave, or midway"),
        ),
        lambda job: job.roof.floats,
    ),
    SurveySection(
        "Rafters or joists under the deck",
        (
            SurveyLine("roof.rafters.spacing", "middle to middle, from inside"),
            SurveyLine("roof.rafters.first", "from the left rake to the middle of the first"),
        ),
        lambda job: job.roof.solid_deck,
    ),
    SurveySection(
        "Structure",
        (
            SurveyLine("roof.member.kind", "section, depth and thickness, from inside"),
            SurveyLine("roof.member.spans", "from frame to frame; note where members lap"),
        ),
    ),
)
"""The survey in the order of a walk: outside, on the roof, inside."""

CONDITION = (
    "rust, white rust or worn coating",
    "seams that are open, dented or re-formed",
    "loose, missing or backed-out screws and clips",
    "panels that are buckled, walked down or oil-canned",
    "earlier penetrations, patches and sealant",
    "ponding, snow guards, gutters and their state",
    "deck or purlins seen from inside: rust, rot, cuts, dents",
)
"""Observations that no input takes: they go to the engineer and the roof maker."""


def survey(scenario: Scenario) -> tuple[tuple[str, tuple[AnsweredLine, ...]], ...]:
    """Title and lines of each section that applies to the job."""
    rows = {row.path: row for row in inputs_of(scenario)}
    return tuple(
        (section.title, tuple(_answered(scenario, rows, line) for line in section.lines))
        for section in SECTIONS
        if section.applies(scenario.job)
    )


def keep_clear_paths(scenario: Scenario) -> list[str]:
    """Paths of the lists of obstacles, one of each array."""
    return [row.path for row in inputs_of(scenario) if row.path.endswith(".keep_clear")]


def _answered(scenario: Scenario, rows: dict[str, ListedInput], line: SurveyLine) -> AnsweredLine:
    """One line; on one slope of several its input is the slope's own."""
    is_own = scenario.slope and line.path.partition(".")[0] in OWN
    return AnsweredLine(
        line, f"{SLOPES}.{scenario.slope}.{line.path}" if is_own else line.path, _input(rows, line.path)
    )


def _input(rows: dict[str, ListedInput], path: str) -> ListedInput:
    """The input as listed; one of a table that the scenario leaves out is not set."""
    return rows.get(path) or ListedInput(path, NOT_SET, None, "", "", stated=False, origin="default")
